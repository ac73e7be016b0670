package airpath

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

// partButton is the sensitive area of a part.
type partButton struct {
	widget.BaseWidget
	widgets.Highlight
	a    *Drawing
	name string
}

var (
	_ desktop.Cursorable = (*partButton)(nil)
	_ desktop.Hoverable  = (*partButton)(nil)
	_ fyne.Focusable     = (*partButton)(nil)
	_ fyne.Tappable      = (*partButton)(nil)
)

func newPartButton(a *Drawing, name string) *partButton {
	s := &partButton{a: a, name: name}
	s.Changed = s.Refresh
	s.ExtendBaseWidget(s)
	return s
}

// Tapped tells the part.
func (s *partButton) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
	s.open()
}

func (s *partButton) open() {
	if s.a.OnTapped != nil {
		s.a.OnTapped(s.name)
	}
}

// leave gives the keyboard up before the part is no longer drawn.
func (s *partButton) leave() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil && c.Focused() == fyne.Focusable(s) {
		c.Unfocus()
	}
}

// TypedKey enters the part on enter and space.
func (s *partButton) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.open()
	case fyne.KeyRight, fyne.KeyDown:
		s.step(+1)
	case fyne.KeyLeft, fyne.KeyUp:
		s.step(-1)
	}
}

// step gives the keyboard to the next part along the air, or the one before.
func (s *partButton) step(by int) {
	at := slices.Index(s.a.order, s.name) + by
	if at < 0 || at >= len(s.a.order) {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s.a.buttons[s.a.order[at]])
	}
}

// Cursor is a hand over what can be clicked.
func (s *partButton) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer draws the ring of focus and pointer.
func (s *partButton) CreateRenderer() fyne.WidgetRenderer {
	r := &partButtonRenderer{s: s, ring: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type partButtonRenderer struct {
	s    *partButton
	ring *canvas.Rectangle
}

func (r *partButtonRenderer) Destroy()                     {}
func (r *partButtonRenderer) Layout(size fyne.Size)        { r.ring.Resize(size) }
func (r *partButtonRenderer) MinSize() fyne.Size           { return fyne.NewSize(8, 8) }
func (r *partButtonRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.ring} }

func (r *partButtonRenderer) Refresh() {
	th := r.s.Theme()
	r.ring.CornerRadius = th.Size(theme.SizeNameInputRadius)
	switch {
	case r.s.Focused:
		r.ring.StrokeColor, r.ring.StrokeWidth = look.Of(th, theme.ColorNamePrimary), 2
	case r.s.Hovered:
		r.ring.StrokeColor, r.ring.StrokeWidth = look.Of(th, theme.ColorNameInputBorder), 1
	default:
		r.ring.StrokeColor, r.ring.StrokeWidth = color.Transparent, 0
	}
	r.ring.Refresh()
}
