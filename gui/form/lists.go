package form

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// item is one thing of a list, nil where list or place is gone.
func item[T any](list *[]T, i int) *T {
	if list == nil || i < 0 || i >= len(*list) {
		return nil
	}
	return &(*list)[i]
}

// At reaches the i-th thing of a list of the Job.
func At[T any](list func(*sizing.Job) *[]T, i int) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T { return item(list(j), i) }
}

// Of reaches a field of what at finds.
func Of[O, T any](at func(*sizing.Job) *O, field func(*O) *T) func(*sizing.Job) *T {
	return of(at, field)
}

func appendTo[T any](b *Builder, name string, list func(*sizing.Job) *[]T, v T) {
	b.model().Apply(name, func(j *sizing.Job) {
		if l := list(j); l != nil {
			*l = append(*l, v)
		}
	})
}

func removeAt[T any](b *Builder, name message.ID, list func(*sizing.Job) *[]T, i int) {
	b.model().Apply(lang.T(name), func(j *sizing.Job) {
		l := list(j)
		if l == nil || i < 0 || i >= len(*l) {
			return
		}
		*l = slices.Delete(*l, i, i+1)
		if len(*l) == 0 {
			*l = nil // as a job that never had one
		}
	})
}

func removeLast[T any](b *Builder, name message.ID, list func(*sizing.Job) *[]T) {
	if l := list(b.model().Peek()); l != nil {
		removeAt(b, name, list, len(*l)-1)
	}
}

// Append adds a thing to a list of the Job, as one step; the keyboard goes to its
// field at first, the path behind the list's own with a %d for its number.
func Append[T any](b *Builder, name message.ID, list func(*sizing.Job) *[]T, v T, first string) {
	appendTo(b, lang.T(name), list, v)
	if l := list(b.model().Peek()); l != nil {
		b.form.Show(fmt.Sprintf(first, len(*l)-1))
	}
}

// Remove takes a thing out of a list of the Job, as one step.
func Remove[T any](b *Builder, name message.ID, list func(*sizing.Job) *[]T, i int) {
	removeAt(b, name, list, i)
}

// ListHeading starts the group of the i-th thing of a list, with its removal; the
// heading has an argument "number".
func (b *Builder) ListHeading(heading message.ID, i int, remove func()) {
	text := lang.T(heading, "number", i+1)
	b.heading = text
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	b.addObject(container.NewBorder(nil, nil, l, widgets.NewButton("Remove", remove)))
}
