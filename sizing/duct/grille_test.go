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

func TestGrilleLossCoefficient_Plausible(t *testing.T) {
	for _, c := range []struct{ free, want, tolerance float64 }{
		{0.05, 1070, 0.02}, {0.10, 245, 0.02}, {0.20, 51.5, 0.02}, {0.30, 18.2, 0.02}, {0.40, 8.25, 0.02},
		{0.50, 4.00, 0.02}, {0.60, 2.00, 0.02}, {0.70, 0.97, 0.02}, {0.80, 0.42, 0.03}, {0.90, 0.13, 0.06},
	} {
		published.Check(t, published.Row{Name: "perforated plate", Source: "Idelchik, Handbook of Hydraulic Resistance, diagram 8-1, table, from memory", Got: duct.GrilleLossCoefficient(c.free), Want: c.want, Tolerance: c.tolerance, Relative: true, Why: "printed to two or three digits"})
	}
}

func TestGrilleFit_Published(t *testing.T) {
	source, rows := published.Table(t, "curve_fit.csv")
	// The same seven points, one airflow in cfm for each foot a minute.
	var g duct.Grille
	for _, p := range [][2]float64{{100, 0.031}, {200, 0.070}, {295, 0.117}, {400, 0.178}, {492, 0.240}, {600, 0.323}, {750, 0.454}} {
		g.Rating = append(g.Rating, duct.GrilleRating{Airflow: units.Flow(p[0]) * units.CFM, Drop: units.Pressure(p[1]) * units.InchWater})
	}
	law, err := g.Law()
	require.NoError(t, err)
	linear := law.Linear * units.CFM.SI() / units.InchWater.SI()
	quadratic := law.Quadratic * units.CFM.SI() * units.CFM.SI() / units.InchWater.SI()
	for _, row := range rows {
		got := map[string]float64{"a_linear": linear, "b_quadratic": quadratic}[row["parameter"]]
		if got == 0 {
			continue
		}
		published.Check(t, published.Row{Name: row["parameter"], Source: source, Got: got, Want: row.Float(t, "value"), Tolerance: 1e-11, Relative: true, Why: "same normal equations in 40 digits"})
	}
	assert.False(t, law.Assumed)
	assert.Less(t, law.Residual.In(units.InchWater), 0.001)
}

func TestGrilleLaw_Identity(t *testing.T) {
	standard := air.Standard()
	assert.Zero(t, duct.GrilleLossCoefficient(1))
	assert.Zero(t, duct.GrilleLossCoefficient(1.2))
	assert.True(t, math.IsInf(duct.GrilleLossCoefficient(0), 1))

	g := duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, FreeArea: 0.5}
	assert.InDelta(t, 400, g.GrossArea().In(units.SquareInch), 1e-9)
	assert.InDelta(t, 200, g.NetFreeArea().In(units.SquareInch), 1e-9)
	q := 800 * units.CFM
	assert.InDelta(t, 288, g.FaceVelocity(q).In(units.FPM), 1e-9)
	assert.InDelta(t, 576, g.FreeAreaVelocity(q).In(units.FPM), 1e-9)
	law, err := g.Law()
	require.NoError(t, err)
	assert.False(t, law.Assumed)
	want := duct.GrilleLossCoefficient(0.5) * duct.VelocityPressure(g.FaceVelocity(q), standard.Density).SI()
	assert.InDelta(t, want, law.Drop(q, standard).SI(), 1e-12)
	assert.Equal(t, -law.Drop(q, standard), law.Drop(-q, standard))
	thin := air.Properties{Density: standard.Density / 2, Viscosity: standard.Viscosity}
	assert.InDelta(t, want/2, law.Drop(q, thin).SI(), 1e-12)

	for _, style := range []duct.GrilleStyle{"", duct.Stamped, duct.Bar, duct.Perforated} {
		g := duct.Grille{Width: 1, Height: 1, Style: style}
		share, assumed, source := g.FreeAreaShare()
		assert.True(t, share > 0 && share < 1 && assumed)
		assert.Contains(t, source, "common practice")
		law, err := g.Law()
		require.NoError(t, err)
		assert.True(t, law.Assumed)
	}
	one, err := duct.Grille{Rating: []duct.GrilleRating{{Airflow: q, Drop: 20}}}.Law()
	require.NoError(t, err)
	assert.InDelta(t, 80, one.Drop(2*q, standard).SI(), 1e-9)
	assert.Contains(t, one.Source.String(), "one rating point")

	_, err = duct.Grille{}.Law()
	assert.Error(t, err)
	_, err = duct.Grille{Width: 1, Height: 1, FreeArea: 1.5}.Law()
	assert.ErrorContains(t, err, "1.5")
	_, err = duct.Grille{Rating: []duct.GrilleRating{{Airflow: q, Drop: 20}, {Drop: 20}}}.Law()
	assert.ErrorContains(t, err, "point 2")
}

func TestGrilleFit_Identity(t *testing.T) {
	standard := air.Standard()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 200).Draw(t, "linear")
		b := rapid.Float64Range(0, 2000).Draw(t, "quadratic")
		if a+b == 0 {
			return
		}
		exact := duct.Grille{}
		noisy := duct.Grille{}
		for range rapid.IntRange(2, 6).Draw(t, "points") {
			q := rapid.Float64Range(0.02, 1).Draw(t, "q")
			exact.Rating = append(exact.Rating, duct.GrilleRating{Airflow: units.Flow(q), Drop: units.Pressure(a*q + b*q*q + 1e-9)})
			noisy.Rating = append(noisy.Rating, duct.GrilleRating{Airflow: units.Flow(q), Drop: units.Pressure(rapid.Float64Range(0.1, 100).Draw(t, "drop"))})
		}
		law, err := exact.Law()
		require.NoError(t, err)
		require.LessOrEqual(t, law.Residual.SI(), 1e-6*(a+b)+1e-6, "points on a law are met")

		law, err = noisy.Law()
		require.NoError(t, err)
		require.True(t, law.Linear >= 0 && law.Quadratic >= 0)
		misfit := func(a, b float64) float64 {
			sum := 0.0
			for _, p := range noisy.Rating {
				q := float64(p.Airflow)
				sum += math.Pow(a*q+b*q*q-float64(p.Drop), 2)
			}
			return sum
		}
		best := misfit(law.Linear, law.Quadratic)
		for range 5 {
			other := misfit(max(0, law.Linear+rapid.Float64Range(-20, 20).Draw(t, "da")), max(0, law.Quadratic+rapid.Float64Range(-20, 20).Draw(t, "db")))
			require.LessOrEqual(t, best, other*(1+1e-9)+1e-9, "no other law with A, B >= 0 fits better")
		}
		require.Positive(t, law.Drop(0.5, standard).SI())
	})
}
