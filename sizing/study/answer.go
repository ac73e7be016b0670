package study

import (
	"slices"

	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// SuggestedSizes are the smallest nominal sizes that fit the limits, one for each
// place. A place where none does has the nearest size that fits the room, with the
// limits it misses; nil where no size fits the room.
type SuggestedSizes struct {
	Grille  *Size `json:"grille"`
	Slot    *Size `json:"slot"`
	Cabinet *Size `json:"cabinet"`

	// Largest is the single cabinet with the largest face that fits the room; nil
	// where none does.
	Largest *Size `json:"largest"`
	// Fits is true where a nominal size keeps every limit. Where none does, Nearest
	// are those that miss the least, Largest among them.
	Fits    bool            `json:"fits"`
	Nearest []Size          `json:"nearest,omitempty"`
	Text    message.Message `json:"text,omitzero"` // that nothing fits
}

// Smallest is the smallest size for a place that keeps every limit, nil where none does.
func (a SuggestedSizes) Smallest(place job.PlaceKind) *Size {
	z := map[job.PlaceKind]*Size{job.InGrille: a.Grille, job.InSlot: a.Slot, job.InCabinet: a.Cabinet}[place]
	if z == nil || !z.MeetsAll {
		return nil
	}
	return z
}

// In writes for a reader that nothing fits, and what comes nearest; empty where
// something fits.
func (a SuggestedSizes) In(sys units.Locale) string { return a.words().In(sys) }

func (a SuggestedSizes) words() message.Message {
	if a.Fits {
		return message.Message{}
	}
	if len(a.Nearest) == 0 {
		return message.New("Nothing fits, and no nominal size has room.")
	}
	near := message.Rows{Mark: "; "}
	for _, z := range a.Nearest {
		near.Items = append(near.Items, message.New("{place} {size} ({misses})", "place", z.Place, "size", z.Label, "misses", z.misses()))
	}
	return message.New("Nothing fits; nearest: {sizes}.", "sizes", near)
}

// Missed is each limit that a size misses, written for a reader.
func (z *Size) Missed(sys units.Locale) string { return z.misses().Show(sys) }

func (z *Size) misses() message.Rows {
	out := message.Rows{Mark: "; "}
	for _, f := range z.Misses {
		out.Items = append(out.Items, f)
	}
	return out
}

// Sizes are the suggested sizes, each once.
func (a SuggestedSizes) Sizes() []*Size {
	var out []*Size
	for _, z := range []*Size{a.Grille, a.Slot, a.Cabinet, a.Largest} {
		if z != nil && !slices.ContainsFunc(out, func(o *Size) bool { return o.Key() == z.Key() }) {
			out = append(out, z)
		}
	}
	return out
}

// Write sets Text to the nearest sizes where none fits.
func (a *SuggestedSizes) Write() {
	if !a.Fits {
		for _, z := range a.Sizes() {
			a.Nearest = append(a.Nearest, *z)
		}
	}
	a.Text = a.words()
}

// Key identifies a size in a Study's list: its place and its name.
func (z *Size) Key() string { return string(z.Place) + " " + z.Label }
