package air_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/air"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

const psi = 6894.757293168361 // Pa

func TestMoistAir_Published(t *testing.T) {
	source, rows := published.Table(t, "psychrometrics.csv")
	for _, row := range rows {
		name := row["alt_ft"] + " ft " + row["t_db_f"] + " F " + row["rh"]
		p := units.Pressure(row.Float(t, "p_psia") * psi)
		s, err := air.AtPressure(p, units.Fahrenheit(row.Float(t, "t_db_f")), row.Float(t, "rh"))
		require.NoError(t, err)
		check := func(column string, got, tolerance float64, relative bool, why string) {
			if row[column] == "" {
				return
			}
			published.Check(t, published.Row{Name: name + " " + column, Source: source, Got: got, Want: row.Float(t, column), Tolerance: tolerance, Relative: relative, Why: why})
		}
		check("p_ws_psia", air.SaturationPressure(s.Temperature).SI()/psi, 2e-5, true, "same formula, IP coefficients rounded to eight digits and 459.67 for 0 °F")
		if row.Float(t, "rh") > 0 {
			check("w_lb_lb", s.HumidityRatio, 3e-5, true, "follows the saturation pressure")
			check("t_dp_f", units.ToFahrenheit(s.DewPoint()), 0.01, false, "the library solves dew point to 0.001 °C and inverts its own saturation line")
			wet, err := s.WetBulb()
			require.NoError(t, err)
			check("t_wb_f", units.ToFahrenheit(wet), 0.05, false, "IP and SI constants of the wet-bulb equation are rounded apart (0.240 Btu/(lb F) is 1.0048, not 1.006)")
		}
		check("rho_moist_lb_ft3", s.Density().In(units.PoundPerCubicFoot), 5e-5, true, "gas constant 53.350 ft lbf/(lb R) is 287.055, not 287.042")
		check("v_ft3_lb_da", s.SpecificVolume()/math.Pow(0.3048, 3)*0.45359237, 5e-5, true, "gas constant 53.350 ft lbf/(lb R) is 287.055, not 287.042")
		datum := air.State{Temperature: units.Fahrenheit(0), Pressure: p}
		check("h_btu_lb_da", (s.Enthalpy()-datum.Enthalpy())/2326, 0.0015, true, "IP constants 0.240, 1061, 0.444 against SI 1.006, 2501, 1.86, each rounded; IP counts from 0 °F")
	}
}

func TestPressureAtAltitude_Published(t *testing.T) {
	source, rows := published.Table(t, "standard_atmosphere_density.csv")
	for _, row := range rows {
		z := units.Length(row.Float(t, "alt_ft")) * units.Foot
		p := air.PressureAtAltitude(z)
		published.Check(t, published.Row{Name: row["alt_ft"] + " ft", Source: source, Got: p.SI(), Want: row.Float(t, "p_pa"), Tolerance: 1e-9, Relative: true, Why: "same equation in 40 digits"})
		published.Check(t, published.Row{Name: row["alt_ft"] + " ft, handbook form", Source: source, Got: p.SI(), Want: row.Float(t, "p_pa_ashrae"), Tolerance: 2e-4, Relative: true, Why: "the handbook's short form leaves out the geopotential"})
		s, err := air.New(z, units.Fahrenheit(70), 0)
		require.NoError(t, err)
		published.Check(t, published.Row{Name: row["alt_ft"] + " ft dry air at 70 °F", Source: source, Got: s.Density().SI(), Want: row.Float(t, "rho70_kg_m3"), Tolerance: 5e-5, Relative: true, Why: "gas constant 287.05287 of ISO 2533 against 287.042 of the handbook"})
	}
}

func TestAir_Published(t *testing.T) {
	standard := air.Standard()
	dry, err := air.New(0, units.Fahrenheit(70), 0)
	require.NoError(t, err)
	sixThousand, err := air.New(6000*units.Foot, units.Fahrenheit(70), 0)
	require.NoError(t, err)
	for _, row := range []published.Row{
		{Name: "standard air", Source: "0.075 lb/ft3 by GNU units 2.22 (testdata/unit_conversions.csv: lb/ft3)", Got: standard.Density.SI(), Want: 0.075 * 16.01846337396014, Tolerance: 1e-12, Why: "exact definition"},
		{Name: "density ratio at 6000 ft", Source: "(1 - 6.8754e-6 z)^5.2559 = 0.801 with z in ft, secondary text", Got: sixThousand.Density().SI() / dry.Density().SI(), Want: 0.801, Tolerance: 5e-4, Why: "printed digits"},
	} {
		published.Check(t, row)
	}
}

func TestAir_Plausible(t *testing.T) {
	dry, err := air.New(0, units.Fahrenheit(70), 0)
	require.NoError(t, err)
	for _, row := range []published.Row{
		{Name: "dry air at 70 °F", Source: "ASHRAE Handbook Fundamentals, common figure 0.0749 lb/ft3, from memory", Got: dry.Density().In(units.PoundPerCubicFoot), Want: 0.0749, Tolerance: 5e-5, Why: "printed digits"},
		{Name: "viscosity at 15 °C", Source: "ISO 2533:1975, sea level, 1.7894e-5 Pa s, from memory", Got: air.Viscosity(units.Celsius(15)), Want: 1.7894e-5, Tolerance: 5e-10, Why: "printed digits"},
		{Name: "viscosity at 0 °C", Source: "ISO 2533:1975, 1.7161e-5 Pa s at 0 °C, from memory", Got: air.Viscosity(units.Celsius(0)), Want: 1.7161e-5, Tolerance: 1e-8, Why: "within 0.06 % of the figure remembered"},
		{Name: "saturation pressure at 0.01 °C", Source: "triple point of water, 611.657 Pa (Guildner, Johnson and Jones 1976), from memory", Got: air.SaturationPressure(273.16).SI(), Want: 611.657, Tolerance: 2e-4, Relative: true, Why: "stated uncertainty of the correlation near the triple point"},
		{Name: "saturation pressure at 100 °C", Source: "IAPWS: 101.418 kPa at 100 °C on ITS-90, from memory", Got: air.SaturationPressure(373.15).SI(), Want: 101418, Tolerance: 1e-3, Relative: true, Why: "the correlation is on the older temperature scale, under which water boils at 101 325 Pa"},
		{Name: "sensible factor", Source: "1.08 Btu/(h cfm F) = 60 x 0.075 x 0.24, common practice, no source", Got: air.Standard().Density.SI() * dry.SpecificHeat() * units.CFM.SI() * 5 / 9 / units.BtuPerHour.SI(), Want: 1.08, Tolerance: 0.005, Why: "printed digits"},
	} {
		published.Check(t, row)
	}
}

func TestFromWetBulb_Plausible(t *testing.T) {
	// The two standard return-air conditions at which coils are rated.
	s, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	require.NoError(t, err)
	source := "ASHRAE psychrometric chart no. 1 read at 80 °F dry bulb and 67 °F wet bulb, from memory"
	for _, row := range []published.Row{
		{Name: "humidity ratio", Source: source, Got: s.HumidityRatio, Want: 0.0112, Tolerance: 1e-4, Why: "a chart reads to one in the fourth decimal"},
		{Name: "relative humidity", Source: source, Got: s.RelativeHumidity(), Want: 0.51, Tolerance: 0.01, Why: "a chart reads to one percent"},
		{Name: "enthalpy from dry air at 0 °F", Source: source, Got: (s.Enthalpy() - air.State{Temperature: units.Fahrenheit(0)}.Enthalpy()) / 2326, Want: 31.5, Tolerance: 0.15, Why: "a chart reads to 0.1 Btu/lb, the formulas are good to 0.3 %"},
	} {
		published.Check(t, row)
	}
}

func TestState_Identity(t *testing.T) {
	assert.Equal(t, units.Pressure(101325), air.PressureAtAltitude(0))
	assert.Equal(t, air.PressureAtAltitude(air.HighestAltitude), air.PressureAtAltitude(20000), "clamped as documented")
	s, err := air.New(0, units.Celsius(20), 0)
	require.NoError(t, err)
	assert.InDelta(t, 101325/(287.042*293.15), s.Density().SI(), 1e-12)
	assert.InDelta(t, 1006, s.SpecificHeat(), 1e-12)
	assert.InDelta(t, 20120, s.Enthalpy(), 1e-9)
	assert.Equal(t, air.LowestTemperature, s.DewPoint(), "dry air has no dew point")
	saturated, err := air.New(0, units.Celsius(20), 1)
	require.NoError(t, err)
	wet, err := saturated.WetBulb()
	require.NoError(t, err)
	assert.InDelta(t, 293.15, wet.SI(), 1e-9)
	assert.InDelta(t, 293.15, saturated.DewPoint().SI(), 1e-9)
	assert.InDelta(t, 1, saturated.RelativeHumidity(), 1e-12)
	assert.Equal(t, s.Properties(), air.Properties{Density: s.Density(), Viscosity: s.Viscosity()})
}

func TestSaturation_Identity(t *testing.T) {
	over, under := air.SaturationPressure(273.16).SI(), air.SaturationPressure(273.16-1e-9).SI()
	assert.InEpsilon(t, over, under, 1e-5, "the curves over ice and over water meet")
	assert.True(t, math.IsInf(air.SaturationHumidityRatio(units.Celsius(120), air.SeaLevel), 1))
	rapid.Check(t, func(t *rapid.T) {
		a, b := units.Celsius(rapid.Float64Range(-99, 199).Draw(t, "a")), units.Celsius(rapid.Float64Range(-99, 199).Draw(t, "b"))
		if a > b {
			a, b = b, a
		}
		if b-a > 1e-6 {
			require.Less(t, air.SaturationPressure(a), air.SaturationPressure(b))
		}
	})
}

func TestStateRoundTrip_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := units.Length(rapid.Float64Range(-400, 4000).Draw(t, "altitude"))
		dry := units.Celsius(rapid.Float64Range(-30, 60).Draw(t, "dry bulb"))
		phi := rapid.Float64Range(0, 1).Draw(t, "humidity")
		s, err := air.New(z, dry, phi)
		require.NoError(t, err)
		require.InDelta(t, phi, s.RelativeHumidity(), 1e-12)

		wet, err := s.WetBulb()
		require.NoError(t, err)
		require.LessOrEqual(t, wet.SI(), dry.SI()+1e-9)
		dew := s.DewPoint()
		require.LessOrEqual(t, dew.SI(), dry.SI()+1e-6)
		if phi > 1e-3 && math.Abs(dew.SI()-273.16) > 1e-3 {
			require.InEpsilon(t, s.VapourPressure().SI(), air.SaturationPressure(dew).SI(), 1e-9)
		}
		if wet >= units.Celsius(0) || wet < units.Celsius(-0.001) {
			back, err := air.FromWetBulb(z, dry, min(wet, dry))
			require.NoError(t, err)
			require.InDelta(t, s.HumidityRatio, back.HumidityRatio, 1e-8)
		}
		require.InDelta(t, dry.SI(), s.AtEnthalpy(s.Enthalpy()).Temperature.SI(), 1e-9)

		saturated := air.SaturatedAtEnthalpy(s.Enthalpy(), s.Pressure)
		require.InDelta(t, s.Enthalpy(), saturated.Enthalpy(), 60, "the step between ice and water is about 30 J/kg")
		if math.Abs(saturated.Temperature.SI()-273.16) > 1e-3 {
			require.InDelta(t, s.Enthalpy(), saturated.Enthalpy(), 1e-4)
		}
		require.InDelta(t, 1, saturated.RelativeHumidity(), 1e-9)
	})
}

func TestDensityFalls_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := units.Length(rapid.Float64Range(0, 3500).Draw(t, "altitude"))
		dry := units.Celsius(rapid.Float64Range(-20, 50).Draw(t, "dry bulb"))
		phi := rapid.Float64Range(0, 0.9).Draw(t, "humidity")
		at := func(z units.Length, t2 units.Temperature, phi float64) float64 {
			s, err := air.New(z, t2, phi)
			require.NoError(t, err)
			return s.Density().SI()
		}
		here := at(z, dry, phi)
		require.Less(t, at(z+100, dry, phi), here, "higher is thinner")
		require.Less(t, at(z, dry+1, phi), here, "warmer is thinner")
		require.Less(t, at(z, dry, phi+0.1), here, "moister is thinner")
	})
}

func TestRefusals_Identity(t *testing.T) {
	for name, got := range map[string]func() error{
		"altitude 20000 m":         func() error { _, err := air.New(20000, units.Celsius(20), 0.5); return err },
		"relative humidity 1.5":    func() error { _, err := air.New(0, units.Celsius(20), 1.5); return err },
		"relative humidity NaN":    func() error { _, err := air.New(0, units.Celsius(20), math.NaN()); return err },
		"dry bulb -184.0 °F":       func() error { _, err := air.New(0, units.Celsius(-120), 0.5); return err },
		"water boils":              func() error { _, err := air.New(0, units.Celsius(120), 0.5); return err },
		"not above the dry bulb":   func() error { _, err := air.FromWetBulb(0, units.Celsius(20), units.Celsius(21)); return err },
		"too low":                  func() error { _, err := air.FromWetBulb(0, units.Celsius(35), units.Celsius(5)); return err },
		"barometric pressure 0 Pa": func() error { _, err := air.AtPressure(0, units.Celsius(20), 0.5); return err },
		"humidity ratio -1": func() error {
			_, err := air.State{Temperature: 293, Pressure: 1e5, HumidityRatio: -1}.WetBulb()
			return err
		},
		"more water": func() error {
			_, err := air.State{Temperature: 293, Pressure: 1e5, HumidityRatio: 0.1}.WetBulb()
			return err
		},
	} {
		err := got()
		if assert.Error(t, err, name) {
			assert.True(t, strings.Contains(err.Error(), name), "%q does not say %q", err, name)
		}
	}
}

func BenchmarkWetBulb(b *testing.B) {
	s, err := air.New(0, units.Fahrenheit(80), 0.5)
	require.NoError(b, err)
	for b.Loop() {
		_, _ = s.WetBulb()
	}
}

func BenchmarkSaturatedAtEnthalpy(b *testing.B) {
	for b.Loop() {
		air.SaturatedAtEnthalpy(40000, air.SeaLevel)
	}
}
