package house

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/study"
)

// seatFilters finds the operating point with each frame in its seat, or out of it
// where the pressure on the filter draws it out.
func (h *House) seatFilters(a *Arrangement, sys airpath.System, p airpath.Point) (airpath.Point, error) {
	for range a.Places {
		loose := false
		for k := range a.Places {
			place := &a.Places[k]
			if !place.seat.Left && place.frameAt(a.flowAt(k, p)).CoverUsed > 1 {
				if err := place.setSeat(true, h.Air); err != nil {
					return p, h.filterFault(place.Filter, err)
				}
				loose = true
			}
		}
		if !loose {
			break
		}
		var err error
		if p, err = h.solvePoint(sys, a.Tap, h.TableIncludes); err != nil {
			return p, err
		}
	}
	return p, nil
}

// frameResults records the push on the filters, their bow and their leakage.
func (h *House) frameResults(a *Arrangement, p airpath.Point, c *study.Condition) {
	a.point, a.leaks, a.shares = p, make([]float64, len(a.Places)), make([]float64, len(a.Places))
	for k := range a.Places {
		held := a.Places[k].frameAt(a.flowAt(k, p))
		a.leaks[k], a.shares[k] = held.Share, min(1, a.flowAt(k, p)/p.Flow)
		c.LeftSeat = c.LeftSeat || held.Left
		if held.Push > c.FramePush {
			c.FramePush, c.FrameBow = held.Push, held.Bow
		}
	}
	if len(a.Places) > 0 {
		c.LeakFraction = min(1, max(0, a.passing(p, func(k int) float64 { return a.leaks[k] }, true)))
	}
}

// passing is the share of something in the return air that gets past the filters,
// from the share that each filter lets past: first the filters in the branches,
// weighted by airflow, then the one in the slot.
func (a *Arrangement) passing(p airpath.Point, passes func(place int) float64, slot bool) float64 {
	share := 1.0
	if len(p.Branches) > 0 {
		share = 0
	}
	for i, q := range p.Branches {
		each := 1.0
		if k := slices.IndexFunc(a.Places, func(p place) bool { return p.branch == i }); k >= 0 {
			each = passes(k)
		}
		share += q / p.Flow * each
	}
	for k := range a.Places {
		if slot && a.Places[k].branch < 0 {
			share *= passes(k)
		}
	}
	return share
}
