package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// FilterLife shows airflow, filter drop and blower watts, one band each, as
// dust gathers, up to the month in which each option's filter is changed.
func FilterLife(s *sizing.Study, look Look) *plot.Plot { return filterLife(s, look).done() }

// lifeBand is one quantity of the life chart. The bands share the time axis and
// are stacked on an upright axis, whose ticks show the values.
type lifeBand struct {
	title  string
	value  func(sizing.LifePoint) units.Quantity
	base   float64 // lower edge on the upright axis
	height float64
	share  float64 // of the height that holds lines; the rest holds the title
	lo, hi float64
	empty  bool
}

func (b *lifeBand) at(v float64) float64 {
	return b.base + b.height*b.share*(v-b.lo)/(b.hi-b.lo)
}

func (b *lifeBand) top() float64 { return b.base + b.height }

func filterLife(s *sizing.Study, look Look) *frame {
	f := newFrame(look, "Time in service, months", "")
	bands := f.lifeBands(s)
	months := 0.0
	for i := range s.Options {
		for _, p := range s.Options[i].LifeCurve {
			if m := p.Time.In(units.Month); finite(m) {
				months = max(months, m)
			}
		}
	}
	span(&f.X, 0, months*1.02)
	span(&f.Y, 0, 1)
	if len(bands) > 0 {
		span(&f.Y, 0, bands[0].top())
	}
	f.bandAxis(bands)
	for i := range s.Options {
		if o := &s.Options[i]; !noFilter(o) && len(o.LifeCurve) > 0 {
			f.life(i, o, bands)
		}
	}
	f.notes.margin = f.look.points(14)
	return f
}

// lifeBands are airflow, drop and watts from the top, as far as the Study has
// them, with their ranges.
func (f *frame) lifeBands(s *sizing.Study) []*lifeBand {
	all := []*lifeBand{
		{height: 1.5, title: "Airflow, " + f.look.unit(s.DesignAirflow), value: func(p sizing.LifePoint) units.Quantity { return p.Airflow }},
		{height: 1, title: "Filter drop, " + f.look.unit(s.RatedExternalStatic), value: func(p sizing.LifePoint) units.Quantity { return p.Drop }},
		{height: 1, title: "Blower power, W", value: func(p sizing.LifePoint) units.Quantity { return p.Power }},
	}
	var kept []*lifeBand
	for _, b := range all {
		if b.measure(s, f.look); !b.empty {
			kept = append(kept, b)
		}
	}
	base := 0.0
	for _, b := range slices.Backward(kept) {
		b.base, b.share = base, max(0.98-0.3*f.look.Scale, 0.5)
		base = b.top()
	}
	return kept
}

func (b *lifeBand) measure(s *sizing.Study, look Look) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.Options {
		if noFilter(&s.Options[i]) {
			continue
		}
		for _, p := range s.Options[i].LifeCurve {
			if v := look.in(b.value(p)); finite(v) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	b.empty = lo > hi || (lo == 0 && hi == 0)
	pad := 0.08 * (hi - lo)
	if pad == 0 {
		pad = 0.1 * math.Abs(hi)
	}
	b.lo, b.hi = max(0, lo-pad), hi+pad
}

// bandAxis puts ticks with each band's own values and a title over each band.
func (f *frame) bandAxis(bands []*lifeBand) {
	var ticks plot.ConstantTicks
	for _, b := range bands {
		for _, t := range f.bandTicks(b.lo, b.hi) {
			ticks = append(ticks, plot.Tick{Value: b.at(t.Value), Label: t.Label})
		}
		at := plotter.XY{X: f.X.Min, Y: b.top()}
		f.notes.words = append(f.notes.words, note{texts: []string{b.title}, at: at,
			where: []where{{at: at, shift: vg.Point{X: 6, Y: -2}, dy: 1}}, colour: f.look.Ink, bold: true, weight: 99})
		if b.base > 0 {
			f.Add(stroke{plotter.XYs{{X: f.X.Min, Y: b.base}, {X: f.X.Max, Y: b.base}}, f.look.line(f.look.Faint, 1, nil)})
		}
	}
	if len(bands) == 0 {
		ticks = plot.ConstantTicks{{Label: "   "}} // room for the first number of the axis below
		at := plotter.XY{X: f.X.Max / 2, Y: f.Y.Max / 2}
		f.notes.words = append(f.notes.words, note{texts: []string{"no filter to follow"}, at: at, where: []where{{at: at, dx: 0.5, dy: 0.5}}, colour: f.look.Faint})
	}
	f.Y.Tick.Marker = ticks
}

// bandTicks are a few round values, in large text only the first and the last.
func (f *frame) bandTicks(lo, hi float64) []plot.Tick {
	if f.look.Scale <= 1.2 {
		return roundTicks{3}.Ticks(lo, hi)
	}
	fine := roundTicks{10}.Ticks(lo, hi)
	return []plot.Tick{fine[0], fine[len(fine)-1]}
}

// life draws one option through every band and marks the change at its end.
func (f *frame) life(i int, o *sizing.OptionResult, bands []*lifeBand) {
	colour := f.look.series(i)
	style := f.look.line(colour, lineWidth, nil)
	when := o.Life.Kind().Number(o.Life.SI(), f.look.Units) + " months"
	word := note{colour: colour, weight: endWeight(i, false), texts: []string{
		short(o.Name, 22) + ": change at " + when, short(o.Name, 18) + ": " + when, short(o.Name, 12) + ": " + when}}
	for _, b := range bands {
		var points plotter.XYs
		for _, p := range o.LifeCurve {
			points = append(points, plotter.XY{X: p.Time.In(units.Month), Y: b.at(f.look.in(b.value(p)))})
		}
		points = keepFinite(points)
		if len(points) == 0 {
			continue
		}
		f.curve(points, style)
		change := readOff(points, o.Life.In(units.Month))
		f.point(change, f.look.mark(i, true))
		for _, w := range around(change) {
			w.low, w.high = b.base, b.top()
			word.where = append(word.where, w)
		}
	}
	f.notes.words = append(f.notes.words, word)
}

// readOff reads a line, ordered by x, at x; outside it gives the nearer end.
func readOff(points plotter.XYs, x float64) plotter.XY {
	if x <= points[0].X || !finite(x) {
		return points[0]
	}
	for i := 1; i < len(points); i++ {
		if a, b := points[i-1], points[i]; x <= b.X {
			return plotter.XY{X: x, Y: a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)}
		}
	}
	return points[len(points)-1]
}
