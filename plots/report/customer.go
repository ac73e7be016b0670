package report

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/units"
)

// The customer's page is one page: text shrinks until the chart has room, and
// past a scale that still reads well the chart shrinks too.
const (
	chartLeast  = 130.0
	chartMost   = 215.0
	chartSmall  = 90.0
	goodScale   = 0.80
	leastScale  = 0.60
	mostChanges = 5
)

func (d *document) customer() {
	for scale := 1.0; ; scale -= 0.02 {
		before, after := d.newFlow(scale), d.newFlow(scale)
		d.customerFinds(before)
		before.gap(4)
		d.customerCompares(after)
		room := d.sheet.textHeight() - 1 - heightOf(before.rows) - heightOf(after.rows)
		least := chartLeast
		if scale < goodScale {
			least = chartSmall
		}
		if room < least && scale-0.02 >= leastScale {
			continue
		}
		rows := before.rows
		if room >= chartSmall {
			h := min(room, chartMost)
			rows = append(rows, row{height: h, draw: func(y float64) { d.chart(y, h, 0.68*scale) }})
		}
		d.print(append(rows, after.rows...))
		return
	}
}

// chart draws the fan-and-system chart of today and the proposal.
func (d *document) chart(y, h, scale float64) {
	s := *d.study
	s.Options = []sizing.OptionResult{*d.study.NoFilter(), *d.plan.today}
	if !d.plan.isToday() {
		s.Options = append(s.Options, *d.plan.option)
	}
	look := plots.Print(d.System)
	look.Scale = scale
	d.sheet.drawChart(plots.FanAndSystem(&s, look), marginSide, y, d.sheet.textWidth(), h)
}

func (d *document) customerFinds(f *flow) {
	sys := d.System
	f.title(d.title, 1)
	if notes := strings.TrimSpace(d.job.Notes); notes != "" {
		for _, line := range f.cutLines(f.small(), "About this house: "+notes, f.width, 3) {
			f.add(f.textRow(f.small(), f.x, line))
		}
	}
	f.heading("What we found")
	today := d.plan.today
	f.paragraph(f.body(), fmt.Sprintf(
		"The blower draws the air of the rooms through the return grilles, the return ducts and the filter. With a new filter it moves about %s of air, when the filter is due for a change about %s; it is meant to move %s (%s).",
		d.cleanAirflow(today), d.loadedAirflow(today), about(d.study.DesignAirflow, sys), airUnit(sys)))
	f.gap(2)
	f.items(f.body(), d.measuredWords())
	found := plainFindings(today, sys, 6)
	if len(found) == 0 {
		found = []string{"The house stays within every limit that we held it against."}
	}
	f.items(f.body(), found)
	d.customerProposes(f)
	f.gap(4)
	f.paragraph(f.small(), "How to read the chart: the black line is what the blower can do. Each coloured line is what the ducts and the filter ask of it, "+
		"unbroken with a new filter, dashed with one due for a change, dotted as if there were none (never run it so). Where a coloured line meets the black one the house runs: "+
		"farther right is more air, lower is less effort. "+pressureUnit(sys))
}

func airUnit(sys units.System) string {
	if sys == units.SI {
		return "L/s: litres of air a second"
	}
	return "cfm: cubic feet of air a minute"
}

func pressureUnit(sys units.System) string {
	if sys == units.SI {
		return "Pa, pascal, is a unit of air pressure."
	}
	return "in. w.c., inches of water column, is a unit of air pressure."
}

// measuredWords tell what a gauge said about the house as it is.
func (d *document) measuredWords() []string {
	var out []string
	for i, r := range d.study.Readings {
		if r.Option != "" && r.Option != sizing.TodayName || r.Airflow == 0 {
			continue
		}
		when := strings.TrimSpace(r.Label)
		if i < len(d.job.Readings) && d.job.Readings[i].Date != "" {
			when = strings.Trim(when+", "+d.job.Readings[i].Date, ", ")
		}
		how := "By the pressures that a gauge read"
		if r.AirflowBasis == "measured" {
			how = "Measured"
		}
		if when != "" {
			how += " (" + when + ")"
		}
		out = append(out, fmt.Sprintf("%s, the blower moved about %s.", how, about(r.Airflow, d.System)))
	}
	return out[:min(len(out), 2)]
}

func (d *document) customerProposes(f *flow) {
	f.heading("What we propose")
	p := d.plan
	if p.isToday() {
		f.paragraph(f.body(), "No change is laid out for comparison yet. "+d.answerWords())
		return
	}
	for _, line := range f.cutLines(f.strong(), p.option.Name, f.width, 2) {
		f.add(f.textRow(f.strong(), f.x, line))
	}
	changes := p.changes(d.System)
	if n := len(changes) - mostChanges; n > 0 {
		changes = append(changes[:mostChanges:mostChanges], fmt.Sprintf("And %d more, which the work order lists.", n))
	}
	f.items(f.body(), changes)
	if words := d.gainWords(); words != "" {
		f.paragraph(f.body(), words)
	}
	left := plainFindings(p.option, d.System, 4)
	if len(left) == 0 {
		f.paragraph(f.body(), "So changed, the house stays within every limit that we held it against.")
		return
	}
	f.paragraph(f.body(), "What this leaves as it is or brings with it:")
	f.items(f.body(), left)
}

// answerWords name the smallest sizes that meet the job's target.
func (d *document) answerWords() string {
	var out []string
	a := d.study.Answer
	for _, c := range []struct {
		what string
		size *sizing.Size
	}{{"a return grille", a.Grille}, {"a filter slot", a.Slot}, {"a deeper filter cabinet", a.Cabinet}} {
		if c.size != nil && c.size.Meets {
			out = append(out, c.what+" of "+c.size.Label)
		}
	}
	if len(out) == 0 {
		return "No usual size meets the target within the limits of this house."
	}
	return "The smallest usual sizes that would meet the target: " + strings.Join(out, ", or ") + "."
}

func (d *document) customerCompares(f *flow) {
	p := d.plan
	if p.isToday() {
		f.heading("Today in figures")
	} else {
		f.heading("Today and proposed")
	}
	cols := []column{{name: "with a new filter, and with one due for a change", share: 1.3}, {name: "today", share: 0.8}}
	if !p.isToday() {
		cols = append(cols, column{name: "proposed", share: 0.8})
	}
	var cells [][]string
	for _, c := range d.comparisons() {
		if c.ofWork && p.isToday() {
			continue
		}
		line := []string{c.name, c.value(p.today, d.System)}
		if !p.isToday() {
			line = append(line, c.value(p.option, d.System))
		}
		cells = append(cells, line)
	}
	f.table(style{size: 8.75 * f.scale}, cols, cells)
	d.customerRests(f)
	f.heading("Before anyone opens the system")
	f.paragraph(f.small(), strings.Join(export.Cautions(), " "))
}

// known is how well the numbers of an option are known, where that was worked out.
func (d *document) known(o *sizing.OptionResult) (sizing.OptionRange, bool) {
	for _, r := range d.Ranges {
		if r.Name == o.Name && r.Kind == o.Kind {
			return r, true
		}
	}
	return sizing.OptionRange{}, false
}

// cleanAirflow is a range where there is one: one number would claim more than
// is known.
func (d *document) cleanAirflow(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return between(r.Airflow.Low, r.Airflow.High, d.System)
	}
	return about(o.Clean.Airflow, d.System)
}

func (d *document) loadedAirflow(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return between(r.LoadedAirflow.Low, r.LoadedAirflow.High, d.System)
	}
	return about(o.Loaded.Airflow, d.System)
}

// gainWords say of the proposal what the ranges agree on, and that they do not
// where they do not.
func (d *document) gainWords() string {
	r, ok := d.known(d.plan.option)
	if !ok || d.plan.isToday() {
		return ""
	}
	switch r.MoreAir.Standing() {
	case sizing.StandsBetter:
		return fmt.Sprintf("So changed, it moves about %s more air than today.", between(r.AirflowGain.Low, r.AirflowGain.High, d.System))
	case sizing.StandsWorse:
		return fmt.Sprintf("So changed, it moves about %s less air than today.", between(-r.AirflowGain.High, -r.AirflowGain.Low, d.System))
	}
	words := "Whether it then moves more air than today is too close to tell from what is known of this house"
	if r.FewerWatts.Holds() {
		return words + fmt.Sprintf("; it draws about %s less.", between(r.PowerSaved.Low, r.PowerSaved.High, d.System))
	}
	return words + ": we do not promise it."
}

// comparisons are the lines of the customer's table. Where ranges are known the
// first line is two.
func (d *document) comparisons() []comparison {
	for _, o := range []*sizing.OptionResult{d.plan.today, d.plan.option} {
		if _, ok := d.known(o); !ok {
			return comparisons
		}
	}
	known := func(o *sizing.OptionResult) sizing.OptionRange { r, _ := d.known(o); return r }
	out := slices.Clone(comparisons)
	for i := range out {
		switch out[i].name {
		case costLine:
			out[i].value = func(o *sizing.OptionResult, sys units.System) string {
				r := known(o).AnnualCost
				return "about " + between(r.Low, r.High, sys)
			}
		case changesLine:
			out[i].value = func(o *sizing.OptionResult, sys units.System) string {
				return changeWords(known(o).Life, sys)
			}
		case powerLine:
			single := out[i].value
			out[i].value = func(o *sizing.OptionResult, sys units.System) string {
				if r, ok := cleanToLoaded(known(o), "blower_power"); ok {
					return between(units.Power(r.Low), units.Power(r.High), sys)
				}
				return single(o, sys)
			}
		case shareLine:
			single, rated := out[i].value, float64(d.study.RatedExternalStatic)
			out[i].value = func(o *sizing.OptionResult, sys units.System) string {
				if r, ok := cleanToLoaded(known(o), "filter_drop"); ok && rated > 0 {
					return shares(r.Low/rated, r.High/rated)
				}
				return single(o, sys)
			}
		}
	}
	return append([]comparison{
		{"Air that the blower moves with a new filter", func(o *sizing.OptionResult, _ units.System) string { return d.cleanAirflow(o) }, false},
		{"Air that it moves with one due for a change", func(o *sizing.OptionResult, _ units.System) string { return d.loadedAirflow(o) }, false},
	}, out[1:]...)
}

// cleanToLoaded is the range of a measure from the least with either state of
// the filter to the most.
func cleanToLoaded(r sizing.OptionRange, key string) (sizing.Range[float64], bool) {
	clean, known := r.Of(key)
	loaded, both := r.Of(key + "_loaded")
	return sizing.Range[float64]{Low: min(clean.Low, loaded.Low), High: max(clean.High, loaded.High)}, known && both
}

// shares is a span of parts of one, one number where both round alike.
func shares(a, b float64) string {
	if share(a) == share(b) {
		return share(a)
	}
	return strings.TrimSuffix(share(a), " %") + " to " + share(b)
}

// changeWords tell how often a filter is changed, from a range of its life.
func changeWords(life sizing.Range[units.Duration], sys units.System) string {
	low, high := rounded(life.Low, sys), rounded(life.High, sys)
	if low == high {
		return "about every " + strings.ReplaceAll(monthWords(life.Low, sys), " ", string(nbsp))
	}
	return fmt.Sprintf("about every %s to %s", low, strings.ReplaceAll(monthWords(life.High, sys), " ", string(nbsp)))
}

// comparison is one line of the customer's table.
type comparison struct {
	name   string
	value  func(*sizing.OptionResult, units.System) string
	ofWork bool // says nothing of today
}

const (
	shareLine   = "Share of the rated pressure that the filter uses up"
	powerLine   = "Electricity that the blower draws in cooling"
	costLine    = "Power and filters, a year"
	changesLine = "Filter changes a year"
)

var comparisons = []comparison{
	{"Air that the blower moves", func(o *sizing.OptionResult, sys units.System) string {
		return between(o.Clean.Airflow, o.Loaded.Airflow, sys)
	}, false},
	{shareLine, func(o *sizing.OptionResult, _ units.System) string {
		a, ok := filterShare(&o.Clean)
		b, _ := filterShare(&o.Loaded)
		if !ok {
			return "–"
		}
		return shares(a, b)
	}, false},
	{powerLine, func(o *sizing.OptionResult, sys units.System) string {
		return between(o.Clean.BlowerPower, o.Loaded.BlowerPower, sys)
	}, false},
	{costLine, func(o *sizing.OptionResult, sys units.System) string {
		return "about " + about(o.AnnualCost, sys)
	}, false},
	{changesLine, func(o *sizing.OptionResult, sys units.System) string {
		return fmt.Sprintf("%.1f (about every %s)", o.FiltersPerYear, strings.ReplaceAll(monthWords(o.Life, sys), " ", string(nbsp)))
	}, false},
	{"Air that slips past the filter uncleaned", func(o *sizing.OptionResult, _ units.System) string {
		if o.LeakFraction <= 0 {
			return "none counted: a sealed frame"
		}
		return share(o.LeakFraction)
	}, false},
	{"Fineness of the filter as it sits (MERV, 1 to 16)", func(o *sizing.OptionResult, _ units.System) string {
		if o.Efficiency.InstalledMERV < o.Efficiency.MERV {
			return fmt.Sprintf("MERV %d (printed: %d)", o.Efficiency.InstalledMERV, o.Efficiency.MERV)
		}
		return fmt.Sprintf("MERV %d", o.Efficiency.MERV)
	}, false},
	{"Price of the work, and whether it pays for itself", func(o *sizing.OptionResult, sys units.System) string {
		switch {
		case o.Kind != "option":
			return "–"
		case o.Upgrade == 0:
			return "no price given"
		case !o.Payback.Pays:
			return about(o.Upgrade, sys) + "; not in money alone"
		}
		return fmt.Sprintf("%s; in about %.0f years", about(o.Upgrade, sys), o.Payback.Years.In(units.Year))
	}, true},
}

func monthWords(life units.Duration, sys units.System) string {
	n := rounded(life, sys)
	if n == "1" {
		return "month"
	}
	return n + " months"
}

func (d *document) customerRests(f *flow) {
	f.heading("What this rests on")
	s := d.study
	text := "Every part of today's resistance was described or measured. "
	if v := s.AssumedShare; v >= 0.005 {
		text = fmt.Sprintf("About %s of today's resistance stands on usual values, because nobody has measured or described those parts yet. ", share(v))
	}
	if s.BlowerAssumed {
		text += "The blower is an ordinary one of its size, not the maker's own table. "
	}
	if n := len(s.Assumptions); n > 0 {
		const most = 4
		var list []string
		for _, a := range s.Assumptions[:min(n, most)] {
			list = append(list, a.In(d.System))
		}
		text += "Taken as usual: " + strings.Join(list, "; ")
		if n > most {
			text += fmt.Sprintf("; and %d more", n-most)
		}
		text += ". "
	}
	if _, ok := d.known(d.plan.today); ok {
		text += "A range of air, pressure, electricity, cost or filter life holds nine in ten of the houses that fit what is known. "
	}
	text += "All figures are rounded estimates, not promises; the pressures and the airflow read after the work tell what was reached."
	f.paragraph(f.small(), text)
}
