package house

import (
	"slices"

	"returnbench/sizing/airpath"
)

// TabulatedSystem is the system for work that needs many points at the accuracy of a
// chart: a filter's life, a curve to draw. Several branches without filters do not
// change while a filter loads, so one table replaces them: today's table where the
// returns are today's.
func (h *House) TabulatedSystem(a *Arrangement, sys airpath.System) (airpath.System, error) {
	filtered := slices.ContainsFunc(a.Places, func(p place) bool { return p.branch >= 0 })
	if len(sys.Branches) < 2 || filtered && !a.NoFilters {
		return sys, nil
	}
	law := h.todayReturn
	if law == nil || !a.KeepsReturns {
		var err error
		if law, err = sys.Table(float64(h.DesignAirflow)); err != nil {
			return sys, err
		}
		if a.KeepsReturns {
			h.todayReturn = law
		}
	}
	return airpath.System{Series: append([]airpath.Part{{Name: airpath.PartReturn, Law: law}}, sys.Series...)}, nil
}
