package parse_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

var (
	point = units.IP
	comma = units.Locale{Comma: true}
)

const (
	pointFault = "a comma may mean thousands or decimals; write 1200 or 1.2; want a pressure"
	commaFault = "a point may mean thousands or decimals; write 1200 or 1,2; want a pressure"
	twoCommas  = "a number has one comma, before its decimals; write 1200 or 1,2; want a pressure"
)

func TestDecimalMarksOfQuantities(t *testing.T) {
	kind := units.Pressure(0).Kind()
	for _, c := range []struct {
		locale units.Locale
		text   string
		want   float64 // Pa
		fault  string
	}{
		{comma, "1,5", 1.5, ""},
		{comma, "1.5", 1.5, ""},
		{comma, "1,234", 1.234, ""},
		{comma, "0.125", 0.125, ""},
		{comma, "0,125", 0.125, ""},
		{comma, ".5", 0.5, ""},
		{comma, ",5", 0.5, ""},
		{comma, "1,", 1, ""},
		{comma, "1234.567", 1234.567, ""},
		{comma, "1.2345", 1.2345, ""},
		{comma, "-1,5", -1.5, ""},
		{comma, "1,5 kPa", 1500, ""},
		{comma, "12 in. w.c.", 12 * float64(units.InchWater), ""},
		{comma, "1,5e2", 150, ""},
		{comma, "3/4", 0.75, ""},
		{comma, "1200", 1200, ""},
		{comma, "1.234", 0, commaFault},
		{comma, "1.234.567", 1234567, ""},
		{comma, "1.234,5", 1234.5, ""},
		{comma, "1.234.567,8 kPa", 1234567800, ""},
		{comma, "-1.200,5", -1200.5, ""},
		{comma, "1\u202f200,5", 1200.5, ""},
		{comma, "1\u2009200", 1200, ""},
		{comma, "12\u00a0345\u00a0678 Pa", 12345678, ""},
		{comma, "0.891", 0.891, ""},
		{comma, "1.200", 0, commaFault},
		{comma, "12.34,5", 0, commaFault},
		{comma, "1234.567,8", 0, commaFault},
		{comma, "0.123,4", 0, commaFault},
		{comma, "1.2345,6", 0, commaFault},
		{comma, "1.200,5,6", 0, twoCommas},
		{comma, "1.200,5.6", 0, commaFault},
		{comma, "1 200,5", 0, "want a pressure"},
		{comma, "1\u202f20", 0, "want a pressure"},
		{comma, "1,234.5", 0, commaFault},
		{comma, "1,234,567", 0, twoCommas},
		{point, "1.5", 1.5, ""},
		{point, "1.234", 1.234, ""},
		{point, "1,5", 0, pointFault},
		{point, "1,234", 0, pointFault},
		{point, "1,234.5", 1234.5, ""},
		{point, "1,234,567 Pa", 1234567, ""},
		{point, "12\u202f345.5", 12345.5, ""},
		{point, "12,34.5", 0, pointFault},
		{point, "1.234,5", 0, pointFault},
		{point, "1,234.5,6", 0, pointFault},
		{point, "0,123.4", 0, pointFault},
	} {
		got, fault := parse.Quantity(c.locale, kind, c.text, kind.SIUnit(), false, true)
		if c.fault == "" {
			assert.Empty(t, fault, c.text)
		} else {
			assert.Contains(t, fault, c.fault, c.text)
		}
		assert.InDelta(t, c.want, got, 1e-9, c.text)
	}
}

func TestDecimalMarkOfMoney(t *testing.T) {
	kind := units.Money(0).Kind()
	for text, want := range map[string]float64{"$12,50": 12.5, "12,50": 12.5, "$12.50": 12.5, "$7.233,00": 7233, "$1.007.233": 1007233} {
		got, fault := parse.Quantity(comma, kind, text, kind.Usual(comma), false, false)
		assert.Empty(t, fault, text)
		assert.Equal(t, want, got, text)
	}
	_, fault := parse.Quantity(comma, kind, "$7.233", kind.Usual(comma), false, false)
	assert.Contains(t, fault, "a point may mean thousands or decimals")
}

func TestDecimalMarksOfPercentsAndNumbers(t *testing.T) {
	for _, c := range []struct {
		locale units.Locale
		text   string
		want   float64
		fault  string
	}{
		{comma, "12,5", 12.5, ""}, {comma, "12.5", 12.5, ""}, {point, "12.5", 12.5, ""},
		{comma, "1.234", 0, "write 1200 or 1,2"}, {point, "12,5", 0, "1.2"},
		{comma, "x", 0, "no number that can be read"},
	} {
		share, fault := parse.Percent(c.locale, c.text+" %", 1, false)
		number, also := parse.Number(c.locale, c.text)
		if c.fault == "" {
			assert.Empty(t, fault+also, c.text)
		} else {
			assert.Contains(t, fault, c.fault, c.text)
			assert.NotEmpty(t, also, c.text)
		}
		assert.InDelta(t, c.want/100, share, 1e-12, c.text)
		assert.InDelta(t, c.want, number, 1e-12, c.text)
	}
	_, fault := parse.Number(comma, "x")
	assert.Equal(t, "no number that can be read; want one such as 1,5", fault)
	_, fault = parse.Number(point, "1,5")
	assert.Equal(t, "no number that can be read; want one such as 1.5", fault)
	_, fault = parse.Percent(comma, "120,5", 0.995, false)
	assert.Equal(t, "120,5 % is out of range; want a number from 0 to 99,5 percent", fault)
}

func TestDecimalMarksOfSizes(t *testing.T) {
	for _, text := range []string{"16,5x25x1", "16.5 x 25 x 1"} {
		w, h, d, fault := parse.Size(comma, text, false)
		assert.Empty(t, fault, text)
		assert.Equal(t, []units.Length{16.5 * units.Inch, 25 * units.Inch, units.Inch}, []units.Length{w, h, d}, text)
	}
	assert.Equal(t, "16,5x25x1", parse.SizeText(comma, 16.5*units.Inch, 25*units.Inch, units.Inch))
	_, _, _, fault := parse.Size(comma, "1.625x25", true)
	assert.Contains(t, fault, `"1.625": a point may mean thousands or decimals; write 1200 or 1,2; want width x height`)
	_, _, _, fault = parse.Size(point, "16,5x25", true)
	assert.Contains(t, fault, `"16,5": a comma may mean thousands or decimals; write 1200 or 1.2; want width x height`)
	_, _, _, fault = parse.Size(point, "16", true)
	assert.Contains(t, fault, "1 number; want width x height")
}

// What is shown with a decimal comma reads back as the same.
func TestShownTextReadsBackWithAComma(t *testing.T) {
	kinds := []*units.Kind{units.Flow(0).Kind(), units.Pressure(0).Kind(), units.Length(0).Kind(), units.Money(0).Kind()}
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		l := rapid.SampledFrom([]units.Locale{comma, {System: units.Metric, Comma: true}}).Draw(t, "locale")
		u := k.Usual(l)
		si := u.ToSI(float64(rapid.IntRange(1, 9_999_999).Draw(t, "thousandths")) / 1000)
		text := parse.ShownText(l, k, si, u)
		back, fault := parse.Quantity(l, k, text, u, false, false)
		if d := (back - si) / si; fault != "" || d > 6e-3 || d < -6e-3 {
			t.Fatalf("%g is shown as %q, which reads %g %s", si, text, back, fault)
		}
	})
}

func TestMarked(t *testing.T) {
	assert.Equal(t, "0,5 in. w.c.", parse.Marked(comma, "0.5 in. w.c."))
	assert.Equal(t, "0.5 in. w.c.", parse.Marked(point, "0.5 in. w.c."))
	assert.Equal(t, "12 in. w.c.", parse.Marked(comma, "12 in. w.c."))
	assert.Equal(t, "in. w.c.", parse.Marked(comma, "in. w.c."))
	for _, l := range []units.Locale{point, comma} {
		kind := units.Pressure(0).Kind()
		got, fault := parse.Quantity(l, kind, parse.Everywhere("1.125")+" Pa", kind.SIUnit(), false, false)
		assert.Empty(t, fault)
		assert.Equal(t, 1.125, got)
	}
	assert.Equal(t, "1.25", parse.Everywhere("1.25"))
}
