package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/plots/labels"
	"returnbench/sizing/units"
)

// frame is a chart being made: its plot, its look, and the labels that are
// placed among its lines when it is drawn.
type frame struct {
	*plot.Plot
	look  Look
	notes *labelPlotter
	lines []ReadoutLine // that can be read off
	bars  *bars         // of a chart of bars
	key   legend
	axis  string // title of the level axis, on one line
	least int    // lines of text that the data's height must hold
	room  room   // as laid out last
	layer layer  // that is drawn on now
	drawn []onLayer
}

// layer orders what is drawn: later layers cover earlier ones.
type layer int

const (
	layerGround layer = iota // grid and bands
	layerLimits              // limits and targets, which a word may stand on
	layerPlates              // the ground of words, over limits and under every curve
	layerOther
	layerHouse // the blower
	layerPointed
	layerToday
	layerChosen
	layerWords
)

type onLayer struct {
	layer layer
	what  plot.Plotter
}

// layer is where the lines of a rank are drawn.
func (r rank) layer() layer {
	switch r {
	case rankPointed:
		return layerPointed
	case rankToday:
		return layerToday
	case rankChosen:
		return layerChosen
	}
	return layerOther
}

// Add draws on the current layer.
func (f *frame) Add(all ...plot.Plotter) {
	for _, what := range all {
		f.drawn = append(f.drawn, onLayer{f.layer, what})
	}
}

// newFrame makes an empty chart with grid and axes. The title of the vertical
// axis is written horizontally above it, which is easier to read.
func newFrame(look Look, x, y string) *frame {
	look = look.complete()
	p := plot.New()
	p.BackgroundColor = look.Background
	p.Title.TextStyle = look.words(look.Ink, true)
	p.Title.TextStyle.XAlign, p.Title.TextStyle.YAlign = draw.XCenter, draw.YTop
	p.Title.Padding = look.points(6)
	p.X.Label.Text = x
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.LineStyle = look.line(look.Faint, 1, nil)
		a.Tick.LineStyle = a.LineStyle
		a.Tick.Length = look.points(4)
		a.Padding = 0
		copyTextStyle(&a.Label.TextStyle, look.words(look.Ink, false))
		copyTextStyle(&a.Tick.Label, look.words(look.Ink, false))
	}
	p.X.Tick.Marker = roundTicks{n: int(7 / look.Scale), units: look.Units}
	p.Y.Tick.Marker = roundTicks{n: int(6 / look.Scale), units: look.Units}
	grid := plotter.NewGrid()
	grid.Vertical = look.line(look.Grid, 0.75, nil)
	grid.Horizontal = grid.Vertical
	n := &labelPlotter{look: look}
	if y != "" {
		n.heading = []string{y}
	}
	f := &frame{Plot: p, look: look, notes: n, key: legend{look: look}, axis: x, least: 4}
	f.Add(grid)
	f.layer = layerHouse
	return f
}

// copyTextStyle changes face, size and color and leaves the axis's alignment.
func copyTextStyle(s *text.Style, to text.Style) {
	s.Font, s.Color, s.Handler = to.Font, to.Color, to.Handler
}

// done gives the plot everything in the order of the layers. The ground of a
// word lies under every curve, so that no word rubs one out.
func (f *frame) done() *plot.Plot {
	f.drawn = append(f.drawn, onLayer{layerPlates, plates{f.notes}}, onLayer{layerWords, f.notes})
	slices.SortStableFunc(f.drawn, func(a, b onLayer) int { return cmp.Compare(a.layer, b.layer) })
	for _, d := range f.drawn {
		f.Plot.Add(d.what)
	}
	f.drawn = nil
	return f.Plot
}

// span sets the range of an axis, widened where it is empty.
func span(a *plot.Axis, lo, hi float64) {
	if !finite(lo) {
		lo = 0
	}
	if !finite(hi) || hi <= lo {
		hi = lo + max(1, math.Abs(lo)*0.1)
	}
	a.Min, a.Max = lo, hi
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// in gives a quantity as a number of the look's usual unit.
func (l Look) in(q units.Quantity) float64 {
	return q.Kind().Usual(l.Units).FromSI(q.SI())
}

// unit names the look's usual unit of a quantity's kind.
func (l Look) unit(q units.Quantity) string { return q.Kind().Usual(l.Units).Name }

// stroke draws a line and dot a marker. Unlike the library's own they leave the
// range of the axes and the padding alone: the chart has set both.
type (
	stroke struct {
		points plotter.XYs
		style  draw.LineStyle
	}
	dot struct {
		at    plotter.XY
		style draw.GlyphStyle
	}
)

// Plot draws the line where it lies in the chart.
func (s stroke) Plot(c draw.Canvas, p *plot.Plot) {
	line := make([]vg.Point, len(s.points))
	for i, at := range s.points {
		line[i] = place(&c, p, at)
	}
	c.StrokeLines(s.style, c.ClipLinesXY(line)...)
}

// Plot draws the marker where it lies in the chart.
func (d dot) Plot(c draw.Canvas, p *plot.Plot) {
	if at := place(&c, p, d.at); labels.Inside(vg.Rectangle{Min: at, Max: at}, c.Rectangle) {
		c.DrawGlyph(d.style, at)
	}
}

// curve adds a line; marks its point where there is but one.
func (f *frame) curve(points plotter.XYs, style draw.LineStyle) {
	points = keepFinite(points)
	switch len(points) {
	case 0:
	case 1:
		f.point(points[0], draw.GlyphStyle{Color: style.Color, Radius: f.look.points(3), Shape: marker{paper: f.look.Background}})
	default:
		f.Add(stroke{points, style})
		f.notes.lines = append(f.notes.lines, points)
	}
}

// readable adds a line that can be read off.
func (f *frame) readable(l ReadoutLine, style draw.LineStyle) {
	f.curve(l.Points, style)
	if len(l.Points) > 0 {
		f.lines = append(f.lines, l)
	}
}

// point adds a marker.
func (f *frame) point(at plotter.XY, style draw.GlyphStyle) {
	if !finite(at.X, at.Y) {
		return
	}
	f.Add(dot{at, style})
	f.notes.obstacles = append(f.notes.obstacles, obstacle{at: at, radius: style.Radius * 1.4})
}

func keepFinite(points plotter.XYs) plotter.XYs {
	out := make(plotter.XYs, 0, len(points))
	for _, p := range points {
		if finite(p.X, p.Y) {
			out = append(out, p)
		}
	}
	return out
}

// between cuts a line, ordered by x, to a range of x.
func between(points plotter.XYs, lo, hi float64) plotter.XYs {
	var out plotter.XYs
	for i, p := range points {
		if i > 0 {
			q := points[i-1]
			for _, edge := range []float64{lo, hi} {
				if (q.X < edge) != (p.X < edge) && p.X != edge && q.X != edge {
					out = append(out, plotter.XY{X: edge, Y: q.Y + (p.Y-q.Y)*(edge-q.X)/(p.X-q.X)})
				}
			}
		}
		if p.X >= lo && p.X <= hi {
			out = append(out, p)
		}
	}
	return out
}

// hiddenLine keeps a line that is not drawn: its numbers are still the chart's.
func (f *frame) hiddenLine(l ReadoutLine) {
	if len(l.Points) > 0 {
		l.Hidden = true
		f.lines = append(f.lines, l)
	}
}

// lastObstacle is the line drawn last, as an obstacle for labels.
func (f *frame) lastObstacle() plotter.XYs {
	if n := len(f.notes.lines); n > 0 {
		return f.notes.lines[n-1]
	}
	return nil
}

// levelLine is a horizontal limit across the chart, uprightLine a vertical
// target.
func (f *frame) levelLine(y float64, style draw.LineStyle) {
	f.limit(plotter.XYs{{X: f.X.Min, Y: y}, {X: f.X.Max, Y: y}}, style)
}

func (f *frame) uprightLine(x float64, style draw.LineStyle) {
	f.limit(plotter.XYs{{X: x, Y: f.Y.Min}, {X: x, Y: f.Y.Max}}, style)
}

// limit draws a line that ends behind a word: it crosses the whole chart, and where all
// of it is crowded a word has no other place.
func (f *frame) limit(points plotter.XYs, style draw.LineStyle) {
	was := f.layer
	f.layer = layerLimits
	f.curve(points, style)
	f.layer = was
}

// place maps a point of the data to the canvas.
func place(c *draw.Canvas, p *plot.Plot, at plotter.XY) vg.Point {
	return vg.Point{X: c.X(p.X.Norm(at.X)), Y: c.Y(p.Y.Norm(at.Y))}
}
