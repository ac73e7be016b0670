package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

const (
	// thickerMedia is a media resistance for which Solve converges as a rule, over the
	// air's density times the face velocity: the drop of the media is then about that
	// of the air's inertia.
	thickerMedia = 0.5
	thickenings  = 6
	// flattestPower keeps the fit to the last three media from falling without end,
	// as the logarithm of the resistance does.
	flattestPower = 0.1
)

// dropOfOpenMedia estimates the drop of a pack whose media is too open for Solve
// to converge. The gaps then make the drop, and it levels out as the media's
// resistance R falls:
//
//	dp = A + B R^p,  p held to 0.1 .. 1
//
// through the drops of media of resistance r, 2 r and 4 r, r the least of
// 0.5 rho V 2^n for which all three converge. Found within 10 % of the drop on
// finer grids that are given all the work they ask for, mostly above it. ok is false where no thicker media
// converges either.
func (p Pack) dropOfOpenMedia(face units.Speed, a air.Properties) (drop units.Pressure, ok bool) {
	g, err := p.geometry()
	if err != nil {
		return 0, false
	}
	v := math.Abs(float64(face))
	s, own := newPleatSolver(g, p.Equations, a), g.resistance
	r := max(2*own, thickerMedia*s.rho*v)
	var drops [3]float64 // at r, 2 r, 4 r
	good := 0            // of the last of them in a row
	for i := 0; good < len(drops); i++ {
		if i == thickenings+len(drops) {
			return 0, false
		}
		got := s.withMedia(r, v)
		drops[0], drops[1], drops[2] = drops[1], drops[2], float64(got.Drop)
		good++
		if !got.Converged {
			good = 0
		}
		r *= 2
	}
	for r /= 8; r/2 > own; r /= 2 {
		got := s.withMedia(r/2, v)
		if !got.Converged {
			break
		}
		drops[0], drops[1], drops[2] = float64(got.Drop), drops[0], drops[1]
	}
	return units.Pressure(math.Copysign(throughDoublings(drops, own/r), float64(face))), true
}

// throughDoublings is A + B x^p at x, less than 1, through the values at 1, 2
// and 4.
func throughDoublings(y [3]float64, x float64) float64 {
	power := math.Log2((y[2] - y[1]) / (y[1] - y[0]))
	if !(power < 1) {
		power = 1
	}
	power = max(power, flattestPower)
	b := (y[1] - y[0]) / (math.Pow(2, power) - 1)
	return y[0] - b*(1-math.Pow(x, power))
}

// withMedia solves the pack with media of another resistance, which the grids laid
// hold.
func (s *pleatSolver) withMedia(resistance, face float64) PackResult {
	for _, g := range s.grids {
		for i := range g.cells {
			g.cells[i].media *= resistance / s.resistance
		}
	}
	s.resistance = resistance
	return s.solve(face)
}
