package parse

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Percent reads per cents; NaN is what an empty text means where zero is a value.
func Percent(text string, most float64, zero bool) (v float64, fault string) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if strings.TrimSpace(text) == "" {
		if zero {
			return math.NaN(), ""
		}
		return 0, ""
	}
	wanted := fmt.Sprintf("want a number from 0 to %s per cent", Exact(most*100))
	v, err := strconv.ParseFloat(t, 64)
	if err != nil {
		return 0, "no number that can be read; " + wanted
	}
	v /= 100
	switch {
	case v < 0 || v > most || v != v:
		return 0, t + " % is out of range; " + wanted
	case v == 0 && !zero:
		return 0, "zero per cent is no share here; leave the field empty to have one assumed"
	}
	return v, ""
}
