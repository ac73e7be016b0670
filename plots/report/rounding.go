package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Steps to which the pages round, in the usual unit of a system: no finer than
// an estimate or a hand gauge. Common practice, no source.
func stepOf(q units.Quantity, sys units.Locale) float64 {
	switch q.(type) {
	case units.Flow:
		return pick(sys, 10, 5) // cfm, L/s
	case units.Pressure:
		return pick(sys, 0.01, 2) // in. w.c., Pa
	case units.Power:
		return 5
	case units.Money:
		return 5
	case units.Speed:
		return pick(sys, 5, 0.05) // fpm, m/s
	case units.TemperatureDifference, units.Temperature:
		return 1
	case units.Duration:
		return 1 // month
	}
	return 0
}

func pick(sys units.Locale, ip, si float64) float64 {
	if sys.System == units.Metric {
		return si
	}
	return ip
}

// rounded is a quantity as a number of its usual unit at the page's step.
func rounded(q units.Quantity, sys units.Locale) string {
	return sys.Mark(steps(q.Kind().Usual(sys).FromSI(q.SI()), stepOf(q, sys)))
}

// steps writes v as a whole number of steps.
func steps(v, step float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	decimals := 0
	for s := step; s < 0.999 && decimals < 6; s *= 10 {
		decimals++
	}
	text := strconv.FormatFloat(math.Round(v/step)*step, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// about is a rounded quantity with its unit: "1060 cfm", "$195".
func about(q units.Quantity, sys units.Locale) string { return withUnit(rounded(q, sys), q, sys) }

func withUnit(number string, q units.Quantity, sys units.Locale) string {
	u := q.Kind().Usual(sys).Name
	switch q.(type) {
	case units.Temperature, units.TemperatureDifference:
		u = q.Kind().Usual(sys).Label() // with its degree sign
	}
	if u == "$" {
		return sys.Dollars(number)
	}
	return number + string(nbsp) + u
}

// between is a range from a to b, one number where both round to the same.
func between(a, b units.Quantity, sys units.Locale) string {
	x, y := rounded(a, sys), rounded(b, sys)
	if x == y {
		return about(a, sys)
	}
	if a.Kind().Usual(sys).Name == "$" { // which stands before its number
		return message.Text(sys, "{low} to {high}", "low", about(a, sys), "high", about(b, sys))
	}
	return message.Text(sys, "{low} to {high}", "low", x, "high", about(b, sys))
}

// share is a part of one in whole percent.
func share(v float64, sys units.Locale) string {
	if v > 0 && v < 0.005 {
		return message.Text(sys, "under 1\u00a0%")
	}
	return fmt.Sprintf("%.0f%c%%", 100*v, nbsp)
}

// side writes a length in inches and sixteenths, or in whole millimeters.
func side(l units.Length, sys units.Locale) string {
	if sys.System == units.Metric {
		return fmt.Sprintf("%.0f", l.In(units.Millimetre))
	}
	return stock.Inches(l)
}

// measure is side with its unit.
func measure(l units.Length, sys units.Locale) string {
	unit := " in"
	if sys.System == units.Metric {
		unit = " mm"
	}
	return strings.ReplaceAll(side(l, sys)+unit, " ", string(nbsp))
}

// by joins sides: "15 1/2 x 24 1/2 x 3/4 in"; sides of zero are left out.
func by(sys units.Locale, sides ...units.Length) string {
	var out []string
	for _, l := range sides {
		if l > 0 {
			out = append(out, strings.ReplaceAll(side(l, sys), " ", string(nbsp)))
		}
	}
	unit := "in"
	if sys.System == units.Metric {
		unit = "mm"
	}
	return strings.Join(out, string(nbsp)+"x ") + string(nbsp) + unit
}

// named is a size in the units in use and, where it is bought in another series,
// also in that: a 14 in duct is 356 on a tape measure in millimeters.
func named(sys units.Locale, series units.System, sides ...units.Length) string {
	if sys.System == series {
		return by(sys, sides...)
	}
	return by(sys, sides...) + " (" + by(sys.With(series), sides...) + ")"
}

func (d *document) named(sides ...units.Length) string {
	return named(d.System, d.plan.series, sides...)
}

// longways is a length of duct: feet or meters to one decimal.
func longways(l units.Length, sys units.Locale) string {
	if sys.System == units.Metric {
		return message.Fixed(l.In(units.Metre), 1).Show(sys) + string(nbsp) + "m"
	}
	return message.Fixed(l.In(units.Foot), 1).Show(sys) + string(nbsp) + "ft"
}
