package lesson

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

// answer is one of a few things to choose from, with words of any length.
type answer struct {
	widget.BaseWidget
	widgets.Highlight
	label  *widget.Label
	note   *widget.Label // what came out of it
	choose func()
	keys   func(fyne.KeyName) bool // true: the key was taken
	chosen bool
	off    bool
}

var (
	_ desktop.Hoverable = (*answer)(nil)
	_ fyne.Focusable    = (*answer)(nil)
	_ fyne.Tappable     = (*answer)(nil)
)

func newAnswer(text string, choose func()) *answer {
	a := &answer{label: widget.NewLabel(text), note: widget.NewLabel(""), choose: choose}
	a.Changed = a.Refresh
	a.label.Wrapping = fyne.TextWrapWord
	a.note.TextStyle.Bold = true
	a.ExtendBaseWidget(a)
	return a
}

func (a *answer) set(chosen, off bool, note string, importance widget.Importance) {
	a.chosen, a.off = chosen, off
	if a.note.Text != note || a.note.Importance != importance {
		a.note.Importance = importance
		a.note.SetText(note)
	}
	a.Refresh()
}

// Tapped chooses it.
func (a *answer) Tapped(*fyne.PointEvent) {
	if !a.off {
		a.choose()
	}
}

// TypedKey chooses on Return or the space bar.
func (a *answer) TypedKey(k *fyne.KeyEvent) {
	if a.keys != nil && a.keys(k.Name) {
		return
	}
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		a.Tapped(nil)
	}
}

// CreateRenderer draws a ring, filled where it is chosen, the words, and what
// came of it.
func (a *answer) CreateRenderer() fyne.WidgetRenderer {
	r := &answerRenderer{a: a, ground: canvas.NewRectangle(color.Transparent), ring: canvas.NewCircle(color.Transparent), dot: canvas.NewCircle(color.Transparent)}
	r.box = container.NewBorder(nil, nil, nil, a.note, a.label)
	r.paint()
	return r
}

type answerRenderer struct {
	a         *answer
	ground    *canvas.Rectangle
	ring, dot *canvas.Circle
	box       *fyne.Container
}

func (r *answerRenderer) Destroy() {}

func (r *answerRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.ring, r.dot, r.box}
}

// mark is the width of the ring with its room.
func (r *answerRenderer) mark() float32 { return r.a.Theme().Size(theme.SizeNameText) * 1.7 }

func (r *answerRenderer) MinSize() fyne.Size { return r.box.MinSize().AddWidthHeight(r.mark(), 0) }

func (r *answerRenderer) Layout(size fyne.Size) {
	m := r.mark()
	r.ground.Resize(size)
	d := m * 0.55
	line := fyne.Min(size.Height, m*1.15)
	r.ring.Resize(fyne.NewSquareSize(d))
	r.ring.Move(fyne.NewPos((m-d)/2+2, (line-d)/2))
	r.dot.Resize(fyne.NewSquareSize(d * 0.5))
	r.dot.Move(fyne.NewPos((m-d)/2+2+d*0.25, (line-d)/2+d*0.25))
	r.box.Move(fyne.NewPos(m, 0))
	r.box.Resize(fyne.NewSize(size.Width-m, size.Height))
}

func (r *answerRenderer) Refresh() {
	r.paint()
	r.box.Refresh()
	canvas.Refresh(r.a)
}

func (r *answerRenderer) paint() {
	th := r.a.Theme()
	r.ground.CornerRadius = th.Size(theme.SizeNameInputRadius)
	r.ground.FillColor, r.ground.StrokeColor, r.ground.StrokeWidth = color.Transparent, color.Transparent, 0
	switch {
	case r.a.chosen:
		r.ground.FillColor = look.Of(th, theme.ColorNameHeaderBackground)
	case r.a.Hovered && !r.a.off:
		r.ground.FillColor = look.Of(th, theme.ColorNameHover)
	}
	if r.a.Focused {
		r.ground.StrokeColor, r.ground.StrokeWidth = look.Of(th, theme.ColorNamePrimary), 2
	}
	ink := look.Of(th, theme.ColorNameForeground)
	if r.a.off {
		ink = look.Of(th, theme.ColorNameDisabled)
	}
	r.ring.StrokeColor, r.ring.StrokeWidth = ink, 1.5
	r.dot.FillColor = color.Transparent
	if r.a.chosen {
		r.dot.FillColor = look.Of(th, theme.ColorNamePrimary)
	}
}
