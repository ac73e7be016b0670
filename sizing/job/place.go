package job

import (
	"math"

	"returnbench/sizing/message"
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

var placeWords = map[PlaceKind]message.ID{InGrille: "grille", InSlot: "slot", InCabinet: "cabinet"}

// Show is the place in a sentence.
func (k PlaceKind) Show(l units.Locale) string { return message.Text(l, placeWords[k]) }

// PlaceKinds lists all kinds, in the order of the air.
func PlaceKinds() []PlaceKind { return []PlaceKind{InGrille, InSlot, InCabinet} }

// deepestThin is the depth up to which a filter counts as thin and its place as a
// slot: nominal 2 in and the equal metric size, 50 mm (common practice, no
// source).
const deepestThin = 2.1 * units.Inch

// IsDeep reports whether a filter of a nominal depth counts as deep: it goes into a
// cabinet, not a slot.
func IsDeep(depth units.Length) bool { return depth > deepestThin }

// placeAtUnit is the kind of place at the equipment for a filter of a depth.
func placeAtUnit(depth units.Length) PlaceKind {
	if IsDeep(depth) {
		return InCabinet
	}
	return InSlot
}

// MostInCasing is the most filters that one casing may hold.
const MostInCasing = 4

// Filters is how many filters stand in the slot.
func (s Slot) Filters() int { return max(s.Count, 1) }

// Where is the kind of place that a slot is.
func (s Slot) Where() PlaceKind {
	if s.AtGrilles {
		return InGrille
	}
	return placeAtUnit(s.Depth)
}

// SameSize reports whether two slots hold as many filters of one nominal size.
func (s Slot) SameSize(t Slot) bool {
	near := func(a, b units.Length) bool { return math.Abs(float64(a-b)) < float64(units.Millimetre) }
	return s.None == t.None && s.AtGrilles == t.AtGrilles && s.Filters() == t.Filters() && near(s.Width, t.Width) && near(s.Height, t.Height) && near(s.Depth, t.Depth)
}

// Casing is the allowance of the job.
func (l *Limits) Casing() stock.Casing { return stock.Casing{Face: l.CasingFace, Depth: l.CasingDepth} }

// SizeSystem is the series that nominal sizes are picked from.
func (j *Job) SizeSystem() units.System {
	if j.Limits.NominalSizes == MetricSizes {
		return units.Metric
	}
	return units.InchPound
}
