package plots

import (
	"math"

	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
)

// Side is a house before a change, or after it: one option of one Study, with
// one state of its filter.
type Side struct {
	Name   string // "start, 10 pleats"
	Study  *sizing.Study
	Option string
	Loaded bool // the filter is at its change limit
}

func (s Side) result() *sizing.OptionResult { return s.Study.Option(s.Option) }

func (s Side) at() *sizing.Condition {
	if s.Loaded {
		return &s.result().Loaded
	}
	return &s.result().Clean
}

func (s Side) system() []sizing.CurvePoint {
	if s.Loaded {
		return s.result().SystemLoaded
	}
	return s.result().SystemClean
}

// blower is the curve of the tap that the option runs on.
func (s Side) blower() []sizing.CurvePoint {
	for _, t := range s.Study.Blower.Taps {
		if t.IsOf(s.result()) {
			return t.Curve
		}
	}
	return nil
}

// same reports whether two sides show the same thing.
func (s Side) same(o Side) bool {
	return s.Study == o.Study && s.Option == o.Option && s.Loaded == o.Loaded
}

// BeforeAfter draws a chart of Kinds for two sides, the first in a paler ink.
// The axes of FanAndSystem also cover the sides in room, so that they do not
// move while the second side does. An unknown key gives FanAndSystem.
func BeforeAfter(key string, before, after Side, room []Side, look Look) Chart {
	if key != FanAndSystemKey {
		for _, k := range Kinds() {
			if k.Key == key {
				return k.Of(Of(pair(before, after)), look)
			}
		}
	}
	return newChart(Kind{Key: FanAndSystemKey, Title: fanAndSystemTitle}, look, func(l Look) *frame { return beforeAfter(before, after, room, l) })
}

// pair is a Study that holds both sides as its options.
func pair(before, after Side) *sizing.Study {
	s := *after.Study
	s.Options = nil
	s.Recommendation = sizing.Recommendation{} // the two are before and after
	for _, side := range []Side{before, after} {
		if len(s.Options) == 1 && before.same(after) {
			break
		}
		o := *side.result()
		o.Name, o.Kind = side.Name, sizing.KindToday
		if len(s.Options) > 0 {
			o.Kind = sizing.KindOption
		}
		s.Options = append(s.Options, o)
	}
	return &s
}

func beforeAfter(before, after Side, room []Side, look Look) *frame {
	s := after.Study
	f := newFrame(look, look.airflowAxis(s), look.staticAxis(s))
	f.spanSides(append([]Side{before, after}, room...))
	moved := !before.same(after)
	if moved && !sameCurve(before.blower(), after.blower()) {
		f.sideBlower(before, true)
		f.sideBlower(after, false)
	} else {
		after := after
		after.Name = ""
		f.sideBlower(after, false)
	}
	if rated := f.look.in(s.RatedExternalStatic); rated > 0 {
		f.levelLine(rated, f.look.line(f.look.Limit, thinWidth, dashLimit))
		f.notes.words = append(f.notes.words, chartLabel{
			texts: []string{f.look.say("rated {static}", "static", s.RatedExternalStatic), f.look.say("rated")}, at: plotter.XY{X: f.X.Min, Y: rated}, line: f.lastObstacle(),
			where: along(rated, f.X.Min, f.X.Max), colour: f.look.Limit, weight: 9})
	}
	if design := f.look.in(s.DesignAirflow); design > 0 {
		f.uprightLine(design, f.look.line(f.look.Limit, thinWidth, dashLimit))
		f.notes.words = append(f.notes.words, chartLabel{
			texts: []string{f.look.say("design {airflow}", "airflow", s.DesignAirflow), f.look.say("design")}, at: plotter.XY{X: design, Y: f.Y.Min}, line: f.lastObstacle(),
			where: beside(design, f.Y.Min, f.Y.Max), colour: f.look.Limit, weight: 8})
	}
	f.sideSystem(0, rankToday, before)
	if moved {
		f.sideSystem(1, rankChosen, after)
	}
	return f
}

// spanSides sets the range so that every operating point is in it, with room
// for words at the right.
func (f *frame) spanSides(sides []Side) {
	left, right, top := math.Inf(1), 0.0, 0.0
	for _, s := range sides {
		x, y := f.look.in(s.at().Airflow), f.look.in(s.at().ExternalStatic)
		if finite(x, y) && x > 0 {
			left, right, top = min(left, x), max(right, x), max(top, y)
		}
		top = max(top, f.look.in(s.Study.RatedExternalStatic))
		right = max(right, f.look.in(s.Study.DesignAirflow))
	}
	if math.IsInf(left, 1) {
		left = right
	}
	lo := left * 0.6
	if step := roundStep(left / 10); step > 0 {
		lo = math.Floor(lo/step) * step
	}
	span(&f.X, lo, max(right*1.15, lo+(right*pastPoint-lo)/f.look.lineShare()))
	span(&f.Y, 0, top*1.25)
}

func sameCurve(a, b []sizing.CurvePoint) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// sideBlower draws a side's blower curve, in a paler ink where it is the one
// before the change.
func (f *frame) sideBlower(s Side, left bool) {
	label := f.look.say("Blower")
	if s.Name != "" {
		label = f.look.say("Blower, {setting}", "setting", s.Name)
	}
	line := f.look.curveLine(label, s.blower())
	shown := f.visible(line.Points)
	if len(shown) == 0 {
		return
	}
	ink, w := f.look.Ink, chartLabel{at: shown[0], where: alongCurve(shown), line: line.Points, bold: true, weight: 7}
	if left {
		ink, w.bold, w.weight = f.look.Faint, false, 6
	}
	w.colour, w.texts = ink, []string{f.look.say("blower")}
	if s.Name != "" {
		w.texts = []string{f.look.say("blower, {setting}", "setting", f.look.oneLine(s.Name))}
	}
	f.readable(line, f.look.line(ink, fanWidth, nil))
	f.notes.words = append(f.notes.words, w)
}

func (f *frame) sideSystem(i int, r rank, s Side) {
	colour := f.look.series(r)
	f.layer = r.layer()
	op := plotter.XY{X: f.look.in(s.at().Airflow), Y: f.look.in(s.at().ExternalStatic)}
	if !finite(op.X, op.Y) || op.X <= 0 {
		return
	}
	line := f.look.curveLine(s.Name, s.system()).part(0, op.X*pastPoint)
	style := f.look.line(colour, fanWidth, nil)
	f.readable(line, style)
	points := line.Points
	f.point(op, f.look.marker(i, r, false))
	tip := op
	if n := len(points); n > 0 && points[n-1].X > op.X {
		tip = points[n-1]
	}
	tip.X, tip.Y = min(max(tip.X, f.X.Min), f.X.Max), min(max(tip.Y, f.Y.Min), f.Y.Max)
	name := f.look.oneLine(s.Name)
	long := f.look.say("{setting}: {airflow}", "setting", name, "airflow", s.at().Airflow)
	f.name(chartLabel{texts: []string{long, name}, at: tip, end: true, line: points, colour: colour, bold: i > 0, weight: endWeight(i, false)},
		long, sample{line: style, mark: f.look.marker(i, r, false)})
}
