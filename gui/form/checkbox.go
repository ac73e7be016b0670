package form

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// checkField is a field for yes or no.
type checkField struct {
	check    *widgets.Check
	below    *widget.Label
	box      *fyne.Container
	read     func() bool
	updating bool
}

// Check adds a checkbox.
func (b *Builder) Check(path string, label message.ID, at func(*sizing.Job) *bool) {
	name := lang.T(label)
	b.add(name, newCheckField(label,
		func() bool { return get(b, at) },
		func(v bool) { set(b, path, name, at, v) }), nil, path)
}

// CheckInList adds a checkbox for whether a value is in a list.
func CheckInList[T comparable](b *Builder, path string, label message.ID, at func(*sizing.Job) *[]T, value T) {
	name := lang.T(label)
	b.add(name, newCheckField(label,
		func() bool { return slices.Contains(get(b, at), value) },
		func(in bool) {
			b.model().Apply(name, func(j *sizing.Job) {
				list := at(j)
				if list == nil {
					return
				}
				if i := slices.Index(*list, value); i >= 0 {
					*list = append((*list)[:i:i], (*list)[i+1:]...)
				}
				if len(*list) == 0 {
					*list = nil
				}
				if in {
					*list = append(*list, value)
				}
			})
		}), nil, path)
}

func newCheckField(label message.ID, read func() bool, write func(bool)) *checkField {
	t := &checkField{read: read}
	t.check = widgets.NewCheck(label, func(v bool) {
		if !t.updating {
			write(v)
		}
	})
	t.below = widget.NewLabel("")
	t.below.Wrapping = fyne.TextWrapWord
	t.below.SizeName = theme.SizeNameCaptionText
	t.below.Importance = widget.DangerImportance
	t.below.Hide()
	t.box = container.NewVBox(t.check, t.below)
	return t
}

func (t *checkField) Label() string { return t.check.Text }

// Object is what a form holds.
func (t *checkField) Object() fyne.CanvasObject { return t.box }

// Focusable is the box to tick.
func (t *checkField) Focusable() fyne.Focusable { return t.check }

func (t *checkField) Refresh() {
	if v := t.read(); v != t.check.Checked {
		t.updating = true
		t.check.SetChecked(v)
		t.updating = false
	}
}

// SetFault shows a fault that the engine found.
func (t *checkField) SetFault(text string) {
	if t.below.Text == text {
		return
	}
	t.below.SetText(text)
	if text == "" {
		t.below.Hide()
	} else {
		t.below.Show()
	}
}

// SetAssumed changes nothing: an empty box is an answer.
func (t *checkField) SetAssumed(string) {}
