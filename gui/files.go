package gui

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
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

// askOpen lets the person choose a file.
func (b *Bench) askOpen() {
	b.ifSafe(func() {
		d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
			switch {
			case err != nil:
				b.showError("The file cannot be opened", err)
			case r != nil:
				_ = r.Close() // the job file is read by its path
				b.openOrShowError(r.URI().Path())
			}
		}, b.window)
		b.inFolder(d)
		d.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
		b.showFiles(d)
	})
}

// inFolder starts a file dialog where the job is.
func (b *Bench) inFolder(d *dialog.FileDialog) {
	if folder, err := storage.ListerForURI(storage.NewFileURI(b.folder())); err == nil {
		d.SetLocation(folder)
	}
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

// askSave lets the person name the file of the job.
func (b *Bench) askSave(then func()) {
	b.askPath(pathQuestion{title: "Save the job as", name: b.fileName(), suffix: jobSuffix, own: b.session.Path()},
		func(path string) { b.saveTo(path, then) })
}

// pathQuestion asks where a file is to be written.
type pathQuestion struct {
	title  message.ID
	name   string              // proposed
	suffix string              // of a name that has none
	own    string              // may be replaced without a question
	more   []fyne.CanvasObject // asked along with it
}

// askPath lets the person name a file. The toolkit's own dialog would empty an
// old file before the new one is written whole.
func (b *Bench) askPath(q pathQuestion, then func(path string)) {
	entry := newPathEntry(b.folder(), q.name)
	entry.onEscape = b.answerLast
	browse := newKeyButton("Choose a folder", func() { b.chooseFolder(entry) })
	save := func() { b.checkPath(q, entry.Text, then) }
	entry.OnSubmitted = func(string) {
		b.answerLast()
		save()
	}
	content := container.NewVBox(widget.NewLabel(lang.T("File")), entry, container.NewHBox(browse))
	content.Objects = append(content.Objects, q.more...)
	b.show(lang.T(q.title), content, fyne.NewSize(640, 190), answer{"Save", save}, answer{"Cancel", nil})
	b.window.Canvas().Focus(entry)
}

// checkPath goes on with a typed path, after a question where a file is there.
func (b *Bench) checkPath(q pathQuestion, path string, then func(path string)) {
	path = strings.TrimSpace(path)
	if name := filepath.Base(path); path == "" || name == "." || strings.HasSuffix(path, string(filepath.Separator)) {
		b.showError("The file cannot be written there", message.Errorf("the file has no name"))
		return
	}
	path = absolute(withSuffix(path, q.suffix))
	if w := b.showing(path); w != nil && w != b {
		b.showError("The file cannot be written there", message.Errorf("another window has {path} open; close it first, or choose another name", "path", path))
		return
	}
	if _, err := os.Stat(path); err == nil && (q.own == "" || !atomicfile.Same(path, q.own)) {
		b.ask("The file is there already", b.say("{path} would be replaced.", "path", path),
			answer{"Replace", func() { then(path) }},
			answer{"Choose another name", func() { b.askPath(q, then) }})
		return
	}
	then(path)
}

// withSuffix gives a path its suffix, and a job or demonstration exactly one.
func withSuffix(path, suffix string) string {
	folder, name := filepath.Split(path)
	if filepath.Ext(suffix) != ".json" {
		if filepath.Ext(name) == "" {
			name += suffix
		}
		return folder + name
	}
	plain := strings.TrimSuffix(strings.ReplaceAll(name, suffix, ""), ".json")
	return folder + plain + suffix
}

func (b *Bench) chooseFolder(entry *pathEntry) {
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		switch {
		case err != nil:
			b.showError("The folder cannot be opened", err)
		case u != nil:
			entry.SetText(filepath.Join(u.Path(), filepath.Base(entry.Text)))
		}
	}, b.window)
	b.inFolder(d)
	b.showFiles(d)
}

// chooseFolderOnly puts the folder chosen into an entry that holds a folder.
func (b *Bench) chooseFolderOnly(entry *pathEntry) {
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		switch {
		case err != nil:
			b.showError("The folder cannot be opened", err)
		case u != nil:
			entry.SetText(u.Path())
		}
	}, b.window)
	b.inFolder(d)
	b.showFiles(d)
}

// showFiles shows a file dialog; Escape closes it while none of its parts has
// the keyboard, as when it opens.
func (b *Bench) showFiles(d *dialog.FileDialog) {
	b.files = d
	d.SetOnClosed(func() { b.files = nil })
	d.Resize(fyne.NewSize(860, 560))
	d.Show()
	b.window.Canvas().Unfocus()
}

// folder is where a new file is proposed.
func (b *Bench) folder() string {
	if p := b.session.Path(); p != "" {
		return filepath.Dir(absolute(p))
	}
	if len(b.recent) > 0 {
		return filepath.Dir(b.recent[0])
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// pathEntry is an entry for a path. The name without its suffix is selected when
// it opens, so that typing replaces it and nothing else.
type pathEntry struct {
	widget.Entry
	onEscape    func()
	from, to    int // the name in the path
	hasSelected bool
	press       widgets.LongPress
}

// MouseDown may begin a long press.
func (e *pathEntry) MouseDown(m *desktop.MouseEvent) {
	e.Entry.MouseDown(m)
	e.press.OnEntry(e, m)
}

// MouseUp ends it.
func (e *pathEntry) MouseUp(m *desktop.MouseEvent) {
	e.press.Up()
	e.Entry.MouseUp(m)
}

var _ fyne.Focusable = (*pathEntry)(nil)

// FocusGained selects the name, the first time.
func (e *pathEntry) FocusGained() {
	e.Entry.FocusGained()
	if e.hasSelected {
		return
	}
	e.hasSelected = true
	shift := &fyne.KeyEvent{Name: desktop.KeyShiftLeft}
	e.CursorColumn = e.from
	e.KeyDown(shift)
	for range e.to - e.from {
		e.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	e.KeyUp(shift)
}

func newPathEntry(folder, name string) *pathEntry {
	e := &pathEntry{}
	e.ExtendBaseWidget(e)
	e.SetText(filepath.Join(folder, name))
	e.from = len([]rune(e.Text)) - len([]rune(name))
	plain, _, _ := strings.Cut(name, ".job.json")
	if plain == name {
		plain, _, _ = strings.Cut(name, ".lesson.json")
	}
	if plain == name {
		plain = strings.TrimSuffix(name, filepath.Ext(name))
	}
	e.to = e.from + len([]rune(plain))
	e.CursorColumn = len([]rune(e.Text))
	return e
}

// TypedKey leaves the dialog on Escape.
func (e *pathEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && e.onEscape != nil {
		e.onEscape()
		return
	}
	e.Entry.TypedKey(k)
}

// fileName proposes a name.
func (b *Bench) fileName() string {
	if p := b.session.Path(); p != "" {
		return filepath.Base(p)
	}
	return b.plainName() + jobSuffix
}

// plainName is the job's name as a file may have it, with no suffix.
func (b *Bench) plainName() string {
	if p := b.session.Path(); p != "" {
		return strings.TrimSuffix(filepath.Base(p), jobSuffix)
	}
	return plainFileName(b.session.Job().Name, lang.T("house"))
}

// plainFileName turns a name into one that a file may have; an empty one gives
// otherwise.
func plainFileName(name, otherwise string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || !unicode.IsPrint(r) {
			return '-'
		}
		return r
	}, strings.TrimSpace(name))
	const most = 200 // bytes; a disk takes 255 with what is added
	for len(name) > most {
		_, size := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-size]
	}
	if name == "" {
		return otherwise
	}
	return name
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

// offerRecovery offers the unsaved jobs of earlier runs, one after another.
func (b *Bench) offerRecovery() {
	kept, err := b.session.Offered()
	var aside *asideError
	if errors.As(err, &aside) {
		b.ask("A copy of unsaved work cannot be read", lang.T("It was set aside, and the other copies are offered.")+" "+aside.In(lang.Locale()), answer{"Close", b.offerRecovery})
		return
	}
	if err != nil {
		b.showError("The copies of unsaved work cannot be read", err)
		return
	}
	if kept == nil {
		return
	}
	b.ask("Recovered job", keptWords(kept),
		answer{"Restore", func() {
			w := b
			if b.session.Dirty() {
				w = b.NewWindow()
			}
			w.restoreCopy(*kept, b.recovery)
			b.offerRecovery()
		}},
		answer{"Delete", func() {
			if err := b.recovery.deleteFound(); err != nil {
				b.showError("The copy cannot be removed", err)
				return
			}
			b.offerRecovery()
		}},
		answer{"Ask me next time", func() { b.recovery.found = "" }})
}

// keptWords distinguish copies of one job by the time at which they were kept,
// and by how much they differ from the file.
func keptWords(kept *session.Recovery) string {
	ended := message.New("The program ended before {path} was saved.", "path", kept.Path)
	before, inFile := sizing.Job{Schema: sizing.Schema}, false
	switch name := kept.Job.Name; {
	case kept.Path != "":
		if job, err := jobfile.Load(kept.Path); err == nil {
			before, inFile = job, true
		}
	case name != "":
		ended = message.New("The program ended before a new job ({name}) was saved.", "name", clipped(name))
	default:
		ended = message.New("The program ended before a new job was saved.")
	}
	args := []any{"count", session.Differences(before, kept.Job), "time", momentWords(kept.Time.Local())}
	var copied message.ID
	switch dated := !kept.Time.IsZero(); {
	case dated && inFile:
		copied = "A copy was kept on {time}; {count} values differ from the file."
	case dated:
		copied = "A copy was kept on {time}; {count} values are filled in."
	case inFile:
		copied = "A copy was kept; {count} values differ from the file."
	default:
		copied = "A copy was kept; {count} values are filled in."
	}
	return message.Sentences{ended, message.New(copied, args...)}.In(lang.Locale())
}

var months = [...]message.ID{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// momentWords write a day and a time of the day.
func momentWords(t time.Time) message.Message {
	return message.New("{day} {month} {year} at {clock}", "day", t.Day(), "month", months[t.Month()-1], "year", t.Year(), "clock", t.Format(time.TimeOnly))
}

// restoreCopy continues with a copy that an earlier run of the program left; the
// copy is removed once the job is saved or discarded.
func (b *Bench) restoreCopy(kept session.Recovery, from *recoveryStore) {
	b.recovery.takeOver(from)
	b.dropScreens()
	b.cautionsRead = false
	b.session.Restore(kept)
	b.enter(firstPlace)
}
