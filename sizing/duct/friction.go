package duct

import "math"

// FlowRegime names how the air moves along a wall.
type FlowRegime string

const (
	Laminar    FlowRegime = "laminar"
	Transition FlowRegime = "transition"
	Turbulent  FlowRegime = "turbulent"
)

// The Reynolds numbers between which no formula holds.
const (
	laminarLimit   = 2300
	turbulentLimit = 4000
)

// Regime is the flow regime at a Reynolds number. In Transition (2300 to 4000)
// flow is unsettled and a friction factor is a bridge, not a measurement.
func Regime(re float64) FlowRegime {
	switch re = math.Abs(re); {
	case re <= laminarLimit:
		return Laminar
	case re < turbulentLimit:
		return Transition
	}
	return Turbulent
}

// FrictionFactor is the Darcy friction factor f of dp = f (L/D) rho V^2/2:
//
//	Re <= 2300        f = 64/Re                                  (Hagen, Poiseuille)
//	Re >= 4000        1/sqrt f = -2 log10(e/(3.7 D) + 2.51/(Re sqrt f))   (Colebrook 1939)
//	between           a cubic in ln(f Re^2) over ln Re that meets both in value and slope
//
// The bridge is this program's own: the drop that follows is continuous with its
// slope and rises with airflow. relativeRoughness is e/D, 0 to 0.05; outside it
// the equation is still solved. At Re = 0 f is +Inf.
func FrictionFactor(re, relativeRoughness float64) float64 {
	switch re = math.Abs(re); {
	case re <= laminarLimit:
		return 64 / re
	case re < turbulentLimit:
		return newBridge(relativeRoughness).factor(re)
	}
	return colebrook(re, relativeRoughness)
}

// colebrook solves the Colebrook-White equation by two steps of Clamond's
// iteration, which reach the last digit of a float64 for any Re above 1000.
// Source: D. Clamond, Efficient resolution of the Colebrook equation, Ind. Eng.
// Chem. Res. 48 (2009) 3665.
func colebrook(re, relativeRoughness float64) float64 {
	const third = 1.0 / 3
	x1 := relativeRoughness * re * 0.123968186335417556 // ln(10)/(2 x 2.51 x 3.7)
	x2 := math.Log(re) - 0.779397488455682028           // ln(2 x 2.51/ln 10)
	x := x2 - 0.2
	for range 2 {
		s := x1 + x
		e := (math.Log(s) + x - x2) / (1 + s)
		x -= (1 + s + e/2) * e * s / (1 + s + e*(1+e*third))
	}
	root := 1.151292546497022842 / x // ln(10)/2
	return root * root
}

// colebrookSlope is d(ln f)/d(ln Re) on the Colebrook-White curve, by implicit
// differentiation: -2 a/(1 + a), a = 2 x 2.51/(ln 10 Re g), g the argument of
// the logarithm, which is 10^(-1/(2 sqrt f)).
func colebrookSlope(re, relativeRoughness, f float64) float64 {
	g := relativeRoughness/3.7 + 2.51/(re*math.Sqrt(f))
	a := 2 * 2.51 / (math.Ln10 * re * g)
	return -2 * a / (1 + a)
}

// bridge joins laminar and turbulent friction: y = ln(f Re^2) as a cubic
// Hermite polynomial over x = ln Re. With slopes 1 and under 2 at its ends and
// a mean slope above 2.6 it meets the condition of Fritsch and Carlson 1980 for
// a monotone cubic, whatever the roughness.
type bridge struct{ rise, endSlope float64 }

func newBridge(relativeRoughness float64) bridge {
	f := colebrook(turbulentLimit, relativeRoughness)
	return bridge{
		rise:     math.Log(f) + lnTurbulentSquared - bridgeStart,
		endSlope: 2 + colebrookSlope(turbulentLimit, relativeRoughness, f),
	}
}

var (
	bridgeStart        = math.Log(64 * laminarLimit)
	bridgeWidth        = math.Log(turbulentLimit) - math.Log(laminarLimit)
	lnTurbulentSquared = 2 * math.Log(turbulentLimit)
)

func (b bridge) factor(re float64) float64 {
	y, _ := b.at(re)
	return math.Exp(y) / (re * re)
}

// at gives ln(f Re^2) and its slope over ln Re.
func (b bridge) at(re float64) (y, slope float64) {
	t := math.Log(re/laminarLimit) / bridgeWidth
	m0, m1 := bridgeWidth, b.endSlope*bridgeWidth
	// Hermite in powers of t: start + m0 t + c2 t^2 + c3 t^3.
	c2 := 3*b.rise - 2*m0 - m1
	c3 := m0 + m1 - 2*b.rise
	y = bridgeStart + t*(m0+t*(c2+t*c3))
	return y, (m0 + t*(2*c2+3*t*c3)) / bridgeWidth
}
