package compare

import (
	"math"
	"slices"

	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// RangesOf calculates, for each option, the ranges and the shares of agreement over
// samples that all have the same options; nil of no samples. Option 1 of each
// sample is today.
func RangesOf(runs []Sample) []OptionRange {
	if len(runs) == 0 {
		return nil
	}
	out := make([]OptionRange, len(runs[0].Options))
	for i := range out {
		out[i] = spreadOption(runs, i)
	}
	return out
}

func spreadOption(runs []Sample, i int) OptionRange {
	n := len(runs)
	at := func(run int) *headline { return &runs[run].Options[i] }
	today := func(run int) *headline { return &runs[run].Options[1] }
	r := OptionRange{Name: at(0).name, Kind: at(0).kind, Samples: n}
	r.Airflow = middleOf(n, at, func(h *headline) units.Flow { return h.airflow })
	r.LoadedAirflow = middleOf(n, at, func(h *headline) units.Flow { return h.loaded })
	r.ExternalStatic = middleOf(n, at, func(h *headline) units.Pressure { return h.static })
	r.FilterDrop = middleOf(n, at, func(h *headline) units.Pressure { return h.filter })
	r.BlowerPower = middleOf(n, at, func(h *headline) units.Power { return h.power })
	r.TemperatureRise = middleOf(n, at, func(h *headline) units.TemperatureDifference { return h.rise })
	r.Life = middleOf(n, at, func(h *headline) units.Duration { return h.life })
	r.AnnualCost = middleOf(n, at, func(h *headline) units.Money { return h.cost })
	r.TenYearCost = middleOf(n, at, func(h *headline) units.Money { return h.tenYears })
	for k := range n {
		switch p := at(k).payback; {
		case p.Pays:
			r.PaysBack.Better += 1 / float64(n)
		case p.Known:
			r.PaysBack.Worse += 1 / float64(n)
		}
	}
	r.AirflowGain = Middle(n, func(k int) units.Flow { return at(k).airflow - today(k).airflow })
	r.PowerSaved = Middle(n, func(k int) units.Power { return today(k).power - at(k).power })
	r.AnnualSaved = Middle(n, func(k int) units.Money { return today(k).cost - at(k).cost })
	r.MoreAir = Agree(n, func(k int) (float64, float64) { return float64(at(k).airflow), float64(today(k).airflow) })
	r.FewerWatts = Agree(n, func(k int) (float64, float64) { return -float64(at(k).power), -float64(today(k).power) })
	r.LessFilter = Agree(n, func(k int) (float64, float64) { return -float64(at(k).filter), -float64(today(k).filter) })
	r.CheaperAYear = Agree(n, func(k int) (float64, float64) { return -float64(at(k).cost), -float64(today(k).cost) })
	if r.Kind == study.KindOption {
		r.AgainstToday = r.Against()
	}
	r.Drawn, r.Limits = samplesByMeasure(n, at), drawnLimits(n, at)
	return r
}

func middleOf[T ~float64](n int, at func(int) *headline, of func(*headline) T) Range[T] {
	return Middle(n, func(k int) T { return of(at(k)) })
}

// Middle is the range between the 5th and the 95th hundredth of n values.
func Middle[T ~float64](n int, value func(int) T) Range[T] {
	vs := make([]T, n)
	for i := range vs {
		vs[i] = value(i)
	}
	slices.Sort(vs)
	at := func(share float64) T { return vs[int(math.Round(share*float64(n-1)))] }
	return Range[T]{at((1 - RangeShare) / 2), at((1 + RangeShare) / 2)}
}
