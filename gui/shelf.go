package gui

import (
	"path/filepath"
	"strings"

	"returnbench/assets"
	"returnbench/gui/start"
	"returnbench/sizing/library"
	"returnbench/sizing/units"
)

// shelf tells what an empty bench can open.
func (b *Bench) shelf() func() start.Shelf {
	return func() (out start.Shelf) {
		if !b.settings.Tried {
			out.Try, out.PutAway = b.things(), b.tried
		}
		for _, path := range b.recent {
			out.Recent = append(out.Recent, start.Entry{
				Name: strings.TrimSuffix(filepath.Base(path), jobSuffix), Note: filepath.Dir(path),
				Open: func() { b.ifSafe(func() { b.openOrTell(path) }) },
			})
		}
		if b.library != nil {
			for _, e := range b.library.Of(library.Templates) {
				out.Templates = append(out.Templates, start.Entry{Name: e.Name(), Note: "from the library: " + e.Note(units.IP), Open: func() { b.newFromItem(e.Item) }})
			}
		}
		for _, e := range assets.Examples() {
			out.Examples = append(out.Examples, start.Entry{Name: e.Title, Note: e.Question, Open: func() { b.NewFrom(e.Name) }})
			out.Templates = append(out.Templates, start.Entry{Name: e.Title, Note: "invented equipment and ducts: replace them by what is there", Open: func() { b.NewFromTemplate(e.Name) }})
		}
		return out
	}
}

// NewFromTemplate begins a job like one of the examples: its equipment, ducts and
// options, and nothing that was named or read in that house.
func (b *Bench) NewFromTemplate(example string) {
	b.ifSafe(func() {
		job, err := openExample(example)
		if err != nil {
			b.tell("The template cannot be opened", err)
			return
		}
		b.put(library.Template(&job), "")
	})
}
