package gui

import (
	"fyne.io/fyne/v2"

	"returnbench/gui/widgets"
)

// shellLayout puts the banner across the top and the column of places at the
// left of the place in view. The column comes last among the objects, so that
// the tab key goes through the fields first.
type shellLayout struct{}

// MinSize leaves the banner out: it takes what room its words need at the
// width there is.
func (shellLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	body, nav := o[1].MinSize(), o[2].MinSize()
	if !o[2].Visible() {
		return body
	}
	return fyne.NewSize(nav.Width+body.Width, fyne.Max(body.Height, nav.Height))
}

// Layout gives the banner its width first, since its height follows from it.
func (shellLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	banner, body, nav := o[0], o[1], o[2]
	w := float32(0)
	if nav.Visible() {
		w = nav.MinSize().Width
	}
	nav.Move(fyne.NewPos(0, 0))
	nav.Resize(fyne.NewSize(w, size.Height))
	top := float32(0)
	if banner.Visible() {
		banner.Move(fyne.NewPos(w, 0))
		top = widgets.Settle(banner, size.Width-w)
	}
	body.Move(fyne.NewPos(w, top))
	body.Resize(fyne.NewSize(size.Width-w, size.Height-top))
}
