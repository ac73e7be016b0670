package house

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/job"
)

// System joins the arrangement's parts. Its filter parts read the places'
// present curves, so a loaded filter needs no new system.
func (h *House) System(a *Arrangement) (airpath.System, error) {
	var s airpath.System
	var err error
	if s.Branches, err = h.branches(a); err != nil {
		return s, err
	}
	s.Series = make([]airpath.Part, 0, len(h.afterFilters)+3)
	if len(a.Returns) == 0 {
		s.Series = append(s.Series, airpath.Part{Name: airpath.PartReturn, Law: law(h.ReturnPart)})
	}
	if p := a.Central(); p != nil && !a.NoFilters {
		s.Series = append(s.Series, airpath.Part{Name: airpath.PartFilter, Law: p.drop})
	}
	if law := h.slotEntry(a.Slot); law != nil {
		s.Series = append(s.Series, airpath.Part{Name: airpath.PartSlotEntry, Law: law})
	}
	s.Series = append(s.Series, h.afterFilters...)
	return s, nil
}

// slotEntry is the drop of a slot's own entry and turn; nil: none.
func (h *House) slotEntry(s job.Slot) airpath.Law {
	k := s.EntryCoefficient * h.Perturbation.SlotEntry()
	if k == 0 || s.None {
		return nil
	}
	face, rho := float64(s.Filters())*float64(s.Width)*float64(s.Height), float64(h.Air.Density)
	return func(q float64) float64 {
		v := q / face
		return k * rho / 2 * v * absolute(v)
	}
}

// compileAfterFilters joins what follows the filters and is the same in every
// arrangement.
func (h *House) compileAfterFilters() {
	if h.Gauge.Unexplained > 0 {
		h.afterFilters = append(h.afterFilters, h.unexplained())
	}
	if h.HasCoil() && !h.CoilIsInside() {
		h.afterFilters = append(h.afterFilters, airpath.Part{Name: airpath.PartCoil, Law: law(h.Coil)})
	}
	h.afterFilters = append(h.afterFilters, airpath.Part{Name: airpath.PartSupply, Law: law(h.Supply)})
}

func law(p job.Part) airpath.Law {
	return airpath.Power(float64(p.Drop), float64(p.Airflow), p.Exponent)
}

func absolute(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
