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

func zeta(t testing.TB, f duct.Fitting) float64 {
	t.Helper()
	z, source, err := f.LossCoefficient()
	require.NoError(t, err)
	require.NotEmpty(t, source.Show(units.IP))
	return z
}

func TestLossCoefficient_Plausible(t *testing.T) {
	tables := "ASHRAE Fundamentals duct fitting tables, from memory"
	for _, c := range []struct {
		name, source string
		fitting      duct.Fitting
		want         float64
		tolerance    float64
		why          string
	}{
		{"smooth elbow r/D 1.5", tables, duct.Fitting{Kind: duct.ElbowSmooth, RadiusRatio: 1.5}, 0.15, 0.005, "printed digits"},
		{"smooth elbow r/D 1, 45 degrees", tables, duct.Fitting{Kind: duct.ElbowSmooth, RadiusRatio: 1, Angle: 45}, 0.22 * 0.60, 0.005, "product of two printed factors"},
		{"five-gore elbow r/D 1", tables, duct.Fitting{Kind: duct.ElbowFiveGore, RadiusRatio: 1}, 0.33, 0.005, "printed digits"},
		{"mitred round elbow", tables, duct.Fitting{Kind: duct.ElbowMitredRound}, 1.2, 0.05, "printed digits"},
		{"mitred rectangular elbow, square", tables, duct.Fitting{Kind: duct.ElbowMitred}, 1.2, 0.05, "printed digits"},
		{"mitred rectangular elbow, H/W 4", tables, duct.Fitting{Kind: duct.ElbowMitred, Width: 0.1, Height: 0.4}, 0.92, 0.005, "printed digits"},
		{"radius elbow r/W 1, H/W 0.5", tables, duct.Fitting{Kind: duct.ElbowRectangular, RadiusRatio: 1, Width: 0.4, Height: 0.2}, 0.25, 0.005, "printed digits"},
		{"flush entry", "Idelchik, diagram 3-1, from memory; every pipe-flow textbook", duct.Fitting{Kind: duct.FlushEntry}, 0.5, 0.005, "printed digits"},
		{"contraction from a large space", "Idelchik, diagram 3-1: a contraction from an endless space is a sharp entry, 0.5, from memory", duct.Fitting{Kind: duct.AbruptContraction, AreaRatio: 0.01}, 0.5, 0.0051, "one percent of area left"},
		{"contraction to half the area", "Weisbach's measurements quoted by textbooks, about 0.22 on the smaller section, from memory", duct.Fitting{Kind: duct.AbruptContraction, AreaRatio: 0.5}, 0.22, 0.035, "the measurements scatter by some 15 %"},
		{"10-degree diffuser", "Gibson 1910, about 0.18 of the abrupt loss at 10 degrees, from memory", duct.Fitting{Kind: duct.GradualExpansion, AreaRatio: 0.5, Angle: 10}, 0.25 * 0.18, 0.014, "textbook curves of Gibson's factor differ by a quarter"},
	} {
		published.Check(t, published.Row{Name: c.name, Source: c.source, Got: zeta(t, c.fitting), Want: c.want, Tolerance: c.tolerance, Why: c.why})
	}
}

// Borda-Carnot: an abrupt expansion loses (1 - a)^2 velocity pressures, a being
// the smaller area over the larger; one without end loses one.
func TestExpansion_Identity(t *testing.T) {
	assert.InDelta(t, 1, zeta(t, duct.Fitting{Kind: duct.DischargeIntoPlenum}), 1e-12)
	assert.InDelta(t, 0.25, zeta(t, duct.Fitting{Kind: duct.AbruptExpansion, AreaRatio: 0.5}), 1e-12)
	assert.InDelta(t, 0.64, zeta(t, duct.Fitting{Kind: duct.AbruptExpansion, AreaRatio: 0.2}), 1e-12)
}

func TestLibrary_Identity(t *testing.T) {
	seen := map[duct.FittingKind]bool{}
	for _, info := range duct.Fittings() {
		assert.False(t, seen[info.Kind], "%s twice", info.Kind)
		seen[info.Kind] = true
		assert.NotEmpty(t, info.Title)
		assert.NotEmpty(t, info.Source)
		assert.NotEmpty(t, info.Group)
		f := duct.Fitting{Kind: info.Kind}
		for _, p := range info.Parameters {
			if p.Required() {
				_, _, err := f.LossCoefficient()
				assert.ErrorContains(t, err, p.Name, "%s", info.Kind)
			}
			if p.Name == "area_ratio" {
				f.AreaRatio = 0.5
			}
		}
		z := zeta(t, f)
		assert.True(t, z > 0 && z < 3, "%s: %g", info.Kind, z)
		for _, p := range info.Parameters {
			bad := f
			switch p.Name {
			case "radius_ratio":
				bad.RadiusRatio = p.Least / 2
			case "angle":
				bad.Angle = 500
			case "area_ratio":
				bad.AreaRatio = 1.5
			}
			_, _, err := bad.LossCoefficient()
			assert.ErrorContains(t, err, p.Name, "%s", info.Kind)
		}
	}
	duct.Fittings()[0].Title = "changed"
	assert.NotEqual(t, "changed", duct.Fittings()[0].Title, "callers get a copy")

	_, _, err := duct.Fitting{Kind: "spiral_staircase"}.LossCoefficient()
	assert.ErrorContains(t, err, "spiral_staircase")
	_, _, err = duct.Fitting{Coefficient: math.Inf(1)}.LossCoefficient()
	assert.Error(t, err)
	z, source, err := duct.Fitting{Coefficient: 0.7}.LossCoefficient()
	require.NoError(t, err)
	assert.Equal(t, 0.7, z)
	assert.Equal(t, "as entered", source.Show(units.IP))
	_, source, err = duct.Fitting{Kind: duct.ElbowSmooth, RadiusRatio: 4}.LossCoefficient()
	require.NoError(t, err)
	assert.Contains(t, source.Show(units.IP), "end of the table")
	_, source, err = duct.Fitting{Kind: duct.ElbowMitred, Width: 1, Height: 0.1}.LossCoefficient()
	require.NoError(t, err)
	assert.Contains(t, source.Show(units.IP), "end of the table")
}

func TestLossCoefficient_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(0.01, 1).Draw(t, "area ratio")
		a := rapid.Float64Range(1, 180).Draw(t, "angle")
		of := func(f duct.Fitting) float64 {
			z, _, err := f.LossCoefficient()
			require.NoError(t, err)
			return z
		}
		require.LessOrEqual(t, of(duct.Fitting{Kind: duct.GradualExpansion, AreaRatio: n, Angle: a}), of(duct.Fitting{Kind: duct.AbruptExpansion, AreaRatio: n}))
		require.LessOrEqual(t, of(duct.Fitting{Kind: duct.GradualContraction, AreaRatio: n, Angle: a}), of(duct.Fitting{Kind: duct.AbruptContraction, AreaRatio: n})+1e-15)
		sharper := rapid.Float64Range(0.75, 1).Draw(t, "radius")
		for _, kind := range []duct.FittingKind{duct.ElbowSmooth, duct.ElbowFiveGore, duct.ElbowThreeGore, duct.ElbowRectangular, duct.ElbowSplitterVane} {
			require.LessOrEqual(t, of(duct.Fitting{Kind: kind, RadiusRatio: sharper * 1.05, Angle: a}), of(duct.Fitting{Kind: kind, RadiusRatio: sharper, Angle: a}), "a wider bend takes less")
		}
		tighter := rapid.Float64Range(1, 80).Draw(t, "mitre")
		for _, kind := range []duct.FittingKind{duct.ElbowMitred, duct.ElbowMitredRound} {
			require.Less(t, of(duct.Fitting{Kind: kind, Angle: tighter}), of(duct.Fitting{Kind: kind, Angle: tighter + 5}))
		}
	})
}

func TestFittingDrop_Identity(t *testing.T) {
	standard := air.Standard()
	branch := units.Area(0.05)
	q := 0.3 * units.CubicMetrePerSecond
	f := duct.Fitting{Coefficient: 1}
	v := units.Speed(q.SI() / branch.SI())
	assert.InDelta(t, duct.VelocityPressure(v, standard.Density).SI(), f.Drop(q, branch, standard).SI(), 1e-12)
	assert.Equal(t, -f.Drop(q, branch, standard), f.Drop(-q, branch, standard))
	f.Count = 3
	assert.InDelta(t, 3*duct.VelocityPressure(v, standard.Density).SI(), f.Drop(q, branch, standard).SI(), 1e-12)
	own := duct.Fitting{Coefficient: 1, Width: 0.1, Height: 0.2}
	assert.InDelta(t, 0.02, own.Section(branch).SI(), 1e-15)
	assert.InDelta(t, math.Pi/4*0.04, duct.Fitting{Diameter: 0.2}.Section(branch).SI(), 1e-15)
	assert.True(t, math.IsNaN(duct.Fitting{Kind: "none"}.Drop(q, branch, standard).SI()))
	_, err := duct.Fitting{Coefficient: 1}.QuadraticCoefficient(0, standard)
	assert.ErrorContains(t, err, "section")
	_, err = duct.Fitting{Coefficient: 1, Count: -1}.QuadraticCoefficient(branch, standard)
	assert.ErrorContains(t, err, "count")
	// A fitting and the straight duct of its equivalent length, zeta D/f, take the same.
	run := duct.Run{Shape: duct.Round, Diameter: 10 * units.Inch}
	friction := duct.FrictionFactor(run.Reynolds(q, standard), rough(run))
	one := duct.Fitting{Coefficient: 1.3}
	run.Length = one.EquivalentLength(q, run.Area(), standard)
	assert.InEpsilon(t, 1.3*run.Diameter.SI()/friction, run.Length.SI(), 1e-10)
	assert.InEpsilon(t, one.Drop(q, run.Area(), standard).SI(), run.Drop(q, standard).SI(), 1e-10)
	three := duct.Fitting{Coefficient: 1.3, Count: 3, Diameter: run.Diameter}
	assert.InEpsilon(t, 3*run.Length.SI(), three.EquivalentLength(-q, branch, standard).SI(), 1e-10)
	assert.Zero(t, one.EquivalentLength(0, branch, standard))
}
