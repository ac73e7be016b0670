package airpath

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// knotsPerDecade of flow keep the law of a return within 1e-5 but for the last knots at
// both ends.
const knotsPerDecade = 11.5

// tableTolerance is that of the splits at the knots, far within the table's.
const tableTolerance = 1e-10

// Table replaces the branches of a system by one law: a cubic in logarithms
// through exact splits from flow/reach to flow*reach. In logarithms a law
// that is nearly a power of flow is nearly a straight line. Outside its range it splits exactly.
func (s System) Table(flow, reach float64) (Law, error) {
	if len(s.Branches) == 0 {
		return func(float64) float64 { return 0 }, nil
	}
	flows, lines := make([]float64, len(s.Branches)), make([]line, len(s.Branches))
	n := 1 + int(math.Ceil(2*math.Log10(reach)*knotsPerDecade))
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i] = math.Log(flow) + math.Log(reach)*(2*float64(i)/float64(n-1)-1)
		p, err := s.split(math.Exp(x[i]), flows, lines, tableTolerance)
		if err != nil {
			return nil, err
		}
		y[i] = math.Log(p)
	}
	var cubic interp.NaturalCubic
	if err := cubic.Fit(x, y); err != nil {
		return nil, err
	}
	return func(q float64) float64 {
		a := math.Abs(q)
		if a < flow/reach || a > flow*reach {
			p, err := s.Split(a, make([]float64, len(s.Branches)))
			if err != nil {
				return math.NaN()
			}
			return math.Copysign(p, q)
		}
		return math.Copysign(math.Exp(cubic.Predict(math.Log(a))), q)
	}, nil
}
