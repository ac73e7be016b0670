package house

import (
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Assembly is the casing of a slot in a house of which nothing is left open.
func Assembly(j *job.Job, s job.Slot) study.Assembly {
	size := stock.Size{Width: s.Width, Height: s.Height, Depth: s.Depth, System: j.SizeSystem()}
	out := stock.Assembly{Filter: size, Count: s.Filters(), Stacked: s.Stacked}.Outside(j.Limits.Casing())
	return study.Assembly{Width: out.Width, Height: out.Height, Depth: out.Depth, Stacked: s.Stacked}
}

// filterPlace tells a place with its filters clean.
func (h *House) filterPlace(a *Arrangement, k int) study.FilterPlace {
	p := &a.Places[k]
	face := units.Area(p.face())
	out := study.FilterPlace{
		Where: job.InGrille, Branch: p.branch, Count: p.frames(), Width: p.width, Height: p.height, Depth: p.Filter.Depth, Filter: p.Filter.Name,
		FaceArea: face, MediaArea: face * units.Area(p.Law.MediaAreaRatio), MediaAreaAssumed: p.Law.AreaAssumed,
		AirShare: a.shares[k], LeakFraction: a.leaks[k], LeavesSeat: p.seat.Left,
		Capacity: p.loading.Holds(face), CapacityAssumed: p.loading.Assumed, ChangeDrop: h.changeDrop(p),
		Price: h.filterPrice(p.Filter),
	}
	if p.branch < 0 {
		out.Where, out.Depth = a.Slot.Where(), a.Slot.Depth
	} else {
		out.Return = job.BranchName(a.Returns[p.branch], p.branch)
	}
	if out.Depth == 0 {
		out.Depth = units.Inch
	}
	return out
}

// RatedMERV is the MERV that a make is worth; what is printed where nothing better
// is known.
func RatedMERV(f filter.Filter) int {
	if merv, err := f.Rated(); err == nil {
		return merv
	}
	return f.MERV
}
