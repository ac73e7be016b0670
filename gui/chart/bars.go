package chart

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
)

// HasBars reports whether the chart is one of bars.
func (c *Chart) HasBars() bool { return len(c.at.Bars) > 0 }

// barByKey reads another piece of a bar: left and right within a bar, up and
// down the same part of another bar, Home and End the first and last piece.
func (c *Chart) barByKey(k fyne.KeyName) {
	piece := c.curve
	if piece >= len(c.at.Bars) {
		piece = 0
	}
	next := piece
	switch k {
	case fyne.KeyRight:
		next = c.at.BarBeside(piece, 1)
	case fyne.KeyLeft:
		next = c.at.BarBeside(piece, -1)
	case fyne.KeyEnd:
		next = c.at.BarEnd(piece, 1)
	case fyne.KeyHome:
		next = c.at.BarEnd(piece, -1)
	case fyne.KeyDown:
		next = c.at.BarBelow(piece, 1)
	case fyne.KeyUp:
		next = c.at.BarBelow(piece, -1)
	default:
		return
	}
	if c.shown {
		piece = next
	}
	c.readBar(piece)
}

// readBar shows a piece of a bar.
func (c *Chart) readBar(piece int) {
	c.curve = piece
	c.show(c.at.BarHit(piece))
}

// readBarAt shows the piece of a bar under a pixel, or none.
func (c *Chart) readBarAt(px, py float64) {
	if hit, ok := c.at.BarAt(px, py); ok {
		c.readBar(hit.Line)
		return
	}
	c.hide()
}

// onBar reports whether the read-out is on a piece of a bar.
func (c *Chart) onBar() bool { return c.hit.Box.MaxX > c.hit.Box.MinX }

// paintPiece draws a frame round the piece that is read.
func (o *readout) paintPiece(c *Chart, th fyne.Theme) {
	k := float32(c.scale())
	box := c.hit.Box
	const out = 2 // units of the widget, so that the frame lies round the piece
	o.piece.StrokeColor, o.piece.StrokeWidth = look.Of(th, theme.ColorNameForeground), 2
	o.piece.Move(fyne.NewPos(float32(box.MinX)/k-out, float32(box.MinY)/k-out))
	o.piece.Resize(fyne.NewSize(float32(box.MaxX-box.MinX)/k+2*out, float32(box.MaxY-box.MinY)/k+2*out))
}
