package compare

import (
	"math"
	"slices"
	"sync"

	"returnbench/sizing/study"
)

// sampledMeasures are those that take part in the ranges; every sample asks for
// them, so they are listed once.
var sampledMeasures = sync.OnceValue(func() []Measure {
	var out []Measure
	for _, m := range Measures() {
		if m.Sampled() {
			out = append(out, m)
		}
	}
	return out
})

// sampledFigures are the sampled measures of an option.
func sampledFigures(o *study.OptionResult) []float64 {
	all := sampledMeasures()
	out := make([]float64, len(all))
	for i, m := range all {
		v, known := m.Value(o)
		if !known {
			v = math.NaN()
		}
		out[i] = v
	}
	return out
}

// samplesByMeasure turns the figures of n samples into a slice a measure.
func samplesByMeasure(n int, at func(sample int) *headline) map[string][]float64 {
	out := map[string][]float64{}
	for i, m := range sampledMeasures() {
		vs := make([]float64, n)
		for k := range vs {
			vs[k] = at(k).figures[i]
		}
		out[m.Key] = vs
	}
	return out
}

// Agreement is how far the samples agree that the measure is better, or worse,
// with an option than with a baseline. They are drawn against each other sample
// by sample, so that what is uncertain of both alike does not blur the
// difference; known is false where the measure or an option was not sampled.
func (m *Measure) Agreement(option, base *OptionRange) (a Agreement, known bool) {
	if option == nil || base == nil {
		return a, false
	}
	x, y := option.Drawn[m.Key], base.Drawn[m.Key]
	if len(x) == 0 || len(x) != len(y) || m.Sense == Neither {
		return a, false
	}
	return Agree(len(x), func(k int) (float64, float64) { return m.merit(x[k]), m.merit(y[k]) }), true
}

// Of is the range of a sampled measure in SI, over the samples in which it is
// known; false where there are none.
func (r *OptionRange) Of(key string) (Range[float64], bool) {
	vs := slices.DeleteFunc(slices.Clone(r.Drawn[key]), math.IsNaN)
	if len(vs) == 0 {
		return Range[float64]{}, false
	}
	return Middle(len(vs), func(i int) float64 { return vs[i] }), true
}

// merit is a number that is more where the figure is better.
func (m *Measure) merit(v float64) float64 {
	switch m.Sense {
	case Less:
		return -v
	case Nearer:
		return -math.Abs(v)
	}
	return v
}

// RangeOf finds the range of an option, nil where it was not sampled.
func RangeOf(ranges []OptionRange, o *study.OptionResult) *OptionRange {
	for i := range ranges {
		if r := &ranges[i]; r.Name == o.Name && r.Kind == o.Kind {
			return r
		}
	}
	return nil
}
