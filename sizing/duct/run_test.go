package duct_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/air"
	"returnbench/sizing/duct"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

func TestHuebscher_Published(t *testing.T) {
	source, rows := published.Table(t, "equivalent_diameter.csv")
	properties := air.Properties{Density: air.StandardDensity, Viscosity: 1.81e-5}
	for _, row := range rows {
		name := row["a_in"] + " x " + row["b_in"]
		a, b := units.Length(row.Float(t, "a_in"))*units.Inch, units.Length(row.Float(t, "b_in"))*units.Inch
		check := func(column string, got, tolerance float64, relative bool, why string) {
			published.Check(t, published.Row{Name: name + " " + column, Source: source, Got: got, Want: row.Float(t, column), Tolerance: tolerance, Relative: relative, Why: why})
		}
		run := duct.Run{Shape: duct.Rectangular, Width: a, Height: b, Length: 1, Roughness: 0.0003 * units.Foot}
		check("de_huebscher_in", run.EquivalentDiameter().In(units.Inch), 1e-13, true, "same formula, fifteen printed digits")
		check("d_hydraulic_in", run.HydraulicDiameter().In(units.Inch), 1e-13, true, "same formula, fifteen printed digits")
		check("area_ft2", run.Area().In(units.SquareFoot), 1e-13, true, "same formula, fifteen printed digits")
		check("published_1956_in", run.EquivalentDiameter().In(units.Inch), 0.056, false, "printed to 0.1 in; the source notes one row rounded up from 8.745")

		// The round duct that the hydraulic diameter asks for, by Colebrook-White at
		// the real velocity, carries the same flow at nearly the same drop.
		q := units.Flow(700 * units.FPM.SI() * run.Area().SI())
		round := duct.Run{Shape: duct.Round, Diameter: units.Length(row.Float(t, "d_equal_friction_700fpm_in")) * units.Inch, Length: 1, Roughness: run.Roughness}
		published.Check(t, published.Row{Name: name + " drop at 700 fpm", Source: source, Got: run.Drop(q, properties).SI(), Want: round.Drop(q, properties).SI(), Tolerance: 0.01, Relative: true, Why: "Huebscher's 1.30 is 0.2 % low in diameter, and the drop goes with its fifth power"})
	}
}

func TestFlex_Published(t *testing.T) {
	source := "ASHRAE Handbook Fundamentals (2021, SI) ch. 21, worked table 2: 250 mm, 1.8 m, 470 L/s"
	handbookAir := air.Properties{Density: 1.204, Viscosity: 1.81e-5}
	q := 470 * units.LitrePerSecond
	spiral := duct.Run{Shape: duct.Round, Diameter: 250 * units.Millimetre, Length: 1.8, Material: duct.Spiral}
	published.Check(t, published.Row{Name: "spiral", Source: source, Got: spiral.Drop(q, handbookAir).SI(), Want: 7.7, Tolerance: 0.02, Relative: true, Why: "printed digits and rounded constants of the worked table"})
	for _, c := range []struct{ compression, factor, drop float64 }{{0, 1, 11.4}, {0.04, 1.7, 19.5}, {0.15, 3.5, 40.0}, {0.30, 5.9, 68.9}} {
		flex := duct.Run{Shape: duct.Flex, Diameter: 250 * units.Millimetre, Length: 1.8, Compression: c.compression}
		factor, inRange := flex.CompressionCorrection()
		require.True(t, inRange)
		tolerance, why := 0.02, "printed digits and rounded constants of the worked table"
		if c.compression == 0.04 {
			tolerance, why = 0.04, "the printed drop takes 1.67 as 1.7 and the fully stretched drop as 11.4"
		}
		published.Check(t, published.Row{Name: "flex drop", Source: source, Got: flex.Drop(q, handbookAir).SI(), Want: c.drop, Tolerance: tolerance, Relative: true, Why: why})
		tolerance, why = 0.05, "printed digits"
		if c.compression == 0.30 {
			tolerance, why = 0.15, "the printed 5.9 disagrees with its own equation, which gives 6.04; the equation is held"
		}
		published.Check(t, published.Row{Name: "flex factor", Source: source, Got: factor, Want: c.factor, Tolerance: tolerance, Why: why})
	}
}

// The same equation in inches: 1 + 0.58 K exp(-0.126 D), since 0.00496 x 25.4 = 0.12598.
func TestFlexInInches_Identity(t *testing.T) {
	ten := duct.Run{Shape: duct.Flex, Diameter: 10 * units.Inch, Length: 1, Compression: 0.04}
	factor, _ := ten.CompressionCorrection()
	assert.InEpsilon(t, 1+0.58*4*math.Exp(-0.12598*10), factor, 1e-4)
}

func TestVelocityPressure_Published(t *testing.T) {
	source, rows := published.Table(t, "velocity_pressure.csv")
	for _, row := range rows {
		v := units.Speed(row.Float(t, "v_fpm")) * units.FPM
		p := duct.VelocityPressure(v, air.StandardDensity)
		published.Check(t, published.Row{Name: row["v_fpm"] + " fpm", Source: source, Got: p.In(units.InchWater), Want: row.Float(t, "pv_inwc_conv"), Tolerance: 1e-12, Relative: true, Why: "fifteen printed digits"})
		published.Check(t, published.Row{Name: row["v_fpm"] + " fpm by 4005", Source: source, Got: p.In(units.InchWater), Want: row.Float(t, "pv_inwc_4005"), Tolerance: 0.002, Relative: true, Why: "the trade's 4005 fpm is 4008.55 rounded and for cold water"})
	}
}

func TestFrictionChart_Plausible(t *testing.T) {
	// What a galvanized duct carries at 0.10 in. w.c. per 100 ft.
	for inches, cfm := range map[float64]float64{8: 235, 10: 430, 12: 690} {
		run := duct.Run{Shape: duct.Round, Diameter: units.Length(inches) * units.Inch, Length: 100 * units.Foot}
		published.Check(t, published.Row{Name: fmt.Sprintf("%.0f in., %.0f cfm", inches, cfm), Source: "ASHRAE friction chart for round galvanized duct, airflow at 0.10 in. w.c. per 100 ft (chart reading, from memory)",
			Got: run.Drop(units.Flow(cfm)*units.CFM, air.Standard()).In(units.InchWater), Want: 0.10, Tolerance: 0.01, Why: "a logarithmic chart reads to some 5 % of airflow, so 10 % of drop"})
	}
}

func drawRun(t *rapid.T) duct.Run {
	r := duct.Run{
		Shape:  rapid.SampledFrom([]duct.Shape{duct.Round, duct.Flex, duct.Rectangular}).Draw(t, "shape"),
		Length: units.Length(rapid.Float64Range(0.1, 50).Draw(t, "length")),
		Material: rapid.SampledFrom([]duct.Material{"", duct.Galvanized, duct.Spiral, duct.DuctBoard, duct.FacedLiner,
			duct.FlexLiner, duct.Rough}).Draw(t, "material"),
	}
	if r.Shape == duct.Rectangular {
		r.Width = units.Length(rapid.Float64Range(0.08, 1).Draw(t, "width"))
		r.Height = units.Length(rapid.Float64Range(0.08, 1).Draw(t, "height"))
	} else {
		r.Diameter = units.Length(rapid.Float64Range(0.08, 1).Draw(t, "diameter"))
	}
	if r.Shape == duct.Flex {
		r.Compression = rapid.Float64Range(0, 0.3).Draw(t, "compression")
	}
	return r
}

func TestDrop_Identity(t *testing.T) {
	standard := air.Standard()
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t)
		require.NoError(t, r.Check())
		q := math.Exp(rapid.Float64Range(math.Log(1e-4), math.Log(3)).Draw(t, "ln q"))
		drop := func(q float64) float64 { return r.Drop(units.Flow(q), standard).SI() }
		require.Zero(t, drop(0))
		require.Equal(t, -drop(q), drop(-q), "odd in airflow")
		require.Less(t, drop(q), drop(q*(1+1e-6)), "rises with airflow")

		resistance := r.Resistance(standard)
		h := q * 1e-5
		numeric := (resistance.Drop(q+h) - resistance.Drop(q-h)) / (2 * h)
		require.InEpsilon(t, numeric, resistance.Slope(q), 1e-3)
		require.Equal(t, resistance.Slope(q), resistance.Slope(-q))
		require.Positive(t, resistance.Slope(0))

		longer := r
		longer.Length *= 2
		require.InEpsilon(t, 2*drop(q), longer.Drop(units.Flow(q), standard).SI(), 1e-12, "proportional to length")
		wider := r
		wider.Diameter *= 1.1
		wider.Width *= 1.1
		wider.Height *= 1.1
		require.Less(t, wider.Drop(units.Flow(q), standard).SI(), drop(q), "a larger duct takes less")
		if r.Shape == duct.Flex {
			tighter := r
			tighter.Compression += 0.05
			require.Greater(t, tighter.Drop(units.Flow(q), standard).SI(), drop(q), "a slacker flex takes more")
		}
		f := duct.FrictionFactor(r.Reynolds(units.Flow(q), standard), rough(r))
		correction, _ := r.CompressionCorrection()
		d := float64(r.EquivalentDiameter())
		v := q / (math.Pi / 4 * d * d)
		require.InEpsilon(t, correction*f*float64(r.Length)/d*standard.Density.SI()*v*v/2, drop(q), 1e-10, "Darcy and Weisbach")
	})
}

func rough(r duct.Run) float64 {
	e, _ := r.RoughnessOf()
	return float64(e) / float64(r.EquivalentDiameter())
}

func TestRectangleFor_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		round := units.Length(rapid.Float64Range(0.05, 2).Draw(t, "round"))
		height := units.Length(rapid.Float64Range(0.05, 2).Draw(t, "height"))
		width, err := duct.RectangleFor(round, height)
		require.NoError(t, err)
		require.InEpsilon(t, round.SI(), duct.Huebscher(width, height).SI(), 1e-12)
		require.InEpsilon(t, duct.Huebscher(width, height).SI(), duct.Huebscher(height, width).SI(), 1e-14)
	})
	for _, bad := range []units.Length{0, -1, units.Length(math.NaN()), units.Length(math.Inf(1))} {
		_, err := duct.RectangleFor(bad, 1)
		assert.Error(t, err)
	}
}

func TestCheck_Identity(t *testing.T) {
	for _, c := range []struct {
		says string
		run  duct.Run
	}{
		{"diameter", duct.Run{Shape: duct.Round, Length: 1}},
		{"width", duct.Run{Shape: duct.Rectangular, Height: 1, Length: 1}},
		{"height", duct.Run{Shape: duct.Rectangular, Width: 1, Height: units.Length(math.Inf(1)), Length: 1}},
		{"shape \"oval\"", duct.Run{Shape: "oval"}},
		{"length", duct.Run{Shape: duct.Round, Diameter: 1, Length: -1}},
		{"compression", duct.Run{Shape: duct.Flex, Diameter: 1, Compression: 1}},
		{"roughness", duct.Run{Shape: duct.Round, Diameter: 1, Roughness: units.Length(math.NaN())}},
	} {
		assert.ErrorContains(t, c.run.Check(), c.says)
	}
	_, source := duct.Run{Shape: duct.Round, Material: "gold"}.RoughnessOf()
	assert.Contains(t, source.String(), "not in the table")
	assert.Equal(t, 1.0, duct.Run{Shape: duct.Round}.AspectRatio())
	assert.Equal(t, 4.0, duct.Run{Shape: duct.Rectangular, Width: 1, Height: 4}.AspectRatio())
	_, inRange := duct.Run{Shape: duct.Flex, Diameter: 0.25, Compression: 0.4}.CompressionCorrection()
	assert.False(t, inRange)
}

func TestRoughness_Published(t *testing.T) {
	want := map[duct.Material]float64{duct.Galvanized: 0.09, duct.Spiral: 0.12, duct.DuctBoard: 0.9, duct.FacedLiner: 1.52, duct.FlexLiner: 0.9, duct.Rough: 3}
	rows := duct.Materials()
	assert.Len(t, rows, len(want))
	for _, row := range rows {
		published.Check(t, published.Row{Name: string(row.Material), Source: string(row.Source), Got: row.Roughness.In(units.Millimetre), Want: want[row.Material], Tolerance: 1e-12, Why: "printed digits"})
	}
}

func BenchmarkRunDrop(b *testing.B) {
	r := duct.Run{Shape: duct.Rectangular, Width: 20 * units.Inch, Height: 10 * units.Inch, Length: 5}
	standard := air.Standard()
	for b.Loop() {
		r.Drop(1200*units.CFM, standard)
	}
}

func BenchmarkResistanceDrop(b *testing.B) {
	r := duct.Run{Shape: duct.Rectangular, Width: 20 * units.Inch, Height: 10 * units.Inch, Length: 5}.Resistance(air.Standard())
	q := (1200 * units.CFM).SI()
	for b.Loop() {
		r.Drop(q)
	}
}
