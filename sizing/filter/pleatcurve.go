package filter

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/interp"

	"returnbench/sizing/air"
	"returnbench/sizing/leastsquares"
	"returnbench/sizing/units"
)

// Range of face velocity over which Pack.Curve follows Pack.Solve.
const (
	SlowestFace = 0.1 * units.MetrePerSecond
	FastestFace = 5 * units.MetrePerSecond
)

// RatedFace is the face velocity the PackResult of Pack.Curve is for: 300 fpm,
// the usual aim for a filter's face (common practice, no source).
const RatedFace = 300 * units.FPM

// creeping is a face velocity so low that the drop is in proportion to it, m/s.
const creeping = 1e-5

// Curve is a cheap law through a few solutions over SlowestFace..FastestFace,
// within 0.2 % of Solve there for usual packs (pitch 6 mm and wider, 12 to 110 mm
// deep, media 40 Pa s/m and over) and within 1 % for others. It returns the
// solution at RatedFace too; its Converged and GridError speak for all the
// solutions (the worst of them).
func (p Pack) Curve(a air.Properties) (Curve, PackResult, error) {
	g, err := p.geometry()
	if err != nil {
		return Curve{}, PackResult{}, err
	}
	if err := checkAir(a); err != nil {
		return Curve{}, PackResult{}, err
	}
	s := newPleatSolver(g, p.Equations, a)
	var v, r [bendKnots]float64 // face velocity, drop per velocity
	rated := PackResult{Converged: true}
	for i := range v {
		v[i] = math.Max(knotVelocity(i, packKnee), creeping)
		at := s.solve(v[i])
		r[i] = float64(at.Drop) / v[i]
		if i == 0 && !(r[0] > 0) {
			r[0] = float64(p.Resistance) / at.MediaAreaRatio
		}
		if i > 0 && (!at.Converged || !(r[i]*v[i] > r[i-1]*v[i-1])) {
			r[i] = r[i-1] // media of next to no resistance: a rising law that bounds the drop from below
		}
		rated.Converged = rated.Converged && at.Converged
		rated.GridError = math.Max(rated.GridError, at.GridError)
		rated.Iterations += at.Iterations
	}
	worst := rated
	rated = s.solve(float64(RatedFace))
	rated.Converged = rated.Converged && worst.Converged
	rated.GridError = math.Max(rated.GridError, worst.GridError)
	rated.Iterations += worst.Iterations
	return curveThrough(v, r, packKnee), rated, nil
}

// packKnee is the velocity half way along z = v/(v + knee), m/s, for a pleated
// pack: large, since inertia bends its law at the upper end.
const packKnee = 2

// knotVelocity is the velocity of a knot; knots are evenly spaced in z.
func knotVelocity(i int, knee float64) float64 {
	z := float64(FastestFace) / (float64(FastestFace) + knee) * float64(i) / (bendKnots - 1)
	return knee * z / (1 - z)
}

// curveThrough fits A + B v to r(v) = dp/v and a spline to the remainder.
func curveThrough(v, r [bendKnots]float64, knee float64) Curve {
	// Divided by r, so that each point counts by its relative error.
	var level, slope, one [bendKnots]float64
	for i := range r {
		level[i], slope[i], one[i] = 1/r[i], v[i]/r[i], 1
	}
	c := Curve{}
	c.A, c.B = leastsquares.Pair(level[:], slope[:], one[:])
	var rest [bendKnots]float64
	for i := range v {
		rest[i] = r[i] - c.A - c.B*v[i]
	}
	c.bend = newBend(rest, knee)
	return c
}

// newBend is the cubic spline through rest at knots 0, 1, 2, ...
func newBend(rest [bendKnots]float64, knee float64) bend {
	b := bend{spline: new([bendKnots - 1][4]float64), knee: knee, high: float64(FastestFace), scale: 1}
	slope := knotSlopes(rest)
	for k := range b.spline {
		b.spline[k] = hermite(rest[k], rest[k+1], slope[k], slope[k+1])
	}
	// Knots per velocity at high: d/dv of (knots) z/z(high).
	perVelocity := (bendKnots - 1) * b.knee / (b.high * (b.high + b.knee))
	last := slope[bendKnots-1] * perVelocity
	b.tailA, b.tailB = rest[bendKnots-1]-last*b.high, last
	return b
}

// knotSlopes are the slopes of the spline at its knots. On fixed knots they are
// linear in the values, so the spline's equations are solved once, for each
// value alone.
func knotSlopes(rest [bendKnots]float64) (slope [bendKnots]float64) {
	for k, row := range slopePerValue() {
		for i, w := range row {
			slope[k] += w * rest[i]
		}
	}
	return slope
}

var slopePerValue = sync.OnceValue(func() (w [bendKnots][bendKnots]float64) {
	knots := make([]float64, bendKnots)
	for i := range knots {
		knots[i] = float64(i)
	}
	for i := range knots {
		one := make([]float64, bendKnots)
		one[i] = 1
		var cubic interp.NotAKnotCubic
		if err := cubic.Fit(knots, one); err != nil {
			panic(err) // the knots are evenly spaced
		}
		for k := range knots {
			w[k][i] = cubic.PredictDerivative(knots[k])
		}
	}
	return w
})
