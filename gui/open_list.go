package gui

import (
	"path/filepath"
	"strings"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/start"
	"returnbench/sizing/library"
)

// openList lists what an empty bench can open.
func (b *Bench) openList() func() start.OpenList {
	return func() (out start.OpenList) {
		if !b.settings.Tried {
			out.Try, out.HideTry = b.thingsToTry(), b.hideThingsToTry
		}
		for _, path := range b.recent {
			out.Recent = append(out.Recent, start.Entry{
				Name: strings.TrimSuffix(filepath.Base(path), jobSuffix), Note: filepath.Dir(path),
				Open: func() { b.ifSafe(func() { b.openOrShowError(path) }) },
			})
		}
		if b.library != nil {
			for _, e := range b.library.Of(library.Templates) {
				out.Templates = append(out.Templates, start.Entry{Name: e.Name(), Note: lang.T("from the library: {note}", "note", e.Note(lang.Locale())), Open: func() { b.newFromItem(e.Item) }})
			}
		}
		for _, e := range assets.Examples() {
			out.Examples = append(out.Examples, start.Entry{Name: lang.T(e.Title), Note: lang.T(e.Question), Open: func() { b.NewFrom(e.Name) }})
			out.Templates = append(out.Templates, start.Entry{Name: lang.T(e.Title), Note: lang.T("invented equipment and ducts: replace them by what is there"), Open: func() { b.NewFromTemplate(e.Name) }})
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
			b.showError("The template cannot be opened", err)
			return
		}
		b.put(library.Template(&job), "")
	})
}
