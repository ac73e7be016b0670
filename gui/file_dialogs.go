package gui

import (
	"os"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
)

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
