package sizing

import (
	"cmp"
	"slices"
	"strings"

	"returnbench/sizing/units"
)

// Answer is the first sight: the smallest nominal sizes that fit the limits. A
// place where none does has the nearest that has room, with what it misses; nil:
// nothing goes in there.
type Answer struct {
	Grille  *Size `json:"grille"`
	Slot    *Size `json:"slot"`
	Cabinet *Size `json:"cabinet"`

	// Largest is the single cabinet of the most face that has room; nil: none has.
	Largest *Size `json:"largest"`
	// Fits says that a nominal size keeps every limit. Where none does, Nearest are
	// those that miss the least, each with what it misses, and Largest among them.
	Fits    bool   `json:"fits"`
	Nearest []Size `json:"nearest,omitempty"`
	Text    string `json:"text,omitzero"` // that nothing fits, in IP units
}

// In says in the units of a system that nothing fits, and what comes nearest;
// empty where something does.
func (a Answer) In(sys units.System) string {
	if a.Fits {
		return ""
	}
	if len(a.Nearest) == 0 {
		return "Nothing fits, and no nominal size has room."
	}
	near := make([]string, len(a.Nearest))
	for i, z := range a.Nearest {
		near[i] = string(z.Place) + " " + z.Label + " (" + z.Missed(sys) + ")"
	}
	return "Nothing fits; nearest: " + strings.Join(near, "; ") + "."
}

// Missed is each limit that a size misses, in the units of a system.
func (z *Size) Missed(sys units.System) string {
	out := make([]string, len(z.Misses))
	for i, f := range z.Misses {
		out[i] = f.In(sys)
	}
	return strings.Join(out, "; ")
}

// sizes are those that the answer names, each once.
func (a Answer) sizes() []*Size {
	var out []*Size
	for _, z := range []*Size{a.Grille, a.Slot, a.Cabinet, a.Largest} {
		if z != nil && !slices.ContainsFunc(out, func(o *Size) bool { return o.key() == z.key() }) {
			out = append(out, z)
		}
	}
	return out
}

// write fills in what follows from the sizes once their sentences are written.
func (a *Answer) write() {
	for _, z := range []*Size{a.Grille, a.Slot, a.Cabinet, a.Largest} {
		if z != nil {
			z.write()
		}
	}
	if !a.Fits {
		for _, z := range a.sizes() {
			a.Nearest = append(a.Nearest, *z)
		}
	}
	a.Text = a.In(units.IP)
}

// answer picks, for each place, the size that meets with the fewest openings
// and the least face; where none meets, the one that has room and misses the
// fewest other limits, the least face first where it keeps the face velocity.
func (h *house) answer(sizes []Size) Answer {
	pick := func(fit func(*Size) bool, nearer func(z, best *Size) bool) *Size {
		var best *Size
		for i := range sizes {
			if z := &sizes[i]; z.hasRoom() && fit(z) && (best == nil || nearer(z, best)) {
				best = z
			}
		}
		if best == nil {
			return nil
		}
		copied := *best
		copied.Misses = slices.Clone(best.Misses)
		return &copied
	}
	at := func(place PlaceKind) *Size {
		return pick(func(z *Size) bool { return z.Place == place }, func(a, b *Size) bool { return a.nearer(b) })
	}
	return Answer{
		Grille: at(InGrille), Slot: at(InSlot), Cabinet: at(InCabinet),
		Largest: pick(func(z *Size) bool { return z.Place == InCabinet && z.Count == 1 }, func(a, b *Size) bool { return a.larger(b) }),
		Fits:    slices.ContainsFunc(sizes, func(z Size) bool { return z.Meets }),
	}
}

// hasRoom tells that nothing of the house is in the size's way: all that it may
// miss is about air and filter.
func (z *Size) hasRoom() bool {
	return !slices.ContainsFunc(z.Misses, func(m Finding) bool { return slices.Contains(roomCodes, m.Code) })
}

func (z *Size) larger(best *Size) bool {
	return cmp.Or(compareLoose(float64(z.FaceArea), float64(best.FaceArea)), cmp.Compare(z.Depth, best.Depth)) > 0
}

func (z *Size) nearer(best *Size) bool {
	fast := func(s *Size) bool {
		return slices.ContainsFunc(s.Misses, func(m Finding) bool { return m.Code == codeFaceVelocity })
	}
	face := compareLoose(float64(z.FaceArea), float64(best.FaceArea))
	if fast(z) && fast(best) {
		face = -face
	}
	return cmp.Or(cmp.Compare(len(z.Misses), len(best.Misses)), order(fast(z), fast(best)),
		cmp.Compare(z.Count, best.Count), face, cmp.Compare(z.Depth, best.Depth)) < 0
}
