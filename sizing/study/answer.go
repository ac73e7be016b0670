package study

import (
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
func (a Answer) In(sys units.Locale) string {
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
func (z *Size) Missed(sys units.Locale) string {
	out := make([]string, len(z.Misses))
	for i, f := range z.Misses {
		out[i] = f.In(sys)
	}
	return strings.Join(out, "; ")
}

// Sizes are those that the answer names, each once.
func (a Answer) Sizes() []*Size {
	var out []*Size
	for _, z := range []*Size{a.Grille, a.Slot, a.Cabinet, a.Largest} {
		if z != nil && !slices.ContainsFunc(out, func(o *Size) bool { return o.Key() == z.Key() }) {
			out = append(out, z)
		}
	}
	return out
}

// Write says which sizes come nearest where none fits.
func (a *Answer) Write() {
	if !a.Fits {
		for _, z := range a.Sizes() {
			a.Nearest = append(a.Nearest, *z)
		}
	}
	a.Text = a.In(units.IP)
}

func (z *Size) Key() string { return string(z.Place) + " " + z.Label }
