package table

import (
	"strconv"
	"strings"

	"returnbench/gui/lang"
	"returnbench/sizing/units"
)

// Unit names the usual unit of a quantity's kind, for the head of a column.
func Unit(q units.Quantity, sys units.Locale) string { return q.Kind().Usual(sys).Label() }

// Number writes a quantity for a column whose head holds the unit.
func Number(q units.Quantity, sys units.Locale) string { return q.Kind().Number(q.SI(), sys) }

// pointed is Number with a decimal point.
func pointed(q units.Quantity, sys units.Locale) string {
	sys.Comma = false
	return Number(q, sys)
}

// Spread writes how far a quantity may be off: two digits at most, which is what
// sampling knows of it.
func Spread(q units.Quantity, sys units.Locale) string {
	const digits = 2
	text := pointed(q, sys)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || len(strings.TrimLeft(strings.ReplaceAll(text, ".", ""), "0")) <= digits {
		return sys.Mark(text)
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	return sys.Mark(strconv.FormatFloat(v, 'f', -1, 64))
}

// Known writes a quantity, or a dash where it is zero for want of knowing.
func Known(q units.Quantity, sys units.Locale) string {
	if q.SI() == 0 {
		return "–"
	}
	return Number(q, sys)
}

// Nominal writes a nominal size, which is a whole number of its unit or nearly,
// or a dash where it is zero for want of knowing.
func Nominal(q units.Quantity, sys units.Locale) string {
	if q.SI() == 0 {
		return Known(q, sys)
	}
	n := pointed(q, sys)
	if strings.Contains(n, ".") {
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
	}
	return sys.Mark(n)
}

// YesNo is a plain answer.
func YesNo(yes bool) string {
	if yes {
		return lang.T("yes")
	}
	return lang.T("no")
}
