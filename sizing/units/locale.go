package units

import "strings"

// Locale is how texts are written for a reader: the units, the decimal mark and
// the language.
type Locale struct {
	System   System
	Comma    bool   // the decimal mark is a comma
	Language string // as in BCP 47: "es"; empty: English
}

// English with a decimal point, in either family of units.
var (
	IP = Locale{System: InchPound}
	SI = Locale{System: Metric}
)

// String names the family of units.
func (l Locale) String() string { return l.System.String() }

// With is the locale with the units of a family.
func (l Locale) With(s System) Locale {
	l.System = s
	return l
}

// Mark writes the decimal mark of the locale into a number written with a point.
func (l Locale) Mark(number string) string {
	if l.Comma {
		return strings.Replace(number, ".", ",", 1)
	}
	return number
}
