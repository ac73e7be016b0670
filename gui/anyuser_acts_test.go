package gui

import (
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/widgets"
)

// typedTexts are what is typed anywhere: right and wrong, in any field.
var typedTexts = []string{
	"3", "3 ton", "1200", "1200 cfm", "566 L/s", "0.5", "0.5 in. w.c.", "124 Pa", "16x25x1", "20x20", "400x625x25 mm", "14x8",
	"250 fpm", "12", "100", "50", "75", "2.5", "15 3/4 in", "72 F", "8", "11", "1", "0", "hall", "Filter A", "high", "0.12",
	"", " ", "abc", "-5", "-0.4", "1e999", "NaN", "Inf", "99999999999", "1,200", "µ≥∞", "20 cfm cfm", "16x", "x", "3 3", "é", "1e-12", "0x10", "%", "200 %",
}

// pastedTexts are what the clipboard may hold.
var pastedTexts = []string{"0.1\t1400\t500\n0.3\t1300\t480\n0.5\t1180\t450", "0,2;1300\n0,4;1200", "static\tcfm\n0.1\t1200", "1,200", "a\tb\tc\td\te\tf", "one\ntwo", ""}

var pressed = []fyne.KeyName{
	fyne.KeyReturn, fyne.KeySpace, fyne.KeyEscape, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyEnd,
	fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyEnter, fyne.KeyF1, fyne.KeyPlus, fyne.KeyMinus,
}

func one[T any](u *anyUser, list []T) T { return list[u.rnd.IntN(len(list))] }

// act does one thing.
func (u *anyUser) act() {
	if u.bench.busy() {
		u.answer()
		return
	}
	switch n := u.rnd.IntN(1000); {
	case n < 450:
		u.use()
	case n < 620:
		u.press()
	case n < 760:
		u.tab()
	case n < 830:
		u.menu("Edit")
	case n < 860:
		u.menu("Go")
	case n < 870:
		u.menu("")
	case n < 880:
		u.units()
	case n < 997:
		u.point()
	default:
		u.rarely()
	}
}

// look finds what can be used of what is in sight.
func (u *anyUser) look(root fyne.CanvasObject) {
	u.sight = u.sight[:0]
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		if d, ok := o.(fyne.Disableable); !ok || !d.Disabled() {
			switch o.(type) {
			case *navItem: // every place is entered often enough
				if u.rnd.IntN(8) == 0 {
					u.sight = append(u.sight, o)
				}
			case fyne.Tappable, fyne.Focusable, fyne.Draggable:
				u.sight = append(u.sight, o)
			}
		}
		switch v := o.(type) {
		case *fyne.Container:
			for _, c := range v.Objects {
				walk(c)
			}
		case *container.Scroll:
			walk(v.Content)
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(v).Objects() {
				walk(c)
			}
		}
	}
	walk(root)
}

// use takes something in sight and does what it is for.
func (u *anyUser) use() {
	u.look(u.bench.window.Content())
	u.handle(one(u, u.sight))
}

func (u *anyUser) handle(o fyne.CanvasObject) {
	switch v := o.(type) {
	case *widget.Slider:
		u.note("slide: %v", v.Value)
		test.TapAt(v, u.inside(v))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: u.inside(v)}})
		v.DragEnd()
	case interface {
		fyne.Focusable
		fyne.Shortcutable
	}:
		u.typeInto(v)
	case fyne.Tappable:
		u.note("tap: %s", named(o))
		test.TapAt(v, u.inside(o))
	case fyne.Focusable:
		u.note("focus: %s", named(o))
		u.canvas().Focus(v)
	case fyne.Draggable:
		u.note("drag: %s", named(o))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: u.inside(o)}, Dragged: fyne.NewDelta(u.rnd.Float32()*40-20, u.rnd.Float32()*40-20)})
		v.DragEnd()
	}
}

func named(o fyne.CanvasObject) string {
	switch v := o.(type) {
	case *widget.Button:
		return "button " + v.Text
	case *widgets.Button:
		return "button " + v.Text
	case *keyButton:
		return "button " + v.Text
	case *widgets.Check:
		return "check " + v.Text
	case *widget.Check:
		return "check " + v.Text
	case *navItem:
		return "nav " + v.place.key
	}
	return fmt.Sprintf("%T", o)
}

func (u *anyUser) canvas() fyne.Canvas { return u.bench.window.Canvas() }

func (u *anyUser) inside(o fyne.CanvasObject) fyne.Position {
	s := o.Size()
	return fyne.NewPos(u.rnd.Float32()*s.Width, u.rnd.Float32()*s.Height)
}

// typeInto types over or behind what is in an entry, or pastes.
func (u *anyUser) typeInto(f interface {
	fyne.Focusable
	fyne.Shortcutable
}) {
	text := one(u, typedTexts)
	u.note("type: %q", text)
	u.canvas().Focus(f)
	switch u.rnd.IntN(8) {
	case 0:
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	case 1, 2, 3, 4:
		if u.rnd.IntN(4) == 0 {
			text = one(u, pastedTexts)
		}
		board := test.NewClipboard()
		board.SetContent(text)
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
		f.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
		return
	default:
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
	for _, r := range text {
		if u.canvas().Focused() != fyne.Focusable(f) {
			return // what was typed built the form again
		}
		f.TypedRune(r)
	}
}

// press sends a key to whatever has the keyboard.
func (u *anyUser) press() {
	f := u.canvas().Focused()
	if f == nil {
		u.tab()
		return
	}
	key := one(u, pressed)
	u.note("press: %s on %T", key, f)
	for range 1 + u.rnd.IntN(3) {
		if f = u.canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: key})
		}
	}
	if f = u.canvas().Focused(); f != nil && u.rnd.IntN(4) == 0 {
		f.TypedRune(one(u, []rune("1x +é.")))
	}
}

func (u *anyUser) tab() {
	u.note("tab: ")
	if u.rnd.IntN(3) == 0 {
		test.FocusPrevious(u.canvas())
		return
	}
	test.FocusNext(u.canvas())
}

// menu picks from the menu of a name, or from any.
func (u *anyUser) menu(name string) {
	var items []*fyne.MenuItem
	var walk func(list []*fyne.MenuItem)
	walk = func(list []*fyne.MenuItem) {
		for _, it := range list {
			switch {
			case it.ChildMenu != nil:
				walk(it.ChildMenu.Items)
			case it.Action != nil && !it.Disabled:
				items = append(items, it)
			}
		}
	}
	for _, m := range u.bench.window.MainMenu().Items {
		if m.Label == name || name == "" && m.Label != "View" {
			walk(m.Items)
		}
	}
	if len(items) == 0 {
		return
	}
	it := one(u, items)
	u.note("menu: %s", it.Label)
	it.Action()
}

func (u *anyUser) units() {
	u.note("units: ")
	b := u.bench
	b.SetUnits(b.session.Units().With(1 - b.session.Units().System))
}

// point moves, taps, scrolls and drags somewhere on the window.
func (u *anyUser) point() {
	c := u.canvas()
	at := fyne.NewPos(u.rnd.Float32()*c.Size().Width, u.rnd.Float32()*c.Size().Height)
	dx, dy := u.rnd.Float32()*200-100, u.rnd.Float32()*200-100
	n := u.rnd.IntN(5)
	u.note("point: %d at %v", n, at)
	switch n {
	case 0:
		test.TapCanvas(c, at)
	case 1:
		test.Scroll(c, at, dx, dy)
	case 2:
		test.Drag(c, at, dx, dy)
	default:
		test.MoveMouse(c, at)
	}
}

// rarely does what takes long: another theme, another size, a drawn window, a
// dropped file.
func (u *anyUser) rarely() {
	b := u.bench
	n := u.rnd.IntN(6)
	u.note("rarely: %d", n)
	switch n {
	case 0:
		u.menu("View")
	case 1:
		b.window.Resize(fyne.NewSize(900+u.rnd.Float32()*1000, 600+u.rnd.Float32()*500))
	case 2:
		b.window.Canvas().Capture()
	case 3:
		files, _ := filepath.Glob(filepath.Join(u.dir, "*.json"))
		if len(files) > 0 {
			b.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(one(u, files))})
		}
	case 4:
		b.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(filepath.Join(u.dir, "none.json"))})
	case 5:
		test.MoveMouse(u.canvas(), fyne.NewPos(900, 300))
		u.canvas().Capture()
		if r, ok := any(b.pane.Chart()).(desktop.Hoverable); ok {
			r.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(u.rnd.Float32()*600, u.rnd.Float32()*300)}})
		}
	}
}

// answer does something to what lies over the window: a question, a list.
func (u *anyUser) answer() {
	top := u.canvas().Overlays().Top()
	switch u.rnd.IntN(8) {
	case 0:
		if f := u.canvas().Focused(); f != nil {
			u.note("escape: %T", f)
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			return
		}
	case 1:
		u.press()
		return
	case 2:
		u.tab()
		return
	}
	u.look(top)
	var able []fyne.CanvasObject
	for _, o := range u.sight {
		if b, ok := o.(*widget.Button); ok && b.Text == "" {
			continue // the file dialog's own: a new folder, its view
		}
		able = append(able, o)
	}
	if len(able) > 0 {
		u.handle(one(u, able))
	}
}
