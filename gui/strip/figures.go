package strip

import (
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Figure is one number of today and of the proposal.
type Figure struct {
	Term   message.ID // what the title names
	Title  string     // with the unit and the limit
	Short  string     // the same where there is little room
	Before string
	After  string // empty: there is no proposal
	Range  string // how well both are known; empty: that is not known
}

const (
	notKnown     = "not known"
	changesTitle = "Filter changes a year"
	costTitle    = "Ten-year cost"
)

// titles are the two titles of a figure that has a limit or a unit beside it: the
// short one leaves out what the unit tells anyway.
type titles struct {
	long, short message.ID
	of          any // the limit, or the unit
}

// Figures are the five numbers that decide, in the order in which they stand.
// proposal may be nil, and so may the ranges.
func Figures(study *sizing.Study, proposal *sizing.OptionResult, ranges []sizing.OptionRange, sys units.Locale) []Figure {
	if study == nil {
		empty := []message.ID{"Airflow", "External static", "Blower power", changesTitle, costTitle}
		out := make([]Figure, len(empty))
		for i, id := range empty {
			title := message.Text(sys, id)
			out[i] = Figure{Term: id, Title: title, Short: title, Before: "–"}
		}
		return out
	}
	p := pair{study.Today(), proposal, ranges, sys}
	return []Figure{
		quantity(p, titles{"Airflow, of {limit}", "Airflow, of {limit}", study.DesignAirflow},
			func(o *sizing.OptionResult) units.Flow { return o.Clean.Airflow },
			func(r *sizing.OptionRange) sizing.Range[units.Flow] { return r.Airflow }),
		quantity(p, titles{"External static, of {limit}", "Static, of {limit}", study.RatedExternalStatic},
			func(o *sizing.OptionResult) units.Pressure { return o.Clean.ExternalStatic },
			func(r *sizing.OptionRange) sizing.Range[units.Pressure] { return r.ExternalStatic }),
		quantity(p, titles{"Blower power, {limit}", "Power, {limit}", table.Unit(units.Power(0), sys)},
			func(o *sizing.OptionResult) units.Power { return o.Clean.BlowerPower },
			func(r *sizing.OptionRange) sizing.Range[units.Power] { return r.BlowerPower }),
		p.figure(titles{long: changesTitle, short: changesTitle}, func(o *sizing.OptionResult) string { return message.Fixed(o.FiltersPerYear, 1).Show(sys) }, nil),
		p.figure(titles{long: costTitle, short: costTitle}, func(o *sizing.OptionResult) string {
			if !o.TenYearKnown {
				return message.Text(sys, notKnown)
			}
			return sys.Dollars(message.Fixed(o.TenYearCost.In(units.Dollar), 0).Show(sys))
		}, func(o *sizing.OptionResult, r *sizing.OptionRange) string {
			if !o.TenYearKnown || r.TenYearCost == (sizing.Range[units.Money]{}) {
				return ""
			}
			return "±" + sys.Dollars(table.Spread(r.TenYearCost.Within(o.TenYearCost), sys))
		}),
	}
}

// pair is today beside the proposal.
type pair struct {
	today, proposal *sizing.OptionResult
	ranges          []sizing.OptionRange
	sys             units.Locale
}

func (p pair) rangeOf(o *sizing.OptionResult) *sizing.OptionRange {
	for i := range p.ranges {
		if r := &p.ranges[i]; r.Name == o.Name && r.Kind == o.Kind {
			return r
		}
	}
	return nil
}

// figure writes a number of both; spread may be nil.
func (p pair) figure(title titles, value func(*sizing.OptionResult) string, spread func(*sizing.OptionResult, *sizing.OptionRange) string) Figure {
	f := Figure{Term: title.long, Title: message.Text(p.sys, title.long, "limit", title.of), Short: message.Text(p.sys, title.short, "limit", title.of), Before: value(p.today)}
	spreads := func(o *sizing.OptionResult) string {
		if r := p.rangeOf(o); r != nil && spread != nil {
			return spread(o, r)
		}
		return ""
	}
	f.Range = spreads(p.today)
	if p.proposal == nil || p.proposal == p.today {
		return f
	}
	f.After = value(p.proposal)
	if after := spreads(p.proposal); f.Range != "" && after != "" {
		f.Range += arrow + after
	} else if f.Range == "" {
		f.Range = after
	}
	return f
}

func quantity[T interface {
	~float64
	units.Quantity
}](p pair, title titles, of func(*sizing.OptionResult) T, spread func(*sizing.OptionRange) sizing.Range[T]) Figure {
	return p.figure(title,
		func(o *sizing.OptionResult) string { return table.Known(of(o), p.sys) },
		func(o *sizing.OptionResult, r *sizing.OptionRange) string {
			if of(o) == 0 {
				return "" // a blower's table without watts
			}
			return "±" + table.Spread(spread(r).Within(of(o)), p.sys)
		})
}
