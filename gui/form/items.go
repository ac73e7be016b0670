package form

import (
	"cmp"
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
)

// List is a list of like things of the Job of which a form edits one at a
// time: which one, and all that can be done to the list.
type List[T any] struct {
	What message.ID             // "return"
	Call message.ID             // beginning of a new thing's name; empty: What
	Of   func(*sizing.Job) *[]T // the list, nil where its place is gone
	Name func(*T) *string       // of one thing
	New  func(name string) T    // a thing to begin with
	// Unnamed is what the i-th thing is called that has no name; nil: it is said to have none.
	Unnamed func(i int) string
	// Follow changes the references to a thing's name, to the new name or to
	// none; nil: there are none.
	Follow func(j *sizing.Job, before, after string)
	// Picked is reported when another thing is in view; nil: the form alone shows it.
	Picked func()

	at int
}

// Select finds the number of a thing in a path such as "returns[2].name" and
// puts the thing in view; format is that of the list's paths.
func (l *List[T]) Select(path, format string) bool {
	var i int
	_, err := fmt.Sscanf(path, format, &i)
	if err == nil {
		l.at = i
	}
	return err == nil
}

// At is the thing that is edited.
func (l *List[T]) At() int { return l.at }

// Edit puts a thing in view; the form is to be refreshed after it.
func (l *List[T]) Edit(i int) { l.at = i }

// Shape keeps the thing edited inside the list, and names it for a form's
// shape.
func (l *List[T]) Shape(j *sizing.Job) string {
	n := l.len(j)
	l.at = max(0, min(l.at, n-1))
	return fmt.Sprint(l.at, " of ", n, " ")
}

// Now is the thing edited, nil where the list is empty.
func (l *List[T]) Now(j *sizing.Job) *T { return item(l.Of(j), l.at) }

// Field reaches the thing that is edited at the time of the call.
func (l *List[T]) Field() func(*sizing.Job) *T { return At(l.Of, l.at) }

// Names are the names of all things.
func (l *List[T]) Names(j *sizing.Job) []string {
	list := l.Of(j)
	if list == nil {
		return nil
	}
	out := make([]string, len(*list))
	for i := range *list {
		out[i] = *l.Name(&(*list)[i])
	}
	return out
}

func (l *List[T]) len(j *sizing.Job) int {
	if list := l.Of(j); list != nil {
		return len(*list)
	}
	return 0
}

// UniqueName is a name that no thing has yet: the one given, else numbered.
func (l *List[T]) UniqueName(j *sizing.Job, name string) string {
	names := l.Names(j)
	if !slices.Contains(names, name) {
		return name
	}
	for i := 2; ; i++ {
		if n := fmt.Sprintf("%s %d", name, i); !slices.Contains(names, n) {
			return n
		}
	}
}

// next is a numbered name for a new thing.
func (l *List[T]) next(j *sizing.Job) string {
	call := lang.T(cmp.Or(l.Call, l.What))
	names := l.Names(j)
	for i := len(names) + 1; ; i++ {
		if n := fmt.Sprintf("%s %d", call, i); !slices.Contains(names, n) {
			return n
		}
	}
}

// Items adds the choice of one thing of a list, its name, and what can be done
// to the list; it reports whether there is a thing to edit.
func Items[T any](b *Builder, l *List[T]) bool {
	m := b.model()
	n := l.len(m.Peek())
	if n > 0 {
		b.addObject(container.NewBorder(nil, nil, widget.NewLabel(lang.T("{thing} ({number})", "thing", title(lang.T(l.What)), "number", n)), nil, pick(b, l)))
	}
	b.Buttons(
		Button{Label: "Add {thing}", Args: []any{"thing", l.What}, Action: func() { addTo(b, lang.T("Add {thing}", "thing", l.What), l, l.New(l.next(m.Peek()))) }},
		Button{Label: "Duplicate", Action: func() { duplicate(b, l) }, Off: n == 0},
		Button{Label: "Remove", Action: func() { remove(b, l) }, Off: n == 0})
	if n > 1 {
		b.Buttons(
			Button{Label: "Move up", Action: func() { move(b, l, "Move {thing} up", -1) }, Off: l.at == 0},
			Button{Label: "Move down", Action: func() { move(b, l, "Move {thing} down", +1) }, Off: l.at == n-1})
	}
	b.form.firstFields[l] = len(b.form.fields)
	return n > 0
}

// NameField adds the name of the thing edited; references to it follow.
func NameField[T any](b *Builder, l *List[T], path string, label message.ID) {
	b.listItem(fieldpath.Parent(path), l.What, path)
	at := l.Field()
	name := func(j *sizing.Job) *string {
		if x := at(j); x != nil {
			return l.Name(x)
		}
		return nil
	}
	if l.Follow == nil {
		b.Text(path, label, name, "")
		return
	}
	b.Rename(path, label, name, l.Follow)
}

// Add appends a thing to a list and puts it in view, as one step.
func Add[T any](b *Builder, step message.ID, l *List[T], v T) { addTo(b, lang.T(step), l, v) }

func addTo[T any](b *Builder, step string, l *List[T], v T) {
	l.at = l.len(b.model().Peek())
	appendTo(b, step, l.Of, v)
	b.form.showNext(l)
}

// has reports whether the list has an i-th thing: a button may keep the keyboard
// focus after its list has changed.
func (l *List[T]) has(j *sizing.Job, i int) bool { return i >= 0 && i < l.len(j) }

func duplicate[T any](b *Builder, l *List[T]) {
	from := l.at
	if !l.has(b.model().Peek(), from) {
		return
	}
	l.at = from + 1
	b.model().Apply(lang.T("Duplicate {thing}", "thing", l.What), func(j *sizing.Job) {
		clone := j.Clone()
		c := (*l.Of(&clone))[from]
		*l.Name(&c) = l.UniqueName(j, *l.Name(&c))
		list := l.Of(j)
		*list = slices.Insert(*list, from+1, c)
	})
	b.form.showNext(l)
}

func remove[T any](b *Builder, l *List[T]) {
	at := l.at
	if !l.has(b.model().Peek(), at) {
		return
	}
	b.model().Apply(lang.T("Remove {thing}", "thing", l.What), func(j *sizing.Job) {
		list := l.Of(j)
		if name := *l.Name(&(*list)[at]); l.Follow != nil && name != "" {
			l.Follow(j, name, "")
		}
		*list = slices.Delete(*list, at, at+1)
		if len(*list) == 0 {
			*list = nil // as a job that never had one
		}
	})
}

func move[T any](b *Builder, l *List[T], step message.ID, by int) {
	from, to := l.at, l.at+by
	if j := b.model().Peek(); !l.has(j, from) || !l.has(j, to) {
		return
	}
	l.at = to
	b.model().Apply(lang.T(step, "thing", l.What), func(j *sizing.Job) {
		list := *l.Of(j)
		list[from], list[to] = list[to], list[from]
	})
}

// pick is the list of names, kept up to date while they are typed.
func pick[T any](b *Builder, l *List[T]) *widgets.Select {
	names := func() []string { return l.labels(l.Names(b.model().Peek())) }
	pick := widgets.NewSelect(names(), nil)
	pick.SetSelectedIndex(l.at)
	pick.OnChanged = func(string) {
		l.at = pick.SelectedIndex()
		if l.Picked != nil {
			l.Picked()
			return
		}
		b.form.Refresh()
	}
	b.form.lists = append(b.form.lists, func() {
		now := names()
		if slices.Equal(now, pick.Options) || l.at >= len(now) {
			return
		}
		pick.Options = now
		pick.Selected = now[l.at]
		pick.Refresh()
	})
	return pick
}

// labels number the names, so that no two are alike.
func (l *List[T]) labels(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		switch {
		case n == "" && l.Unnamed != nil:
			n = l.Unnamed(i)
		case n == "":
			n = lang.T("(no name)")
		}
		out[i] = fmt.Sprintf("%d  %s", i+1, n)
	}
	return out
}

func title(s string) string {
	if s == "" {
		return ""
	}
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}
