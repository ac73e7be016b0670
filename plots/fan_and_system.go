package plots

import (
	"math"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// FanAndSystem shows where the blower runs: its curve, and the system curve of
// the house with each filter, clean and at the change limit. Each system curve
// ends just past its operating point, where its label is. Of the options drawn
// in gray only the clean curves are drawn.
func FanAndSystem(s *sizing.Study, look Look) Chart { return fanAndSystemKind.Chart(s, look) }

var fanAndSystemKind = Kind{FanAndSystemKey, fanAndSystemTitle, fanAndSystem}

// FanAndSystemKey is the key of the chart of FanAndSystem.
const FanAndSystemKey = "fan-and-system"

const fanAndSystemTitle message.ID = "Blower and system"

func fanAndSystem(s Subject, look Look) *frame {
	f := newFrame(look, look.airflowAxis(s.Study), look.staticAxis(s.Study))
	f.spanFanAndSystem(s)
	f.bands(s.Study)
	f.blowerCurves(s.Study)
	if rated := f.look.in(s.RatedExternalStatic); rated > 0 {
		f.levelLine(rated, f.look.line(f.look.Limit, thinWidth, dashLimit))
		f.notes.words = append(f.notes.words, chartLabel{
			texts: []string{f.look.say("rated {static}", "static", s.RatedExternalStatic), f.look.say("rated")}, at: plotter.XY{X: f.X.Min, Y: rated},
			line:  f.lastObstacle(),
			where: along(rated, f.X.Min, f.X.Max), colour: f.look.Limit, weight: 9})
	}
	if design := f.look.in(s.DesignAirflow); design > 0 {
		f.uprightLine(design, f.look.line(f.look.Limit, thinWidth, dashLimit))
		f.notes.words = append(f.notes.words, chartLabel{
			texts: []string{f.look.say("design {airflow}", "airflow", s.DesignAirflow), f.look.say("design")}, at: plotter.XY{X: design, Y: f.Y.Min},
			line:  f.lastObstacle(),
			where: beside(design, f.Y.Min, f.Y.Max), colour: f.look.Limit, weight: 8})
	}
	rounds := measuredRounds(s.Study)
	for _, r := range rounds { // first, so that an operating point there shows inside
		f.point(f.measuredAt(r), f.measuredMarker())
	}
	for i := range s.Options {
		o, r := &s.Options[i], s.rank(i)
		f.layer = r.layer()
		f.systemCurve(i, r, o, o.SystemClean, &o.Clean, false)
		if !noFilter(o) {
			f.systemCurve(i, r, o, o.SystemLoaded, &o.Loaded, true)
		}
	}
	f.layer = layerHouse
	f.nameMeasured(rounds)
	f.keyStates()
	return f
}

func (l Look) airflowAxis(s *sizing.Study) string {
	return l.say("Airflow, {unit}", "unit", l.unit(s.DesignAirflow))
}

func (l Look) staticAxis(s *sizing.Study) string {
	return l.say("External static, {unit}", "unit", l.unit(s.RatedExternalStatic))
}

// measuredRounds are those in cooling that read both airflow and static.
func measuredRounds(s *sizing.Study) []*sizing.ReadingResult {
	var out []*sizing.ReadingResult
	for i := range s.Readings {
		r := &s.Readings[i]
		if r.Mode == sizing.Cooling && r.Airflow > 0 && r.ExternalStatic > 0 && s.Option(r.Option) != nil {
			out = append(out, r)
		}
	}
	return out
}

// measuredAt is the measured operating point of a round, before or after the
// work.
func (f *frame) measuredAt(r *sizing.ReadingResult) plotter.XY {
	return plotter.XY{X: f.look.in(r.Airflow), Y: f.look.in(r.ExternalStatic)}
}

// measuredMarker is a ring wide enough for an option's mark inside it.
func (f *frame) measuredMarker() draw.GlyphStyle {
	glyph := f.look.marker(0, rankChosen, true)
	glyph.Color, glyph.Radius = f.look.Ink, glyph.Radius*1.8
	return glyph
}

func (f *frame) nameMeasured(rounds []*sizing.ReadingResult) {
	for _, r := range rounds {
		at := f.measuredAt(r)
		words, short := f.look.say("measured, {round}", "round", f.look.oneLine(r.Label)), f.look.say("measured")
		f.name(chartLabel{texts: []string{words + "  " + r.Airflow.Show(f.look.Units), words, short}, at: at, where: around(at), colour: f.look.Ink, weight: 6},
			short, sample{mark: f.measuredMarker()})
	}
}

// noFilter reports whether it is the house without any filter, which has no loaded
// state.
func noFilter(o *sizing.OptionResult) bool { return o.Kind == sizing.KindNoFilter }

// spanFanAndSystem sets the range: every operating point, the design airflow
// and the rated static are in it, with room for labels at the right.
func (f *frame) spanFanAndSystem(s Subject) {
	left, right, top := math.Inf(1), 0.0, f.look.in(s.RatedExternalStatic)
	extend := func(x, y float64) {
		if finite(x, y) && x > 0 {
			left, right, top = min(left, x), max(right, x), max(top, y)
		}
	}
	for i := range s.Options {
		o := &s.Options[i]
		extend(f.look.in(o.Clean.Airflow), f.look.in(o.Clean.ExternalStatic))
		if !noFilter(o) {
			extend(f.look.in(o.Loaded.Airflow), f.look.in(o.Loaded.ExternalStatic))
		}
	}
	for _, r := range measuredRounds(s.Study) {
		extend(f.look.in(r.Airflow), f.look.in(r.ExternalStatic))
	}
	extend(f.look.in(s.DesignAirflow), 0)
	if right == 0 {
		for _, t := range s.Blower.Taps {
			for _, p := range f.look.curveLine("", t.Curve).Points {
				extend(p.X, p.Y)
			}
		}
	}
	if right == 0 {
		span(&f.X, 0, 1)
		span(&f.Y, 0, max(top, 1))
		return
	}
	lo := left * 0.6
	if step := roundStep(left / 10); step > 0 {
		lo = math.Floor(lo/step) * step
	}
	span(&f.X, lo, max(right*1.15, lo+(right*pastPoint-lo)/f.look.lineShare()))
	span(&f.Y, 0, top*1.2)
}

// lineShare is the share of the width for lines; the rest is for labels, unless
// they are in a legend.
func (l Look) lineShare() float64 {
	if l.inLegend {
		return 0.9
	}
	return min(max(1-0.34*l.Scale, 0.5), 0.7)
}

// pastPoint is how far a system line goes past its operating point.
const pastPoint = 1.06

// blowerCurves draws the cooling tap's curve in a strong line and the others in
// thin ones.
func (f *frame) blowerCurves(s *sizing.Study) {
	f.layer = layerHouse
	for _, cooling := range []bool{false, true} {
		for _, t := range s.Blower.Taps {
			asTable := t.SpeedRatio == 0
			if (asTable && t.Name == s.Blower.CoolingTap) == cooling {
				f.blowerCurve(&s.Blower, t, cooling, s.Heats() && asTable && t.Name == s.Blower.HeatingTap)
			}
		}
	}
}

func (f *frame) blowerCurve(b *sizing.BlowerResult, t sizing.TapResult, cooling, heating bool) {
	line := f.look.curveLine(f.look.say("Blower, {setting}", "setting", b.TapAtSpeed(t.Name, t.SpeedRatio).In(f.look.Units)), t.Curve)
	shown := f.visible(line.Points)
	if len(shown) == 0 {
		return
	}
	w := chartLabel{at: shown[0], where: append(underEnd(shown[len(shown)-1]), alongCurve(shown)...), line: line.Points, colour: f.look.Faint, weight: 1}
	name := b.TapAtSpeed(f.look.oneLine(t.Name), t.SpeedRatio).In(f.look.Units)
	w.texts = []string{name}
	style := f.look.line(f.look.Faint, thinWidth, nil)
	if heating && !cooling && !strings.Contains(strings.ToLower(name), "heating") {
		w.texts = append([]string{f.look.say("heating {tap}", "tap", name)}, w.texts...)
		w.weight = 2
	}
	if cooling {
		w.texts = append([]string{f.look.say("blower, {setting}", "setting", name)}, w.texts...)
		if !strings.Contains(strings.ToLower(name), "cooling") {
			w.texts = append([]string{f.look.say("blower, cooling {tap}", "tap", name)}, w.texts...)
		}
		w.colour, w.bold, w.weight = f.look.Ink, true, 7
		style = f.look.line(f.look.Ink, fanWidth, nil)
	}
	f.readable(line, style)
	f.notes.words = append(f.notes.words, w)
}

// visible are points along a line within the chart, close enough together for
// words to be placed by.
func (f *frame) visible(points plotter.XYs) plotter.XYs {
	var out plotter.XYs
	for i, p := range points {
		if i > 0 {
			q := points[i-1]
			for _, t := range []float64{0.25, 0.5, 0.75} {
				out = append(out, plotter.XY{X: q.X + (p.X-q.X)*t, Y: q.Y + (p.Y-q.Y)*t})
			}
		}
		out = append(out, p)
	}
	kept := out[:0]
	for _, p := range out {
		if p.X >= f.X.Min && p.X <= f.X.Max && p.Y >= f.Y.Min && p.Y <= f.Y.Max {
			kept = append(kept, p)
		}
	}
	return kept
}

// systemCurve draws one system line to just past its operating point and
// marks the point.
func (f *frame) systemCurve(i int, r rank, o *sizing.OptionResult, curve []sizing.CurvePoint, at *sizing.Condition, loaded bool) {
	var dash []float64
	switch {
	case noFilter(o):
		dash = dashNone
	case loaded:
		dash = dashLoaded
	}
	style := f.look.stroke(r, dash)
	op := plotter.XY{X: f.look.in(at.Airflow), Y: f.look.in(at.ExternalStatic)}
	runs := finite(op.X, op.Y) && op.X > 0
	line := f.look.curveLine(f.look.state(sizing.OptionName(o.Name).Show(f.look.Units), stateWord(o, loaded)), curve)
	line.Option = o.Name
	if runs {
		line = line.part(0, op.X*pastPoint)
	}
	if loaded && !r.strong() {
		f.hiddenLine(line)
		return
	}
	f.readable(line, style)
	points := line.Points
	tip := op
	if n := len(points); n > 0 && points[n-1].X > op.X {
		tip = points[n-1]
	}
	if runs {
		f.point(op, f.look.marker(i, r, loaded))
	}
	if !runs && len(points) == 0 {
		return
	}
	tip.X, tip.Y = min(max(tip.X, f.X.Min), f.X.Max), min(max(tip.Y, f.Y.Min), f.Y.Max)
	f.nameOption(r, chartLabel{texts: systemWords(o, at, loaded, f.look), at: tip, end: true, line: points, colour: style.Color, weight: endWeight(i, loaded)},
		f.look.name(o.Name), sample{line: style, mark: f.look.marker(i, r, loaded)})
}

// keyStates explains in a legend which of an option's two strokes is clean and
// which loaded.
func (f *frame) keyStates() {
	if !f.look.inLegend || len(f.key.entries) == 0 {
		return
	}
	solid, dashed := f.look.line(f.look.Ink, lineWidth, nil), f.look.line(f.look.Ink, lineWidth, dashLoaded)
	clean, loaded := f.look.marker(1, rankToday, false), f.look.marker(1, rankToday, true)
	clean.Color, loaded.Color = f.look.Ink, f.look.Ink
	f.key.add(f.look.say("clean and loaded"), sample{line: solid, mark: clean}, sample{line: dashed, mark: loaded})
}

func systemWords(o *sizing.OptionResult, at *sizing.Condition, loaded bool, look Look) []string {
	name := look.state(look.name(o.Name), stateWord(o, loaded))
	return []string{name + "  " + at.Airflow.Show(look.Units), name}
}

func stateWord(o *sizing.OptionResult, loaded bool) message.ID {
	switch {
	case noFilter(o):
		return ""
	case loaded:
		return loadedState
	}
	return cleanState
}

// endWeight is a label's weight: loaded states and later options are left out
// first.
func endWeight(option int, loaded bool) int {
	w := 100 - 2*option
	if loaded {
		w--
	}
	return w
}
