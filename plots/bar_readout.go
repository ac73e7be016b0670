package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// BarPiece is a piece of a bar as it was drawn, with its read-out.
type BarPiece struct {
	Label  string   // "Today, loaded"
	Part   string   // "filter", empty where a bar is one piece
	Values []string // "filter 0.454 in. w.c.", "external static 0.944 in. w.c."
	Box    Area
	Bar    int // counted from the top
}

// pieces are the pieces of the bars on a data canvas, from the top and from the
// left; dots turns a place on the canvas into a pixel.
func (b *bars) pieces(data vg.Rectangle, p *plot.Plot, dots func(vg.Point) Pixel) []BarPiece {
	if b.shown == 0 {
		return nil
	}
	c := draw.Canvas{Rectangle: data}
	var labels []string
	for _, g := range b.inView() {
		for _, r := range g.rows {
			labels = append(labels, b.look.state(b.look.name(g.name), r.state))
		}
	}
	var out []BarPiece
	pitch, gap := b.pace(data)
	row := 0
	b.eachRow(data.Max.Y, pitch, gap, func(r bar, middle vg.Length) {
		b.eachPiece(c, p, r, middle, pitch, func(q piece, box vg.Rectangle) {
			low, high := dots(box.Min), dots(box.Max)
			out = append(out, BarPiece{Label: labels[row], Part: q.name, Values: b.values(r, q), Bar: row,
				Box: Area{MinX: low.X, MaxX: high.X, MinY: high.Y, MaxY: low.Y}})
		})
		row++
	})
	return out
}

// values are the read-out of a piece: its own value, and the whole bar's where
// that has more than one piece.
func (b *bars) values(r bar, q piece) []string {
	whole := b.look.say(b.whole, "value", r.read)
	if q.name == "" {
		return []string{whole}
	}
	return []string{b.look.say("{part} {value}", "part", q.name, "value", q.read), whole}
}

// BarHit is the read-out of a piece of a bar, by its index in Bars.
func (t Transform) BarHit(i int) Hit {
	p := t.Bars[i]
	x, y := (p.Box.MinX+p.Box.MaxX)/2, (p.Box.MinY+p.Box.MaxY)/2
	h := Hit{Line: i, Label: p.Label, Values: p.Values, X: x, Y: y, Box: p.Box}
	h.At.X, h.At.Y = t.PixelToData(x, y)
	return h
}

// BarAt finds the piece of a bar under a pixel; false where there is none.
func (t Transform) BarAt(px, py float64) (Hit, bool) {
	for i, p := range t.Bars {
		if px >= p.Box.MinX && px <= p.Box.MaxX && py >= p.Box.MinY && py <= p.Box.MaxY {
			return t.BarHit(i), true
		}
	}
	return Hit{}, false
}

// BarBeside is the next piece of the same bar, to the right or, by -1, to the
// left; the last one stays.
func (t Transform) BarBeside(i, by int) int {
	if n := i + by; n >= 0 && n < len(t.Bars) && t.Bars[n].Bar == t.Bars[i].Bar {
		return n
	}
	return i
}

// BarEnd is the last piece of the same bar to the right or, by -1, to the left.
func (t Transform) BarEnd(i, by int) int {
	for n := t.BarBeside(i, by); n != i; n = t.BarBeside(i, by) {
		i = n
	}
	return i
}

// BarBelow is the same part of the next bar down or, by -1, up, and round from
// the last to the first; where that bar has no such part, its nearest piece.
func (t Transform) BarBelow(i, by int) int {
	first, last := t.Bars[0].Bar, t.Bars[len(t.Bars)-1].Bar
	for bar := t.Bars[i].Bar + by; ; bar += by {
		if bar > last {
			bar = first
		}
		if bar < first {
			bar = last
		}
		if n := t.like(i, bar); n >= 0 {
			return n
		}
	}
}

// like is the piece of a bar that is most like another one, -1 in a bar without
// pieces.
func (t Transform) like(i, bar int) int {
	best, least := -1, math.Inf(1)
	for n, p := range t.Bars {
		if p.Bar != bar {
			continue
		}
		if p.Part == t.Bars[i].Part {
			return n
		}
		if d := math.Abs(p.Box.MinX + p.Box.MaxX - t.Bars[i].Box.MinX - t.Bars[i].Box.MaxX); d < least {
			best, least = n, d
		}
	}
	return best
}
