package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// familyKnots is how many resistances a Family is solved at. Between them its laws
// are more exact than the solution of a pack (1e-5).
const familyKnots = 6

// familySpan is how far, in ln of resistance, a Family reaches to either side.
const familySpan = 0.5

// Family is a make in a face of one size, whose media's resistance moves: its law
// at a resistance is the polynomial in ln R through the laws at Chebyshev's knots.
// A sample uses it in place of a solution of its own.
type Family struct {
	middle units.MediaResistance
	knots  [familyKnots]float64 // ln R over that of the middle
	laws   [familyKnots]Law
}

// Family solves the make about its own resistance; ok is false where that is not
// given, or a solution fails.
func (f Filter) Family(width, height units.Length, a air.Properties) (m Family, ok bool) {
	m.middle = f.pack().Resistance
	if !(m.middle > 0) {
		return m, false
	}
	for i := range m.knots {
		m.knots[i] = familySpan * math.Cos(math.Pi*(float64(i)+0.5)/familyKnots)
		f.MediaResistance, f.MediaPermeability = m.middle*units.MediaResistance(math.Exp(m.knots[i])), 0
		var err error
		if m.laws[i], err = f.Law(width, height, a); err != nil || m.laws[i].Source != FromMake || !m.laws[i].Converged {
			return m, false
		}
	}
	return m, true
}

// Law is the law of a like make; ok is false where its resistance lies outside.
func (m *Family) Law(f Filter) (Law, bool) {
	x := math.Log(float64(f.pack().Resistance) / float64(m.middle))
	if !(math.Abs(x) <= familySpan) {
		return Law{}, false
	}
	var curves [familyKnots]Curve
	var weights [familyKnots]float64
	out := m.laws[familyKnots/2]
	out.Printed = 0
	for i := range m.knots {
		weights[i] = 1
		for k := range m.knots {
			if k != i {
				weights[i] *= (x - m.knots[k]) / (m.knots[i] - m.knots[k])
			}
		}
		curves[i] = m.laws[i].Curve
		out.Printed += units.Pressure(weights[i]) * m.laws[i].Printed
	}
	out.Curve = weighted(curves[:], weights[:])
	return out, true
}

// weighted is the sum of curves of one kind, each times its weight.
func weighted(curves []Curve, weights []float64) Curve {
	out := curves[0]
	out.A, out.B, out.C, out.bend.tailA, out.bend.tailB = 0, 0, 0, 0, 0
	if out.bend.spline != nil {
		out.bend.spline, out.bend.scale = new([bendKnots - 1][4]float64), 1
	}
	for i, c := range curves {
		w := weights[i]
		out.A, out.B, out.C = out.A+w*c.A, out.B+w*c.B, out.C+w*c.C
		if c.bend.spline == nil {
			continue
		}
		out.bend.tailA, out.bend.tailB = out.bend.tailA+w*c.bend.tailA, out.bend.tailB+w*c.bend.tailB
		w *= c.bend.scale
		for k := range c.bend.spline {
			for n, term := range c.bend.spline[k] {
				out.bend.spline[k][n] += w * term
			}
		}
	}
	return out
}
