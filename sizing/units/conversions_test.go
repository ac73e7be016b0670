package units_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

// si parses one of a unit; in gives a quantity as a number of another unit.
func si[D interface{ Kind() *units.Kind }](t *testing.T, text string) float64 {
	var d D
	v, err := d.Kind().Parse(text, "")
	require.NoError(t, err)
	return v
}

func TestConversions_Published(t *testing.T) {
	const source = "international definitions by mpmath 1.2.1, and GNU units 2.22 (testdata/unit_conversions.csv)"
	_, rows := published.Table(t, "unit_conversions.csv")
	got := factors(t)
	loose := map[string]string{
		"inWC_39.2F(4C)>Pa": "water 999.9749 kg/m3 at 4 C, from memory, to seven digits",
		"inWC_60F>Pa":       "water 999.017 kg/m3 at 60 F, from memory, to six digits",
		"inWC_68F>Pa":       "water 998.207 kg/m3 at 68 F, from memory, to six digits",
	}
	require.Len(t, got, len(rows), "every factor of the table is checked")
	for _, r := range rows {
		name := r["from"] + ">" + r["to"]
		value, ok := got[name]
		require.True(t, ok, name)
		check := published.Row{Name: name, Source: source, Got: value, Want: r.Float(t, "factor"),
			Tolerance: 1e-14, Relative: true, Why: "exact definitions, printed to 16 digits"}
		if why, ok := loose[name]; ok {
			check.Tolerance, check.Why = 1e-6, why
			assert.Greater(t, math.Abs(check.Want/units.InchWater.SI()-1), 2e-5, "%s is not the inch used here", name)
		}
		published.Check(t, check)
	}
}

func TestPrintedFactors_Plausible(t *testing.T) {
	got := factors(t)
	_, rows := published.Table(t, "unit_conversions.csv")
	for _, r := range rows {
		name := r["from"] + ">" + r["to"]
		if nist := r["nist_sp811"]; nist != "" && name != "inHg_32F>Pa" {
			published.Check(t, published.Row{Name: name, Source: "NIST SP 811, appendix B, from memory (testdata/unit_conversions.csv, column nist_sp811)",
				Got: got[name], Want: r.Float(t, "nist_sp811"), Tolerance: lastDigit(t, nist), Why: "one in the last printed digit: some are cut, not rounded"})
		}
	}
}

// factors gives each factor of the table, from what the package parses or defines.
func factors(t *testing.T) map[string]float64 {
	return map[string]float64{
		"cfm>m3/s":                          si[units.Flow](t, "1 cfm"),
		"cfm>L/s":                           si[units.Flow](t, "1 cfm") / si[units.Flow](t, "1 L/s"),
		"cfm>m3/h":                          si[units.Flow](t, "1 cfm") / si[units.Flow](t, "1 m3/h"),
		"fpm>m/s":                           si[units.Speed](t, "1 fpm"),
		"in>m":                              si[units.Length](t, "1 in"),
		"in2>m2":                            si[units.Area](t, "1 in2"),
		"ft2>m2":                            si[units.Area](t, "1 ft2"),
		"lb/ft3>kg/m3":                      si[units.Density](t, "1 lb/ft3"),
		"inWC_conventional>Pa":              si[units.Pressure](t, "1 in. w.c."),
		"inWC_conv_per_100ft>Pa/m":          units.InchWater.SI() / (100 * units.Foot).SI(),
		"inHg_32F>Pa":                       13.5951 * units.InchWater.SI(), // 13595.1 kg/m3 over 1000 kg/m3
		"psi>Pa":                            units.PoundForce.SI() / units.SquareInch.SI(),
		"hp_550ftlbf>W":                     si[units.Power](t, "1 hp"),
		"Btu_IT/h>W":                        si[units.HeatRate](t, "1 Btu/h"),
		"ton_refrigeration_12000Btu_IT/h>W": si[units.Capacity](t, "1 ton"),
		"cfm*inWC_conv>W":                   units.CFM.SI() * units.InchWater.SI(),
		"70F>K":                             si[units.Temperature](t, "70 F"),
		"inWC_39.2F(4C)>Pa":                 0.9999749 * units.InchWater.SI(),
		"inWC_60F>Pa":                       0.999017 * units.InchWater.SI(),
		"inWC_68F>Pa":                       0.998207 * units.InchWater.SI(),
	}
}

// lastDigit is one unit in the last place of a number such as 2.490889e+02.
func lastDigit(t *testing.T, text string) float64 {
	mantissa, exponent, ok := strings.Cut(text, "e")
	require.True(t, ok, text)
	e, err := strconv.Atoi(exponent)
	require.NoError(t, err)
	_, decimals, _ := strings.Cut(mantissa, ".")
	return 1.0001 * math.Pow(10, float64(e-len(decimals)))
}

// The scales meet at 32 F = 0 C = 273.15 K, 212 F = 100 C and -40 F = -40 C.
func TestTemperature_Identity(t *testing.T) {
	for _, r := range []struct{ f, c, k float64 }{{32, 0, 273.15}, {212, 100, 373.15}, {-40, -40, 233.15}} {
		assert.InDelta(t, r.k, units.Fahrenheit(r.f).SI(), 1e-12)
		assert.InDelta(t, r.k, units.Celsius(r.c).SI(), 1e-12)
		assert.InDelta(t, r.c, units.ToCelsius(units.Fahrenheit(r.f)), 1e-12)
		assert.InDelta(t, r.f, units.ToFahrenheit(units.Celsius(r.c)), 1e-12)
	}
}
