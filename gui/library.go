package gui

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing/library"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// shared is the firm's library as the forms see it.
type shared struct{ *Bench }

func (b *Bench) shared() form.Library { return shared{b} }

// Sizes are those last read.
func (s shared) Sizes(use library.SizeUse) []stock.Size {
	var out []stock.Size
	if s.library == nil {
		return nil
	}
	for _, e := range s.library.Of(library.Sizes) {
		if e.Size.Of == use {
			out = append(out, e.Size.Nominal())
		}
	}
	return out
}

// WithSizes are all that the library names, read again.
func (s shared) WithSizes(then func([]library.Size)) {
	s.ifLibrary(func() {
		lib, err := library.Read(s.settings.Library)
		if err != nil {
			s.showError("The library was not read", err)
			return
		}
		then(lib.Sizes())
	})
}

// Pick shows the items of a kind to choose from.
func (s shared) Pick(kind library.Kind, take func(library.Item)) {
	s.ifLibrary(func() { s.pickItem(kind, take) })
}

func (b *Bench) pickItem(kind library.Kind, take func(library.Item)) {
	v := newLibraryList(b, kind)
	choose := func() {
		if e, ok := v.chosen(); ok {
			take(e.Item)
		}
	}
	v.use = func() { b.closeThen(choose) }
	b.show(lang.T("{kind} of the library", "kind", kind.Title()), v.object, libraryListSize, answer{"Take", choose}, answer{"Cancel", nil})
	v.open()
}

// closeThen closes the open question, as its button would, and goes on.
func (b *Bench) closeThen(then func()) {
	b.answerLast()
	then()
}

// ifLibrary goes on once there is a folder for the library.
func (b *Bench) ifLibrary(then func()) {
	if b.settings.Library != "" {
		then()
		return
	}
	b.ask("There is no library yet", lang.T("A library is a folder of plain files that all jobs share: filters, blowers, cabinets, grilles, sizes, prices and templates. Put it where your file sync carries it, and every machine of the firm has it."),
		answer{"Choose a folder", func() { b.chooseLibrary(then) }},
		answer{"Cancel", nil})
}

// chooseLibrary lets the person name the library's folder.
func (b *Bench) chooseLibrary(then func()) {
	entry := newPathEntry("", b.settings.Library)
	entry.onEscape = b.answerLast
	use := func() { b.useLibrary(strings.TrimSpace(entry.Text), then) }
	entry.OnSubmitted = func(string) { b.closeThen(use) }
	browse := newKeyButton("Choose a folder", func() { b.chooseFolderOnly(entry) })
	b.show(lang.T("Folder of the library"), container.NewVBox(widget.NewLabel(lang.T("Folder")), entry, container.NewHBox(browse)), fyne.NewSize(640, 190),
		answer{"Use it", use}, answer{"Cancel", nil})
	b.window.Canvas().Focus(entry)
}

func (b *Bench) useLibrary(dir string, then func()) {
	if dir == "" {
		b.showError("No folder for the library", message.Errorf("the folder has no name"))
		return
	}
	dir = absolute(dir)
	take := func() {
		b.settings.Library = dir
		b.library = nil
		b.keepSettings()
		b.readLibrary(func(error) { then() })
	}
	switch info, err := os.Stat(dir); {
	case errors.Is(err, fs.ErrNotExist):
		b.ask("The folder is not there", b.say("{folder} is to be made.", "folder", dir),
			answer{"Make it", func() {
				if err := os.MkdirAll(dir, 0o755); err != nil {
					b.showError("The folder cannot be made", err)
					return
				}
				take()
			}},
			answer{"Cancel", nil})
	case err != nil:
		b.showError("The folder cannot be used", err)
	case !info.IsDir():
		b.showError("The folder cannot be used", message.Errorf("{path} is a file; want a folder", "path", dir))
	default:
		take()
	}
}

// readLibrary reads the library away from the window's thread. What was read
// before stays where the folder is gone.
func (b *Bench) readLibrary(then func(error)) {
	dir := b.settings.Library
	if dir == "" {
		return
	}
	var lib *library.Library
	b.session.Tasks().Go(func(context.Context) (err error) {
		lib, err = library.Read(dir)
		return err
	}, func(err error) {
		if err == nil && dir == b.settings.Library {
			b.library = lib
			b.listTemplates()
		}
		then(err)
	})
}

// listTemplates brings the list of templates up to date in every window.
func (b *Bench) listTemplates() {
	for _, w := range b.windows {
		if s := w.screens[firstPlace]; s != nil {
			s.Refresh()
		}
	}
}

// libraryListSize fits the smallest screen at the largest text.
var libraryListSize = fyne.NewSize(900, 520)

// libraryList lists a library, or one kind of it, with a search field.
type libraryList struct {
	bench  *Bench
	kind   library.Kind // empty: all
	use    func()       // Return on an item; nil: nothing
	search *searchEntry
	list   *table.Table
	note   *widget.Label
	object fyne.CanvasObject

	found []library.Entry
	fault error // of the last reading
}

func newLibraryList(b *Bench, kind library.Kind) *libraryList {
	v := &libraryList{bench: b, kind: kind, list: table.New()}
	v.search = newSearchEntry()
	v.search.SetPlaceHolder(lang.T("Search: words of the name, size, maker, MERV 11 ..."))
	v.search.OnChanged = func(string) { v.refresh() }
	v.search.OnSubmitted = func(string) { v.useSelected() }
	v.search.onDown = func() { b.window.Canvas().Focus(v.list) }
	v.search.onEscape = b.answerLast
	v.list.OnSelected = func(int) { v.showNote() }
	v.list.OnActivated = func(int) { v.useSelected() }
	v.note = widget.NewLabel("")
	v.note.Wrapping = fyne.TextWrapWord
	v.note.SizeName = theme.SizeNameCaptionText
	under := container.NewVScroll(v.note)
	under.SetMinSize(fyne.NewSize(100, 66))
	v.object = container.NewBorder(v.search, under, nil, nil, v.list)
	return v
}

// open shows what was read last, and then what is there now.
func (v *libraryList) open() {
	v.refresh()
	v.bench.window.Canvas().Focus(v.search)
	v.reread()
}

func (v *libraryList) reread() {
	v.bench.readLibrary(func(err error) {
		v.fault = err
		v.refresh()
	})
}

func (v *libraryList) refresh() {
	v.found = nil
	if lib := v.bench.library; lib != nil {
		v.found = lib.Find(v.kind, v.search.Text)
	}
	columns := []table.Column{{Title: "Name"}, {Title: "What it is"}, {Title: "File"}}
	rows := make([][]string, len(v.found))
	for i, e := range v.found {
		rows[i] = []string{e.Name(), e.Note(units.IP), e.File}
	}
	v.list.SetColumns(columns)
	v.list.SetRows(rows)
	if len(rows) > 0 {
		v.list.Select(0)
	}
	v.showNote()
}

// showNote shows below the list where an item is from, and what could not be read.
func (v *libraryList) showNote() {
	var lines []string
	if v.fault != nil {
		lines = append(lines, faultWords(v.fault))
		if v.bench.library != nil {
			lines = append(lines, lang.T("What was read last is shown."))
		}
	}
	if e, ok := v.chosen(); ok && e.Source != "" {
		lines = append(lines, lang.T("Figures from: {source}", "source", e.Source))
	}
	lib := v.bench.library
	if lib != nil && len(v.found) == 0 && v.fault == nil {
		lines = append(lines, lang.T("Nothing found. Save to library in a place of the job puts something here, and so does Import."))
	}
	if lib != nil {
		for _, f := range lib.Faults {
			lines = append(lines, lang.T("Left out: {file}: {fault}", "file", f.File, "fault", v.bench.inWords(f.Err)))
		}
	}
	v.note.SetText(strings.Join(lines, "\n"))
}

func (v *libraryList) chosen() (library.Entry, bool) {
	if i := v.list.Selected(); i >= 0 && i < len(v.found) {
		return v.found[i], true
	}
	return library.Entry{}, false
}

// useSelected calls the action of the list with the selected item.
func (v *libraryList) useSelected() {
	if _, ok := v.chosen(); ok && v.use != nil {
		v.use()
	}
}

// Save asks for the name of an item and keeps it.
func (s shared) Save(item library.Item) {
	s.ifLibrary(func() { s.nameItem(item) })
}

func (b *Bench) nameItem(item library.Item) {
	name, source := newDialogEntry(b), newDialogEntry(b)
	name.SetText(item.Name())
	source.SetText(item.Source)
	source.SetPlaceHolder(lang.T("such as: maker's data sheet of May, page 3"))
	keep := func() {
		named := item.Named(strings.TrimSpace(name.Text))
		named.Source = strings.TrimSpace(source.Text)
		b.keepItem(named)
	}
	name.OnSubmitted = func(string) { b.closeThen(keep) }
	source.OnSubmitted = name.OnSubmitted
	content := container.NewVBox(widget.NewLabel(lang.T("Name")), name)
	if item.Kind() != library.Templates { // a job's file says no source
		content.Add(widget.NewLabel(lang.T("Where the figures are from")))
		content.Add(source)
	}
	b.show(lang.T("Save to the library: {kind}", "kind", strings.ToLower(lang.T(item.Kind().Title()))), content, fyne.NewSize(560, 240), answer{"Save", keep}, answer{"Cancel", nil})
	b.window.Canvas().Focus(name)
}

// keepItem saves an item, after a question where one of its name is there.
func (b *Bench) keepItem(item library.Item) {
	if faults := item.Check(); len(faults) > 0 {
		lines := make([]string, len(faults))
		for i, f := range faults {
			lines[i] = strings.TrimPrefix(f.Path, string(item.Kind())+".") + ": " + form.Sentence(f)
		}
		b.ask("It cannot go into the library yet", strings.Join(lines, "\n"), answer{"Close", nil})
		return
	}
	b.readLibrary(func(err error) {
		if err != nil {
			b.showError("The library cannot be read", err)
			return
		}
		there := b.library.Named(item.Kind(), item.Name())
		if len(there) == 0 {
			b.addItem(item)
			return
		}
		if library.Same(there[0].Item, item) {
			b.ask("It is in the library", b.say("{item} is there already, in {file}.", "item", item.Name(), "file", there[0].File), answer{"Close", nil})
			return
		}
		b.ask("The name is in the library", b.say("{item} is there with other values, in {file}. Replace keeps the version before beside it.", "item", item.Name(), "file", there[0].File),
			answer{"Replace", func() { b.replaceItem(there[0], item) }},
			answer{"Choose another name", func() { b.nameItem(item) }},
			answer{"Cancel", nil})
	})
}

func (b *Bench) addItem(item library.Item) {
	var file string
	b.saveItem(func() (err error) {
		file, err = library.Add(b.settings.Library, item)
		return err
	}, func() string { return file })
}

func (b *Bench) replaceItem(e library.Entry, item library.Item) {
	b.saveItem(func() error { return library.Replace(b.settings.Library, e, item) }, func() string { return e.File })
}

func (b *Bench) saveItem(save func() error, file func() string) {
	b.session.Tasks().Go(func(context.Context) error { return save() }, func(err error) {
		if err != nil {
			b.showError("It cannot be saved to the library", err)
			return
		}
		b.readLibrary(func(error) {})
		b.ask("Saved to the library", filepath.Join(b.settings.Library, filepath.FromSlash(file())), answer{"Close", nil})
	})
}

// saveTemplate keeps the job as a template.
func (b *Bench) saveTemplate() {
	b.ifRead(func() {
		b.shared().Save(library.TemplateOf(b.session.Peek(), b.plainName()))
	})
}

// newFromLibrary begins a job from a template of the library.
func (b *Bench) newFromLibrary() {
	b.shared().Pick(library.Templates, func(item library.Item) { b.newFromItem(item) })
}

func (b *Bench) newFromItem(item library.Item) {
	b.ifSafe(func() { b.put(library.Template(item.Template), "") })
}

// searchEntry is a field over a list: Down goes into the list, Escape leaves the
// question.
type searchEntry struct {
	widget.Entry
	onDown, onEscape func()
	press            widgets.LongPress
}

// MouseDown may begin a long press.
func (e *searchEntry) MouseDown(m *desktop.MouseEvent) {
	e.Entry.MouseDown(m)
	e.press.OnEntry(e, m)
}

// MouseUp ends it.
func (e *searchEntry) MouseUp(m *desktop.MouseEvent) {
	e.press.Up()
	e.Entry.MouseUp(m)
}

var _ fyne.Focusable = (*searchEntry)(nil)

func newSearchEntry() *searchEntry {
	e := &searchEntry{}
	e.ExtendBaseWidget(e)
	return e
}

// newDialogEntry is a field of a question.
func newDialogEntry(b *Bench) *searchEntry {
	e := newSearchEntry()
	e.onEscape = b.answerLast
	return e
}

// TypedKey hears the keys that lead out of the field.
func (e *searchEntry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && e.onEscape != nil:
		e.onEscape()
	case k.Name == fyne.KeyDown && e.onDown != nil:
		e.onDown()
	default:
		e.Entry.TypedKey(k)
	}
}

// showLibrary shows the whole library, with what can be done to it.
func (b *Bench) showLibrary() {
	b.ifLibrary(func() {
		v := newLibraryList(b, "")
		titles := []string{lang.T("All kinds")}
		for _, k := range library.Kinds() {
			titles = append(titles, lang.T(k.Title()))
		}
		kinds := widgets.NewSelect(titles, nil)
		kinds.SetSelectedIndex(0)
		kinds.OnChanged = func(string) {
			v.kind = ""
			if i := kinds.SelectedIndex(); i > 0 {
				v.kind = library.Kinds()[i-1]
			}
			v.refresh()
		}
		folder := widget.NewLabel(lang.T("Folder: {folder}", "folder", b.settings.Library))
		folder.Truncation = fyne.TextTruncateEllipsis
		buttons := container.NewHBox(
			newKeyButton("Import", func() { b.askImport(v) }),
			newKeyButton("Export as CSV", func() { b.askExport(v) }),
			newKeyButton("Open the folder", func() {
				if err := b.system.OpenFolder(b.settings.Library); err != nil {
					b.showError("The folder cannot be opened", err)
				}
			}))
		content := container.NewBorder(container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(230*b.textScale(), kinds.MinSize().Height), kinds), buttons, folder), nil, nil, nil, v.object)
		b.show(lang.T("Library"), content, libraryListSize, answer{"Close", nil})
		v.open()
	})
}

// askExport asks where the items in view are to go as a table.
func (b *Bench) askExport(v *libraryList) {
	if !v.kind.IsTable() || v.kind == "" {
		b.showError("Choose a kind first", message.Errorf("a table holds one kind; choose it from the list over the items. A template is a whole job: copy its file"))
		return
	}
	items := make([]library.Item, len(v.found))
	for i, e := range v.found {
		items[i] = e.Item
	}
	b.askPath(pathQuestion{title: "Export as CSV", name: v.kind.Folder() + ".csv", suffix: ".csv"}, func(path string) {
		b.session.Tasks().Go(func(context.Context) error { return writeItems(path, v.kind, items) }, func(err error) {
			if err != nil {
				b.showError("{file} cannot be written", err, "file", filepath.Base(path))
				return
			}
			b.ask("The table is written", path, answer{"Close", nil})
		})
	})
}
