package leastsquares_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/leastsquares"
)

// TestQuadratic_Identity: the coefficients that made the points come back.
func TestQuadratic_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0, 1e3).Draw(t, "a"), rapid.Float64Range(0, 1e3).Draw(t, "b")
		x := []float64{0.5, 1, 1.7, 2.5}
		y := make([]float64, len(x))
		for i, v := range x {
			y[i] = a*v + b*v*v
		}
		gotA, gotB := leastsquares.Quadratic(x, y)
		assert.InDelta(t, a, gotA, 1e-9*(1+a+b))
		assert.InDelta(t, b, gotB, 1e-9*(1+a+b))
	})
}

// TestPair_Identity: at the least sum of squares with a, b >= 0 the slope along a
// coefficient is nil, or where that coefficient is nil, not downward.
func TestPair_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "n")
		column := func(name string) []float64 {
			return rapid.SliceOfN(rapid.Float64Range(-10, 10), n, n).Draw(t, name)
		}
		f, g, y := column("f"), column("g"), column("y")
		ff, fg, gg := dot(f, f), dot(f, g), dot(g, g)
		if ff < 1e-3 || gg < 1e-3 || ff*gg-fg*fg < 1e-4*ff*gg {
			return // no fit, or one that rounding decides
		}
		a, b := leastsquares.Pair(f, g, y)
		require.GreaterOrEqual(t, a, 0.0)
		require.GreaterOrEqual(t, b, 0.0)
		miss := make([]float64, n)
		for i := range y {
			miss[i] = a*f[i] + b*g[i] - y[i]
		}
		tiny := 1e-7 * (1 + math.Sqrt(max(ff, gg)*(dot(y, y)+1)))
		for _, c := range []struct {
			coefficient float64
			along       []float64
		}{{a, f}, {b, g}} {
			slope := dot(c.along, miss)
			require.GreaterOrEqual(t, slope, -tiny)
			if c.coefficient > 0 {
				require.LessOrEqual(t, slope, tiny)
			}
		}
	})
}

func dot(f, g []float64) float64 {
	sum := 0.0
	for i := range f {
		sum += f[i] * g[i]
	}
	return sum
}

// All points at one flow: 3 = b 2^2. Points that fall: no positive line fits.
func TestPairWithoutTwoTerms(t *testing.T) {
	a, b := leastsquares.Quadratic([]float64{2, 2, 2}, []float64{3, 3, 3})
	require.Zero(t, a)
	require.InDelta(t, 0.75, b, 1e-15)
	a, b = leastsquares.Quadratic([]float64{1, 2}, []float64{-1, -5})
	require.Zero(t, a)
	require.Zero(t, b)
}
