package sizing

import (
	"math"

	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// PlaceKind is a kind of place that a filter sits in.
type PlaceKind string

// Kinds of filter place.
const (
	InGrille  PlaceKind = "grille"  // behind a return grille in the wall
	InSlot    PlaceKind = "slot"    // a thin filter at the equipment
	InCabinet PlaceKind = "cabinet" // a deep filter at the equipment
)

// PlaceKinds are all there are, in the order of the air.
func PlaceKinds() []PlaceKind { return []PlaceKind{InGrille, InSlot, InCabinet} }

// deepestThin is the depth up to which a filter counts as thin and its place as a
// slot: nominal 2 in, and the 50 mm that pass for it (common practice, no source).
const deepestThin = 2.1 * units.Inch

func isDeep(depth units.Length) bool { return depth > deepestThin }

// placeAtUnit is the kind of place at the equipment for a filter of a depth.
func placeAtUnit(depth units.Length) PlaceKind {
	if isDeep(depth) {
		return InCabinet
	}
	return InSlot
}

// FilterPlace is one place that holds filters of one make and nominal size, and
// what becomes of them.
type FilterPlace struct {
	Where  PlaceKind    `json:"where"`
	Branch int          `json:"branch"`          // index of the return; -1: before the blower, for all returns
	Return string       `json:"return,omitzero"` // name of that return
	Count  int          `json:"count"`           // filters in it
	Width  units.Length `json:"width"`           // nominal, of one filter
	Height units.Length `json:"height"`
	Depth  units.Length `json:"depth"`
	Filter string       `json:"filter"` // name of the make

	FaceArea         units.Area `json:"face_area"` // of all its filters, as what follows
	MediaArea        units.Area `json:"media_area"`
	MediaAreaAssumed bool       `json:"media_area_assumed,omitzero"`
	AirShare         float64    `json:"air_share"`            // of all return air, clean
	LeakFraction     float64    `json:"leak_fraction"`        // of the air through this place, clean
	LoadedLeak       float64    `json:"loaded_leak"`          // the same at its change
	LeavesSeat       bool       `json:"leaves_seat,omitzero"` // a frame buckles out before its change

	Life            units.Duration `json:"life"` // calendar time to its change
	Ends            LifeEnd        `json:"ends"`
	Dust            units.Mass     `json:"dust"` // held at its change
	Capacity        units.Mass     `json:"capacity"`
	CapacityAssumed bool           `json:"capacity_assumed,omitzero"`
	ChangeDrop      units.Pressure `json:"change_drop,omitzero"` // zero: none
	PerYear         float64        `json:"per_year"`             // filters
	Price           units.Money    `json:"price"`                // of one filter
}

// Assembly is the outside of a slot's or cabinet's casing.
type Assembly struct {
	Width  units.Length `json:"width"`
	Height units.Length `json:"height"`
	Depth  units.Length `json:"depth"` // along the air
	// Stacked says that its filters stand one above the other, else side by side.
	Stacked bool `json:"stacked,omitzero"`
}

// mostInCasing is how many filters a casing may be said to hold.
const mostInCasing = 4

// count is how many filters stand in the slot.
func (s Slot) count() int { return max(s.Count, 1) }

// where is the kind of place that a slot is.
func (s Slot) where() PlaceKind {
	if s.AtGrilles {
		return InGrille
	}
	return placeAtUnit(s.Depth)
}

// sameSize tells whether two slots hold as many filters of one nominal size.
func (s Slot) sameSize(t Slot) bool {
	near := func(a, b units.Length) bool { return math.Abs(float64(a-b)) < float64(units.Millimetre) }
	return s.None == t.None && s.AtGrilles == t.AtGrilles && s.count() == t.count() && near(s.Width, t.Width) && near(s.Height, t.Height) && near(s.Depth, t.Depth)
}

// casing is the allowance of the job.
func (l *Limits) casing() stock.Casing { return stock.Casing{Face: l.CasingFace, Depth: l.CasingDepth} }

// sizeSystem is the series that nominal sizes are picked from.
func (j *Job) sizeSystem() units.System {
	if j.Limits.NominalSizes == MetricSizes {
		return units.SI
	}
	return units.IP
}

// assembly is the casing of a slot in a house of which nothing is left open.
func (j *Job) assembly(s Slot) Assembly {
	size := stock.Size{Width: s.Width, Height: s.Height, Depth: s.Depth, System: j.sizeSystem()}
	out := stock.Assembly{Filter: size, Count: s.count(), Stacked: s.Stacked}.Outside(j.Limits.casing())
	return Assembly{Width: out.Width, Height: out.Height, Depth: out.Depth, Stacked: s.Stacked}
}

// filterPlace tells a place with its filters clean.
func (h *house) filterPlace(a *arrangement, k int) FilterPlace {
	p := &a.places[k]
	face := units.Area(p.face())
	out := FilterPlace{
		Where: InGrille, Branch: p.branch, Count: p.frames(), Width: p.width, Height: p.height, Depth: p.filter.Depth, Filter: p.filter.Name,
		FaceArea: face, MediaArea: face * units.Area(p.law.MediaAreaRatio), MediaAreaAssumed: p.law.AreaAssumed,
		AirShare: a.shares[k], LeakFraction: a.leaks[k], LeavesSeat: p.seat.Left,
		Capacity: p.loading.Holds(face), CapacityAssumed: p.loading.Assumed, ChangeDrop: h.changeDrop(p),
		Price: h.filterPrice(p.filter),
	}
	if p.branch < 0 {
		out.Where, out.Depth = a.slot.where(), a.slot.Depth
	} else {
		out.Return = branchName(a.returns[p.branch], p.branch)
	}
	if out.Depth == 0 {
		out.Depth = units.Inch
	}
	return out
}

// ratedMERV is the MERV that a make is worth; what is printed where nothing better
// is known.
func ratedMERV(f filter.Filter) int {
	if merv, err := f.Rated(); err == nil {
		return merv
	}
	return f.MERV
}
