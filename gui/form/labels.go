package form

import (
	"fmt"

	"returnbench/gui/lang"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
)

// Label is a form's label for a field.
type Label struct {
	Text string
	// Under is the heading over it, where another field of the same thing has
	// the same label.
	Under string
}

// ListItem is a form's name for the things of a list.
type ListItem struct {
	Word string // "duct run"
	Name string // path of a thing's own name; empty: they have none
}

// Labels are the words of a form by the paths of the Job.
type Labels struct {
	Fields map[string]Label
	Items  map[string]ListItem // by the path of a thing of the list: "options[0]"
}

// listItem sets the name of the things of a list at a path.
func (b *Builder) listItem(path string, word message.ID, name string) {
	b.form.items[path] = ListItem{lang.T(word), name}
}

// ListItem sets the name of the things of a list at a path; a thing has no name
// of its own.
func (b *Builder) ListItem(path string, word message.ID) { b.listItem(path, word, "") }

// Labels are the labels of the fields in the form now.
func (f *Form) Labels() Labels {
	out := Labels{Fields: map[string]Label{}, Items: f.items}
	alike := map[string]int{}
	key := func(b *boundField) string { return f.thingOf(b.paths[0]) + " " + b.label() }
	for _, b := range f.fields {
		alike[key(b)]++
	}
	for _, b := range f.fields {
		l := Label{Text: title(b.label())}
		if b.called != "" {
			l.Text = title(lang.T(b.called))
		}
		if alike[key(b)] > 1 {
			l.Under = b.heading
		}
		for _, path := range b.paths {
			out.Fields[path] = l
		}
		if p, ok := b.field.(*blowerTable); ok {
			p.labels(b.paths[0], out.Fields)
		}
	}
	return out
}

// thingOf is the innermost thing of a list that a path lies in.
func (f *Form) thingOf(path string) string {
	for path != "" {
		if _, ok := f.items[path]; ok {
			return path
		}
		path = fieldpath.Parent(path)
	}
	return ""
}

// label is the field's own.
func (b *boundField) label() string {
	if l, ok := b.field.(interface{ Label() string }); ok {
		return l.Label()
	}
	panic(fmt.Sprintf("form: %T has no label", b.field))
}
