package search

import (
	"cmp"
	"slices"

	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/stock"
)

// listed are the nominal sizes that are looked at in a place whatever the job says.
func listed(h *house.House, place job.PlaceKind) []stock.Size {
	switch place {
	case job.InGrille:
		return withDepth(stock.FilterGrilles(), thinDepth(h))
	case job.InSlot:
		return thinOnly(stock.Filters())
	}
	return stock.Cabinets()
}

// stocked are the sizes of the job's supplier for a place that are not listed anyway:
// grilles with a filter in them, thin filters for a slot, deep ones for a cabinet.
func stocked(h *house.House, place job.PlaceKind) (out []stock.Size) {
	if len(h.StockSizes) == 0 {
		return nil
	}
	have := listed(h, place)
	for _, s := range h.StockSizes {
		size := s.Nominal()
		switch {
		case (s.Of == job.GrilleSize) != (place == job.InGrille):
			continue
		case place == job.InGrille:
			size.Depth = thinDepth(h)
		case job.IsDeep(size.Depth) != (place == job.InCabinet):
			continue
		}
		if !slices.ContainsFunc(have, func(l stock.Size) bool { return same(l, size) }) {
			have = append(have, size)
			out = append(out, size)
		}
	}
	return out
}

// same tells of two sizes of one system that they are one, upright or turned.
func same(a, b stock.Size) bool {
	return a.System == b.System && a.SameFace(b) && stock.SameDepth(a, b)
}

// isStocked tells of a candidate that only the job's supplier has it.
func isStocked(h *house.House, c candidate) bool {
	return slices.ContainsFunc(stocked(h, c.place), func(s stock.Size) bool { return same(s, c.size) })
}

// GrilleSizes are the nominal faces of return grilles of the house's system, the smallest
// first, those of the job's supplier among them; filtered are those that hold a filter.
func GrilleSizes(h *house.House, filtered bool) []stock.Size {
	if filtered {
		return withStock(h, job.GrilleSize, stock.FilterGrilles())
	}
	return withStock(h, job.GrilleSize, stock.Grilles())
}

// FilterSizes are the nominal sizes of filters, likewise.
func FilterSizes(h *house.House) []stock.Size {
	return withStock(h, job.FilterSize, stock.Filters())
}

// withStock adds the supplier's sizes to a list.
func withStock(h *house.House, of job.SizeUse, list []stock.Size) []stock.Size {
	for _, s := range h.StockSizes {
		size := s.Nominal()
		if s.Of == of && !slices.ContainsFunc(list, func(l stock.Size) bool { return same(l, size) }) {
			list = append(list, size)
		}
	}
	list = stock.Of(h.SizeSystem(), list)
	slices.SortStableFunc(list, func(a, b stock.Size) int { return cmp.Compare(a.Face(), b.Face()) })
	return list
}
