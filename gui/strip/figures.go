package strip

import (
	"fmt"
	"strings"

	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Figure is one number of today and of the proposal.
type Figure struct {
	Title  string // with the unit and the limit
	Short  string // the same where there is little room
	Before string
	After  string // empty: there is no proposal
	Range  string // how well both are known; empty: that is not known
}

const (
	notKnown     = "not known"
	changesTitle = "Filter changes a year"
	costTitle    = "Ten-year cost"
)

// short leaves out of a title what the unit tells anyway.
func short(title string) string {
	switch title {
	case "External static":
		return "Static"
	case "Blower power":
		return "Power"
	}
	return title
}

// Figures are the five numbers that decide, in the order in which they stand.
// proposal may be nil, and so may the ranges.
func Figures(study *sizing.Study, proposal *sizing.OptionResult, ranges []sizing.OptionRange, sys units.Locale) []Figure {
	if study == nil {
		empty := []string{"Airflow", "External static", "Blower power", changesTitle, costTitle}
		out := make([]Figure, len(empty))
		for i, title := range empty {
			out[i] = Figure{Title: title, Short: title, Before: "–"}
		}
		return out
	}
	p := pair{study.Today(), proposal, ranges, sys}
	return []Figure{
		quantity(p, "Airflow", ", of "+study.DesignAirflow.Show(sys),
			func(o *sizing.OptionResult) units.Flow { return o.Clean.Airflow },
			func(r *sizing.OptionRange) sizing.Range[units.Flow] { return r.Airflow }),
		quantity(p, "External static", ", of "+study.RatedExternalStatic.Show(sys),
			func(o *sizing.OptionResult) units.Pressure { return o.Clean.ExternalStatic },
			func(r *sizing.OptionRange) sizing.Range[units.Pressure] { return r.ExternalStatic }),
		quantity(p, "Blower power", ", "+table.Unit(units.Power(0), sys),
			func(o *sizing.OptionResult) units.Power { return o.Clean.BlowerPower },
			func(r *sizing.OptionRange) sizing.Range[units.Power] { return r.BlowerPower }),
		p.figure(changesTitle, "", func(o *sizing.OptionResult) string { return fmt.Sprintf("%.1f", o.FiltersPerYear) }, nil),
		p.figure(costTitle, "", func(o *sizing.OptionResult) string {
			if !o.TenYearKnown {
				return notKnown
			}
			return dollars(fmt.Sprintf("%.0f", o.TenYearCost.In(units.Dollar)))
		}, func(o *sizing.OptionResult, r *sizing.OptionRange) string {
			if !o.TenYearKnown || r.TenYearCost == (sizing.Range[units.Money]{}) {
				return ""
			}
			return "±" + dollars(table.Spread(r.TenYearCost.Within(o.TenYearCost), sys))
		}),
	}
}

// dollars sets the thousands of a whole number apart.
func dollars(digits string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(digits, "-"); negative {
		sign, digits = "-", rest
	}
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return sign + "$" + digits
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
func (p pair) figure(title, of string, value func(*sizing.OptionResult) string, spread func(*sizing.OptionResult, *sizing.OptionRange) string) Figure {
	f := Figure{Title: title + of, Short: short(title) + of, Before: value(p.today)}
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
}](p pair, title, limit string, of func(*sizing.OptionResult) T, spread func(*sizing.OptionRange) sizing.Range[T]) Figure {
	return p.figure(title, limit,
		func(o *sizing.OptionResult) string { return table.Number(of(o), p.sys) },
		func(o *sizing.OptionResult, r *sizing.OptionRange) string {
			return "±" + table.Spread(spread(r).Within(of(o)), p.sys)
		})
}
