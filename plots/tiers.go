package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"returnbench/sizing/units"
)

// tier is one quantity of a chart that stacks several over one horizontal axis.
// The vertical axis is in heights; its ticks show each tier's own values.
type tier struct {
	title  string
	height float64
	share  float64 // of the height that holds lines, the rest holds the title; 0: room for words too
	base   float64 // lower edge on the upright axis
	lo, hi float64
	seen   bool // some value was taken
}

// include widens the tier to hold a value.
func (t *tier) include(v float64) {
	if !finite(v) {
		return
	}
	if !t.seen {
		t.lo, t.hi, t.seen = v, v, true
	}
	t.lo, t.hi = min(t.lo, v), max(t.hi, v)
}

// empty reports whether there is nothing to show.
func (t *tier) empty() bool { return !t.seen || (t.lo == 0 && t.hi == 0) }

// pad leaves room above and below the lines.
func (t *tier) pad() {
	pad := 0.08 * (t.hi - t.lo)
	if pad == 0 {
		pad = 0.1 * math.Abs(t.hi)
	}
	t.lo, t.hi = max(0, t.lo-pad), t.hi+pad
}

// at is the height of a value on the upright axis, value what it reads back.
func (t *tier) at(v float64) float64 { return t.base + t.height*t.share*(v-t.lo)/(t.hi-t.lo) }

func (t *tier) value(at float64) float64 {
	return t.lo + (at-t.base)/(t.height*t.share)*(t.hi-t.lo)
}

func (t *tier) top() float64 { return t.base + t.height }

// stack puts tiers, given from the top, over one another and sets up the
// vertical axis. Tiers with nothing to show are left out.
func (f *frame) stack(tiers []*tier) []*tier {
	kept := slices.DeleteFunc(tiers, (*tier).empty)
	base := 0.0
	for _, t := range slices.Backward(kept) {
		if t.base = base; t.share == 0 {
			t.share = max(0.98-0.3*f.look.Scale, 0.5)
		}
		base = t.top()
	}
	span(&f.Y, 0, max(base, 1))
	for _, t := range kept {
		at := plotter.XY{X: f.X.Min, Y: t.top()}
		f.notes.words = append(f.notes.words, chartLabel{texts: []string{t.title}, at: at,
			where: []position{{at: at, shift: vg.Point{X: 6, Y: -2}, dy: 1}}, colour: f.look.Ink, bold: true, weight: 99})
		if t.base > 0 {
			f.Add(stroke{plotter.XYs{{X: f.X.Min, Y: t.base}, {X: f.X.Max, Y: t.base}}, f.look.line(f.look.Faint, 1, nil)})
		}
	}
	const usual = 14 // until the room is known
	f.Y.Tick.Marker = tierTicks{kept, usual, f.look.Units}
	return kept
}

// tierTicks are a few round values of each tier in view, as many as the height
// of the axis has room for.
type tierTicks struct {
	tiers []*tier
	lines float64 // of text in the height of the axis
	units units.Locale
}

// Ticks gives the ticks of a range of the upright axis.
func (k tierTicks) Ticks(lo, hi float64) []plot.Tick {
	var out []plot.Tick
	for _, t := range k.tiers {
		from, to := max(lo, t.base), min(hi, t.base+t.height*t.share)
		if to > from {
			out = append(out, k.of(t, from, to, (to-from)/(hi-lo))...)
		}
	}
	if len(out) == 0 {
		out = plot.ConstantTicks{{Value: lo, Label: "   "}} // room for the first number of the axis below
	}
	return out
}

// of are the ticks of a tier between two heights that take a share of the axis:
// a few, or where there is no room for them the first and the last, or one.
func (k tierTicks) of(t *tier, from, to, share float64) []plot.Tick {
	lo, hi, lines := t.value(from), t.value(to), share*k.lines
	apart := func(ticks []plot.Tick) bool {
		const least = 1.2 // lines of text from one number to the next
		return len(ticks) < 2 || (ticks[1].Value-ticks[0].Value)/(hi-lo)*lines >= least
	}
	ticks := roundTicks{max(int(lines/2), 2), k.units}.Ticks(lo, hi)
	if !apart(ticks) {
		ticks = roundTicks{10, k.units}.Ticks(lo, hi)
		ticks = []plot.Tick{ticks[0], ticks[len(ticks)-1]}
	}
	if !apart(ticks) {
		ticks = ticks[:1]
	}
	for i := range ticks {
		ticks[i].Value = t.at(ticks[i].Value)
	}
	return ticks
}
