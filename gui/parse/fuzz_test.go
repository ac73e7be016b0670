package parse_test

import (
	"math"
	"strings"
	"testing"

	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

// FuzzPercent reads any text: a share within its range, or a fault in words.
func FuzzPercent(f *testing.F) {
	for _, s := range []string{"20", "20 %", "", "%", "-1", "1e400", "NaN", "0x1p-2", "150", "٣", "1_0", "12,5", "1.234", "1,2,3"} {
		f.Add(s, false, false)
		f.Add(s, true, true)
	}
	f.Fuzz(func(t *testing.T, text string, zero, comma bool) {
		const most = 0.9
		v, fault := parse.Percent(units.Locale{Comma: comma}, text, most, zero)
		switch {
		case fault != "":
			if v != 0 {
				t.Fatalf("%q: fault and value", text)
			}
		case strings.TrimSpace(text) == "":
			if zero != math.IsNaN(v) {
				t.Fatalf("%q is %g", text, v)
			}
		case !(v >= 0 && v <= most) || v == 0 && !zero:
			t.Fatalf("%q passed as %g", text, v)
		}
	})
}
