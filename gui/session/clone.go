package session

import (
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
)

// Clone copies a Job so that the two share no slice.
func Clone(j sizing.Job) sizing.Job {
	j.Equipment.Blower = cloneBlower(j.Equipment.Blower)
	j.Filters = each(j.Filters, cloneFilter)
	j.Returns = each(j.Returns, CloneReturn)
	j.Readings = slices.Clone(j.Readings)
	j.Options = each(j.Options, CloneOption)
	j.Limits.Checks = slices.Clone(j.Limits.Checks)
	return j
}

// CloneReturn copies a return branch.
func CloneReturn(r sizing.Return) sizing.Return {
	r.Grille.Rating = slices.Clone(r.Grille.Rating)
	r.Runs = slices.Clone(r.Runs)
	r.Fittings = slices.Clone(r.Fittings)
	return r
}

// CloneOption copies an option with the branches it holds.
func CloneOption(o sizing.Option) sizing.Option {
	o.Returns = each(o.Returns, CloneReturn)
	return o
}

func cloneFilter(f filter.Filter) filter.Filter {
	f.Efficiency = slices.Clone(f.Efficiency)
	f.Rating = slices.Clone(f.Rating)
	return f
}

func cloneBlower(t blower.Table) blower.Table {
	t.Taps = each(t.Taps, func(tap blower.Tap) blower.Tap {
		tap.Points = slices.Clone(tap.Points)
		return tap
	})
	t.Includes = slices.Clone(t.Includes)
	return t
}

// each copies a slice item by item; nil stays nil.
func each[T any](in []T, clone func(T) T) []T {
	out := slices.Clone(in)
	for i := range out {
		out[i] = clone(out[i])
	}
	return out
}
