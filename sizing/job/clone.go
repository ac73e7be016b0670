package job

import (
	"slices"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
)

// Clone copies the job so that no slice and no pointer is shared.
func (j Job) Clone() Job {
	j.Filters = cloneEach(j.Filters, func(f *filter.Filter) {
		f.Efficiency = slices.Clone(f.Efficiency)
		f.Rating = slices.Clone(f.Rating)
	})
	j.Returns = CloneReturns(j.Returns)
	j.Readings = slices.Clone(j.Readings)
	j.Options = cloneEach(j.Options, func(o *Option) { o.Returns = CloneReturns(o.Returns) })
	j.Equipment.Blower.Taps = cloneEach(j.Equipment.Blower.Taps, func(t *blower.Tap) { t.Points = slices.Clone(t.Points) })
	j.Equipment.Blower.Includes = slices.Clone(j.Equipment.Blower.Includes)
	j.Limits.Checks = slices.Clone(j.Limits.Checks)
	j.StockSizes = slices.Clone(j.StockSizes)
	j.Quote.Lines = slices.Clone(j.Quote.Lines)
	j.Photos = slices.Clone(j.Photos)
	u := &j.Uncertainty
	for _, p := range []**float64{&u.Gauge, &u.BlowerTable, &u.Rating, &u.Geometry, &u.Assumed} {
		if *p != nil {
			*p = new(**p)
		}
	}
	return j
}

// CloneReturns copies return branches so that no slice is shared.
func CloneReturns(rs []Return) []Return {
	return cloneEach(rs, func(r *Return) {
		r.Runs = slices.Clone(r.Runs)
		r.Fittings = slices.Clone(r.Fittings)
		r.Grille.Rating = slices.Clone(r.Grille.Rating)
	})
}

func cloneEach[T any](in []T, deepen func(*T)) []T {
	out := slices.Clone(in)
	for i := range out {
		deepen(&out[i])
	}
	return out
}
