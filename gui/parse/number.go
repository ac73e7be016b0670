package parse

import (
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Number reads a number without a unit; an empty text is zero, which leaves it open. The fault
// is in words.
func Number(l units.Locale, text string) (v float64, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, ""
	}
	number, mark := decimalPoint(l, t)
	if mark != "" {
		return 0, message.Text(l, mark)
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) { // "NaN" and "Inf" are numbers to Go alone
		return 0, message.Text(l, "no number that can be read; want one such as {example}", "example", message.Fixed(1.5, 1))
	}
	return v, ""
}
