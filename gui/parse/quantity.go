package parse

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// shownDigits is how long an exact number may be before a rounded one stands
// for it on the screen. The value itself is never rounded: it changes only
// when a person types.
const shownDigits = 7

// NumberText spells si as a number of a unit, with the decimal mark of a locale:
// exactly where that is short, else in five figures.
func NumberText(l units.Locale, si float64, u *units.Unit) string {
	return l.Mark(numberText(si, u))
}

func numberText(si float64, u *units.Unit) string {
	text := u.Number(si)
	if len(text) <= shownDigits {
		return text
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || n == 0 {
		return text
	}
	decimals := max(0, 4-int(math.Floor(math.Log10(math.Abs(n)))))
	rounded := strconv.FormatFloat(n, 'f', decimals, 64)
	if strings.Contains(rounded, ".") {
		rounded = strings.TrimRight(strings.TrimRight(rounded, "0"), ".")
	}
	return rounded
}

// Quantity reads a typed text; an empty one leaves the value open. The fault is in
// words.
func Quantity(l units.Locale, k *units.Kind, text string, defaultUnit *units.Unit, zero, negative bool) (si float64, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, ""
	}
	pointed, mark := decimalPoint(l, t)
	if mark != "" {
		return 0, message.Text(l, "{reason}; want {wanted}", "reason", mark, "wanted", message.WantedOf(k))
	}
	si, err := k.Parse(pointed, defaultUnit.Name)
	if err != nil {
		var p *units.ParseError
		if errors.As(err, &p) {
			return 0, message.Text(l, "{reason}; want {wanted}", "reason", message.ReasonOf(p), "wanted", message.WantedOf(k))
		}
		return 0, message.Fault(l, err)
	}
	switch {
	case si < 0 && !negative:
		return 0, message.Text(l, "{text} is below zero; want zero or more", "text", t)
	case si == 0 && !zero:
		return 0, message.Text(l, "zero is no {kind} here; leave the field empty to have one assumed", "kind", message.KindName(k))
	}
	return si, ""
}

// Exact writes a number with a decimal point so that it reads back as the same.
func Exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
