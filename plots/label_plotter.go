package plots

import (
	"image/color"
	"math"
	"returnbench/plots/labels"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// labelPlotter is the plotter of a chart's labels. They are laid out when the chart
// is drawn, because only then the room is known.
type labelPlotter struct {
	look      Look
	heading   []string // title of the upright axis, from long to short
	margin    vg.Length
	beside    []string // words that the margin keeps room for
	words     []chartLabel
	lines     []plotter.XYs
	obstacles []obstacle
	laid      labelLayout
	memory    *memory // where the words stood last; nil: not known
}

// plates are the backgrounds of the labels.
type plates struct{ of *labelPlotter }

// Plot draws the ground of every word.
func (g plates) Plot(c draw.Canvas, p *plot.Plot) {
	for _, w := range g.of.arrange(&c, p).words {
		c.SetColor(g.of.look.Background)
		c.Fill(w.Box.Path())
	}
}

// labelLayout is how the words were laid out last.
type labelLayout struct {
	area     vg.Rectangle
	x, y     scale
	words    []labels.Placed
	complete bool // every label that must be shown is shown
	everLaid bool
}

// chartLabel is a word of the chart, placed by data.
type chartLabel struct {
	texts    []string
	at       plotter.XY
	end      bool
	line     plotter.XYs // the label may be placed beside it where its own places are out of view
	where    []position
	colour   color.Color
	bold     bool
	weight   int
	spare    bool // the word may be left out
	inLegend bool // a legend can say it
}

// position is a candidate: a point of the data, a shift in points, and how
// the word lies on it.
type position struct {
	at     plotter.XY
	shift  vg.Point
	dx, dy float64
	// Levels of the upright axis that the word stays between; equal for any.
	low, high float64
}

// obstacle is a marker that words keep clear of.
type obstacle struct {
	at     plotter.XY
	radius vg.Length
}

// around lists the positions round a point, nearest and most usual first.
func around(at plotter.XY) []position {
	var out []position
	for _, d := range []vg.Length{labels.Gap + 2, 2.5 * labels.Gap, 5 * labels.Gap, 8 * labels.Gap} {
		out = append(out,
			position{at: at, shift: vg.Point{X: d}, dx: 0, dy: 0.5},
			position{at: at, shift: vg.Point{X: d / 2, Y: d}, dx: 0, dy: 0},
			position{at: at, shift: vg.Point{X: d / 2, Y: -d}, dx: 0, dy: 1},
			position{at: at, shift: vg.Point{Y: d}, dx: 0.5, dy: 0},
			position{at: at, shift: vg.Point{Y: -d}, dx: 0.5, dy: 1},
			position{at: at, shift: vg.Point{X: -d}, dx: 1, dy: 0.5},
			position{at: at, shift: vg.Point{X: -d / 2, Y: d}, dx: 1, dy: 0},
			position{at: at, shift: vg.Point{X: -d / 2, Y: -d}, dx: 1, dy: 1})
	}
	return out
}

// along lists positions above and below a level line, from the left.
func along(y, x0, x1 float64) []position {
	var out []position
	for i := range 9 {
		t := float64(i) / 8
		at := plotter.XY{X: x0 + (x1-x0)*t, Y: y}
		out = append(out, position{at: at, shift: vg.Point{X: 4 * vg.Length(1-2*t), Y: 2}, dx: t, dy: 0}, position{at: at, shift: vg.Point{X: 4 * vg.Length(1-2*t), Y: -3}, dx: t, dy: 1})
	}
	return out
}

// beside lists positions right and left of an upright line, from the bottom.
func beside(x, y0, y1 float64) []position {
	var out []position
	for i := range 9 {
		t := float64(i) / 8
		at := plotter.XY{X: x, Y: y0 + (y1-y0)*t}
		out = append(out, position{at: at, shift: vg.Point{X: 4, Y: 4 * vg.Length(1-2*t)}, dx: 0, dy: t}, position{at: at, shift: vg.Point{X: -4, Y: 4 * vg.Length(1-2*t)}, dx: 1, dy: t})
	}
	return out
}

// underEnd lists positions at the lower end of a curve, where its name cannot
// be taken for another curve's.
func underEnd(end plotter.XY) []position {
	return []position{
		{at: end, shift: vg.Point{Y: -3}, dx: 0.5, dy: 1},
		{at: end, shift: vg.Point{X: 5}, dx: 0, dy: 0.3},
		{at: end, shift: vg.Point{X: 5, Y: -2}, dx: 0, dy: 1},
	}
}

// alongCurve lists positions beside points of a curve, from its start.
func alongCurve(points plotter.XYs) []position {
	var out []position
	for _, side := range []struct{ dx, dy float64 }{{1, 1}, {0, 0}, {0, 1}, {1, 0}} {
		for _, p := range points {
			shift := vg.Point{X: vg.Length(1-2*side.dx) * 4, Y: vg.Length(1-2*side.dy) * 3}
			out = append(out, position{at: p, shift: shift, dx: side.dx, dy: side.dy})
		}
	}
	return out
}

func (n *labelPlotter) style(w chartLabel) text.Style { return n.look.words(w.colour, w.bold) }

func (n *labelPlotter) headingStyle() text.Style { return n.look.words(n.look.Ink, false) }

// GlyphBoxes keeps room above the chart for the title of the upright axis and
// at its right for words that stand outside.
func (n *labelPlotter) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	var out []plot.GlyphBox
	if len(n.heading) > 0 {
		h := textBox(n.headingStyle(), n.heading[0]).Y + n.look.points(6)
		out = append(out, plot.GlyphBox{Y: 1, Rectangle: vg.Rectangle{Max: vg.Point{Y: h}}})
	}
	// Some room in any case: the last number of the axis extends beyond it.
	m := max(n.margin, n.look.points(8))
	return append(out, plot.GlyphBox{X: 1, Rectangle: vg.Rectangle{Max: vg.Point{X: m}}})
}

// Plot draws the words.
func (n *labelPlotter) Plot(c draw.Canvas, p *plot.Plot) {
	n.writeHeading(c)
	words := n.arrange(&c, p).words
	for _, w := range words {
		if w.Leader {
			n.leader(c, w.Tip, w.Box, n.words[w.Label].colour)
		}
	}
	for _, w := range words {
		write(c, n.style(n.words[w.Label]), w.Box.Min, w.Text)
	}
	n.memory.keep(n.words, words)
}

// writeHeading writes the longest heading that fits.
func (n *labelPlotter) writeHeading(c draw.Canvas) {
	if h, ok := n.headingIn(c.Rectangle); ok {
		write(c, n.headingStyle(), vg.Point{X: c.Min.X, Y: c.Max.Y + n.look.points(4)}, h)
	}
}

// headingIn is the longest heading that fits over the data; false where none
// does.
func (n *labelPlotter) headingIn(data vg.Rectangle) (string, bool) {
	s, room := n.headingStyle(), data.Max.X+n.margin-data.Min.X
	for _, h := range n.heading {
		if s.Width(h) <= room {
			return h, true
		}
	}
	return "", len(n.heading) == 0
}

// leader joins a word to its point.
func (n *labelPlotter) leader(c draw.Canvas, at vg.Point, box vg.Rectangle, ink color.Color) {
	to := vg.Point{X: min(max(at.X, box.Min.X), box.Max.X), Y: min(max(at.Y, box.Min.Y), box.Max.Y)}
	if at.X < box.Min.X {
		to = vg.Point{X: box.Min.X - 1, Y: (box.Min.Y + box.Max.Y) / 2}
	}
	c.StrokeLine2(n.look.line(ink, 0.75, nil), at.X, at.Y, to.X, to.Y)
}

// arrange lays the words out on a data canvas; once for the same one.
func (n *labelPlotter) arrange(c *draw.Canvas, p *plot.Plot) labelLayout {
	area := c.Rectangle
	area.Max.X += n.margin
	x, y := scaleOf(p.X), scaleOf(p.Y)
	if l := n.laid; l.everLaid && l.area == area && l.x == x && l.y == y {
		return l
	}
	list := make([]labels.Label, len(n.words))
	styles := make([]text.Style, len(n.words))
	due := 0
	for i, w := range n.words {
		list[i], styles[i] = w.label(c, p), n.style(w)
		n.memory.recall(i, n.words, &list[i])
		if !w.spare && (list[i].End || len(list[i].Anchors) > 0) {
			due++
		}
	}
	words := labels.Place(area, n.segments(c, p), list, func(i int, t string) vg.Point { return textBox(styles[i], t) })
	named, hidden := 0, 0
	for _, w := range words {
		if !n.words[w.Label].spare {
			due--
		}
		if n.words[w.Label].inLegend {
			named, hidden = named+1, hidden+w.Crossings
		}
	}
	n.laid = labelLayout{area: area, x: x, y: y, words: words, complete: due == 0 && 2*hidden <= named, everLaid: true}
	return n.laid
}

// label is a word with its places on the canvas. A point out of view is not
// named; a line that crosses the view is named beside itself.
func (w chartLabel) label(c *draw.Canvas, p *plot.Plot) labels.Label {
	l := labels.Label{Texts: w.texts, At: place(c, p, w.at), Weight: w.weight, Optional: w.spare}
	const slack = 0.5 // points
	seen := func(at vg.Point) bool {
		return at.X >= c.Min.X-slack && at.X <= c.Max.X+slack && at.Y >= c.Min.Y-slack && at.Y <= c.Max.Y+slack
	}
	if l.End = w.end && seen(l.At); l.End {
		return l
	}
	for _, s := range w.where {
		if a := s.anchor(c, p); seen(a.Tip) {
			l.Anchors = append(l.Anchors, a)
		}
	}
	if len(l.Anchors) == 0 {
		for _, s := range alongCurve(inView(w.line, p)) {
			l.Anchors = append(l.Anchors, s.anchor(c, p))
		}
	}
	if !w.spare {
		l.Texts = nil
		for _, t := range w.texts {
			l.Texts = append(l.Texts, t)
			if two := labels.TwoLines(t); two != t {
				l.Texts = append(l.Texts, two)
			}
		}
	}
	return l
}

// inView are points along a line within the axes' ranges, close enough together
// for words to be placed by.
func inView(line plotter.XYs, p *plot.Plot) plotter.XYs {
	const pieces = 8
	var out plotter.XYs
	for i, b := range line {
		a := line[max(i-1, 0)]
		for k := 1; k <= pieces; k++ {
			t := float64(k) / pieces
			at := plotter.XY{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
			if x, y := p.X.Norm(at.X), p.Y.Norm(at.Y); x >= 0 && x <= 1 && y >= 0 && y <= 1 {
				out = append(out, at)
			}
		}
	}
	const enough = 24
	if step := len(out)/enough + 1; step > 1 {
		kept := out[:0]
		for i := 0; i < len(out); i += step {
			kept = append(kept, out[i])
		}
		out = kept
	}
	return out
}

func (w position) anchor(c *draw.Canvas, p *plot.Plot) labels.Anchor {
	tip := place(c, p, w.at)
	a := labels.Anchor{At: tip.Add(w.shift), DX: w.dx, DY: w.dy, Tip: tip}
	if w.low != w.high {
		a.Within = vg.Rectangle{
			Min: vg.Point{X: c.Min.X, Y: c.Y(p.Y.Norm(w.low))},
			Max: vg.Point{X: vg.Length(math.Inf(1)), Y: c.Y(p.Y.Norm(w.high))},
		}
	}
	return a
}

// segments are the lines and markers as pieces on the canvas.
func (n *labelPlotter) segments(c *draw.Canvas, p *plot.Plot) []labels.Segment {
	var out []labels.Segment
	for _, w := range n.lines {
		for i := 1; i < len(w); i++ {
			out = append(out, labels.Segment{A: place(c, p, w[i-1]), B: place(c, p, w[i])})
		}
	}
	for _, s := range n.obstacles {
		at := place(c, p, s.at)
		out = append(out,
			labels.Segment{A: at.Add(vg.Point{X: -s.radius}), B: at.Add(vg.Point{X: s.radius})},
			labels.Segment{A: at.Add(vg.Point{Y: -s.radius}), B: at.Add(vg.Point{Y: s.radius})})
	}
	return out
}

func up(points float64) vg.Point { return vg.Point{Y: vg.Points(points)} }
