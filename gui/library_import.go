package gui

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"returnbench/gui/lang"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/library"
	"returnbench/sizing/message"
)

func writeItems(path string, kind library.Kind, items []library.Item) error {
	var out bytes.Buffer
	if err := library.WriteTable(&out, kind, items); err != nil {
		return err
	}
	return atomicfile.Write(path, out.Bytes(), 0o644)
}

// askImport lets the person choose a table, an item's file or a job.
func (b *Bench) askImport(v *libraryList) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		switch {
		case err != nil:
			b.showError("The file cannot be opened", err)
		case r != nil:
			_ = r.Close() // it is read by its path
			b.importFile(v, r.URI().Path())
		}
	}, b.window)
	b.inFolder(d)
	d.SetFilter(storage.NewExtensionFileFilter([]string{".csv", ".json"}))
	b.showFiles(d)
}

// errNoKind says why a table cannot be read yet.
var errNoKind = message.Errorf("a table holds one kind; choose it from the list over the items, and import again")

func (b *Bench) importFile(v *libraryList, path string) {
	if strings.EqualFold(filepath.Ext(path), ".csv") && (v.kind == "" || !v.kind.IsTable()) {
		b.showError("Choose a kind first", errNoKind)
		return
	}
	var items []library.Item
	b.session.Tasks().Go(func(context.Context) (err error) {
		items, err = readItems(path, v.kind)
		return err
	}, func(err error) {
		if err != nil {
			b.showError("{file} cannot be imported; the library is as it was", err, "file", filepath.Base(path))
			return
		}
		b.mergeItems(v, items, false)
	})
}

func readItems(path string, kind library.Kind) ([]library.Item, error) {
	if !strings.EqualFold(filepath.Ext(path), ".csv") {
		item, err := library.ReadFile(path)
		return []library.Item{item}, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return library.ReadTable(f, kind)
}

// mergeItems puts items into the library. Those that are there with other values
// are replaced only after a question.
func (b *Bench) mergeItems(v *libraryList, items []library.Item, replace bool) {
	var m library.Merged
	b.session.Tasks().Go(func(context.Context) (err error) {
		m, err = library.Merge(b.settings.Library, items, replace)
		return err
	}, func(err error) {
		v.reread()
		if err != nil {
			b.showError("The import stopped", err)
			return
		}
		text := mergedWords(m)
		if len(m.Differ) == 0 {
			b.ask("Imported", text, answer{"Close", nil})
			return
		}
		b.ask("Imported", text+"\n\n"+lang.T("In the library with other values: {items}. Replace keeps the version before beside each.", "items", strings.Join(m.Differ, ", ")),
			answer{"Replace", func() { b.mergeItems(v, items, true) }},
			answer{"Keep the library's", nil})
	})
}

func mergedWords(m library.Merged) string {
	return lang.T("{added} added, {replaced} replaced, {unchanged} unchanged.", "added", len(m.Added), "replaced", len(m.Replaced), "unchanged", len(m.Unchanged))
}
