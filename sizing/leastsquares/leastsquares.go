// Package leastsquares fits the two-term laws of the engine to printed points.
package leastsquares

import "math"

// Quadratic finds a, b >= 0 of y = a x + b x^2 that minimize the sum of squared
// misses, by Pair; a has the unit of y/x, b of y/x^2. Where all x are equal the
// two terms cannot be distinguished: a is 0.
func Quadratic(x, y []float64) (a, b float64) {
	squares := make([]float64, len(x))
	for i := range x {
		squares[i] = x[i] * x[i]
	}
	return Pair(x, squares, y)
}

// Pair finds a, b >= 0 of y = a f + b g that minimize the sum of squared misses:
// by the normal equations and, where a coefficient comes out negative, by the
// better of the two one-term fits (the Karush-Kuhn-Tucker cases of two unknowns,
// textbook; Lawson and Hanson, Solving Least Squares Problems, 1974, ch. 23, from
// memory). Where f and g are proportional to each other, a is 0.
func Pair(f, g, y []float64) (a, b float64) {
	var ff, fg, gg, fy, gy float64
	for i := range f {
		ff, fg, gg = ff+f[i]*f[i], fg+f[i]*g[i], gg+g[i]*g[i]
		fy, gy = fy+f[i]*y[i], gy+g[i]*y[i]
	}
	determinant := ff*gg - fg*fg
	if determinant <= together*ff*gg {
		return 0, math.Max(gy/gg, 0)
	}
	a, b = (fy*gg-gy*fg)/determinant, (gy*ff-fy*fg)/determinant
	if a >= 0 && b >= 0 {
		return a, b
	}
	// A one-term fit lowers the squared error by fy^2/ff or gy^2/gg; one with a
	// negative coefficient lowers it by nothing.
	one, other := math.Max(fy, 0), math.Max(gy, 0)
	if one*one/ff >= other*other/gg {
		return one / ff, 0
	}
	return 0, other / gg
}

// together is the determinant, as a share of ff gg, below which f and g count
// as proportional: so small a determinant is rounding error.
const together = 1e-14
