package plots

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"

	"returnbench/sizing/units"
)

// roundTicks puts at most about n ticks at round values, but never fewer than
// two: with one no value can be read.
type roundTicks struct {
	n     int
	units units.Locale
}

// Ticks gives the ticks of a range.
func (r roundTicks) Ticks(lo, hi float64) []plot.Tick {
	var out []plot.Tick
	for n := max(r.n, 1); len(out) < 2 && n < 64; n *= 2 {
		out = ticksEvery(roundStep((hi-lo)/float64(n)), lo, hi)
	}
	return marked(out, r.units)
}

// marked writes the decimal mark of a locale.
func marked(ticks []plot.Tick, l units.Locale) []plot.Tick {
	for i := range ticks {
		ticks[i].Label = l.Mark(ticks[i].Label)
	}
	return ticks
}

func ticksEvery(step, lo, hi float64) []plot.Tick {
	if !(step > 0) {
		return nil
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	var out []plot.Tick
	first := math.Ceil(lo/step - 1e-9)
	for i := 0.0; i <= 20; i++ {
		v := (first + i) * step
		if v > hi+step*1e-9 {
			break
		}
		if v == 0 {
			v = 0 // no minus sign
		}
		out = append(out, plot.Tick{Value: v, Label: strconv.FormatFloat(v, 'f', decimals, 64)})
	}
	return out
}

// roundStep is the smallest of 1, 2, 5 times a power of ten not below v.
func roundStep(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// ratioTicks puts at most about n ticks at round values of a logarithmic axis.
type ratioTicks struct {
	n     int
	units units.Locale
}

// Ticks gives the ticks of a range.
func (r ratioTicks) Ticks(lo, hi float64) []plot.Tick {
	var out []plot.Tick
	for _, steps := range [][]float64{{1}, {1, 3}, {1, 2, 3, 5}, {1, 1.5, 2, 3, 4, 5, 7}} {
		finer := ratiosOf(steps, lo, hi)
		if len(finer) > max(r.n, 2) {
			break
		}
		out = finer
	}
	if len(out) < 3 {
		return roundTicks(r).Ticks(lo, hi)
	}
	return marked(out, r.units)
}

func ratiosOf(steps []float64, lo, hi float64) []plot.Tick {
	var out []plot.Tick
	if !(lo > 0) || !finite(hi) {
		return nil
	}
	for p := math.Pow(10, math.Floor(math.Log10(lo))); p <= hi; p *= 10 {
		for _, s := range steps {
			v, _ := strconv.ParseFloat(strconv.FormatFloat(s*p, 'g', 3, 64), 64)
			if v >= lo*(1-1e-9) && v <= hi*(1+1e-9) {
				out = append(out, plot.Tick{Value: v, Label: strconv.FormatFloat(v, 'f', -1, 64)})
			}
		}
	}
	return out
}
