package parse_test

import (
	"math"
	"strconv"
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

// FuzzQuantity reads any text in either locale: a finite value, or a fault in words,
// and never one number for the other's thousands.
func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"1.200,5", "1,200.5", "1.200", "1\u202f200,5 kPa", "1.200.000", "$7.233,00", "15 3/4", "1.2.3", "-1.000,", "1,000,000e3"} {
		f.Add(s, false)
		f.Add(s, true)
	}
	kind := units.Pressure(0).Kind()
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		l := units.Locale{Comma: comma}
		v, fault := parse.Quantity(l, kind, text, kind.SIUnit(), true, true)
		if fault != "" && v != 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q: %g %s", text, v, fault)
		}
		other, otherFault := parse.Quantity(units.Locale{Comma: !comma}, kind, text, kind.SIUnit(), true, true)
		if fault == "" && otherFault == "" && v != other && v != 0 && math.Abs(math.Log10(math.Abs(v/other))) > 0.5 {
			t.Fatalf("%q is %g and with the other mark %g", text, v, other)
		}
	})
}

// FuzzThousands: an amount written with its thousands apart reads back.
func FuzzThousands(f *testing.F) {
	for _, cents := range []int64{123450, 120000050, 99999, 100000} {
		f.Add(cents, true)
		f.Add(cents, false)
	}
	kind := units.Money(0).Kind()
	f.Fuzz(func(t *testing.T, cents int64, comma bool) {
		if cents < 0 || cents > 1e12 {
			return
		}
		l := units.Locale{Comma: comma}
		text := l.Thousands(l.Mark(strconv.FormatFloat(float64(cents)/100, 'f', 2, 64)))
		v, fault := parse.Quantity(l, kind, text, kind.Usual(l), true, false)
		if fault != "" || v != float64(cents)/100 {
			t.Fatalf("%q reads %g %s", text, v, fault)
		}
	})
}
