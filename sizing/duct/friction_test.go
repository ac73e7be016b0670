package duct_test

import (
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

func TestFrictionFactor_Published(t *testing.T) {
	source, rows := published.Table(t, "friction_colebrook_round.csv")
	for _, row := range rows {
		name := row["case"] + " " + row["d_in"] + " in " + row["q_cfm"] + " cfm"
		published.Check(t, published.Row{
			Name: name, Source: source,
			Got:  duct.FrictionFactor(row.Float(t, "re"), row.Float(t, "rel_roughness")),
			Want: row.Float(t, "f_colebrook"), Tolerance: 1e-13, Relative: true,
			Why: "fifteen printed digits of a 40-digit solution",
		})
		if row["case"] == "IP_Re8.56" {
			continue // its Reynolds number is rounded, so the run below would not meet it
		}
		properties := air.Properties{Density: 1.204, Viscosity: 1.81e-5}
		if row["case"] == "IP" {
			properties.Density = air.StandardDensity
		}
		d := units.Length(row.Float(t, "d_in")) * units.Inch
		run := duct.Run{Shape: duct.Round, Diameter: d, Length: 1, Roughness: units.Length(row.Float(t, "rel_roughness")) * d}
		q := units.Flow(row.Float(t, "q_cfm")) * units.CFM
		published.Check(t, published.Row{
			Name: name + " loss", Source: source,
			Got: run.Drop(q, properties).SI(), Want: row.Float(t, "loss_pa_per_m"), Tolerance: 1e-11, Relative: true,
			Why: "twelve or more printed digits, roughness rounded to fifteen",
		})
		published.Check(t, published.Row{
			Name: name + " velocity", Source: source,
			Got: run.Velocity(q).In(units.FPM), Want: row.Float(t, "v_fpm"), Tolerance: 1e-12, Relative: true,
			Why: "fifteen printed digits",
		})
	}
}

func TestMoodyChart_Plausible(t *testing.T) {
	published.Check(t, published.Row{
		Name: "Moody chart, Re 1e5, e/D 0.001", Source: "L. F. Moody, Friction factors for pipe flow, Trans. ASME 66 (1944): 0.0222, from memory",
		Got: duct.FrictionFactor(1e5, 0.001), Want: 0.0222, Tolerance: 1e-4, Why: "a chart reads to the fourth decimal",
	})
}

func TestFrictionFactor_Identity(t *testing.T) {
	assert.InDelta(t, 0.064, duct.FrictionFactor(1000, 0.001), 1e-15)
	assert.Equal(t, duct.FrictionFactor(1e5, 0.001), duct.FrictionFactor(-1e5, 0.001))
	assert.True(t, math.IsInf(duct.FrictionFactor(0, 0), 1))
	assert.Equal(t, duct.Laminar, duct.Regime(2300))
	assert.Equal(t, duct.Transition, duct.Regime(-3000))
	assert.Equal(t, duct.Turbulent, duct.Regime(4000))

	rapid.Check(t, func(t *rapid.T) {
		roughness := rapid.Float64Range(0, 0.05).Draw(t, "e/D")
		re := math.Exp(rapid.Float64Range(math.Log(4000), math.Log(1e8)).Draw(t, "ln Re"))
		f := duct.FrictionFactor(re, roughness)
		residual := 1/math.Sqrt(f) + 2*math.Log10(roughness/3.7+2.51/(re*math.Sqrt(f)))
		require.InDelta(t, 0, residual, 1e-12, "Colebrook-White is met")

		for _, edge := range []float64{2300, 4000} {
			below, above := duct.FrictionFactor(edge*(1-1e-12), roughness), duct.FrictionFactor(edge*(1+1e-12), roughness)
			require.InEpsilon(t, below, above, 1e-9, "continuous at Re %g", edge)
		}
		a := rapid.Float64Range(1, 20000).Draw(t, "Re")
		b := a * (1 + rapid.Float64Range(1e-6, 0.5).Draw(t, "step"))
		require.Less(t, duct.FrictionFactor(a, roughness)*a*a, duct.FrictionFactor(b, roughness)*b*b, "the drop rises")
	})
}

func BenchmarkFrictionFactor(b *testing.B) {
	for b.Loop() {
		duct.FrictionFactor(123456, 0.0005)
	}
}

func BenchmarkFrictionFactorTransition(b *testing.B) {
	for b.Loop() {
		duct.FrictionFactor(3000, 0.0005)
	}
}
