package parse

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// shownDigits is how long an exact number may be before a rounded one stands
// for it on the screen. The value itself is never rounded: it changes only
// when a person types.
const shownDigits = 7

// NumberText spells si as a number of a unit: exactly where that is short, else
// in five figures.
func NumberText(si float64, u *units.Unit) string {
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

// Quantity reads a typed text; an empty one leaves the value open.
func Quantity(k *units.Kind, text string, bare *units.Unit, zero, negative bool) (si float64, fault string) {
	if strings.TrimSpace(text) == "" {
		return 0, ""
	}
	si, err := k.Parse(text, bare.Name)
	if err != nil {
		var p *units.ParseError
		if errors.As(err, &p) {
			return 0, fmt.Sprintf("%s; want %s", p.Why(), k.Wanted())
		}
		return 0, err.Error()
	}
	switch {
	case si < 0 && !negative:
		return 0, fmt.Sprintf("%s is below zero; want zero or more", strings.TrimSpace(text))
	case si == 0 && !zero:
		return 0, "zero is no " + k.Name + " here; leave the field empty to have one assumed"
	}
	return si, ""
}

// Exact writes a number so that it reads back as the same.
func Exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
