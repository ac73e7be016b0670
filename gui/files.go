package gui

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
)

// jobSuffix is how a job file's name ends.
const jobSuffix = ".job.json"

// Open reads a job and puts it in place. A path that names no file yet begins
// a new job that will be saved there.
func (b *Bench) Open(path string) error {
	if isLesson(path) {
		return b.openLesson(path)
	}
	data, err := jobfile.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		b.put(b.newJob(), path)
		return nil
	}
	if err != nil {
		return err
	}
	job, err := jobfile.Decode(data)
	if err != nil {
		return err
	}
	b.put(job, path)
	b.session.NoteDisk(jobfile.Checksum(data))
	return b.remember(path)
}

// remember puts a file first in the list of recent files.
func (b *Bench) remember(path string) error {
	path = absolute(path)
	b.recent = append([]string{path}, slices.DeleteFunc(slices.Clone(b.recent), func(p string) bool { return p == path })...)
	b.recent = b.recent[:min(len(b.recent), longestList)]
	b.refreshMenus()
	return b.userFolder.write(recentFile, b.recent)
}

func absolute(path string) string {
	if a, err := filepath.Abs(path); err == nil {
		return a
	}
	return path
}

// put replaces the Job and all that was built for the one before.
func (b *Bench) put(job sizing.Job, path string) {
	b.window.Canvas().Unfocus()
	b.dropScreens()
	b.cautionsRead = false
	b.view = sizing.View{}
	b.decision.chosen = ""
	b.useUnitsOf(&job)
	b.session.Load(job, path)
	b.goTo(firstPlace)
	b.focusFirst()
}

// New begins an empty job.
func (b *Bench) New() {
	b.ifSafe(func() { b.put(b.newJob(), "") })
}

// NewFrom begins a job from one of the examples; it belongs to no file.
func (b *Bench) NewFrom(example string) {
	b.ifSafe(func() {
		job, err := openExample(example)
		if err != nil {
			b.showError("The example cannot be opened", err)
			return
		}
		b.put(job, "")
	})
}

func openExample(name string) (sizing.Job, error) {
	text, err := assets.Open(name)
	if err != nil {
		return sizing.Job{}, err
	}
	return jobfile.Decode(text)
}

// openOrShowError opens a file, or shows why it cannot. A file that is open in
// another window is shown there.
func (b *Bench) openOrShowError(path string) {
	if w := b.showing(path); w != nil && w != b {
		w.window.RequestFocus()
		return
	}
	if err := b.Open(path); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			b.recent = slices.DeleteFunc(slices.Clone(b.recent), func(p string) bool { return p == path })
		}
		b.showError("{file} cannot be opened", err, "file", filepath.Base(path))
	}
	b.menu.Refresh()
}

// Save writes the job to its file, or asks for one.
func (b *Bench) Save() { b.saveThen(func() {}) }

func (b *Bench) saveThen(then func()) {
	b.ifRead(func() {
		if b.session.Path() == "" {
			b.askSave(then)
			return
		}
		b.saveTo(b.session.Path(), then)
	})
}

// ifRead continues where every typed text can be read, or where the person
// accepts the previous values.
func (b *Bench) ifRead(then func()) {
	unread := b.session.Unread()
	if len(unread) == 0 {
		then()
		return
	}
	count := len(unread)
	b.askOf(lang.T("{count} fields cannot be read", "count", count),
		lang.T("The file will hold the values from before: {fields}.", "count", count, "fields", unreadNames(unread)),
		answer{"Save", then},
		answer{"Go back to it", func() { b.showPath(unread[0].Path) }})
}

func unreadNames(unread []session.Unread) string {
	names := make([]string, len(unread))
	for i, u := range unread {
		names[i] = fmt.Sprintf("%s (%q)", u.Name, clipped(u.Text))
	}
	return strings.Join(names, ", ")
}

// clipped is the beginning of a text.
func clipped(text string) string {
	const most = 20
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// saveTo writes the job; where its file was changed by another program it asks
// first.
func (b *Bench) saveTo(path string, then func()) {
	own := b.session.Path()
	if own == "" || !atomicfile.Same(own, path) || !changedSince(path, b.session.OnDisk()) {
		b.write(path, then)
		return
	}
	b.ask("The file was changed by another program",
		b.say("{path} is not as this window last read or wrote it. Save anyway replaces it; what it holds now is kept beside it, in {backup}.", "path", path, "backup", filepath.Base(atomicfile.BackupPath(path))),
		answer{"Save anyway", func() { b.write(path, then) }},
		answer{"Save as", func() { b.askSave(then) }},
		answer{"Reload", func() { b.reload(path) }},
		answer{"Cancel", nil})
}

// changedSince reports whether the content of a file has changed; a file that
// no longer exists counts as unchanged, since nothing can be lost.
func changedSince(path, mark string) bool {
	data, err := jobfile.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	return err != nil || jobfile.Checksum(data) != mark
}

// reload takes the job from its file. Undo brings back what the window had.
func (b *Bench) reload(path string) {
	data, err := jobfile.ReadFile(path)
	if err != nil {
		b.showError("{file} cannot be read", err, "file", filepath.Base(path))
		return
	}
	job, err := jobfile.Decode(data)
	if err != nil {
		b.showError("{file} cannot be read", err, "file", filepath.Base(path))
		return
	}
	b.session.Apply(lang.T("Reload"), func(j *sizing.Job) { *j = job })
	b.session.MarkSaved(path)
	b.session.NoteDisk(jobfile.Checksum(data))
}

func (b *Bench) write(path string, then func()) {
	job := b.session.Job()
	data, err := jobfile.Encode(job)
	if err == nil {
		err = jobfile.Save(path, job)
	}
	if err != nil {
		b.showError("{file} cannot be saved", notSaved(err), "file", filepath.Base(path))
		return
	}
	own := b.session.Path()
	b.session.MarkSaved(path)
	b.session.NoteDisk(jobfile.Checksum(data))
	if from, to := filepath.Dir(absolute(own)), filepath.Dir(absolute(path)); own != "" && from != to {
		if err := copyPhotos(&job, from, to); err != nil {
			b.showError("The job is saved, but not all of its photos were copied to the new folder", err)
		}
	}
	if err := b.remember(path); err != nil {
		b.showError("The list of recent files could not be kept", err)
	}
	then()
}

// ifSafe continues once no unsaved work would be lost.
func (b *Bench) ifSafe(then func()) {
	unread := b.session.Unread()
	if !b.session.Dirty() {
		if len(unread) == 0 {
			then()
			return
		}
		b.ask("What was typed cannot be read", b.say("It would be lost: {fields}.", "fields", unreadNames(unread)),
			answer{"Don't keep it", then},
			answer{"Cancel", func() { b.showPath(unread[0].Path) }})
		return
	}
	text := lang.T("The new job has changes that are not saved.")
	if p := b.session.Path(); p != "" {
		text = lang.T("{file} has changes that are not saved.", "file", filepath.Base(p))
	}
	b.ask("Unsaved work", text,
		answer{"Save", func() { b.saveThen(then) }},
		answer{"Don't save", then},
		answer{"Cancel", nil})
}

// ifAllSafe goes on once the window may close without a loss.
func (b *Bench) ifAllSafe(then func()) { b.ifSafe(func() { b.ifLessonsSafe(then) }) }

// ifLessonsSafe goes on once no demonstration that was made would be lost.
func (b *Bench) ifLessonsSafe(then func()) {
	if b.class == nil || !b.class.Dirty() {
		then()
		return
	}
	b.ask("Unsaved work", lang.T("A demonstration has changes that are not saved."),
		answer{"Don't save", then},
		answer{"Cancel", func() { b.goTo(lessonPlace) }})
}

// dropped opens a file that was dropped on the window.
func (b *Bench) dropped(_ fyne.Position, files []fyne.URI) {
	if b.busy() || len(files) == 0 {
		return
	}
	if len(files) > 1 {
		b.showError("One file at a time", message.Errorf("{count} files were dropped; drop the one to open", "count", len(files)))
		return
	}
	if isLesson(files[0].Path()) {
		b.openOrShowError(files[0].Path()) // the job stays as it is
		return
	}
	b.ifSafe(func() { b.openOrShowError(files[0].Path()) })
}
