package filter

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// profile is the shape of the flow in a gap between porous walls, as its two
// means: friction as a multiple of 12 mu q/h^3, and the momentum factor beta,
// each with its slope by the wall Reynolds number.
type profile struct {
	friction, frictionSlope float64
	beta, betaSlope         float64
}

// Between walls through which air passes evenly, the flow has a similar profile
// f'(y) from the middle (0) to the wall (1):
//
//	f''' + Re (f'^2 - f f'') = const,  f(0) = f''(0) = f'(1) = 0,  f(1) = 1
//
// with Re = rho v (h/2)/mu, v the velocity out through the wall. Then friction
// = -f”(1)/3 and beta = integral of f'^2. Source: Berman 1953, J. Appl. Phys.
// 24:1232 (the equation, from memory); its solution of the branch that begins in
// developed flow is tabled here at Re = 12 z/(1-z), z = 0, 1/16, ... 1, and
// worked again in the tests. Limits: Re to +infinity (suction) friction (Re - 1)/3
// and beta 1, an inviscid core with the thin layer of even suction; Re to
// -infinity (blowing) friction pi^2/12 and beta pi^2/8, the inviscid flow of
// Taylor 1956, Proc. R. Soc. A 234:456.
var (
	suctionFriction = newEven([17]float64{ // less Re/3
		1.000000, 0.758413, 0.488581, 0.187563, -0.145921, -0.508605, -0.886816, -1.246541, -1.522070,
		-1.615574, -1.432225, -0.988739, -0.554879, -0.391984, -0.364510, -0.350, -1.0 / 3,
	})
	suctionMomentum = newEven([17]float64{
		1.200000, 1.196749, 1.192496, 1.186790, 1.178940, 1.167918, 1.152339, 1.130798, 1.103062,
		1.071977, 1.043942, 1.025120, 1.015500, 1.010158, 1.006146, 1.002820, 1,
	})
	blowingFriction = newEven([17]float64{
		1.000000, 0.979091, 0.959343, 0.940921, 0.923960, 0.908550, 0.894727, 0.882469, 0.871696,
		0.862289, 0.854098, 0.846965, 0.840741, 0.835288, 0.830488, 0.826242, math.Pi * math.Pi / 12,
	})
	blowingMomentum = newEven([17]float64{
		1.200000, 1.202860, 1.205711, 1.208526, 1.211277, 1.213936, 1.216478, 1.218882, 1.221131,
		1.223219, 1.225143, 1.226907, 1.228520, 1.229994, 1.231341, 1.232572, math.Pi * math.Pi / 8,
	})
)

// wallScale is the wall Reynolds number half way along the tables.
const wallScale = 12

// even is a cubic spline on 17 even knots over 0..1.
type even [16][4]float64

func newEven(y [17]float64) *even {
	x := make([]float64, len(y))
	for i := range x {
		x[i] = float64(i)
	}
	var cubic interp.NotAKnotCubic
	if err := cubic.Fit(x, y[:]); err != nil {
		panic(err) // the knots are evenly spaced
	}
	e := new(even)
	for k := range e {
		e[k] = hermite(y[k], y[k+1], cubic.PredictDerivative(x[k]), cubic.PredictDerivative(x[k+1]))
	}
	return e
}

// hermite gives the coefficients of the cubic on 0..1 of given ends and slopes.
func hermite(y0, y1, d0, d1 float64) [4]float64 {
	return [4]float64{y0, d0, 3*(y1-y0) - 2*d0 - d1, 2*(y0-y1) + d0 + d1}
}

// at gives the value and the slope at z of 0..1.
func (e *even) at(z float64) (value, slope float64) {
	w := 16 * z
	k := min(int(w), 15)
	w -= float64(k)
	p := &e[k]
	return p[0] + w*(p[1]+w*(p[2]+w*p[3])), 16 * (p[1] + w*(2*p[2]+3*w*p[3]))
}

// suction is the profile of a gap that loses air through its walls, re >= 0.
func suction(re float64) profile {
	z, slope := re/(re+wallScale), wallScale/((re+wallScale)*(re+wallScale))
	g, dg := suctionFriction.at(z)
	b, db := suctionMomentum.at(z)
	return profile{friction: g + re/3, frictionSlope: dg*slope + 1.0/3, beta: b, betaSlope: db * slope}
}

// blowing is the profile of a gap of even width that gains air through its
// walls, re >= 0 the wall Reynolds number of the blowing; slopes are by re.
func blowing(re float64) profile {
	z, slope := re/(re+wallScale), wallScale/((re+wallScale)*(re+wallScale))
	f, df := blowingFriction.at(z)
	b, db := blowingMomentum.at(z)
	return profile{friction: f, frictionSlope: df * slope, beta: b, betaSlope: db * slope}
}

// wedge is how a widening gap alters a blowing profile: its inviscid limits in
// place of those of a gap of even width.
type wedge struct {
	friction, beta float64 // multiples of the way from developed flow to inviscid
}

// newWedge is for a gap whose width grows as x^m from its closed end, blown
// into evenly. There the inviscid flow from the walls is similar too: the
// pressure falls as U^2 = (q/h)^2 rises, each streamline starts at rest at the
// wall and keeps its total pressure (Bernoulli), which gives
//
//	beta = (1-m)/(2-m) (B(1/k, 1/2)/k)^2,  k = 2(1-m),  friction = beta (2-m)/3
//
// with B the beta function: pi^2/8 and pi^2/12 at m = 0 (Taylor's flow), pi/2 and
// pi/6 at m = 1 (a wedge). The cubic below meets beta at m = 0, 1/2, 3/4 and 1
// and keeps within 0.4 % of it. Derived here; m is held to 0..1.
func newWedge(m float64) wedge {
	m = min(max(m, 0), 1)
	const even, evenFriction = math.Pi * math.Pi / 8, math.Pi * math.Pi / 12
	b := even + m*(0.19598289+m*(-0.12798219+m*0.26909507))
	return wedge{
		beta:     (b - developedMomentum) / (even - developedMomentum),
		friction: (1 - b*(2-m)/3) / (1 - evenFriction),
	}
}

// in converts a blowing profile to the wedge: at the same share of the way from
// developed flow to the inviscid limit as between even walls.
func (w wedge) in(p profile) profile {
	return profile{
		friction: 1 - (1-p.friction)*w.friction, frictionSlope: p.frictionSlope * w.friction,
		beta: developedMomentum + (p.beta-developedMomentum)*w.beta, betaSlope: p.betaSlope * w.beta,
	}
}
