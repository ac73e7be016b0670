package gui

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"

	"returnbench/sizing/jobfile"
)

// missingFile is the mark of a file that does not exist.
const missingFile = ""

// lookAtFiles looks, whenever the program comes to the front, for files that
// another program changed meanwhile: before hours are spent on a job that is no
// longer the one on disk.
func (p *program) lookAtFiles() {
	p.app.Lifecycle().SetOnEnteredForeground(func() {
		for _, w := range p.windows {
			w.lookAtFile()
		}
	})
}

// lookAtFile compares the file with what this window last read or wrote. A drive
// may be slow to answer, so that the window does not wait for it.
func (b *Bench) lookAtFile() {
	path, mark, now := b.session.Path(), b.session.OnDisk(), missingFile
	if path == "" {
		return
	}
	b.session.Tasks().Go(func(context.Context) error {
		data, err := jobfile.ReadFile(path)
		switch {
		case err == nil:
			now = jobfile.Checksum(data)
		case errors.Is(err, fs.ErrNotExist):
			return nil
		}
		return err
	}, func(err error) {
		if err != nil || b.busy() || b.session.Path() != path || b.session.OnDisk() != mark {
			return // reported by Save, or checked again when the program next comes to the front
		}
		b.reportChange(mark, now)
	})
}

// reportChange reports each change of the file once.
func (b *Bench) reportChange(mark, now string) {
	path := b.session.Path()
	switch {
	case now == mark:
		b.reportedChange = nil
	case b.reportedChange != nil && *b.reportedChange == now:
	case now == missingFile:
		b.session.MarkUnsaved()
		b.ask("The file is gone", b.say("{path} was moved or deleted by another program. The job is still in this window.", "path", path),
			answer{"Save", b.Save},
			answer{"Save as", func() { b.askSave(func() {}) }},
			answer{"Go on editing", nil})
	default:
		b.reportedChange = &now
		b.askReload(path)
	}
}

// askReload offers what the file holds now. The default answer keeps the
// unsaved work.
func (b *Bench) askReload(path string) {
	reload := answer{"Reload", func() { b.reload(path) }}
	saveAs := answer{"Save as", func() { b.askSave(func() {}) }}
	answers := []answer{reload, saveAs}
	if b.session.Dirty() {
		answers = []answer{saveAs, reload}
	}
	b.ask("The file was changed by another program",
		b.say("{file} is not as this window last read or wrote it. Reload takes what it holds now, and Undo brings back what this window has. Save asks again before it replaces the file.", "file", filepath.Base(path)),
		append(answers, answer{"Go on editing", nil})...)
}
