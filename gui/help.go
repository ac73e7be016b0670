package gui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/sizing/message"
)

// showKeys lists the keys.
func (b *Bench) showKeys() { b.showRows(lang.T("Keys"), b.keys()) }

// keys are the keys of the parts of the window, and after them whatever has a
// shortcut in the menu, the places among it.
func (b *Bench) keys() [][2]string {
	rows := [][2]message.ID{
		{"F1", "help for the place in view"},
		{"Tab, Shift+Tab", "next field, field before"},
		{"Up, Down", "one step in a field for a whole number, a row in a table; open the list in a field for a size"},
		{"Left, Right", "the next of a list of choices; along a curve of the chart, or from piece to piece of a bar; Up and Down change the curve or the bar"},
		{"Return, {copy} in Compare's table", "order the options by the row, and again the other way round; copy the table for a spreadsheet"},
		{"Arrows, Return in the airpath", "the next part along the air; edit the part"},
		{"Space, Return", "press a button, open a list, tick a box"},
		{"Escape", "leave a question, a list or the menu"},
		{"Alt", "the menu: arrows go through it, Return chooses"},
		{"Wheel, a frame drawn with the pointer", "look closer at a part of a chart"},
		{"+, -, 0 in a chart", "closer, further, the whole chart; with Shift the arrows move the part in view"},
		{"Left, Right, Home, End", "the slider of a demonstration"},
	}
	var out [][2]string
	for _, r := range rows {
		out = append(out, [2]string{lang.T(r[0], "copy", shortcutWords(&fyne.ShortcutCopy{})), lang.T(r[1])})
	}
	for _, m := range b.menu.main.Items {
		out = append(out, menuKeys(m)...)
	}
	return out
}

// menuKeys are the shortcuts of a menu and of those in it, which it names first.
func menuKeys(m *fyne.Menu) (rows [][2]string) {
	for _, it := range m.Items {
		label, _, _ := strings.Cut(strings.TrimSuffix(it.Label, " ..."), ":")
		if it.Shortcut != nil {
			words := label
			if slices.ContainsFunc(places(), func(p place) bool { return lang.T(p.name) == it.Label }) {
				words = lang.T("go to {place}", "place", label)
			}
			rows = append(rows, [2]string{shortcutWords(it.Shortcut), words})
		}
		if it.ChildMenu != nil {
			for _, row := range menuKeys(it.ChildMenu) {
				rows = append(rows, [2]string{row[0], label + ": " + row[1]})
			}
		}
	}
	return rows
}

func shortcutWords(s fyne.Shortcut) string {
	k, ok := s.(fyne.KeyboardShortcut)
	if !ok {
		return ""
	}
	words := ""
	for _, m := range []struct {
		bit  fyne.KeyModifier
		word string
	}{
		{fyne.KeyModifierControl, "Ctrl+"}, {fyne.KeyModifierSuper, "Command+"},
		{fyne.KeyModifierShift, "Shift+"}, {fyne.KeyModifierAlt, "Alt+"},
	} {
		if k.Mod()&m.bit != 0 {
			words += m.word
		}
	}
	return words + string(k.Key())
}

// showTerms explains the terms in plain words.
func (b *Bench) showTerms() {
	b.showTermRows("What the numbers mean", assets.ReadHelp(lang.Locale().Language).Terms)
}

// showNumbers tells what each number rests on.
func (b *Bench) showNumbers() {
	b.showTermRows("What each number rests on", assets.ReadHelp(lang.Locale().Language).Numbers)
}

func (b *Bench) showTermRows(title message.ID, terms []assets.Term) {
	rows := make([][2]string, len(terms))
	for i, t := range terms {
		rows[i] = [2]string{t.Name, t.Text}
	}
	b.showRows(lang.T(title), rows)
}

// showHelp shows the help of the place in view, with links to the keys, the terms and
// what each number rests on.
func (b *Bench) showHelp() {
	p := b.placeInView()
	text := widget.NewLabel(placeHelp(p))
	text.Wrapping = fyne.TextWrapWord
	b.show(lang.T("Help: {place}", "place", p.name), container.NewVScroll(text), fyne.NewSize(620, 260),
		answer{"Terms", b.showTerms}, answer{"Sources of numbers", b.showNumbers}, answer{"Keys", b.showKeys}, answer{label: "Close"})
}

// placeHelp is the help of a place. In a translation its heading may be the name
// that the window shows, or the English one.
func placeHelp(p place) string {
	texts := assets.ReadHelp(lang.Locale().Language).Places
	if text, ok := texts[lang.T(p.name)]; ok {
		return text
	}
	return texts[string(p.name)]
}

func (b *Bench) showRows(title string, rows [][2]string) {
	grid := container.New(layout.NewFormLayout())
	for _, r := range rows {
		term := widget.NewLabelWithStyle(r[0], fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		text := widget.NewLabel(r[1])
		text.Wrapping = fyne.TextWrapWord
		grid.Add(term)
		grid.Add(text)
	}
	beside := container.New(layout.NewCustomPaddedLayout(0, 0, 0, theme.ScrollBarSize()), grid) // the bar of the scroll lies over the right edge
	b.show(title, container.NewVScroll(beside), fyne.NewSize(760, 520), answer{label: "Close"})
}
