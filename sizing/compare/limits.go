package compare

import (
	"math"

	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// LeastOf is the smallest change of a figure that counts as one, in SI:
// study.Noticeable of the figure. Of a temperature, whose zero is far away, it
// is 1 F, the resolution of a thermometer (common practice, no source).
func LeastOf(v study.Amount) float64 {
	if _, is := v.(units.Temperature); is {
		return float64(units.FahrenheitDegree)
	}
	return study.Noticeable * math.Abs(v.SI())
}

// DrawnLimit is one limit of an option over the samples.
type DrawnLimit struct {
	Missed []bool
	Worse  []float64 // the figure, more where it is worse
	Least  []float64 // change that counts
}

// LimitKey identifies a limit of an option.
type LimitKey struct {
	Problem study.Problem
	State   study.FilterState
}

// drawnLimits are the limits of an option in every sample.
func drawnLimits(n int, at func(sample int) *headline) map[LimitKey]*DrawnLimit {
	out := map[LimitKey]*DrawnLimit{}
	for k := range n {
		for i := range at(k).held {
			l := &at(k).held[i]
			key := LimitKey{Problem: l.Problem, State: l.State}
			if k == 0 {
				out[key] = &DrawnLimit{}
			}
			d := out[key]
			if d == nil {
				continue
			}
			worse := l.Measured.SI()
			if l.Least {
				worse = -worse
			}
			d.Missed, d.Worse, d.Least = append(d.Missed, l.Missed), append(d.Worse, worse), append(d.Least, LeastOf(l.Measured))
		}
	}
	return out
}
