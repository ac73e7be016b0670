package plots

import (
	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// FilterLife shows airflow, filter drop and blower watts, one tier each, while
// dust collects, up to the month in which each option's filter is changed.
func FilterLife(s *sizing.Study, look Look) Chart { return filterLifeKind.Chart(s, look) }

var filterLifeKind = Kind{"filter-life", "As dust gathers", filterLife}

// lifeTier is one quantity of the life chart.
type lifeTier struct {
	tier
	value func(sizing.LifePoint) units.Quantity
}

func filterLife(s Subject, look Look) *frame {
	f := newFrame(look, look.say("Time in service, months"), "")
	all := []*lifeTier{
		{tier{height: 1.5, title: f.look.airflowAxis(s.Study)}, func(p sizing.LifePoint) units.Quantity { return p.Airflow }},
		{tier{height: 1, title: f.look.say("Filter drop, {unit}", "unit", f.look.unit(s.RatedExternalStatic))}, func(p sizing.LifePoint) units.Quantity { return p.Drop }},
		{tier{height: 1, title: f.look.say("Blower power, {unit}", "unit", f.look.unit(units.Power(0)))}, func(p sizing.LifePoint) units.Quantity { return p.Power }},
	}
	months := 0.0
	for i := range s.Options {
		if noFilter(&s.Options[i]) {
			continue
		}
		for _, p := range s.Options[i].LifeCurve {
			if m := p.Time.In(units.Month); finite(m) {
				months = max(months, m)
			}
			for _, t := range all {
				t.include(f.look.in(t.value(p)))
			}
		}
	}
	span(&f.X, 0, months*1.02)
	var tiers []*tier
	for _, t := range all {
		if t.seen {
			t.pad()
		}
		tiers = append(tiers, &t.tier)
	}
	if len(f.stack(tiers)) == 0 {
		f.notes.words = append(f.notes.words, f.middleWord(f.look.say("no filter to follow")))
	}
	for i := range s.Options {
		if o := &s.Options[i]; !noFilter(o) && len(o.LifeCurve) > 0 {
			f.life(i, s.rank(i), o, all)
		}
	}
	f.notes.margin, f.least = f.look.points(14), 5
	return f
}

// middleWord is a label in the middle of an empty chart, with the reason.
func (f *frame) middleWord(word string) chartLabel {
	at := plotter.XY{X: (f.X.Min + f.X.Max) / 2, Y: (f.Y.Min + f.Y.Max) / 2}
	return chartLabel{texts: []string{word}, at: at, where: []position{{at: at, dx: 0.5, dy: 0.5}}, colour: f.look.Faint}
}

// life draws one option through every tier and marks the change at its end.
func (f *frame) life(i int, r rank, o *sizing.OptionResult, tiers []*lifeTier) {
	colour, style := f.look.series(r), f.look.stroke(r, nil)
	f.layer = r.layer()
	name, when := f.look.name(o.Name), o.Life.Kind().Number(o.Life.SI(), f.look.Units)
	word := chartLabel{colour: colour, weight: endWeight(i, false), texts: []string{
		f.look.say("{option}: change at {months} months", "option", name, "months", when),
		f.look.say("{option}: {months} months", "option", name, "months", when)}}
	for _, t := range tiers {
		if t.empty() {
			continue
		}
		line := f.lifeLine(o, t)
		if len(line.Points) == 0 {
			continue
		}
		f.readable(line, style)
		change := readOff(line.Points, o.Life.In(units.Month))
		f.point(change, f.look.marker(i, r, true))
		for _, w := range around(change) {
			w.low, w.high = t.base, t.top()
			word.where = append(word.where, w)
		}
		if word.line == nil {
			word.line = line.Points
		}
	}
	f.nameOption(r, word, word.texts[0], sample{line: style, mark: f.look.marker(i, r, true)})
}

// lifeLine is one quantity of an option's life as a line of the chart; a
// read-out on it shows all four.
func (f *frame) lifeLine(o *sizing.OptionResult, t *lifeTier) ReadoutLine {
	c := o.LifeCurve
	line := ReadoutLine{Label: sizing.OptionName(o.Name).Show(f.look.Units), Option: o.Name, Points: make(plotter.XYs, len(c)), Values: []Values{
		quantities(f.look.say("time in service"), c, func(p sizing.LifePoint) units.Duration { return p.Time }),
		quantities(f.look.say("airflow"), c, func(p sizing.LifePoint) units.Flow { return p.Airflow }),
		quantities(f.look.say("filter drop"), c, func(p sizing.LifePoint) units.Pressure { return p.Drop }),
		quantities(f.look.say("blower power"), c, func(p sizing.LifePoint) units.Power { return p.Power }),
	}}
	for i, p := range c {
		line.Points[i] = plotter.XY{X: p.Time.In(units.Month), Y: t.at(f.look.in(t.value(p)))}
	}
	return line.finite()
}

// readOff reads a line, ordered by x, at x; outside it returns the nearer end.
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
