package report

import (
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// bar is one bar of a small chart.
type bar struct {
	name      string
	value     float64
	low, high float64 // of its range; alike where there is none
	text      string
	after     bool
}

// smallChart is a chart of bars that anyone reads.
type smallChart struct {
	title string
	bars  []bar
	mark  float64 // a line to reach, or not to pass; zero: none
	words string  // of the mark
}

func (d *document) twoCharts(f *flow) {
	const gap = 18.0
	charts := []smallChart{d.airChart(), d.secondChart()}
	wide := (f.width - gap) / 2
	most := 0
	for _, c := range charts {
		most = max(most, len(c.bars))
	}
	high := 32 + 19*float64(most) + 12
	f.figure(high, func(y float64) {
		for i, c := range charts {
			d.drawBars(c, f.x+float64(i)*(wide+gap), y, wide)
		}
	})
}

func (d *document) airChart() smallChart {
	c := smallChart{title: d.say("Air through your system, {unit}", "unit", flowUnit(d.System)), words: d.say("needed: {airflow}", "airflow", rounded(d.study.DesignAirflow, d.System))}
	kind := units.Flow(0).Kind().Usual(d.System)
	c.mark = d.study.DesignAirflow.SI() / kind.Scale
	for _, o := range d.shown() {
		r, known := d.known(o)
		add := func(dirty bool, v, low, high units.Flow) {
			b := bar{name: d.barName(o, dirty), value: v.SI() / kind.Scale, text: rounded(v, d.System), after: o.Kind == sizing.KindOption}
			b.low, b.high = b.value, b.value
			if known {
				b.low, b.high = low.SI()/kind.Scale, high.SI()/kind.Scale
			}
			c.bars = append(c.bars, b)
		}
		add(false, o.Clean.Airflow, r.Airflow.Low, r.Airflow.High)
		add(true, o.Loaded.Airflow, r.LoadedAirflow.Low, r.LoadedAirflow.High)
	}
	return c
}

// shown are today and the proposal.
func (d *document) shown() []*sizing.OptionResult {
	if d.plan.isToday() {
		return []*sizing.OptionResult{d.plan.today}
	}
	return []*sizing.OptionResult{d.plan.today, d.plan.option}
}

// barName names a bar: when, and with which filter.
func (d *document) barName(o *sizing.OptionResult, dirty bool) string {
	switch today := o.Kind == sizing.KindToday; {
	case today && dirty:
		return d.say("Today, dirty filter")
	case today:
		return d.say("Today, new filter")
	case dirty:
		return d.say("After, dirty filter")
	}
	return d.say("After, new filter")
}

// secondChart is the filter's drop as a share of the rated pressure of the
// blower.
func (d *document) secondChart() smallChart {
	c := smallChart{title: d.say("Part of the rated pressure that the filter uses, %")}
	for _, o := range d.shown() {
		known, _ := d.known(o)
		for _, state := range []struct {
			dirty bool
			key   string
			at    *sizing.Condition
		}{{false, "filter_drop", &o.Clean}, {true, "filter_drop_loaded", &o.Loaded}} {
			v, ok := filterShare(state.at)
			if !ok {
				continue
			}
			b := bar{name: d.barName(o, state.dirty), value: 100 * v, low: 100 * v, high: 100 * v, text: share(v, d.System), after: o.Kind == sizing.KindOption}
			if r, ok := known.Of(state.key); ok && d.study.RatedExternalStatic > 0 {
				rated := d.study.RatedExternalStatic.SI()
				b.low, b.high = 100*r.Low/rated, 100*r.High/rated
			}
			c.bars = append(c.bars, b)
		}
	}
	return c
}

func (d *document) drawBars(c smallChart, x, y, w float64) {
	s := d.sheet
	t := style{size: 9.5}
	s.put(style{size: 10, bold: true}, x, y+10, s.cut(style{size: 10, bold: true}, c.title, w))
	name, number := 0.0, 0.0
	top := c.mark
	for _, b := range c.bars {
		name, number = max(name, s.width(t, b.name)), max(number, s.width(t, b.text))
		top = max(top, b.value, b.high)
	}
	if top == 0 {
		return
	}
	from := x + name + 6
	k := (w - name - number - 18) / top
	base := y + 20
	for i, b := range c.bars {
		at := base + 19*float64(i)
		ink := rule
		if b.after {
			ink = blue
		}
		s.fill(ink, from, at, b.value*k, 13)
		s.put(t, x, at+10, b.name)
		if b.high > b.low {
			s.line(black, 1, nil, from+b.low*k, at+6.5, from+b.high*k, at+6.5)
			s.line(black, 1, nil, from+b.low*k, at+3, from+b.low*k, at+10)
			s.line(black, 1, nil, from+b.high*k, at+3, from+b.high*k, at+10)
		}
		s.flushRight(style{size: 9.5, bold: true}, x+w, at+10, b.text)
	}
	foot := base + 19*float64(len(c.bars))
	s.line(black, 0.8, nil, from, base-3, from, foot)
	if c.mark > 0 {
		s.line(black, 1.2, []float64{3, 2}, from+c.mark*k, base-4, from+c.mark*k, foot)
		bold := style{size: 9.5, bold: true}
		s.flushRight(bold, min(from+c.mark*k+s.width(bold, c.words)/2, x+w), foot+10, c.words)
	}
	s.pen(black, 0.5, nil)
}
