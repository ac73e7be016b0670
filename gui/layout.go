package gui

import (
	"fyne.io/fyne/v2"

	"returnbench/gui/widgets"
)

// shellLayout puts the column of places at the left of the place in view. The
// column comes last among the objects, so that the tab key goes through the
// fields first.
type shellLayout struct{}

// MinSize has room for both.
func (shellLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	body, nav := o[0].MinSize(), o[1].MinSize()
	if !o[1].Visible() {
		return body
	}
	return fyne.NewSize(nav.Width+body.Width, fyne.Max(body.Height, nav.Height))
}

// Layout gives the column its least width.
func (shellLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	body, nav := o[0], o[1]
	w := float32(0)
	if nav.Visible() {
		w = nav.MinSize().Width
	}
	nav.Move(fyne.NewPos(0, 0))
	nav.Resize(fyne.NewSize(w, size.Height))
	body.Move(fyne.NewPos(w, 0))
	body.Resize(fyne.NewSize(size.Width-w, size.Height))
}

// underBanner puts the banner over the rest.
type underBanner struct{}

// MinSize leaves the banner out: it takes what room its words need at the
// width there is.
func (underBanner) MinSize(o []fyne.CanvasObject) fyne.Size { return o[1].MinSize() }

// Layout gives the banner its width first, since its height follows from it.
func (underBanner) Layout(o []fyne.CanvasObject, size fyne.Size) {
	banner, rest := o[0], o[1]
	top := float32(0)
	if banner.Visible() {
		banner.Move(fyne.NewPos(0, 0))
		top = widgets.ResizeToWidth(banner, size.Width)
	}
	rest.Move(fyne.NewPos(0, top))
	rest.Resize(fyne.NewSize(size.Width, size.Height-top))
}
