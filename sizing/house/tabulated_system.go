package house

import (
	"reflect"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/job"
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
	law, err := h.tabledReturn(a, sys)
	if err != nil {
		return sys, err
	}
	return airpath.System{Series: append([]airpath.Part{{Name: airpath.PartReturn, Law: law}}, sys.Series...)}, nil
}

// sampleReach times the design airflow, up and down, holds what filters of a sample are
// loaded at, of which no curve is drawn.
const sampleReach = 2.5

// returnTable is a return side as one law.
type returnTable struct {
	returns []job.Return
	law     airpath.Law
}

// tabledReturn is the table of an arrangement's branches. Options often differ in
// their filter alone and share their returns, with today or with each other.
func (h *House) tabledReturn(a *Arrangement, sys airpath.System) (airpath.Law, error) {
	for i := range h.returnTables {
		if t := &h.returnTables[i]; reflect.DeepEqual(t.returns, a.Returns) {
			return t.law, nil
		}
	}
	reach := 10.0 // a system curve is drawn from no flow
	if h.Perturbation != nil {
		reach = sampleReach
	}
	law, err := sys.Table(float64(h.DesignAirflow), reach)
	if err == nil {
		h.returnTables = append(h.returnTables, returnTable{a.Returns, law})
	}
	return law, err
}
