package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/notices"
	"returnbench/sizing"
	"returnbench/sizing/export"
)

// cautions stand before the first work order of a job. They cannot be confirmed
// before the last of them has been in view.
type cautions struct {
	scroll *container.Scroll
	read   *widget.Check
	object fyne.CanvasObject
}

func newCautions(confirmed func()) *cautions {
	c := &cautions{}
	box := container.NewVBox(notices.NewNotice(sizing.Stop, lang.T("Before any work on the equipment"), ""))
	for _, w := range export.Cautions() {
		box.Add(notices.NewNotice(sizing.Caution, lang.T(w), ""))
	}
	c.scroll = container.NewVScroll(container.NewPadded(box))
	c.scroll.OnScrolled = func(fyne.Position) { c.look() }
	c.read = widget.NewCheck(lang.T("I have read all of these cautions"), func(on bool) {
		if on {
			confirmed()
		}
	})
	c.read.Disable()
	c.object = container.New(&watched{after: c.look}, c.scroll, c.read)
	return c
}

// look lets the cautions be confirmed once their end has been in view.
func (c *cautions) look() {
	content, view := c.scroll.Content.Size().Height, c.scroll.Size().Height
	if view > 0 && c.scroll.Offset.Y+view >= content-1 {
		c.read.Enable()
	}
}

// watched lays the tick under the list, which gives way where there is little
// room, and tells when that is done.
type watched struct{ after func() }

func (w *watched) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height)
}

func (w *watched) Layout(o []fyne.CanvasObject, size fyne.Size) {
	h := o[1].MinSize().Height
	o[0].Resize(fyne.NewSize(size.Width, size.Height-h)) // texts wrap to the width
	list := min(size.Height-h, o[0].(*container.Scroll).Content.MinSize().Height)
	o[0].Resize(fyne.NewSize(size.Width, list))
	o[1].Move(fyne.NewPos(0, list))
	o[1].Resize(fyne.NewSize(size.Width, h))
	w.after()
}
