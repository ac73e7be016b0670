package house

import (
	"returnbench/sizing/filter"
	"returnbench/sizing/study"
)

// efficiency is that of the first place's filter, and the installed efficiency of
// all filters with their gaps.
func (a *Arrangement) efficiency() study.Efficiency {
	e := study.Efficiency{}
	curves := make([][12]float64, len(a.Places))
	arrestance := make([]float64, len(a.Places))
	for k := range a.Places {
		f := a.Places[k].Filter
		curve, assumedCurve, err := f.EfficiencyCurve()
		if err != nil {
			return study.Efficiency{}
		}
		merv, err := f.Rated()
		if err != nil {
			return study.Efficiency{}
		}
		curves[k] = curve
		arrestance[k], _ = filter.TypicalArrestance(merv)
		if k == 0 {
			e = study.Efficiency{BySize: curve, Assumed: assumedCurve, MERV: merv}
			e.E1, e.E2, e.E3 = filter.RangeMeans(curve)
		}
	}
	if len(a.Places) == 1 { // what the filter does not clean leaks past it, or goes through a return without one
		past := a.passing(a.point, func(k int) float64 { return a.leaks[k] }, true)
		e.Installed = filter.LeakyEfficiency(curves[0], past)
		e.InstalledMERV = min(e.MERV, filter.InstalledMERV(curves[0], arrestance[0], past))
		return e
	}
	all := func(of func(k int) float64) float64 {
		return 1 - a.passing(a.point, func(k int) float64 { return 1 - (1-a.leaks[k])*of(k) }, true)
	}
	for i := range e.Installed {
		e.Installed[i] = all(func(k int) float64 { return curves[k][i] })
	}
	e1, e2, e3 := filter.RangeMeans(e.Installed)
	e.InstalledMERV = filter.Classify(e1, e2, e3, all(func(k int) float64 { return arrestance[k] }))
	return e
}

// RatedMERV is the MERV of a make by its efficiency; the printed one where nothing
// better is known.
func RatedMERV(f filter.Filter) int {
	if merv, err := f.Rated(); err == nil {
		return merv
	}
	return f.MERV
}
