package units_test

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/units"
)

// finite draws any finite float64, with the sizes people type over-weighted.
func finite() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Float64Range(-1e4, 1e4),
		rapid.Float64Range(-1, 1),
		rapid.Custom(func(t *rapid.T) float64 {
			return math.Round(rapid.Float64Range(0, 1e6).Draw(t, "number")) / 1000
		}),
		rapid.Float64().Filter(func(v float64) bool { return !math.IsInf(v, 0) && !math.IsNaN(v) }),
	)
}

// same is equal to the bit, but for the sign of zero, which is not kept.
func same(a, b float64) bool { return a == b }

func TestText_Identity(t *testing.T) {
	for _, k := range units.Kinds() {
		t.Run(k.Name, rapid.MakeCheck(func(t *rapid.T) {
			v := finite().Draw(t, "SI")
			back, err := k.Parse(k.Text(v), "")
			require.NoError(t, err)
			require.True(t, same(v, back), "%v became %q became %v", v, k.Text(v), back)
		}))
	}
}

// A number with up to five digits, typed in any unit, comes back exact.
func TestTypedText_Identity(t *testing.T) {
	for _, k := range units.Kinds() {
		t.Run(k.Name, rapid.MakeCheck(func(t *rapid.T) {
			u := rapid.SampledFrom(k.Units).Draw(t, "unit")
			n := rapid.IntRange(0, 99999).Draw(t, "digits")
			typed := strconv.FormatFloat(float64(n)/100, 'f', -1, 64) + " " + u.Name
			v, err := k.Parse(typed, "")
			require.NoError(t, err)
			again, err := k.Parse(k.Text(v), "")
			require.NoError(t, err)
			require.True(t, same(v, again), "%s became %s", typed, k.Text(v))
		}))
	}
}

func TestTextIn_Identity(t *testing.T) {
	for _, k := range units.Kinds() {
		for _, s := range []units.Locale{units.IP, units.SI} {
			u := k.Usual(s)
			t.Run(k.Name+" "+s.String(), rapid.MakeCheck(func(t *rapid.T) {
				// What was typed in the usual unit is written as typed.
				typed := strconv.FormatFloat(float64(rapid.IntRange(0, 99999).Draw(t, "digits"))/100, 'f', -1, 64)
				v, err := k.Parse(typed, u.Name)
				require.NoError(t, err)
				text := k.TextIn(v, s)
				require.True(t, strings.HasPrefix(text, typed), "%q became %q", typed, text)
				back, err := k.Parse(text, "")
				require.NoError(t, err)
				require.True(t, same(v, back))

				// Any other value comes back to 15 digits of its own size or the offset's.
				v = rapid.Float64Range(-1e6, 1e6).Draw(t, "SI")
				back, err = k.Parse(k.TextIn(v, s), "")
				require.NoError(t, err)
				require.InDelta(t, v, back, 1e-14*max(math.Abs(v), math.Abs(u.Offset), 1e-290))
			}))
		}
	}
}

func TestTextKeepsWhatWasTyped(t *testing.T) {
	for _, text := range []string{"1200 cfm", "566 L/s", "960 m3/h"} {
		assert.Equal(t, text, parse[units.Flow](t, text).String())
	}
	for _, text := range []string{"0.52 in. w.c.", "125 Pa", "0.004 in. w.c."} {
		assert.Equal(t, text, parse[units.Pressure](t, text).String())
	}
	for _, text := range []string{"19.5 in", "592 mm"} {
		assert.Equal(t, text, parse[units.Length](t, text).String())
	}
	for _, text := range []string{"75 F", "24 C"} {
		assert.Equal(t, text, parse[units.Temperature](t, text).String())
	}
	for _, text := range []string{"3 month", "1200 h"} {
		assert.Equal(t, text, parse[units.Duration](t, text).String())
	}
	assert.Equal(t, "3 ton", (3 * units.Ton).String())
	assert.Equal(t, "400 cfm/ton", (400 * units.CFMPerTon).String())
	assert.Equal(t, "0.15 $/kWh", (0.15 * units.MoneyPerKilowattHour).String())
	assert.Equal(t, "0 cfm", units.Flow(0).String())
	assert.Equal(t, "0 cfm", units.Flow(math.Copysign(0, -1)).String())
}

// parse reads text as a Q.
func parse[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
	units.Quantity
	String() string
}](t *testing.T, text string) P {
	q := P(new(Q))
	require.NoError(t, q.UnmarshalText([]byte(text)))
	return q
}

func TestConstants_Identity(t *testing.T) {
	// A constant times a number is the very value that the text reads as.
	assert.Equal(t, (1200 * units.CFM).SI(), parse[units.Flow](t, "1200 cfm").SI())
	assert.Equal(t, (0.52 * units.InchWater).SI(), parse[units.Pressure](t, "0.52 in. w.c.").SI())
	assert.Equal(t, (19.5 * units.Inch).SI(), parse[units.Length](t, "19.5 in").SI())
	assert.Equal(t, units.Fahrenheit(70).SI(), parse[units.Temperature](t, "70 F").SI())
	assert.Equal(t, units.Celsius(21).SI(), parse[units.Temperature](t, "21 C").SI())
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-100, 2000).Draw(t, "F")
		assert.InDelta(t, f, units.ToFahrenheit(units.Fahrenheit(f)), 1e-11)
		assert.InDelta(t, f, units.ToCelsius(units.Celsius(f)), 1e-11)
		assert.InEpsilon(t, 1+f*f, (units.Flow(1+f*f) * units.CFM).In(units.CFM), 1e-15)
	})
}

// Every spelling of every unit leads to that unit, in any case, with or
// without blanks.
func TestSpellings(t *testing.T) {
	for _, k := range units.Kinds() {
		seen := map[string]bool{}
		for _, u := range k.Units {
			assert.False(t, seen[u.Name], "%s: %s twice", k.Name, u.Name)
			seen[u.Name] = true
			want := u.Scale*2 + u.Offset
			for _, name := range []string{u.Name, strings.ToUpper(u.Name), strings.ToLower(u.Name)} {
				for _, text := range []string{"2 " + name, "2" + strings.TrimLeft(" "+name, attached(name)), "  2.0   " + name + " ", "+2e0 " + name, "4/2 " + name, "1 2/2 " + name} {
					got, err := k.Parse(text, "")
					require.NoError(t, err, "%s %q", k.Name, text)
					assert.InEpsilon(t, want, got, 1e-15, "%s %q", k.Name, text)
				}
			}
		}
		assert.Equal(t, 1.0, k.SIUnit().Scale, k.Name)
		assert.NotPanics(t, func() { k.Usual(units.IP); k.Usual(units.SI) }, k.Name)
	}
	for _, c := range []struct {
		text string
		want units.Quantity
	}{
		{`0.5"wc`, 0.5 * units.InchWater}, {"0.5 in wc", 0.5 * units.InchWater}, {"0.5 IWC", 0.5 * units.InchWater},
		{"0.5 In. W.G.", 0.5 * units.InchWater}, {"0.5 inH2O", 0.5 * units.InchWater}, {"-0.31 in. w.c.", -0.31 * units.InchWater},
		{"−0.31 in. w.c.", -0.31 * units.InchWater}, {"10 mmH2O", 10 * units.MilliWater}, {"0.125 kPa", 125 * units.Pascal},
		{"1200 ft³/min", 1200 * units.CFM}, {"2000 m³/h", 2000 * units.CubicMetrePerHour},
		{"15 3/4 in", 15.75 * units.Inch}, {"15-3/4\"", 15.75 * units.Inch}, {"3/4″", 0.75 * units.Inch}, {"-1 1/2 in", -1.5 * units.Inch},
		{"2'", 2 * units.Foot}, {"5 sq ft", 5 * units.SquareFoot}, {"300 in²", 300 * units.SquareInch},
		{"72 °F", units.Fahrenheit(72)}, {"22 °C", units.Celsius(22)}, {"295.15 K", units.Temperature(295.15)},
		{"40 °F", 40 * units.FahrenheitDegree}, {"80 MBH", 80000 * units.BtuPerHour}, {"36000 Btu/hr", 3 * units.Ton},
		{"0.45 w/CFM", 0.45 * units.WattPerCFM}, {"$12", 12 * units.Dollar}, {"12", 12 * units.Dollar}, {"-$12.50", -12.5 * units.Dollar},
		{"€ 12", 12 * units.Dollar}, {"12 dollars", 12 * units.Dollar}, {"$0.15/kWh", 0.15 * units.MoneyPerKilowattHour},
		{"15 cents/kWh", 0.15 * units.MoneyPerKilowattHour}, {"86 Pa·s/m", 86 * units.PascalSecondPerMetre},
		{"100 cfm/ft²", 100 * units.PermeabilityCFMPerSquare}, {"3 months", 3 * units.Month}, {".5 month", units.Month / 2},
	} {
		got, err := c.want.Kind().Parse(c.text, "")
		require.NoError(t, err, c.text)
		assert.InEpsilon(t, c.want.SI(), got, 1e-15, c.text)
	}
}

// attached is the blank where a unit may touch its number: 1/s may not, since
// 21/s reads as a fraction.
func attached(name string) string {
	if name[0] >= '0' && name[0] <= '9' {
		return ""
	}
	return " "
}

// Spellings that differ only in case lead to the same unit each time, whatever
// the order of a map.
func TestCaseIsDeterministic(t *testing.T) {
	for _, k := range units.Kinds() {
		for _, u := range k.Units {
			want, err := k.Parse("1 "+strings.ToUpper(u.Name), "")
			for range 50 {
				got, again := k.Parse("1 "+strings.ToUpper(u.Name), "")
				require.Equal(t, want, got)
				require.Equal(t, err, again)
			}
		}
	}
}

func TestNumbersWithoutUnit(t *testing.T) {
	v, err := units.Flow(0).Kind().Parse("566", "L/s")
	require.NoError(t, err)
	assert.InDelta(t, 0.566, v, 1e-15)
	v, err = units.Flow(0).Kind().Parse("1200 cfm", "L/s")
	require.NoError(t, err)
	assert.Equal(t, (1200 * units.CFM).SI(), v, "a unit that is typed wins")
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		kind       *units.Kind
		text, want string
	}{
		{units.Flow(0).Kind(), "", `"": nothing given; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Flow(0).Kind(), "1200", `"1200": the unit is missing; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Flow(0).Kind(), "1,200 cfm", `"1,200 cfm": a comma may mean thousands or decimals; write 1200 or 1.2; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Flow(0).Kind(), "1200 Pa", `"1200 Pa": "Pa" is not a unit of airflow; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Flow(0).Kind(), "lots", `"lots": no number at the start; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Length(0).Kind(), "3/0 in", `"3/0 in": the number cannot be read; want a length in in, ft, mm, cm or m`},
		{units.Length(0).Kind(), "1e999 in", `"1e999 in": the number cannot be read; want a length in in, ft, mm, cm or m`},
		{units.Power(0).Kind(), "1e308 kW", `"1e308 kW": the number is too large; want a power in W, kW or hp`},
		{units.EnergyPrice(0).Kind(), "$0.15", `"$0.15": the unit is missing; want an energy price in $/kWh, cents/kWh or $/J`},
		{units.Flow(0).Kind(), "$5 cfm", `"$5 cfm": no number at the start; want an airflow in cfm, L/s, m3/h or m3/s`},
		{units.Money(0).Kind(), "$$5", `"$$5": no number at the start; want an amount of money in $`},
		{units.Speed(0).Kind(), "nan fpm", `"nan fpm": no number at the start; want a speed in fpm or m/s`},
	} {
		_, err := c.kind.Parse(c.text, "")
		require.EqualError(t, err, c.want)
		var pe *units.ParseError
		require.ErrorAs(t, err, &pe)
		assert.Equal(t, c.text, pe.Given)
		assert.Same(t, c.kind, pe.Kind)
	}
	q := 7 * units.CFM
	require.Error(t, q.UnmarshalText([]byte("7 apples")))
	assert.Equal(t, 7*units.CFM, q, "a value is left alone by a text that is at fault")
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		q    units.Quantity
		s    units.Locale
		want string
	}{
		{1199.6 * units.CFM, units.IP, "1200 cfm"},
		{1200 * units.CFM, units.SI, "566 L/s"},
		{1.4 * units.CFM, units.IP, "1.4 cfm"},
		{0.52 * units.InchWater, units.IP, "0.520 in. w.c."},
		{0.52 * units.InchWater, units.SI, "129.5 Pa"},
		{0.004 * units.InchWater, units.IP, "0.004 in. w.c."},
		{0.0016 * units.InchWater, units.IP, "0.0016 in. w.c."},
		{-0.00012 * units.InchWater, units.IP, "-0.00012 in. w.c."},
		{0 * units.InchWater, units.IP, "0.000 in. w.c."},
		{-1e-12 * units.InchWater, units.IP, "0.000 in. w.c."},
		{-0.3 * units.InchWater, units.IP, "-0.300 in. w.c."},
		{units.Fahrenheit(70), units.IP, "70.0 °F"},
		{units.Fahrenheit(70), units.SI, "21.1 °C"},
		{units.Fahrenheit(0.01), units.IP, "0.0 °F"},
		{units.Fahrenheit(-0.01), units.IP, "0.0 °F"},
		{20 * units.FahrenheitDegree, units.IP, "20.0 °F"},
		{20 * units.FahrenheitDegree, units.SI, "11.1 K"},
		{15.75 * units.Inch, units.IP, "15.75 in"},
		{15.75 * units.Inch, units.SI, "400 mm"},
		{3 * units.Ton, units.IP, "3.0 ton"},
		{3 * units.Ton, units.SI, "10.6 kW"},
		{12.5 * units.Dollar, units.IP, "$12.50"},
		{-12.5 * units.Dollar, units.SI, "-$12.50"},
		{99.99 * units.Dollar, units.IP, "$99.99"},
		{99.996 * units.Dollar, units.IP, "$100"},
		{229.66 * units.Dollar, units.IP, "$230"},
		{-1250.4 * units.Dollar, units.SI, "-$1,250"},
		{6 * units.Month, units.IP, "6.0 months"},
		{units.Month, units.IP, "1.0 month"},
		{0.15 * units.MoneyPerKilowattHour, units.IP, "0.150 $/kWh"},
		{1.20138 * units.KilogramPerCubicMetre, units.IP, "0.0750 lb/ft3"},
		{units.Flow(math.NaN()), units.IP, "– cfm"},
		{units.Duration(math.Inf(1)), units.IP, "∞ months"},
		{14 * units.Inch, units.IP, "14.00 in"},
		{14 * units.Foot, units.IP, "14.0 ft"},
		{1800 * units.Metre, units.SI, "1800.00 m"},
		{-14 * units.Foot, units.SI, "-4.27 m"},
	} {
		assert.Equal(t, c.want, c.q.Kind().Show(c.q.SI(), c.s))
	}
	assert.Equal(t, "229.66 $", units.Money(229.66).String(), "a file holds the cents")
	assert.Equal(t, "229.66", units.Money(0).Kind().Fixed(229.66, units.IP), "and so does a table of one")
	assert.Equal(t, "0.520", units.Pressure(0).Kind().Number((0.52*units.InchWater).SI(), units.IP))
}

// What a screen shows reads back to within its own rounding, and nothing but
// zero shows as zero.
func TestShow_Identity(t *testing.T) {
	for _, k := range units.Kinds() {
		for _, s := range []units.Locale{units.IP, units.SI} {
			u := k.Usual(s)
			t.Run(k.Name+" "+s.String(), rapid.MakeCheck(func(t *rapid.T) {
				n := rapid.OneOf(rapid.Float64Range(-1e5, 1e5), rapid.Float64Range(-1, 1), rapid.Float64Range(-1e-5, 1e-5)).Draw(t, "number")
				v := n*u.Scale + u.Offset
				shown := k.Show(v, s)
				if k == units.Money(0).Kind() { // whose thousands are set apart, as nobody types them
					shown = strings.ReplaceAll(shown, ",", "")
				}
				back, err := k.Parse(shown, "")
				require.NoError(t, err)
				got := (back - u.Offset) / u.Scale
				if math.Abs(n) > 1.1e-9 && u.Offset == 0 {
					assert.NotZero(t, got)
					assert.LessOrEqual(t, math.Abs(got-n), 0.26*math.Abs(n), "%v shows as %s", n, k.Show(v, s))
				}
				assert.InDelta(t, n, got, max(0.5001, 0.0051*math.Abs(n)), "long lengths show in ft and m")
			}))
		}
	}
}

func TestJSON(t *testing.T) {
	type house struct {
		Airflow units.Flow     `json:"airflow"`
		Static  units.Pressure `json:"static,omitzero"`
	}
	data, err := json.Marshal(house{Airflow: 1200 * units.CFM})
	require.NoError(t, err)
	assert.JSONEq(t, `{"airflow": "1200 cfm"}`, string(data))
	var h house
	require.NoError(t, json.Unmarshal([]byte(`{"airflow": "566 L/s", "static": "0.5 in wc"}`), &h))
	assert.Equal(t, house{566 * units.LitrePerSecond, 0.5 * units.InchWater}, h)
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err = json.Marshal(house{Airflow: units.Flow(v)})
		assert.ErrorContains(t, err, "airflow is")
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"1200 cfm", "0.52 in. w.c.", `15 3/4"`, "15-3/4 in", "-1/2 in", "70 °F", "$12", "-$1.5", "€0.15/kWh", "1,200", "1e308 kW",
		"−3 Pa", "4/0", "", "$", "2 l/(m2 s)", "1e-320 J", ".", "5 1/min", "0x1p4 Pa", "1_000 W", "５ W",
	} {
		f.Add(s, "")
		f.Add(s, "cfm")
	}
	kinds := units.Kinds()
	f.Fuzz(func(t *testing.T, text, bare string) {
		for _, k := range kinds {
			v, err := k.Parse(text, bare)
			if err != nil {
				var pe *units.ParseError
				require.ErrorAs(t, err, &pe)
				continue
			}
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%q", text)
			back, err := k.Parse(k.Text(v), "")
			require.NoError(t, err, "%q became %q", text, k.Text(v))
			require.True(t, same(v, back), "%q: %v became %q became %v", text, v, k.Text(v), back)
			k.Show(v, units.IP)
			k.TextIn(v, units.SI)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	k := units.Pressure(0).Kind()
	for b.Loop() {
		if _, err := k.Parse("0.52 in. w.c.", ""); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkText(b *testing.B) {
	v := (0.52 * units.InchWater).SI()
	k := units.Pressure(0).Kind()
	for b.Loop() {
		k.Text(v)
	}
}

func BenchmarkTextOfComputed(b *testing.B) {
	v := math.Pi
	k := units.Pressure(0).Kind()
	for b.Loop() {
		k.Text(v)
	}
}

// A length keeps the unit in which a person would have typed it.
func TestLengthText_Identity(t *testing.T) {
	for _, text := range []string{"18 ft", "24 in", "12 in", "217 in", "6000 ft", "1800 m", "600 mm", "592 mm", "15.75 in", "0.8 mm", "12 m", "-20 ft", "0 in"} {
		q, err := units.Parse[units.Length](text)
		require.NoError(t, err)
		assert.Equal(t, text, q.String())
	}
}
