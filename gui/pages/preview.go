package pages

import (
	"context"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/plots/report"
)

// preview shows one page at a time, whole or large enough to read.
type preview struct {
	work         func(work func(context.Context) error, done func(error))
	before, next *widget.Button
	count        *widget.Label
	large        *widget.Check
	image        *canvas.Image
	scroll       *container.Scroll
	view         *fyne.Container
	object       fyne.CanvasObject

	pages *report.Pages
	page  int // from 1
	turn  int
}

// readable is the resolution at which a page is read, in dots an inch of the
// toolkit's own measure.
const readable = 96

func newPreview(work func(work func(context.Context) error, done func(error))) *preview {
	p := &preview{work: work, page: 1}
	p.before = widget.NewButton(lang.T("Previous"), func() { p.turnTo(p.page - 1) })
	p.next = widget.NewButton(lang.T("Next"), func() { p.turnTo(p.page + 1) })
	p.count = widget.NewLabel("")
	p.large = widget.NewCheck(lang.T("large enough to read"), func(bool) { p.draw() })
	p.image = canvas.NewImageFromImage(nil)
	p.image.FillMode = canvas.ImageFillContain
	p.image.ScaleMode = canvas.ImageScaleSmooth
	p.scroll = container.NewScroll(p.image)
	p.view = container.NewStack()
	bar := widgets.NewFlow(p.before, p.count, p.next, p.large)
	p.object = container.NewBorder(bar, nil, nil, nil, p.view)
	return p
}

// Show puts pages in view, at the same page as before where there is one.
func (p *preview) Show(pages *report.Pages) {
	if pages == p.pages {
		return
	}
	p.pages = pages
	p.turnTo(min(p.page, pages.Count))
}

func (p *preview) turnTo(page int) {
	p.page = max(page, 1)
	p.count.SetText(lang.T("page {page} of {pages}", "page", p.page, "pages", p.pages.Count))
	able(p.before, p.page > 1)
	able(p.next, p.page < p.pages.Count)
	p.scroll.Offset = fyne.Position{}
	p.draw()
}

func able(b *widget.Button, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

// draw makes the page's picture away from the window's thread, as sharp as the
// screen shows it.
func (p *preview) draw() {
	if p.pages == nil {
		return
	}
	p.turn++
	turn, pages, page, large := p.turn, p.pages, p.page, p.large.Checked
	dpi := readable * p.sharpness()
	var img image.Image
	p.work(func(context.Context) (err error) {
		img, err = pages.Picture(page, dpi)
		return err
	}, func(err error) {
		if turn == p.turn && err == nil {
			p.put(img, large, dpi)
		}
	})
}

// sharpness is real pixels for each of the toolkit's own.
func (p *preview) sharpness() float64 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p.view); c != nil {
		return min(max(float64(c.Scale()), 1), 4)
	}
	return 1
}

func (p *preview) put(img image.Image, large bool, dpi float64) {
	p.image.Image = img
	p.image.SetMinSize(fyne.Size{})
	if large {
		size := img.Bounds().Size()
		k := float32(readable / dpi)
		p.image.SetMinSize(fyne.NewSize(float32(size.X)*k, float32(size.Y)*k))
		p.scroll.Refresh()
		p.view.Objects = []fyne.CanvasObject{p.scroll}
	} else {
		p.view.Objects = []fyne.CanvasObject{p.image}
	}
	p.view.Refresh()
	p.image.Refresh()
}
