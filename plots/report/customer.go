package report

import (
	"cmp"
	"fmt"
	"strings"

	"returnbench/plots"
	"returnbench/sizing"
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
	found := d.plan.found(sys)
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
		f.paragraph(f.body(), d.todayWords())
		return
	}
	for _, line := range f.cutLines(f.strong(), p.option.Name, f.width, 2) {
		f.add(f.textRow(f.strong(), f.x, line))
	}
	changes := p.changes(d.System)
	if len(changes) > mostChanges {
		changes = append(changes[:mostChanges:mostChanges], "The other changes are on the work order.")
	}
	f.items(f.body(), changes)
	if r := d.study.Recommendation; r.Option == p.option.Name {
		f.paragraph(f.body(), cmp.Or(reasonWords[r.Reason], r.Why.Lead(d.System)))
		for _, n := range r.Notes {
			f.paragraph(f.body(), n.In(d.System))
		}
	}
	if words := d.gainWords(); words != "" {
		f.paragraph(f.body(), words)
	}
	if added := p.added(d.System); len(added) > 0 {
		f.paragraph(f.body(), "The change brings this with it:")
		f.items(f.body(), added)
	} else if len(troubles(p.option)) == 0 {
		f.paragraph(f.body(), "After the change the house stays within every limit that we held it against.")
	}
}

// reasonWords tell an owner why a change is proposed; a reason that is not here
// speaks for itself.
var reasonWords = map[sizing.Reason]string{
	sizing.OnlyOne:       "Of the changes that we compared it is the only one that helps.",
	sizing.FewestStops:   "Of the changes that we compared it leaves the fewest faults that have to be put right.",
	sizing.MostRemoved:   "Of the changes that we compared it removes the most of what is wrong, with a new filter and with a dirty one.",
	sizing.KeepsFineness: "Of the changes that help as much it does not clean the air less than today's filter.",
}

// todayWords say why nothing is proposed.
func (d *document) todayWords() string {
	switch r := d.study.Recommendation; r.Reason {
	case sizing.NoneNeeded, sizing.NoneImproves, sizing.TooCloseToSay:
		return r.Why.Lead(d.System) + " " + d.answerWords()
	case sizing.NoOptions, "":
		return "No change is laid out for comparison yet. " + d.answerWords()
	}
	return "This page shows the house as it is."
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
	if words := d.study.Answer.In(d.System); words != "" {
		return words
	}
	return "The smallest usual sizes that would meet the target: " + strings.Join(out, ", or ") + "."
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
		return fmt.Sprintf("After the change it moves about %s more air than today.", between(r.AirflowGain.Low, r.AirflowGain.High, d.System))
	case sizing.StandsWorse:
		return fmt.Sprintf("After the change it moves about %s less air than today.", between(-r.AirflowGain.High, -r.AirflowGain.Low, d.System))
	}
	words := "Whether it then moves more air than today is too close to tell from what is known of this house"
	if r.FewerWatts.Holds() {
		return words + fmt.Sprintf("; it draws about %s less.", between(r.PowerSaved.Low, r.PowerSaved.High, d.System))
	}
	return words + ": we do not promise it."
}
