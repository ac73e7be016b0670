package chart

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/plots"
)

// View is the part of the chart in view.
func (c *Chart) View() plots.View { return c.view }

// CanZoom reports whether the chart has curves, which can be enlarged.
func (c *Chart) CanZoom() bool { return len(c.lines) > 0 }

// ResetZoom shows the whole chart.
func (c *Chart) ResetZoom() { c.zoomTo(plots.WholeView()) }

// Steps of the wheel, of the keys and of the arrows.
const (
	wheelStep = 0.985 // of the view, a unit of the wheel
	keyZoom   = 0.8
	keyPan    = 0.1 // of the view
)

// Scrolled looks closer about the pointer, or further away.
func (c *Chart) Scrolled(e *fyne.ScrollEvent) {
	if by := math.Pow(wheelStep, float64(e.Scrolled.DY)); by > 0 && by != 1 {
		x, y := c.share(e.Position)
		c.zoomTo(c.view.Zoom(min(max(by, 0.5), 2), x, y))
	}
}

// ZoomIn looks closer about the read-out, or the middle.
func (c *Chart) ZoomIn() { c.zoomByKey(keyZoom) }

// ZoomOut looks from further away.
func (c *Chart) ZoomOut() { c.zoomByKey(1 / keyZoom) }

func (c *Chart) zoomByKey(by float64) {
	x, y := 0.5, 0.5
	if c.shown {
		x, y = c.at.Share(c.hit.X, c.hit.Y)
	}
	c.zoomTo(c.view.Zoom(by, x, y))
}

// TypedRune zooms: plus, minus, and zero for the whole.
func (c *Chart) TypedRune(r rune) {
	switch r {
	case '+', '=':
		c.ZoomIn()
	case '-', '_':
		c.ZoomOut()
	case '0':
		c.ResetZoom()
	}
}

// panByKey moves the part in view; false where the key is no arrow.
func (c *Chart) panByKey(k fyne.KeyName) bool {
	move, ok := map[fyne.KeyName][2]float64{
		fyne.KeyLeft: {-keyPan, 0}, fyne.KeyRight: {keyPan, 0}, fyne.KeyUp: {0, keyPan}, fyne.KeyDown: {0, -keyPan},
	}[k]
	if ok {
		c.zoomTo(c.view.Pan(move[0], move[1]))
	}
	return ok
}

// share is the place of a position in the part in view.
func (c *Chart) share(at fyne.Position) (x, y float64) {
	k := c.scale()
	if !c.at.Valid() {
		return 0.5, 0.5
	}
	x, y = c.at.Share(float64(at.X)*k, float64(at.Y)*k)
	return min(max(x, 0), 1), min(max(y, 0), 1)
}

// zoomTo draws the chart again in another view. The read-out stays on its point
// where that is still in view.
func (c *Chart) zoomTo(v plots.View) {
	if v == c.view || (!c.CanZoom() && !v.IsWhole()) {
		return
	}
	c.view, c.stale = v, true
	held, at, curve := c.shown, c.hit.At, c.curve
	c.shown = false
	if c.frame != nil {
		c.draw(c.frame.Rect.Dx(), c.frame.Rect.Dy())
		if px, py := c.at.DataToPixel(at.X, at.Y); held && c.at.Inside(px, py) {
			c.read(curve, px, py)
		}
	}
	c.raster.Refresh()
	c.overlay.paint(c)
	if c.OnView != nil {
		c.OnView()
	}
}

// drag is a frame drawn with the pointer round what is to be looked at.
type drag struct {
	on       bool
	from, to fyne.Position
	box      *canvas.Rectangle
}

// leastDrag is the side below which a frame counts as accidental.
const leastDrag = 8

func (d *drag) frame() *canvas.Rectangle {
	if d.box == nil {
		d.box = canvas.NewRectangle(color.Transparent)
		d.box.StrokeWidth = 2
		d.box.Hide()
	}
	return d.box
}

// Dragged draws the frame.
func (c *Chart) Dragged(e *fyne.DragEvent) {
	if !c.CanZoom() || !c.at.Valid() {
		return
	}
	d := &c.drag
	if !d.on {
		d.on, d.from = true, e.Position.Subtract(e.Dragged)
		c.Tapped(nil) // plus, minus and zero go on from here
		c.hide()
	}
	d.to = e.Position
	box := d.frame()
	box.StrokeColor = look.Of(c.Theme(), theme.ColorNamePrimary)
	size := c.raster.Size()
	x0, x1 := between(d.from.X, d.to.X, size.Width)
	y0, y1 := between(d.from.Y, d.to.Y, size.Height)
	box.Move(fyne.NewPos(x0, y0))
	box.Resize(fyne.NewSize(x1-x0, y1-y0))
	box.Show()
	canvas.Refresh(c)
}

// between puts two coordinates in order, within a length.
func between(a, b, length float32) (lo, hi float32) {
	lo, hi = fyne.Min(a, b), fyne.Max(a, b)
	return fyne.Max(lo, 0), fyne.Min(hi, length)
}

// DragEnd looks at what the frame holds.
func (c *Chart) DragEnd() {
	d := &c.drag
	if !d.on {
		return
	}
	d.on = false
	d.frame().Hide()
	canvas.Refresh(c)
	off := d.to.Subtract(d.from)
	if fyne.Max(off.X, -off.X) < leastDrag || fyne.Max(off.Y, -off.Y) < leastDrag {
		return
	}
	x0, y0 := c.share(d.from)
	x1, y1 := c.share(d.to)
	c.zoomTo(c.view.Part(x0, y0, x1, y1))
}
