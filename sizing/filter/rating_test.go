package filter

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

// syntheticPoints are those of curve_fit.csv, in fpm and in. w.c.
var syntheticPoints = [][2]float64{{100, 0.031}, {200, 0.070}, {295, 0.117}, {400, 0.178}, {492, 0.240}, {600, 0.323}, {750, 0.454}}

func ratingOf(points [][2]float64) (out []RatingPoint) {
	for _, p := range points {
		out = append(out, RatingPoint{FaceVelocity: units.Speed(p[0]) * units.FPM, Drop: units.Pressure(p[1]) * units.InchWater})
	}
	return out
}

func TestFitRating_Published(t *testing.T) {
	source, rows := published.Table(t, "curve_fit.csv")
	fit, err := FitRating(ratingOf(syntheticPoints), 0, 0)
	require.NoError(t, err)
	fpm, iwc := float64(units.FPM), float64(units.InchWater)
	got := map[string]float64{"a_linear": fit.A * fpm / iwc, "b_quadratic": fit.B * fpm * fpm / iwc}
	rss := 0.0
	for _, r := range fit.Residuals {
		rss += r * r / iwc / iwc
	}
	checked := 0
	for _, row := range rows {
		if row["model"] != "dp=a*v+b*v^2" {
			continue
		}
		checked++
		published.Check(t, published.Row{Name: row["parameter"], Source: source, Got: got[row["parameter"]], Want: row.Float(t, "value"),
			Tolerance: 1e-10, Relative: true, Why: "the table holds 15 digits; the normal equations lose a few"})
		published.Check(t, published.Row{Name: "rss", Source: source, Got: rss, Want: row.Float(t, "rss"),
			Tolerance: 1e-9, Relative: true, Why: "the sum of small differences loses more digits"})
	}
	assert.Equal(t, 2, checked)
}

func TestFitRating_Identity(t *testing.T) {
	t.Run("points of a law give the law", func(t *testing.T) {
		law := Curve{A: 20, B: 7}
		var points []RatingPoint
		for _, v := range []units.Speed{0.5, 1, 2.5} {
			points = append(points, RatingPoint{FaceVelocity: v, Drop: law.Drop(v)})
		}
		fit, err := FitRating(points, 0, 0)
		require.NoError(t, err)
		assert.InDelta(t, law.A, fit.A, 1e-11)
		assert.InDelta(t, law.B, fit.B, 1e-11)
		assert.Equal(t, units.Speed(0.5), fit.Low)
		assert.Equal(t, units.Speed(2.5), fit.High)
		assert.False(t, fit.AssumedExponent)
	})
	t.Run("one point passes through itself", func(t *testing.T) {
		point := []RatingPoint{{Airflow: 1000 * units.CFM, Drop: 0.2 * units.InchWater}}
		face := units.Area(0.3)
		fit, err := FitRating(point, face, 0)
		require.NoError(t, err)
		assert.True(t, fit.AssumedExponent)
		assert.Equal(t, DefaultExponent, fit.Exponent)
		v := units.Speed(float64(1000*units.CFM) / float64(face))
		assert.InDelta(t, 0.2, fit.Drop(v).In(units.InchWater), 1e-13)
		set, err := FitRating(point, face, 1.5)
		require.NoError(t, err)
		assert.False(t, set.AssumedExponent)
		assert.InEpsilon(t, float64(set.Drop(v))*2.8284271247461903, float64(set.Drop(2*v)), 1e-12)
	})
	t.Run("a coefficient never goes below zero", func(t *testing.T) {
		concave, err := FitRating(ratingOf([][2]float64{{100, 0.1}, {400, 0.2}}), 0, 0)
		require.NoError(t, err)
		assert.Zero(t, concave.B)
		assert.Positive(t, concave.A)
		steep, err := FitRating(ratingOf([][2]float64{{100, 0.01}, {400, 0.4}}), 0, 0)
		require.NoError(t, err)
		assert.Zero(t, steep.A)
		assert.Positive(t, steep.B)
	})
}

func TestFitRating_Faults(t *testing.T) {
	for name, c := range map[string]struct {
		points []RatingPoint
		face   units.Area
		n      float64
		field  string
	}{
		"no point":        {nil, 1, 0, "rating"},
		"no face size":    {[]RatingPoint{{Airflow: 1, Drop: 1}}, 0, 0, "rating[0].airflow"},
		"both given":      {[]RatingPoint{{Airflow: 1, FaceVelocity: 1, Drop: 1}}, 1, 0, "rating[0].airflow"},
		"no flow":         {[]RatingPoint{{Drop: 1}}, 1, 0, "rating[0].airflow"},
		"no drop":         {[]RatingPoint{{FaceVelocity: 1, Drop: 1}, {FaceVelocity: 2}}, 1, 0, "rating[1].drop"},
		"same flow twice": {[]RatingPoint{{FaceVelocity: 1, Drop: 1}, {FaceVelocity: 1, Drop: 2}}, 1, 0, "rating"},
		"wild exponent":   {[]RatingPoint{{FaceVelocity: 1, Drop: 1}}, 1, 3, "exponent"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := FitRating(c.points, c.face, c.n)
			var fault *FieldError
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, c.field, fault.Field)
			assert.Contains(t, err.Error(), "want ")
		})
	}
}

func drawCurve(t *rapid.T) Curve {
	c := Curve{A: rapid.Float64Range(0, 100).Draw(t, "A"), B: rapid.Float64Range(0, 20).Draw(t, "B")}
	if rapid.Bool().Draw(t, "power") {
		c.C, c.Exponent = rapid.Float64Range(0, 50).Draw(t, "C"), rapid.Float64Range(1, 2).Draw(t, "n")
	}
	return c
}

func TestCurve_Identity(t *testing.T) {
	pack, _, err := demoPack.Curve(standard)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		c := drawCurve(t)
		if rapid.Bool().Draw(t, "pleated") {
			c.bend = pack.bend
		}
		v := units.Speed(rapid.Float64Range(0, 12).Draw(t, "v"))
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		assert.Equal(t, c.Drop(v), -c.Drop(-v), "odd")
		assert.InEpsilon(t, 1+k*float64(c.Drop(v)), 1+float64(c.Scale(k).Drop(v)), 1e-12, "scaled")
		assert.InEpsilon(t, 1+float64(c.Drop(units.Speed(k)*v)), 1+float64(c.ScaleVelocity(k).Drop(v)), 1e-9, "quickened")
		assert.InEpsilon(t, 1+float64(c.Drop(v))+3*float64(v)+2*float64(v*v), 1+float64(c.Plus(3, 2).Drop(v)), 1e-12, "added to")
		assert.Equal(t, c.Drop(v), c.In(standard, standard).Drop(v), "same air")
	})
	assert.Zero(t, Curve{C: 3, Exponent: 1.2}.Drop(0))
}

func BenchmarkCurveDrop(b *testing.B) {
	c, _, err := demoPack.Curve(standard)
	require.NoError(b, err)
	v, sum := units.Speed(0.1), units.Pressure(0)
	for b.Loop() {
		sum += c.Drop(v)
		v += 1e-6
	}
	_ = sum
}
