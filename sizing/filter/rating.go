package filter

import (
	"fmt"
	"math"

	"returnbench/sizing/leastsquares"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// DefaultExponent is the exponent of drop in flow taken for a rating of one
// point. Source: mean of 1/a of Li et al. 2022, as quoted by an open
// building-physics library; an exponent of 2 overstates the drop at high flow.
const DefaultExponent = 1.18

// Fit is a clean-drop law fitted to a filter's printed points.
type Fit struct {
	Curve                       // fitted to the points
	Residuals       []float64   // Pa, law less point, in the order of the points
	AssumedExponent bool        // one point: its exponent was assumed
	Low, High       units.Speed // of the points, m/s inside
}

// FitRating fits a clean-drop law to printed points of a filter whose face is
// of the given area (needed only where a point is printed as an airflow).
//
// Two or more points at different velocities:
//
//	dp = A v + B v^2,  A, B >= 0 minimising sum (A v + B v^2 - dp)^2
//
// in drop, not in its logarithm: a fit in the logarithm minimizes another
// error. One point: dp = C v^n with n the exponent given, or DefaultExponent
// when exponent is 0 (then AssumedExponent is set). v in m/s, dp in Pa. Low and
// High bound the points; outside them the law extrapolates, and the caller must
// report that.
func FitRating(points []RatingPoint, face units.Area, exponent float64) (Fit, error) {
	velocities, err := ratingVelocities(points, face)
	if err != nil {
		return Fit{}, err
	}
	fit := Fit{Low: units.Speed(velocities[0]), High: units.Speed(velocities[0])}
	for _, v := range velocities {
		fit.Low, fit.High = min(fit.Low, units.Speed(v)), max(fit.High, units.Speed(v))
	}
	drops := make([]float64, len(points))
	for i, p := range points {
		drops[i] = float64(p.Drop)
	}
	switch {
	case len(points) == 1:
		n := exponent
		if n == 0 {
			n, fit.AssumedExponent = DefaultExponent, true
		}
		if !(n >= 1 && n <= 2) {
			return Fit{}, &FieldError{"exponent", exponent, message.New("1 (media alone) to 2 (inertia alone), or nothing")}
		}
		fit.Curve = Curve{C: drops[0] / math.Pow(velocities[0], n), Exponent: n}
	case fit.High.SI()-fit.Low.SI() <= 1e-6*fit.High.SI():
		return Fit{}, &FieldError{"rating", message.New("{count} points at one flow", "count", len(points)), message.New("points at different flows, or a single point")}
	default:
		fit.A, fit.B = leastsquares.Quadratic(velocities, drops)
	}
	fit.Residuals = make([]float64, len(points))
	for i, v := range velocities {
		fit.Residuals[i] = float64(fit.Drop(units.Speed(v))) - drops[i]
	}
	return fit, nil
}

// ratingVelocities gives the face velocity of each point in m/s.
func ratingVelocities(points []RatingPoint, face units.Area) ([]float64, error) {
	if len(points) == 0 {
		return nil, &FieldError{"rating", message.ID("no point"), message.New("at least one point of flow and drop")}
	}
	velocities := make([]float64, len(points))
	for i, p := range points {
		field := func(name string) string { return fmt.Sprintf("rating[%d].%s", i, name) }
		v := float64(p.FaceVelocity)
		switch {
		case p.FaceVelocity != 0 && p.Airflow != 0:
			return nil, &FieldError{field("airflow"), message.ID("an airflow and a face velocity"), message.New("one of the two")}
		case p.Airflow != 0 && !(face > 0):
			return nil, &FieldError{field("airflow"), message.New("{airflow} with no face size", "airflow", p.Airflow.String()), message.New("the filter's width and height, or a face velocity")}
		case p.Airflow != 0:
			v = float64(p.Airflow) / float64(face) // m3/s / m2
		}
		if !(v > 0) || math.IsInf(v, 0) {
			return nil, &FieldError{field("airflow"), fmt.Sprintf("%g m/s", v), message.New("a flow above zero")}
		}
		if !(p.Drop > 0) || math.IsInf(float64(p.Drop), 0) {
			return nil, &FieldError{field("drop"), p.Drop, message.New("a drop above zero")}
		}
		velocities[i] = v
	}
	return velocities, nil
}
