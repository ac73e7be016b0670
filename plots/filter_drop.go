package plots

import (
	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// FilterDrop shows each option's clean filter: its drop against face velocity,
// the target velocity, and where the filter runs clean and loaded.
func FilterDrop(s *sizing.Study, look Look) Chart { return filterDropKind.Chart(s, look) }

var filterDropKind = Kind{"filter-drop", "Filter drop and face velocity", filterDrop}

func filterDrop(s Subject, look Look) *frame {
	f := newFrame(look, look.say("Face velocity, {unit}", "unit", look.unit(s.TargetFaceVelocity)),
		look.say("Filter drop, {unit}", "unit", look.unit(s.RatedExternalStatic)))
	curves := make([]ReadoutLine, len(s.Options))
	right, top := f.look.in(s.TargetFaceVelocity), 0.0
	for i := range s.Options {
		o := &s.Options[i]
		if noFilter(o) {
			continue
		}
		for _, c := range []*sizing.Condition{&o.Clean, &o.Loaded} {
			if at := f.filterPoint(c); finite(at.X, at.Y) {
				right, top = max(right, at.X), max(top, at.Y)
			}
		}
	}
	right *= 1.15
	for i := range s.Options {
		curves[i] = f.look.dropLine(sizing.OptionName(s.Options[i].Name).Show(f.look.Units), s.Options[i].FilterCurve)
		curves[i].Option = s.Options[i].Name
		if right > 0 {
			curves[i] = curves[i].part(0, right)
		}
		for _, p := range curves[i].Points {
			if right <= 0 || p.X <= right {
				top = max(top, min(p.Y, 2.5*max(top, p.Y/2.5)))
			}
		}
	}
	if right <= 0 {
		right = 1
		for _, c := range curves {
			for _, p := range c.Points {
				right = max(right, p.X)
			}
		}
	}
	span(&f.X, 0, right)
	span(&f.Y, 0, top*1.1)
	if target := f.look.in(s.TargetFaceVelocity); target > 0 {
		f.uprightLine(target, f.look.line(f.look.Limit, thinWidth, dashLimit))
		f.notes.words = append(f.notes.words, chartLabel{
			texts: []string{f.look.say("target {velocity}", "velocity", s.TargetFaceVelocity), f.look.say("target")}, at: plotter.XY{X: target, Y: f.Y.Max}, line: f.lastObstacle(),
			where: beside(target, f.Y.Max, f.Y.Min), colour: f.look.Limit, weight: 8})
	}
	for i := range s.Options {
		if !noFilter(&s.Options[i]) {
			f.filterCurve(i, s.rank(i), &s.Options[i], curves[i])
		}
	}
	return f
}

// dropLine is a filter's drop against face velocity as a line of the chart.
func (l Look) dropLine(label string, curve []sizing.FaceDrop) ReadoutLine {
	out := ReadoutLine{Label: label, Points: make(plotter.XYs, len(curve)), Values: []Values{
		quantities(l.say("face velocity"), curve, func(p sizing.FaceDrop) units.Speed { return p.FaceVelocity }),
		quantities(l.say("filter drop"), curve, func(p sizing.FaceDrop) units.Pressure { return p.Drop }),
	}}
	for i, p := range curve {
		out.Points[i] = plotter.XY{X: l.in(p.FaceVelocity), Y: l.in(p.Drop)}
	}
	return out.finite()
}

func (f *frame) filterPoint(c *sizing.Condition) plotter.XY {
	return plotter.XY{X: f.look.in(c.FaceVelocity), Y: f.look.in(c.FilterDrop)}
}

func (f *frame) filterCurve(i int, r rank, o *sizing.OptionResult, line ReadoutLine) {
	points := line.Points
	colour := f.look.series(r)
	f.layer = r.layer()
	f.readable(line, f.look.stroke(r, nil))
	clean, loaded := f.filterPoint(&o.Clean), f.filterPoint(&o.Loaded)
	if loaded.X > 0 && loaded != clean {
		filling := f.look.dropLine(f.look.say("{option}, clean to loaded", "option", sizing.OptionName(o.Name).Show(f.look.Units)), []sizing.FaceDrop{
			{FaceVelocity: o.Clean.FaceVelocity, Drop: o.Clean.FilterDrop}, {FaceVelocity: o.Loaded.FaceVelocity, Drop: o.Loaded.FilterDrop},
		})
		filling.Option = o.Name
		if r.strong() {
			f.readable(filling, f.look.line(colour, thinWidth, dashLoaded))
			f.point(loaded, f.look.marker(i, r, true))
		} else {
			f.hiddenLine(filling)
		}
		if r.named() {
			f.notes.words = append(f.notes.words, chartLabel{
				texts: []string{f.look.say("loaded {drop}", "drop", o.Loaded.FilterDrop), f.look.say(loadedState)},
				at:    loaded, where: around(loaded), colour: colour, weight: 4, spare: true})
		}
	}
	if clean.X > 0 {
		f.point(clean, f.look.marker(i, r, false))
	}
	if len(points) == 0 {
		return
	}
	tip := points[len(points)-1]
	tip.Y = min(tip.Y, f.Y.Max)
	f.nameBeside(r, chartLabel{texts: []string{f.look.name(o.Name)}, at: tip, end: true, line: points, colour: colour, weight: endWeight(i, false)},
		sample{line: f.look.stroke(r, nil), mark: f.look.marker(i, r, false)})
}

// nameBeside names a curve right of the data, or in the legend.
func (f *frame) nameBeside(r rank, at chartLabel, stroke sample) {
	f.nameOption(r, at, at.texts[0], stroke)
	if !f.look.inLegend && r.named() {
		f.notes.beside = append(f.notes.beside, at.texts[0])
	}
}
