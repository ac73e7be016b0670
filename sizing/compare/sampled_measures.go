package compare

import (
	"math"
	"slices"
	"sync"

	"returnbench/sizing/study"
)

// sampledMeasures are the measures with ranges; every sample needs them, so
// they are listed once.
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

// samplesByMeasure turns the figures of n samples into one slice for each
// measure.
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

// Of is the range of a sampled measure in SI, over the samples in which it is
// known; false where there are none.
func (r *OptionRange) Of(key string) (Range[float64], bool) {
	vs := slices.DeleteFunc(slices.Clone(r.Drawn[key]), math.IsNaN)
	if len(vs) == 0 {
		return Range[float64]{}, false
	}
	return Middle(len(vs), func(i int) float64 { return vs[i] }), true
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
