package gui

import (
	"fyne.io/fyne/v2"

	"returnbench/gui/widgets"
)

// shellLayout puts the strip over all, and the column of places at the left of
// the place in view, and tips over all of them. The place comes first among the
// objects, so that the tab key goes through its fields first.
type shellLayout struct{}

// MinSize has room for all three.
func (shellLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := o[0].MinSize()
	if strip := o[1]; strip.Visible() {
		size.Width = fyne.Max(size.Width, strip.MinSize().Width)
	}
	if nav := o[2]; nav.Visible() {
		least := nav.MinSize()
		size = fyne.NewSize(least.Width+size.Width, fyne.Max(size.Height, least.Height))
	}
	if strip := o[1]; strip.Visible() {
		size.Height += strip.MinSize().Height
	}
	return size
}

// Layout gives the strip the height that its width asks for, and the column its
// least width.
func (shellLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	body, strip, nav := o[0], o[1], o[2]
	top, w := float32(0), float32(0)
	if strip.Visible() {
		strip.Move(fyne.NewPos(0, 0))
		top = widgets.ResizeToWidth(strip, size.Width)
	}
	if nav.Visible() {
		w = nav.MinSize().Width
	}
	nav.Move(fyne.NewPos(0, top))
	nav.Resize(fyne.NewSize(w, size.Height-top))
	for _, tips := range o[3:] {
		tips.Resize(size)
	}
	body.Move(fyne.NewPos(w, top))
	body.Resize(fyne.NewSize(size.Width-w, size.Height-top))
}

// layOut gives everything in view the room that it needs by now.
func (b *Bench) layOut() {
	if b.onScreen {
		layOut(b.window)
	}
}

// layOut does before a picture what the toolkit would do as it draws it: what it
// lays out then counts as one more change, so that it draws the whole window a
// second time. Where the content's least size became another, SetPadded lets the
// toolkit hold the window to it.
func layOut(w fyne.Window) {
	c, ok := w.Canvas().(interface{ EnsureMinSize() bool })
	if ok && c.EnsureMinSize() {
		w.SetPadded(false)
	}
}
