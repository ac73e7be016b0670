package plots

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// ReadoutLine is a line of a chart that a pointer can read.
type ReadoutLine struct {
	Label  string      // "Today, clean"
	Option string      // whose it is; empty for the house's own
	Hidden bool        // not drawn: it cannot be pointed at
	Points plotter.XYs // as drawn, in the units of the axes
	Values []Values    // what is read at each point
}

// Values are the values of one quantity along a line.
type Values struct {
	Name string    // "airflow"
	At   []float64 // one a point: SI, or of Unit where Kind is nil
	Kind *units.Kind
	Unit string // of a plain number
	// Ratios is true where the value between two points is interpolated in its
	// logarithm, as on a logarithmic axis.
	Ratios bool
}

// quantities are the values of a quantity along a line.
func quantities[Q units.Quantity, P any](name string, points []P, of func(P) Q) Values {
	var zero Q
	v := Values{Name: name, Kind: zero.Kind(), At: make([]float64, len(points))}
	for i, p := range points {
		v.At[i] = of(p).SI()
	}
	return v
}

// plain are values of no quantity of the engine, with their unit.
func plain(name, unit string, at []float64) Values { return Values{Name: name, Unit: unit, At: at} }

// between is the value at a share of the way from point i-1 to point i.
func (v Values) between(i int, share float64) float64 {
	a, b := v.At[max(i-1, 0)], v.At[i]
	if v.Ratios && a > 0 && b > 0 {
		return a * math.Pow(b/a, share)
	}
	return a + share*(b-a)
}

func (v Values) show(value float64, sys units.Locale) string {
	if v.Kind != nil {
		return v.Kind.Show(value, sys)
	}
	return strings.TrimSpace(sys.Mark(strconv.FormatFloat(value, 'g', 3, 64)) + " " + v.Unit)
}

// heading is the name with the unit in use.
func (v Values) heading(sys units.Locale) string {
	unit := v.Unit
	if v.Kind != nil {
		unit = v.Kind.Usual(sys).Label()
	}
	if unit == "" {
		return v.Name
	}
	return message.Text(sys, "{quantity}, {unit}", "quantity", v.Name, "unit", unit)
}

// part keeps the points of a line, ordered by x, between lo and hi, with new
// ones at the two ends where the line goes on.
func (l ReadoutLine) part(lo, hi float64) ReadoutLine {
	out := ReadoutLine{Label: l.Label, Option: l.Option, Hidden: l.Hidden, Values: slices.Clone(l.Values)}
	for k := range out.Values {
		out.Values[k].At = nil
	}
	add := func(i int, share float64) {
		a, b := l.Points[max(i-1, 0)], l.Points[i]
		out.Points = append(out.Points, plotter.XY{X: a.X + share*(b.X-a.X), Y: a.Y + share*(b.Y-a.Y)})
		for k, v := range l.Values {
			out.Values[k].At = append(out.Values[k].At, v.between(i, share))
		}
	}
	for i, p := range l.Points {
		if i > 0 {
			q := l.Points[i-1]
			for _, edge := range []float64{lo, hi} {
				if (q.X < edge) != (p.X < edge) && p.X != edge && q.X != edge {
					add(i, (edge-q.X)/(p.X-q.X))
				}
			}
		}
		if p.X >= lo && p.X <= hi {
			add(i, 1)
		}
	}
	return out
}

// finite is the line without points that are no numbers.
func (l ReadoutLine) finite() ReadoutLine {
	bad := func(p plotter.XY) bool { return !finite(p.X, p.Y) }
	if !slices.ContainsFunc(l.Points, bad) {
		return l
	}
	out := ReadoutLine{Label: l.Label, Option: l.Option, Hidden: l.Hidden, Values: slices.Clone(l.Values)}
	for k := range out.Values {
		out.Values[k].At = nil
	}
	for i, p := range l.Points {
		if bad(p) {
			continue
		}
		out.Points = append(out.Points, p)
		for k, v := range l.Values {
			out.Values[k].At = append(out.Values[k].At, v.At[i])
		}
	}
	return out
}

// Hit is the point of a line nearest to the pointer, or the piece of a bar
// under it.
type Hit struct {
	Line     int // index among the lines, or the pieces of bars
	Label    string
	Values   []string   // what is read there, with units: "1043 cfm"
	At       plotter.XY // in the units of the axes
	X, Y     float64    // its pixel
	Distance float64    // from the pointer, in pixels
	Box      Area       // of the piece of a bar that is read, empty on a line
}

// Show writes the hit in one line: "Today, clean: 1043 cfm, 0.620 in. w.c.".
func (h Hit) Show() string { return h.Label + ": " + strings.Join(h.Values, ", ") }

// Nearest finds the line nearest to a pixel, as it is drawn by t. Only what
// lies in the chart counts. It is false where no line does.
func Nearest(lines []ReadoutLine, t Transform, px, py float64) (Hit, bool) {
	best := Hit{Distance: math.Inf(1)}
	if !t.Valid() {
		return best, false
	}
	var at int
	var along float64
	for n, l := range lines {
		if l.Hidden {
			continue
		}
		for i, p := range l.Points {
			a := l.Points[max(i-1, 0)]
			ax, ay := t.DataToPixel(a.X, a.Y)
			bx, by := t.DataToPixel(p.X, p.Y)
			lo, hi, ok := t.inside(ax, ay, bx, by)
			if !ok {
				continue
			}
			share := min(max(nearestShare(ax, ay, bx, by, px, py), lo), hi)
			x, y := ax+share*(bx-ax), ay+share*(by-ay)
			if d := math.Hypot(x-px, y-py); d < best.Distance {
				best, at, along = Hit{Line: n, Label: l.Label, X: x, Y: y, Distance: d}, i, share
			}
		}
	}
	if math.IsInf(best.Distance, 0) {
		return best, false
	}
	best.At.X, best.At.Y = t.PixelToData(best.X, best.Y)
	for _, v := range lines[best.Line].Values {
		best.Values = append(best.Values, v.show(v.between(at, along), t.Units))
	}
	return best, true
}

// Pixel is a point of a picture.
type Pixel struct{ X, Y float64 }

// Path is the part of a line that lies in the chart, as drawn by t.
func (l ReadoutLine) Path(t Transform) []Pixel {
	var out []Pixel
	add := func(p Pixel) {
		if n := len(out); n == 0 || math.Hypot(out[n-1].X-p.X, out[n-1].Y-p.Y) > 1e-9 {
			out = append(out, p)
		}
	}
	if !t.Valid() {
		return nil
	}
	for i, p := range l.Points {
		a := l.Points[max(i-1, 0)]
		ax, ay := t.DataToPixel(a.X, a.Y)
		bx, by := t.DataToPixel(p.X, p.Y)
		if lo, hi, ok := t.inside(ax, ay, bx, by); ok {
			add(Pixel{ax + lo*(bx-ax), ay + lo*(by-ay)})
			add(Pixel{ax + hi*(bx-ax), ay + hi*(by-ay)})
		}
	}
	return out
}

// inside gives the shares between which a piece of line lies in the chart.
func (t Transform) inside(ax, ay, bx, by float64) (lo, hi float64, ok bool) {
	if !finite(ax, ay, bx, by) {
		return 0, 0, false
	}
	lo, hi = 0, 1
	const slack = 1e-6 // pixels
	for _, e := range [4]struct{ p, q float64 }{
		{ax - bx, ax - t.Area.MinX + slack}, {bx - ax, t.Area.MaxX - ax + slack},
		{ay - by, ay - t.Area.MinY + slack}, {by - ay, t.Area.MaxY - ay + slack},
	} {
		switch {
		case e.p == 0:
			if e.q < 0 {
				return 0, 0, false
			}
		case e.p < 0:
			lo = max(lo, e.q/e.p)
		default:
			hi = min(hi, e.q/e.p)
		}
	}
	return lo, hi, lo <= hi
}

// nearestShare is how far along a piece of line its point nearest to p lies,
// 0 to 1.
func nearestShare(ax, ay, bx, by, px, py float64) float64 {
	dx, dy := bx-ax, by-ay
	long := dx*dx + dy*dy
	if !(long > 0) {
		return 0
	}
	return min(max(((px-ax)*dx+(py-ay)*dy)/long, 0), 1)
}

// curveLine is a fan or system curve as a line of the chart.
func (l Look) curveLine(label string, curve []sizing.CurvePoint) ReadoutLine {
	out := ReadoutLine{Label: label, Points: make(plotter.XYs, len(curve)), Values: []Values{
		quantities(l.say("airflow"), curve, func(p sizing.CurvePoint) units.Flow { return p.Airflow }),
		quantities(l.say("external static"), curve, func(p sizing.CurvePoint) units.Pressure { return p.Static }),
	}}
	for i, p := range curve {
		out.Points[i] = plotter.XY{X: l.in(p.Airflow), Y: l.in(p.Static)}
	}
	if slices.ContainsFunc(curve, func(p sizing.CurvePoint) bool { return p.Power > 0 }) {
		out.Values = append(out.Values, quantities(l.say("power"), curve, func(p sizing.CurvePoint) units.Power { return p.Power }))
	}
	return out.finite()
}
