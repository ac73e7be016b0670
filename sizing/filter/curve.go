package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// Curve is a drop law against face velocity, odd in v and fast enough for use
// inside a root finder:
//
//	dp = A v + B v^2 + C v^Exponent + v bend(v)    v in m/s, dp in Pa
//
// A in Pa s/m, B in Pa s2/m2, C in Pa (s/m)^Exponent. A rating of several points
// has A and B only, one of a single point C and Exponent only. Only the law of a
// pleated pack has a bend: the difference of the two-channel equations from the
// best A v + B v^2, see Pack.Curve.
type Curve struct {
	A, B, Exponent, C float64 // in the equation above
	bend              bend
}

// bendKnots is the number of velocities of a bend, and so of Pack.Curve's
// solutions of the pack.
const bendKnots = 14

// bend is a cubic spline of dp/v in z = v/(v + knee), its knots evenly spaced in
// z from 0 to that of high; above high the law continues as the parabola of
// equal value and slope.
type bend struct {
	spline       *[bendKnots - 1][4]float64 // shared, never written after
	knee, high   float64                    // m/s
	scale        float64
	tailA, tailB float64 // dp/v past high, less A, B and C
}

// at is the bend and its slope at a velocity.
func (b *bend) at(x float64) (r, slope float64) {
	if x >= b.high {
		return b.tailA + b.tailB*x, b.tailB
	}
	w := (bendKnots - 1) * x * (b.high + b.knee) / (b.high * (x + b.knee))
	perVelocity := (bendKnots - 1) * b.knee * (b.high + b.knee) / (b.high * (x + b.knee) * (x + b.knee))
	k := min(int(w), bendKnots-2)
	w -= float64(k)
	p := &b.spline[k]
	r = b.scale * (p[0] + w*(p[1]+w*(p[2]+w*p[3])))
	return r, b.scale * perVelocity * (p[1] + w*(2*p[2]+3*w*p[3]))
}

// Drop is the drop at a face velocity; a negative velocity has a negative drop.
// It extrapolates at any velocity: the bounds are those of the Law.
func (c Curve) Drop(v units.Speed) units.Pressure {
	d, _ := c.at(math.Abs(float64(v)))
	if v < 0 {
		d = -d
	}
	return units.Pressure(d)
}

// at is the drop and its slope, Pa and Pa s/m, at a velocity of zero or more.
func (c *Curve) at(x float64) (d, slope float64) {
	r, rise := c.A+c.B*x, c.B
	if c.bend.spline != nil {
		more, steeper := c.bend.at(x)
		r, rise = r+more, rise+steeper
	}
	d, slope = r*x, r+rise*x
	if c.C != 0 && x > 0 {
		power := c.C * math.Exp(c.Exponent*math.Log(x))
		d, slope = d+power, slope+c.Exponent*power/x
	}
	return d, slope
}

// Scale is the law with every drop k times as large.
func (c Curve) Scale(k float64) Curve {
	c.A, c.B, c.C = k*c.A, k*c.B, k*c.C
	c.bend.scale *= k
	c.bend.tailA, c.bend.tailB = k*c.bend.tailA, k*c.bend.tailB
	return c
}

// ScaleVelocity is the law where the velocity it was found for is k times the
// velocity it is asked for: the pack fills 1/k of the face.
func (c Curve) ScaleVelocity(k float64) Curve {
	out := c.Scale(k)
	out.B *= k
	out.C = c.C * math.Pow(k, c.Exponent)
	out.bend.tailB *= k
	out.bend.knee /= k
	out.bend.high /= k
	return out
}

// In is the law in other air than the one in which it was found. The term in v
// scales with viscosity, the term in v^2 with density, and a power v^n between
// with rho^(n-1) mu^(2-n), the only combination with the right dimensions. A bend
// stays as it is: a pack is solved in the air of the house.
func (c Curve) In(now, found air.Properties) Curve {
	mu, rho := now.Viscosity/found.Viscosity, float64(now.Density)/float64(found.Density)
	c.A *= mu
	c.B *= rho
	c.C *= math.Pow(rho, c.Exponent-1) * math.Pow(mu, 2-c.Exponent)
	return c
}

// Plus adds a Darcy term a (Pa s/m) and an inertia term b (Pa s2/m2).
func (c Curve) Plus(a, b float64) Curve {
	c.A += a
	c.B += b
	return c
}
