package gui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/fields"
	"returnbench/gui/look"
	"returnbench/gui/table"
	"returnbench/sizing/units"
)

// Under the setting for a finger all that is tapped is at least 44 points high
// and wide, in every place, on a screen of 1280x800.
func TestTargetsForAFinger(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1280, 800))
	b.put(example(t, "one-inch-slot"), "")
	b.SetTouch(true)
	const room = look.TouchTarget - 0.5
	for _, p := range places() {
		b.enter(p.key)
		small := map[string]bool{}
		for _, o := range test.LaidOutObjects(b.root) {
			_, tapped := o.(fyne.Tappable)
			size := o.Size()
			if !tapped || !o.Visible() || size.Width == 0 || size.Height == 0 || size.Width >= room && size.Height >= room {
				continue
			}
			name := fmt.Sprintf("%T", o)
			switch {
			case strings.HasPrefix(name, "*table."): // its rows are tapped, see below
				continue
			case name == "*fields.picker" && size.Width >= room: // it lies in a field of the full height
				continue
			}
			small[fmt.Sprintf("%s of %.0fx%.0f", name, size.Width, size.Height)] = true
		}
		for s := range small {
			assert.Fail(t, "too small for a finger", "%s: %s", p.key, s)
		}
	}
}

// A scroll bar has the room of a finger at rest and under it.
func TestScrollBarsForAFinger(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1280, 800))
	b.put(example(t, "one-inch-slot"), "")
	b.SetTouch(true)
	seen := 0
	for _, p := range places() {
		b.enter(p.key)
		var bars []fyne.CanvasObject
		for _, o := range test.LaidOutObjects(b.root) {
			if fmt.Sprintf("%T", o) == "*widget.scrollBarArea" && o.Visible() && o.Size().Width > 0 && o.Size().Height > 0 {
				bars = append(bars, o)
			}
		}
		for _, bar := range bars {
			across := func() float32 { return fyne.Min(bar.Size().Width, bar.Size().Height) }
			assert.GreaterOrEqual(t, across(), float32(look.TouchTarget), "%s: at rest", p.key)
			over := bar.(desktop.Hoverable)
			over.MouseIn(&desktop.MouseEvent{})
			assert.GreaterOrEqual(t, across(), float32(look.TouchTarget), "%s: under the finger", p.key)
			over.MouseOut()
		}
		seen += len(bars)
	}
	assert.NotZero(t, seen)
}

// The rows of a table are as high.
func TestRowsForAFinger(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.SetTouch(true)
	b.enter("compare")
	seen := 0
	for _, o := range test.LaidOutObjects(b.root) {
		if tbl, ok := o.(*table.Table); ok && tbl.Visible() && len(tbl.Rows()) > 0 {
			seen++
			assert.GreaterOrEqual(t, tbl.RowHeight(), float32(look.TouchTarget))
		}
	}
	assert.NotZero(t, seen)
}

// A long press asks for the menu that a right click opens; a short one, or one
// that moves, does not, and neither does any without the setting.
func TestLongPressIsARightClick(t *testing.T) {
	for _, touch := range []bool{true, false} {
		b := newBench(t)
		b.put(example(t, "one-inch-slot"), "")
		b.SetTouch(touch)
		b.showPath("name")
		e := b.window.Canvas().Focused().(*fields.Entry)
		var waiting func()
		e.Press.After = func(_ time.Duration, then func()) (stop func()) {
			waiting = then
			return func() { waiting = nil }
		}
		down := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		e.MouseDown(down)
		assert.Equal(t, touch, waiting != nil)
		e.MouseUp(down)
		assert.Nil(t, waiting, "a tap is no long press")
		if !touch {
			continue
		}
		e.MouseDown(down)
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		if e.SelectedText() != "" {
			waiting()
			assert.False(t, b.busy(), "a finger that selects opens nothing")
		}
		e.MouseUp(down)
		e.MouseDown(down)
		waiting()
		assert.True(t, b.busy(), "the menu to cut, copy and paste is open")
	}
}

// The keys of the number pad: its Enter answers as Return does, its decimal key
// types a point.
func TestNumberPad(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.showPath("limits.max_filter_drop")
	e := b.window.Canvas().Focused().(*fields.Entry)
	e.SetText("")
	for _, r := range "0.25" {
		e.TypedRune(r)
	}
	assert.InDelta(t, 0.25, b.session.Peek().Limits.MaxFilterDrop.In(units.InchWater), 1e-12)
	e.SetText("0,25")
	unread := b.session.Unread()
	assert.Len(t, unread, 1, "a decimal comma is told and never taken for something else")
	e.SetText("0.3")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	assert.InDelta(t, 0.3, b.session.Peek().Limits.MaxFilterDrop.In(units.InchWater), 1e-12)
	answered := false
	b.ask("Question", "?", answer{"Yes", func() { answered = true }}, answer{"No", nil})
	press(t, b, fyne.KeyEnter)
	assert.True(t, answered)
}

// A finger drawn over a form or a table moves it; a mouse drawn there does not.
func TestAFingerScrolls(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1280, 800))
	b.put(example(t, "one-inch-slot"), "")
	for touch, places := range map[bool][]string{true: {"returns", "sizes", "findings"}, false: {"returns", "findings"}} {
		b.SetTouch(touch)
		for _, place := range places {
			b.enter(place)
			scroll, pad := scrolledIn(t, b)
			before := scroll.Offset.Y
			pad.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(0, -60)})
			assert.Equal(t, touch, scroll.Offset.Y > before, "%s, touch %t", place, touch)
		}
	}
}

// scrolledIn finds the first thing in view that has more than it shows, and what
// in it hears a finger.
func scrolledIn(t *testing.T, b *Bench) (*container.Scroll, fyne.Draggable) {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.body) {
		s, ok := o.(*container.Scroll)
		if !ok || !s.Visible() || s.Content.MinSize().Height <= s.Size().Height+60 {
			continue
		}
		for _, in := range test.LaidOutObjects(s.Content) {
			if d, ok := in.(fyne.Draggable); ok && fmt.Sprintf("%T", in) != "*fields.Entry" {
				return s, d
			}
		}
	}
	t.Fatal("nothing scrolls in " + b.at)
	return nil, nil
}
