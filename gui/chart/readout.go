package chart

import (
	"image/color"
	"returnbench/gui/look"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// readout is what lies over a chart: the cross and the dot on a line or the
// frame round a piece of a bar, and the words.
type readout struct {
	upright, level *canvas.Line
	dot            *canvas.Circle
	piece          *canvas.Rectangle
	plate          *canvas.Rectangle
	words          [3]*canvas.Text // what it is, values: of a line two in a row
	ring           *canvas.Rectangle
}

func (o *readout) build() {
	o.upright, o.level = canvas.NewLine(color.Transparent), canvas.NewLine(color.Transparent)
	o.dot = canvas.NewCircle(color.Transparent)
	o.piece = canvas.NewRectangle(color.Transparent)
	o.plate = canvas.NewRectangle(color.Transparent)
	o.ring = canvas.NewRectangle(color.Transparent)
	for i := range o.words {
		o.words[i] = canvas.NewText("", color.Transparent)
	}
}

func (o *readout) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{o.upright, o.level, o.dot, o.piece, o.plate, o.words[0], o.words[1], o.words[2], o.ring}
}

func (o *readout) paint(c *Chart) {
	th := c.Theme()
	o.ring.StrokeColor = look.Of(th, theme.ColorNamePrimary)
	o.ring.StrokeWidth = 2
	o.ring.CornerRadius = th.Size(theme.SizeNameInputRadius)
	o.ring.Resize(c.raster.Size())
	for _, one := range o.objects() {
		visible := c.shown
		switch one {
		case o.ring:
			visible = c.focused
		case o.upright, o.level, o.dot:
			visible = c.shown && !c.onBar()
		case o.piece:
			visible = c.shown && c.onBar()
		}
		if visible {
			one.Show()
		} else {
			one.Hide()
		}
	}
	if c.shown {
		if c.onBar() {
			o.paintPiece(c, th)
		} else {
			o.paintCross(c, th)
		}
		o.paintWords(c, th)
	}
	// Parts that were hidden until now are not known to the window yet and could
	// not ask it to be drawn; the chart can. Its picture is kept, not drawn again.
	canvas.Refresh(c)
}

func (o *readout) paintCross(c *Chart, th fyne.Theme) {
	k := float32(c.scale())
	a := c.at.Area
	x, y := float32(c.hit.X)/k, float32(c.hit.Y)/k
	left, right := float32(a.MinX)/k, float32(a.MaxX)/k
	top, bottom := float32(a.MinY)/k, float32(a.MaxY)/k
	ink := look.Of(th, theme.ColorNameForeground)
	for _, l := range []*canvas.Line{o.upright, o.level} {
		l.StrokeColor, l.StrokeWidth = ink, 1
	}
	o.upright.Position1, o.upright.Position2 = fyne.NewPos(x, top), fyne.NewPos(x, bottom)
	o.level.Position1, o.level.Position2 = fyne.NewPos(left, y), fyne.NewPos(right, y)
	const radius = 4
	o.dot.FillColor = look.Of(th, theme.ColorNameInputBackground)
	o.dot.StrokeColor, o.dot.StrokeWidth = ink, 2
	o.dot.Resize(fyne.NewSquareSize(2 * radius))
	o.dot.Move(fyne.NewPos(x-radius, y-radius))
}

// paintWords puts the plate beside the dot, on the side with more room.
func (o *readout) paintWords(c *Chart, th fyne.Theme) {
	texts := [3]string{c.hit.Label}
	inRow := 2
	if c.onBar() {
		inRow = 1
	}
	for i, v := range c.hit.Values {
		row := &texts[min(1+i/inRow, 2)]
		if *row != "" {
			*row += ", "
		}
		*row += v
	}
	pad := th.Size(theme.SizeNameInnerPadding)
	width, height := float32(0), float32(0)
	for i, w := range o.words {
		w.Text = texts[i]
		w.Color = look.Of(th, theme.ColorNameForeground)
		w.TextSize = th.Size(theme.SizeNameCaptionText)
		w.TextStyle.Bold = i == 0
		if w.Text != "" {
			m := w.MinSize()
			width, height = fyne.Max(width, m.Width), height+m.Height
		}
	}
	size := fyne.NewSize(width+2*pad, height+2*pad)
	k := float32(c.scale())
	x, y := float32(c.hit.X)/k, float32(c.hit.Y)/k
	all := c.raster.Size()
	const off = 10
	px, py := x+off, y-off-size.Height
	if px+size.Width > all.Width {
		px = x - off - size.Width
	}
	if py < 0 {
		py = y + off
	}
	px = fyne.Max(0, fyne.Min(px, all.Width-size.Width))
	py = fyne.Max(0, fyne.Min(py, all.Height-size.Height))
	o.plate.FillColor = look.Of(th, look.Raised)
	o.plate.StrokeColor, o.plate.StrokeWidth = look.Of(th, theme.ColorNameInputBorder), 1
	o.plate.CornerRadius = th.Size(theme.SizeNameInputRadius)
	o.plate.Resize(size)
	o.plate.Move(fyne.NewPos(px, py))
	py += pad
	for _, w := range o.words {
		m := w.MinSize()
		w.Resize(m)
		w.Move(fyne.NewPos(px+pad, py))
		if w.Text != "" {
			py += m.Height
		}
	}
}
