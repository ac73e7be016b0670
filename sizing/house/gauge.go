package house

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// gauge holds what a round of readings of today's house shows about its parts.
type gauge struct {
	Round             *job.Reading
	Flow              units.Flow
	Basis             message.ID
	WithinBlowerTable bool
	Static            units.Pressure
	Described         units.Pressure // drop of the return as described, at flow; 0: not compared
	ReturnScale       float64        // on branches that read less than described; 0: as described
	Unexplained       units.Pressure // drop read beyond that of the description, at flow
	FilterScale       float64        // on today's clean filter law; 0: as it is
	filterDepth       units.Length
	FoundScale        float64        // the filter as found against the clean one; 0: not read
	CleanDrop         units.Pressure // of the clean filter's own law, at flow; 0: not read
}

// readGauge turns the first round on today's house into coefficients.
func (h *House) readGauge() error {
	for i := range h.Readings {
		r := &h.Readings[i]
		if !r.CalibratesStudy() {
			continue
		}
		q, static, basis, inside := h.FlowOf(r)
		if q <= 0 {
			continue
		}
		h.Gauge = gauge{Round: r, Flow: q, Basis: basis, WithinBlowerTable: inside, Static: static}
		return h.calibrate(h.PortsRead(r), q)
	}
	return nil
}

func (h *House) calibrate(p job.Ports, q units.Flow) error {
	if p.HasSupply {
		h.Supply = job.Part{Drop: units.Pressure(p.SupplyPlenum), Airflow: q, Exponent: h.Supply.Exponent}
		h.measured(airpath.PartSupply)
	}
	if coil := p.BlowerOutlet - p.SupplyPlenum; p.HasOutlet && p.HasSupply && coil > 0 && h.HasCoil() && !h.CoilIsInside() {
		if h.Gauge.Round.Mode == job.Heating {
			coil /= h.Equipment.CoilDryShare
		}
		h.Coil = job.Part{Drop: units.Pressure(coil), Airflow: q, Exponent: h.Coil.Exponent}
		h.measured(airpath.PartCoil)
	}
	if p.HasReturn {
		if err := h.calibrateReturn(p.ReturnPlenum, q); err != nil {
			return err
		}
	}
	switch {
	case p.HasFD && !h.Slot.None:
		return h.calibrateFilter(p.FilterDrop, q)
	case p.HasFD:
		return h.calibrateGrilleFilters(p.FilterDrop, q)
	}
	return nil
}

// measured removes a part from the list of assumptions.
func (h *House) measured(part airpath.PartName) {
	h.bases[part] = "gauge"
	field := fieldOf(part)
	kept := h.List[:0]
	for _, a := range h.List {
		if a.Path != field {
			kept = append(kept, a)
		}
	}
	h.List = kept
}

func (h *House) calibrateReturn(drop float64, q units.Flow) error {
	if len(h.Returns) == 0 {
		h.ReturnPart = job.Part{Drop: units.Pressure(drop), Airflow: q, Exponent: assume.DuctExponent}
		h.measured(airpath.PartReturn)
		return nil
	}
	filtered := slices.ContainsFunc(h.Returns, func(r job.Return) bool { return r.Filter != "" })
	if filtered && !h.Gauge.Round.FilterIsClean {
		return nil // the plenum reading then includes the filters' dust: the two cannot be separated
	}
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return err
	}
	s, err := h.System(a)
	if err != nil {
		return err
	}
	s.Series = nil
	described, err := s.Static(float64(q))
	if err != nil {
		return err
	}
	h.Gauge.Described = units.Pressure(described)
	switch {
	case drop > described:
		h.Gauge.Unexplained = units.Pressure(drop - described)
	case !filtered:
		h.Gauge.ReturnScale = drop / described
	}
	h.measured(airpath.PartReturn)
	return nil
}

// unexplained is what the gauge finds in the return beyond what the described
// parts drop, as a resistance of its own, static = k Q^2. Its place is unknown, so
// it stays in the house with every option and is added to no described part.
func (h *House) unexplained() airpath.Part {
	return airpath.Part{Name: airpath.PartUnexplained, Law: airpath.Power(float64(h.Gauge.Unexplained), float64(h.Gauge.Flow), assume.DuctExponent)}
}

// calibrateFilter compares the drop read with the clean law. Only a filter that was
// new shows the drop of a clean one; any other shows how far it is loaded.
func (h *House) calibrateFilter(drop float64, q units.Flow) error {
	var p place
	if err := h.fillPlace(&p, -1, h.Slot.Filter, h.Slot); err != nil {
		return err
	}
	p.count = h.Slot.Filters()
	if entry := h.slotEntry(h.Slot); entry != nil && h.Gauge.Round.FilterDrop == 0 {
		drop = max(drop-entry(float64(q)), 0) // the two ports include the slot's own loss
	}
	if drop == 0 {
		return nil
	}
	media := float64(q) - float64(p.frames())*float64(p.seated.Leak(units.Pressure(drop)))
	if media <= 0 {
		media = float64(q) // all of it would leak past: then the gap is wrong, not the filter
	}
	clean := float64(p.curve.Drop(units.Speed(media / p.face())))
	h.Gauge.FoundScale, h.Gauge.CleanDrop = drop/clean, units.Pressure(clean)
	if h.Gauge.Round.FilterIsClean {
		h.Gauge.FilterScale, h.Gauge.filterDepth, h.Gauge.FoundScale = drop/clean, p.Filter.Depth, 1
	}
	return nil
}

// calibrateGrilleFilters compares a drop read over the filters in the grilles with
// their clean drop, the mean weighted by airflow.
func (h *House) calibrateGrilleFilters(drop float64, q units.Flow) error {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return err
	}
	sys, err := h.System(a)
	if err != nil {
		return err
	}
	flows := make([]float64, len(sys.Branches))
	if _, err := sys.Split(float64(q), flows); err != nil {
		return err
	}
	clean := 0.0
	for i := range flows {
		if p := a.inBranch(i); p != nil {
			clean += p.drop(flows[i]) * flows[i] / float64(q)
		}
	}
	if clean > 0 {
		h.Gauge.FoundScale, h.Gauge.CleanDrop = drop/clean, units.Pressure(clean)
	}
	return nil
}
