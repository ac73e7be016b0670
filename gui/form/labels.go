package form

import (
	"fmt"
	"regexp"
	"strings"

	"returnbench/sizing/fieldpath"
)

// Label is how a form calls a field.
type Label struct {
	Text string
	// Under is the heading over it, where another field of the same thing has
	// the same label.
	Under string
}

// ListItem is how a form calls the things of a list.
type ListItem struct {
	Word string // "duct run"
	Name string // path of a thing's own name; empty: they have none
}

// Labels are the words of a form by the paths of the Job.
type Labels struct {
	Fields map[string]Label
	Items  map[string]ListItem // by the path of a thing of the list: "options[0]"
}

// listItem tells how the thing of a list at a path is called.
func (b *Builder) listItem(path, word, name string) { b.form.items[path] = ListItem{word, name} }

// ListItem tells how the thing of a list at a path is called; it has no name of
// its own.
func (b *Builder) ListItem(path, word string) { b.listItem(path, word, "") }

// ordinal is the number of a row that its first label begins with.
var ordinal = regexp.MustCompile(`^\d+: `)

// Labels tells how the form calls what it edits now.
func (f *Form) Labels() Labels {
	out := Labels{Fields: map[string]Label{}, Items: f.items}
	alike := map[string]int{}
	key := func(b *boundField) string { return f.thingOf(b.paths[0]) + " " + b.label() }
	for _, b := range f.fields {
		alike[key(b)]++
	}
	for _, b := range f.fields {
		l := Label{Text: ordinal.ReplaceAllString(b.label(), "")}
		l.Text = title(strings.TrimPrefix(l.Text, "or "))
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
