package widgets

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

const (
	tipDelay = 500 * time.Millisecond
	tipWidth = 360 // at scale 1
	tipGap   = 4   // between the tip and what it is of
)

// Tooltips shows a sentence beside what the pointer rests on, over all else in a window.
// It takes neither pointer nor keys, which the toolkit's pop-ups take from the field that
// is typed into.
type Tooltips struct {
	widget.BaseWidget
	// Wait calls a function on the window's thread after a while.
	Wait func(time.Duration, func())

	over  fyne.CanvasObject // nil: the pointer rests on nothing that has a tip
	at    fyne.Position     // in it
	size  fyne.Size
	text  string
	turn  int
	shown bool
	plate *canvas.Rectangle
	box   *fyne.Container
}

// NewTooltips makes the layer; the content of a window has it as its last object.
func NewTooltips() *Tooltips {
	t := &Tooltips{plate: canvas.NewRectangle(color.Transparent), box: &fyne.Container{}}
	t.Wait = func(d time.Duration, f func()) { time.AfterFunc(d, func() { fyne.Do(f) }) }
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer draws the tip, if there is one.
func (t *Tooltips) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.box) }

// Text is the tip in view, empty where there is none.
func (t *Tooltips) Text() string {
	if !t.shown {
		return ""
	}
	return t.text
}

// Clear takes the tip away.
func (t *Tooltips) Clear() {
	t.over, t.text = nil, ""
	t.turn++
	if t.shown {
		t.shown = false
		t.box.Objects = nil
		t.box.Refresh()
		canvas.Refresh(t)
	}
}

func (t *Tooltips) hover(o fyne.CanvasObject, at fyne.Position, size fyne.Size, text string) {
	if t.over == o && t.text == text {
		return
	}
	t.Clear()
	if text == "" {
		return
	}
	t.over, t.at, t.size, t.text = o, at, size, text
	turn := t.turn
	t.Wait(tipDelay, func() {
		if t.turn == turn {
			t.show()
		}
	})
}

// show puts the tip under what it is of, or over it where there is no room.
func (t *Tooltips) show() {
	th := t.Theme()
	size, pad := th.Size(theme.SizeNameText), th.Size(theme.SizeNameInnerPadding)
	width := func(s string) float32 { return fyne.MeasureText(s, size, fyne.TextStyle{}).Width }
	all := t.Size()
	most := fyne.Min(tipWidth*TextScale(th), all.Width-2*look.Margin) - 2*pad
	lines, _ := wrap(t.text, most, len(t.text), width)
	t.plate.FillColor = look.Of(th, look.Raised)
	t.plate.StrokeColor, t.plate.StrokeWidth = look.Of(th, theme.ColorNameInputBorder), 1
	t.plate.CornerRadius = th.Size(theme.SizeNameInputRadius)
	t.box.Objects = []fyne.CanvasObject{t.plate}
	wide, high := float32(0), float32(0)
	for _, line := range lines {
		text := canvas.NewText(line, look.Of(th, theme.ColorNameForeground))
		text.TextSize = size
		text.Move(fyne.NewPos(pad, pad+high))
		text.Resize(text.MinSize())
		wide, high = fyne.Max(wide, text.MinSize().Width), high+text.MinSize().Height
		t.box.Objects = append(t.box.Objects, text)
	}
	tip := fyne.NewSize(wide+2*pad, high+2*pad)
	driver := fyne.CurrentApp().Driver()
	from := driver.AbsolutePositionForObject(t.over).Subtract(driver.AbsolutePositionForObject(t)).Add(t.at)
	x, y := fyne.Max(0, fyne.Min(from.X, all.Width-tip.Width)), from.Y+t.size.Height+tipGap
	if y+tip.Height > all.Height {
		y = fyne.Max(0, fyne.Min(from.Y-tipGap, all.Height)-tip.Height)
	}
	for _, o := range t.box.Objects {
		o.Move(o.Position().AddXY(x, y))
	}
	t.plate.Move(fyne.NewPos(x, y))
	t.plate.Resize(tip)
	t.shown = true
	t.box.Refresh()
	canvas.Refresh(t)
}

// HoverOn reports that the pointer is on a part of an object, of which the window's layer
// of tips shows a text after a while; an empty text ends the one before.
func HoverOn(o fyne.CanvasObject, at fyne.Position, size fyne.Size, text string) {
	if t := tooltipsOf(o); t != nil {
		t.hover(o, at, size, text)
	}
}

// HoverEnds reports that the pointer has left an object.
func HoverEnds(o fyne.CanvasObject) {
	if t := tooltipsOf(o); t != nil && t.over == o {
		t.Clear()
	}
}

// tooltipsOf is the layer of an object's window; nil: it has none.
func tooltipsOf(o fyne.CanvasObject) *Tooltips {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		return nil
	}
	content, ok := c.Content().(*fyne.Container)
	if !ok {
		return nil
	}
	for _, one := range content.Objects {
		if t, ok := one.(*Tooltips); ok {
			return t
		}
	}
	return nil
}

// HoverTip is embedded by a widget that shows a sentence about what the pointer is over.
type HoverTip struct {
	on   fyne.CanvasObject
	part func(at fyne.Position) (from fyne.Position, size fyne.Size, text string)
}

var _ desktop.Hoverable = (*HoverTip)(nil)

// OnPart sets the widget, and which part of it lies at a place, with the sentence on it;
// an empty one: there is none.
func (r *HoverTip) OnPart(o fyne.CanvasObject, part func(at fyne.Position) (from fyne.Position, size fyne.Size, text string)) {
	r.on, r.part = o, part
}

// OnAll sets the widget, and the sentence on all of it.
func (r *HoverTip) OnAll(o fyne.CanvasObject, text func() string) {
	r.OnPart(o, func(fyne.Position) (fyne.Position, fyne.Size, string) { return fyne.Position{}, o.Size(), text() })
}

// MouseIn has the sentence shown.
func (r *HoverTip) MouseIn(e *desktop.MouseEvent) { r.MouseMoved(e) }

// MouseMoved has it shown too: the window may have taken it away meanwhile.
func (r *HoverTip) MouseMoved(e *desktop.MouseEvent) {
	from, size, text := r.part(e.Position)
	HoverOn(r.on, from, size, text)
}

// MouseOut takes it away.
func (r *HoverTip) MouseOut() { HoverEnds(r.on) }

// TipArea is an unseen area over a label, of which it has a tip shown.
type TipArea struct {
	widget.BaseWidget
	HoverTip
	text string
}

// NewTipArea makes the area with its text.
func NewTipArea(text string) *TipArea {
	a := &TipArea{text: text}
	a.OnAll(a, a.Text)
	a.ExtendBaseWidget(a)
	return a
}

// Text is what it has shown.
func (a *TipArea) Text() string { return a.text }

// CreateRenderer draws nothing.
func (a *TipArea) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
