package search

import (
	"cmp"
	"slices"

	"returnbench/sizing/fit"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
)

// answer picks, for each place, the size that meets all limits with the fewest
// openings and the smallest face. Where none does, it picks the one that fits
// the room and misses the fewest other limits; among those that keep the face
// velocity the smallest face comes first.
func answer(h *house.House, sizes []study.Size) study.SuggestedSizes {
	pick := func(fit func(*study.Size) bool, nearer func(z, best *study.Size) bool) *study.Size {
		var best *study.Size
		for i := range sizes {
			if z := &sizes[i]; hasRoom(z) && fit(z) && (best == nil || nearer(z, best)) {
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
	at := func(place job.PlaceKind) *study.Size {
		return pick(func(z *study.Size) bool { return z.Place == place }, func(a, b *study.Size) bool { return missesLess(a, b) })
	}
	return study.SuggestedSizes{
		Grille: at(job.InGrille), Slot: at(job.InSlot), Cabinet: at(job.InCabinet),
		Largest: pick(func(z *study.Size) bool { return z.Place == job.InCabinet && z.Count == 1 }, func(a, b *study.Size) bool { return larger(a, b) }),
		Fits:    slices.ContainsFunc(sizes, func(z study.Size) bool { return z.MeetsAll }),
	}
}

// hasRoom reports whether the size fits the house: the limits that it misses,
// if any, are of airflow or filter.
func hasRoom(z *study.Size) bool {
	return !slices.ContainsFunc(z.Misses, func(m study.Finding) bool { return slices.Contains(fit.RoomCodes, m.Code) })
}

func larger(z *study.Size, best *study.Size) bool {
	return cmp.Or(study.CompareLoose(float64(z.FaceArea), float64(best.FaceArea)), cmp.Compare(z.Depth, best.Depth)) > 0
}

func missesLess(z *study.Size, best *study.Size) bool {
	fast := func(s *study.Size) bool {
		return slices.ContainsFunc(s.Misses, func(m study.Finding) bool { return m.Code == codeFaceVelocity })
	}
	face := study.CompareLoose(float64(z.FaceArea), float64(best.FaceArea))
	if fast(z) && fast(best) {
		face = -face
	}
	return cmp.Or(cmp.Compare(len(z.Misses), len(best.Misses)), study.Order(fast(z), fast(best)),
		cmp.Compare(z.Count, best.Count), face, cmp.Compare(z.Depth, best.Depth)) < 0
}
