package house

import (
	"math"
	"slices"

	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// DescribeFilters records the filters of an arrangement: their places, media area
// and efficiency.
func (h *House) DescribeFilters(a *Arrangement, r *study.OptionResult) {
	if len(a.Places) == 0 {
		return
	}
	first := a.Central() // all air crosses it
	if first == nil {
		first = &a.Places[0]
	}
	face, media := a.Areas()
	r.Places = make([]study.FilterPlace, 0, len(a.Places))
	for k := range a.Places {
		r.Places = append(r.Places, h.filterPlace(a, k))
	}
	r.Place, r.Filter, r.LawSource = h.placeName(r.Places), first.Filter.Name, first.Law.Source
	r.FaceArea, r.MediaArea = units.Area(face), units.Area(media)
	if first.Law.Pack != nil {
		r.Pleats, r.Pack = first.Law.Pack.Pleats, first.Law.Pack
		if own := first.Filter.Width; own > 0 {
			r.Pleats = int(math.Round(float64(r.Pleats) * float64(first.width/own)))
		}
	}
	r.FilterDepth = r.Places[slices.IndexFunc(a.Places, func(p place) bool { return p.branch == first.branch })].Depth
	if c := a.Central(); c != nil && !a.Slot.AtGrilles {
		box := Assembly(&h.CompleteJob.Job, a.Slot)
		r.Assembly = &box
	}
	r.DesignDrop = h.DesignDrop(a, r.Clean.Airflow, r.Clean.FilterDrop)
	r.LeakFraction, r.FramePush, r.FrameBow = r.Clean.LeakFraction, r.Clean.FramePush, r.Clean.FrameBow
	r.Efficiency = a.efficiency()
	r.FilterCurve = make([]study.FaceDrop, 0, curvePoints)
	for i := 1; i <= curvePoints; i++ {
		v := 2 * h.TargetFaceVelocity * units.Speed(i) / curvePoints
		r.FilterCurve = append(r.FilterCurve, study.FaceDrop{FaceVelocity: v, Drop: first.Law.Drop(v)})
	}
}

// placeName names the places and sizes of the filters, for reading only: the places
// themselves are data.
func (h *House) placeName(places []study.FilterPlace) message.Message {
	p := places[len(places)-1] // the place before the blower is the last
	size := stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.SizeSystem()}
	switch n := len(places); {
	case p.Count > 1:
		return message.New("{place} {filters} x {size}", "place", p.Where, "filters", p.Count, "size", size)
	case p.Branch >= 0 && n > 1:
		p = places[0]
		return message.New("{grilles} grilles, first {size}", "grilles", n, "size", stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.SizeSystem()})
	}
	return message.New("{place} {size}", "place", p.Where, "size", size)
}

// filterPlace is the result for a place, with its filters clean.
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
		out.Return = job.NameOf(a.Returns[p.branch], p.branch)
	}
	if out.Depth == 0 {
		out.Depth = units.Inch
	}
	return out
}

// Assembly is the casing of a slot in a completed job.
func Assembly(j *job.Job, s job.Slot) study.Assembly {
	size := stock.Size{Width: s.Width, Height: s.Height, Depth: s.Depth, System: j.SizeSystem()}
	out := stock.Assembly{Filter: size, Count: s.Filters(), Stacked: s.Stacked}.Outside(j.Limits.Casing())
	return study.Assembly{Width: out.Width, Height: out.Height, Depth: out.Depth, Stacked: s.Stacked}
}

// DesignDrop is the drop of clean filters at the design airflow: by the law of the one
// at the unit, else by that of the one in the branches that drops most at their mean face
// velocity. Filters that share the air unevenly drop more than one with the mean airflow,
// and those in branches add to the one at the unit: where the airflow is below design,
// the drop is at least the one solved.
func (h *House) DesignDrop(a *Arrangement, airflow units.Flow, drop units.Pressure) units.Pressure {
	face, _ := a.Areas()
	velocity := units.Speed(float64(h.DesignAirflow) / face)
	design := units.Pressure(0)
	if airflow <= h.DesignAirflow {
		design = drop
	}
	if p := a.Central(); p != nil {
		return max(design, p.Law.Drop(velocity))
	}
	for k := range a.Places {
		design = max(design, a.Places[k].Law.Drop(velocity))
	}
	return design
}
