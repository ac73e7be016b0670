package airpath

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// tableKnots over two decades of flow keep the law of a return within 1e-5 for
// a factor of four about the middle, where every candidate operates.
const tableKnots = 24

// tableTolerance is that of the splits at the knots, far within the table's.
const tableTolerance = 1e-10

// Table replaces the branches of a system by one law: a cubic in logarithms
// through exact splits from a tenth of flow to ten times it. In logarithms a law
// that is nearly a power of flow is nearly a straight line. Outside its range it splits exactly.
func (s System) Table(flow float64) (Law, error) {
	if len(s.Branches) == 0 {
		return func(float64) float64 { return 0 }, nil
	}
	flows, lines := make([]float64, len(s.Branches)), make([]line, len(s.Branches))
	x, y := make([]float64, tableKnots), make([]float64, tableKnots)
	for i := range x {
		x[i] = math.Log(flow) + math.Ln10*(2*float64(i)/(tableKnots-1)-1)
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
		if a < flow/10 || a > flow*10 {
			p, err := s.Split(a, make([]float64, len(s.Branches)))
			if err != nil {
				return math.NaN()
			}
			return math.Copysign(p, q)
		}
		return math.Copysign(math.Exp(cubic.Predict(math.Log(a))), q)
	}, nil
}
