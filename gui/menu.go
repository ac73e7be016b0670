package gui

import (
	"fmt"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// menu is the main menu. Its shortcuts work while an entry has the keyboard,
// which the canvas's own would not.
type menu struct {
	bench      *Bench
	main       *fyne.MainMenu
	undo, redo *fyne.MenuItem
	recent     *fyne.MenuItem
	units      map[units.Locale]*fyne.MenuItem
	themes     map[string]*fyne.MenuItem
	sizes      map[float32]*fyne.MenuItem
	ranges     *fyne.MenuItem
	shown      string // the texts of the changing items when last shown
}

func newMenu(b *Bench) *menu {
	m := &menu{bench: b, units: map[units.Locale]*fyne.MenuItem{}, themes: map[string]*fyne.MenuItem{}, sizes: map[float32]*fyne.MenuItem{}}
	m.main = fyne.NewMainMenu(m.file(), m.edit(), m.view(), m.places(), m.lesson(), m.help())
	return m
}

func ctrl(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

func ctrlShift(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
}

func ctrlAlt(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierAlt}
}

// digit is the key of the i-th of a list, from 1; nil beyond the tenth.
func digit(with func(fyne.KeyName) fyne.Shortcut, i int) fyne.Shortcut {
	const row = "1234567890"
	if i >= len(row) {
		return nil
	}
	return with(fyne.KeyName(row[i : i+1]))
}

// item is a menu item that does nothing while a dialog is open: the main menu's
// shortcuts would otherwise still work.
func (m *menu) item(label message.ID, key fyne.Shortcut, action func()) *fyne.MenuItem {
	return m.named(lang.T(label), key, action)
}

// named is item with words that are written already.
func (m *menu) named(label string, key fyne.Shortcut, action func()) *fyne.MenuItem {
	it := fyne.NewMenuItem(label, func() {
		if !m.bench.busy() {
			action()
		}
	})
	it.Shortcut = key
	return it
}

func (m *menu) file() *fyne.Menu {
	b := m.bench
	examples := fyne.NewMenuItem(lang.T("New from example"), nil)
	examples.ChildMenu = fyne.NewMenu("")
	for i, e := range assets.Examples() {
		examples.ChildMenu.Items = append(examples.ChildMenu.Items, m.item(e.Title, digit(ctrlAlt, i), func() { b.NewFrom(e.Name) }))
	}
	templates := fyne.NewMenuItem(lang.T("New from template"), nil)
	templates.ChildMenu = fyne.NewMenu("")
	for i, e := range assets.Examples() {
		templates.ChildMenu.Items = append(templates.ChildMenu.Items, m.item(e.Title, digit(ctrlAlt, 4+i), func() { b.NewFromTemplate(e.Name) }))
	}
	m.recent = fyne.NewMenuItem(lang.T("Open recent"), nil)
	m.recent.ChildMenu = fyne.NewMenu("")
	quit := m.item("Quit", ctrl(fyne.KeyQ), b.Quit)
	quit.IsQuit = true
	return fyne.NewMenu(lang.T("File"),
		m.item("New", ctrl(fyne.KeyN), b.New),
		m.item("New window", ctrlShift(fyne.KeyN), func() { b.NewWindow() }),
		examples,
		templates,
		m.item("New from the library ...", ctrlAlt(fyne.KeyN), b.newFromLibrary),
		fyne.NewMenuItemSeparator(),
		m.item("Open ...", ctrl(fyne.KeyO), b.askOpen),
		m.recent,
		fyne.NewMenuItemSeparator(),
		m.item("Save", ctrl(fyne.KeyS), b.Save),
		m.item("Save as ...", ctrlShift(fyne.KeyS), func() { b.ifRead(func() { b.askSave(func() {}) }) }),
		m.item("Save as template ...", ctrlAlt(fyne.KeyS), b.saveTemplate),
		m.item("Library ...", ctrlShift(fyne.KeyL), b.showLibrary),
		fyne.NewMenuItemSeparator(),
		m.item("Save this chart ...", ctrl(fyne.KeyE), b.askSaveChart),
		m.pages(),
		m.item("Tables (XLSX, CSV) ...", ctrl(fyne.KeyT), b.askTable),
		fyne.NewMenuItemSeparator(),
		m.item("Close window", ctrl(fyne.KeyW), b.Close),
		quit)
}

func (m *menu) pages() *fyne.MenuItem {
	all := fyne.NewMenuItem(lang.T("Pages (PDF): see, save, print"), nil)
	all.ChildMenu = fyne.NewMenu("")
	for _, p := range pageLabels {
		all.ChildMenu.Items = append(all.ChildMenu.Items, m.item(p.label, p.key, func() { m.bench.showPages(p.audience) }))
	}
	return all
}

func (m *menu) edit() *fyne.Menu {
	m.undo = m.item("Undo", &fyne.ShortcutUndo{}, m.bench.Undo)
	m.redo = m.item("Redo", &fyne.ShortcutRedo{}, m.bench.Redo)
	return fyne.NewMenu(lang.T("Edit"), m.undo, m.redo, fyne.NewMenuItemSeparator(),
		m.item("Copy chart data", ctrlShift(fyne.KeyC), m.bench.copyChart),
		fyne.NewMenuItemSeparator(),
		m.item("Settings ...", ctrlShift(fyne.KeyT), m.bench.showSettings))
}

func (m *menu) view() *fyne.Menu {
	b := m.bench
	m.units[units.IP] = m.item("Inch-pound units (cfm, in. w.c.)", ctrl(fyne.KeyI), func() { b.SetUnits(units.IP) })
	m.units[units.SI] = m.item("SI units (L/s, Pa)", ctrl(fyne.KeyM), func() { b.SetUnits(units.SI) })
	m.themes[look.Light] = m.item("Light", ctrl(fyne.KeyL), func() { b.SetTheme(look.Light) })
	m.themes[look.Dark] = m.item("Dark", ctrl(fyne.KeyD), func() { b.SetTheme(look.Dark) })
	items := []*fyne.MenuItem{m.units[units.IP], m.units[units.SI], fyne.NewMenuItemSeparator(), m.themes[look.Light], m.themes[look.Dark], fyne.NewMenuItemSeparator()}
	items = append(items,
		m.item("Larger text", ctrl(fyne.KeyEqual), func() { b.stepTextSize(1) }),
		m.item("Smaller text", ctrl(fyne.KeyMinus), func() { b.stepTextSize(-1) }))
	for _, s := range textSizes {
		m.sizes[s] = m.named(lang.T("Text size {percent} %", "percent", message.Fixed(float64(s*100), 0)), nil, func() { b.SetTextSize(s) })
		items = append(items, m.sizes[s])
	}
	m.ranges = m.item("Ranges of the numbers", ctrl(fyne.KeyR), func() { b.SetRanges(!b.session.Ranging()) })
	items = append(items, fyne.NewMenuItemSeparator(), m.ranges)
	return fyne.NewMenu(lang.T("View"), items...)
}

func (m *menu) places() *fyne.Menu {
	out := fyne.NewMenu(lang.T("Go"))
	var group message.ID
	for _, p := range places() {
		if p.group != group {
			out.Items = append(out.Items, fyne.NewMenuItemSeparator())
		}
		group = p.group
		out.Items = append(out.Items, m.item(p.name, p.shortcut, func() { m.bench.enter(p.key) }))
	}
	out.Items = append(out.Items, fyne.NewMenuItemSeparator(),
		m.item("Next place to fill in", ctrl(fyne.KeyPeriod), func() { m.bench.goStep(1) }),
		m.item("Previous place to fill in", ctrl(fyne.KeyComma), func() { m.bench.goStep(-1) }))
	return out
}

func (m *menu) help() *fyne.Menu {
	b := m.bench
	return fyne.NewMenu(lang.T("Help"),
		m.item("Help for this place (F1)", ctrl(fyne.KeyF1), b.showHelp),
		m.item("Three things to try", ctrlShift(fyne.KeyH), b.showThings),
		m.item("Keys", ctrl(fyne.KeyK), b.showKeys),
		m.item("What the numbers mean", ctrl(fyne.KeyH), b.showTerms),
		m.item("Safety", nil, func() { b.enter(cautionsPlace) }))
}

// Refresh brings names and ticks up to date; the menu is shown again only where
// something changed.
func (m *menu) Refresh() {
	s := m.bench.session
	name := func(item *fyne.MenuItem, verb message.ID, step string) {
		item.Label, item.Disabled = lang.T(verb), step == ""
		if step != "" {
			item.Label += ": " + step
		}
	}
	name(m.undo, "Undo", s.UndoName())
	name(m.redo, "Redo", s.RedoName())
	for u, it := range m.units {
		it.Checked = u.System == s.Units().System
	}
	for v, it := range m.themes {
		it.Checked = v == m.bench.settings.Theme
	}
	m.ranges.Checked = s.Ranging()
	for size, it := range m.sizes {
		it.Checked = size == m.bench.settings.TextSize
	}
	recent := m.bench.recent
	// The size of the letters is part of it: the bar grows with them, and the
	// place under it only gets its new height when the menu is shown again.
	now := fmt.Sprint(m.undo.Label, "|", m.redo.Label, "|", s.Units(), m.bench.settings, m.bench.textScale(), recent)
	if now == m.shown {
		return
	}
	m.shown = now
	m.listRecent(recent)
	m.main.Refresh()
}

func (m *menu) listRecent(paths []string) {
	m.recent.Disabled = len(paths) == 0
	m.recent.ChildMenu.Items = nil
	for i, p := range slices.Clone(paths) {
		var key fyne.Shortcut
		if i == 0 {
			key = ctrlShift(fyne.KeyO)
		}
		m.recent.ChildMenu.Items = append(m.recent.ChildMenu.Items, m.named(lang.T("{file}  in {folder}", "file", filepath.Base(p), "folder", filepath.Dir(p)), key, func() {
			m.bench.ifSafe(func() { m.bench.openOrShowError(p) })
		}))
	}
	if len(paths) == 0 {
		m.recent.ChildMenu.Items = []*fyne.MenuItem{fyne.NewMenuItem(lang.T("none yet"), func() {})}
	}
}
