package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

// NewVScroll is the toolkit's, and under the setting for a finger also moves with
// a finger that is drawn over what it holds.
func NewVScroll(content fyne.CanvasObject) *container.Scroll {
	s := container.NewVScroll(nil)
	s.Content = DragContent(s, content)
	return s
}

// DragContent is what a scroll is to hold, so that a finger moves it.
func DragContent(scroll *container.Scroll, content fyne.CanvasObject) *fyne.Container {
	return container.NewStack(newDragPad(scroll), content)
}

// dragPad lies under what a scroll holds. The toolkit's own scroll moves with a
// finger on telephones alone.
type dragPad struct {
	widget.BaseWidget
	scroll *container.Scroll
}

var _ fyne.Draggable = (*dragPad)(nil)

func newDragPad(scroll *container.Scroll) *dragPad {
	p := &dragPad{scroll: scroll}
	p.ExtendBaseWidget(p)
	return p
}

// Dragged moves the scroll with the finger.
func (p *dragPad) Dragged(d *fyne.DragEvent) { DragScroll(p.scroll, p.Theme(), d) }

// DragEnd has nothing to end.
func (p *dragPad) DragEnd() {}

// CreateRenderer draws nothing.
func (p *dragPad) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(&fyne.Container{})
}

// DragScroll moves a scroll with a finger, under the setting for one. A mouse has
// its wheel, and draws frames and selects instead.
func DragScroll(scroll *container.Scroll, th fyne.Theme, d *fyne.DragEvent) {
	if th.Size(look.Target) > 0 {
		scroll.Scrolled(&fyne.ScrollEvent{PointEvent: d.PointEvent, Scrolled: d.Dragged})
	}
}
