package units

import (
	"cmp"
	"math"
	"strconv"
	"strings"
)

// plainDigits is the length up to which a number is used in the first unit that
// fits, without a search for a shorter one: a length that a person types.
const plainDigits = 7

// Text spells si exactly: the text parses back to the same float64. The unit
// is the first of the kind that makes a short number, so a value typed as
// "566 L/s" is written so, and one typed as "18 ft" not as "216 in".
func (k *Kind) Text(si float64) string {
	best, large, digits := "", "", 0
	for i := range k.Units {
		u := &k.Units[i]
		if u.readOnly {
			continue
		}
		n, ok := exactNumber(si, u)
		if !ok {
			continue
		}
		t := join(n, u.Name)
		switch {
		case len(n) > plainDigits:
		case u.most > 0 && math.Abs(u.FromSI(si)) > u.most:
			if large == "" || len(n) < digits {
				large, digits = t, len(n)
			}
		case large == "" || len(n) <= digits:
			return t
		default:
			return large
		}
		if best == "" || len(t) < len(best) {
			best = t
		}
	}
	return cmp.Or(large, best)
}

// TextIn spells si in the usual unit of the system: exactly where a float64
// number of that unit parses back to si, else to 15 digits.
func (k *Kind) TextIn(si float64, s Locale) string {
	u := k.Usual(s)
	return join(u.Number(si), u.Name)
}

// Number spells si as a number of the unit: exactly where a float64 number of it
// parses back to si, else to 15 digits.
func (u *Unit) Number(si float64) string {
	if n, ok := exactNumber(si, u); ok {
		return n
	}
	v, _ := strconv.ParseFloat(strconv.FormatFloat(u.FromSI(si), 'g', 15, 64), 64)
	return plain(v)
}

func join(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// exactNumber finds the shortest decimal that gives back si in unit u.
func exactNumber(si float64, u *Unit) (string, bool) {
	n := u.FromSI(si)
	for _, digits := range []int{6, 9, 12, 15, 16, 17} {
		v, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', digits, 64), 64)
		if err == nil && u.ToSI(v) == si {
			return plain(v), true
		}
	}
	for _, v := range []float64{math.Nextafter(n, math.Inf(1)), math.Nextafter(n, math.Inf(-1))} {
		if u.ToSI(v) == si {
			return plain(v), true
		}
	}
	return "", false
}

func plain(v float64) string {
	if v == 0 {
		return "0"
	}
	if a := math.Abs(v); a >= 1e-6 && a < 1e12 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// Usual is the unit in which a system shows this kind.
func (k *Kind) Usual(s Locale) *Unit {
	return k.usual[s.System]
}

// Show rounds si for a screen: "0.520 in. w.c.", "$12.00". Small values keep
// two significant digits, so that nothing over 1e-9 of the unit shows as zero.
func (k *Kind) Show(si float64, s Locale) string {
	if k.long > 0 && math.Abs(si) >= k.long && !math.IsInf(si, 0) {
		d := k.far[s.System]
		return join(s.Mark(strconv.FormatFloat(k.index[fold(d.unit)].FromSI(si), 'f', d.decimals, 64)), d.unit)
	}
	n := s.Mark(k.number(si, s))
	if u := k.Usual(s); u.Name != k.sign {
		if v, err := strconv.ParseFloat(k.number(si, s), 64); err == nil && v == 1 {
			return join(n, cmp.Or(u.mark, u.Name))
		}
		return join(n, u.Label())
	}
	return s.Dollars(n)
}

// Number is Show without the unit, for tables whose heading holds it.
func (k *Kind) Number(si float64, s Locale) string { return s.Mark(k.number(si, s)) }

// number is Number with a decimal point.
func (k *Kind) number(si float64, s Locale) string {
	t := k.Fixed(si, s)
	if v, err := strconv.ParseFloat(t, 64); err == nil && k.whole > 0 && math.Abs(v) >= k.whole {
		return strconv.FormatFloat(k.Usual(s).FromSI(si), 'f', 0, 64)
	}
	return t
}

// Fixed is Number with the decimals of the kind however large it is and a decimal
// point, for files.
func (k *Kind) Fixed(si float64, s Locale) string {
	u := k.Usual(s)
	decimals := k.ip.decimals
	if s.System == Metric {
		decimals = k.si.decimals
	}
	v := u.FromSI(si)
	switch {
	case math.IsNaN(v):
		return "–"
	case math.IsInf(v, 0):
		return "∞"
	}
	if a := math.Abs(v); a > 0 && a < 2*math.Pow(10, -float64(decimals)) && u.Offset == 0 && a > 1e-9 {
		decimals = int(math.Ceil(-math.Log10(a))) + 1
	}
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-")
	}
	return t
}
