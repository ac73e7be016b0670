package parse

import (
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Percent reads percentages; NaN is what an empty text means where zero is a value. The
// fault is in words.
func Percent(l units.Locale, text string, most float64, zero bool) (v float64, fault string) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if strings.TrimSpace(text) == "" {
		if zero {
			return math.NaN(), ""
		}
		return 0, ""
	}
	number, mark := decimalPoint(l, t)
	if mark == "" && !l.Comma && strings.Contains(t, ",") {
		mark = pointWanted
	}
	if mark != "" {
		return 0, message.Text(l, "{reason}; want a number from 0 to {most} percent", "reason", mark, "most", most*100)
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0, message.Text(l, "no number that can be read; want a number from 0 to {most} percent", "most", most*100)
	}
	v /= 100
	switch {
	case v < 0 || v > most || v != v:
		return 0, message.Text(l, "{number} % is out of range; want a number from 0 to {most} percent", "number", t, "most", most*100)
	case v == 0 && !zero:
		return 0, message.Text(l, "zero percent is no share here; leave the field empty to have one assumed")
	}
	return v, ""
}
