package house

import (
	"fmt"
	"math"

	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// NoteFilters adds to the house's list of assumptions what is assumed about the filters
// in use. Call it once, when all laws have been asked for.
func (h *House) NoteFilters() {
	used := map[string]bool{h.Slot.Filter: true}
	names := func(returns []job.Return) {
		for _, r := range returns {
			used[r.Filter] = true
		}
	}
	names(h.Returns)
	for _, o := range h.Options {
		used[o.Filter], used[o.Slot.Filter] = true, true
		names(o.Returns)
	}
	for i, f := range h.Filters {
		if !used[f.Name] {
			continue
		}
		at := func(field string) string {
			if f.Name == assume.GenericFilterName {
				return "slot.filter"
			}
			return fmt.Sprintf("filters[%d].%s", i, field)
		}
		if ratio, ok := h.assumedArea(f); ok {
			h.Note(at("media_area"), "invented ratio by depth", "{filter}: media {ratio} times the face, by its depth", "filter", study.FilterName(f.Name), "ratio", message.Fixed(ratio, 1))
		}
		if f.DustCapacity == 0 {
			h.Note(at("dust_capacity"), "invented estimate", "{filter}: it holds {dust} g of dust per square metre of media", "filter", study.FilterName(f.Name), "dust", message.Fixed(1000*filter.GenericCapacity, 0))
		}
		if f.Price == 0 {
			h.Value(at("price"), assume.CommonPractice, h.filterPrice(f), "{filter}: a price of {price} by its depth", "filter", study.FilterName(f.Name), "price", h.filterPrice(f))
		}
	}
}

// assumedArea is the media area per face area assumed for a filter. The search tries
// it in other depths too; the ratio reported is for the depth nearest its own.
func (h *House) assumedArea(f filter.Filter) (ratio float64, ok bool) {
	var nearest units.Length
	for key, law := range h.laws {
		off := units.Length(math.Abs(float64(key.depth - f.Depth)))
		if key.name == f.Name && law.AreaAssumed && (!ok || off < nearest || off == nearest && law.MediaAreaRatio < ratio) {
			ratio, nearest, ok = law.MediaAreaRatio, off, true
		}
	}
	return ratio, ok
}

func (h *House) filterPrice(f filter.Filter) units.Money {
	if f.Price > 0 {
		return f.Price
	}
	depth := f.Depth
	if depth == 0 {
		depth = units.Inch
	}
	return units.Money(depth.In(units.Inch)) * filterPricePerInch
}

const filterPricePerInch = 9 * units.Dollar
