package house

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Names of the test ports in the order of the air.
const (
	PortReturn message.ID = "return plenum, before the filter"
	PortInlet  message.ID = "blower inlet, after the filter"
	PortOutlet message.ID = "blower outlet, before the coil"
	PortSupply message.ID = "supply plenum, after the coil"
)

// Parts lists the drop of each part, so that they add up to the external static,
// and the static at each port.
func (h *House) Parts(a *Arrangement, sys airpath.System, p airpath.Point, c *study.Condition) {
	inBranches := 0.0
	for _, b := range c.Branches {
		inBranches += float64(b.FilterDrop) * float64(b.Airflow) / p.Flow
	}
	back, filters, after, lost := p.Return-inBranches, FilterDrop(sys, p), 0.0, 0.0
	for i, part := range sys.Series {
		switch part.Name {
		case airpath.PartReturn:
			back += p.Series[i]
		case airpath.PartSlotEntry:
			after += p.Series[i]
		case airpath.PartUnexplained:
			lost += p.Series[i]
		}
	}
	rated := float64(h.Equipment.RatedExternalStatic)
	c.Parts = make([]study.PartDrop, 0, len(sys.Series)+3)
	add := func(name airpath.PartName, basis message.ID, drop float64) {
		budget := h.Budget(name)
		// A drop that is too high already is no lower with the duct that is missing.
		certain := basis != assumed || name == airpath.PartReturn && len(sys.Branches) > 0
		c.Parts = append(c.Parts, study.PartDrop{Name: name, Drop: units.Pressure(drop), Share: drop / rated, Basis: basis,
			Budget: budget, Over: certain && budget > 0 && study.Exceeds(drop, float64(budget))})
	}
	add(airpath.PartReturn, h.returnBasis(a.Returns), back)
	if lost > 0 {
		add(airpath.PartUnexplained, "gauge", lost)
	}
	if !a.NoFilters {
		add(airpath.PartFilter, h.FilterBasis(a), filters)
	}
	if after > 0 {
		add(airpath.PartSlotEntry, "typed", after)
	}
	suction := back + lost + filters + after
	delivered := 0.0
	for i, part := range sys.Series {
		if part.Name == airpath.PartCoil || part.Name == airpath.PartSupply {
			add(part.Name, h.Basis(part.Name), p.Series[i])
			delivered += p.Series[i]
		}
	}
	if k := h.TableCredit(p.Flow); k > 0 {
		add(airpath.PartInTable, assumed, -k)
	}
	c.FilterDrop = units.Pressure(filters)
	c.ReturnStatic = units.Pressure(-suction)
	plenum := -p.Return
	if len(sys.Branches) == 0 {
		plenum = -back
	}
	if a.Slot.AtGrilles && !a.NoFilters {
		plenum -= filters
	}
	h.ports(sys, p, plenum-lost, delivered, c)
}

func (h *House) ports(sys airpath.System, p airpath.Point, plenum, delivered float64, c *study.Condition) {
	supply := p.Series[len(p.Series)-1]
	outlet := delivered
	if h.HasCoil() && h.CoilIsInside() {
		outlet = supply + law(h.Coil)(p.Flow)
	}
	c.Ports = []study.Port{
		{Name: PortReturn, Static: units.Pressure(plenum)},
		{Name: PortInlet, Static: c.ReturnStatic},
		{Name: PortOutlet, Static: units.Pressure(outlet)},
		{Name: PortSupply, Static: units.Pressure(supply)},
	}
}

// Basis is the source of a part's drop.
func (h *House) Basis(part airpath.PartName) message.ID {
	if b := h.bases[part]; b != "" {
		return b
	}
	if h.Assumes(fieldOf(part)) {
		return assumed
	}
	if part == airpath.PartReturn {
		return h.returnBasis(h.Returns)
	}
	return "typed"
}

// assumed is the basis of what was neither typed nor measured.
const assumed message.ID = "assumed"

// returnBasis is the source of the drop of these returns. One whose duct is not entered
// leaves it assumed.
func (h *House) returnBasis(returns []job.Return) message.ID {
	if b := h.bases[airpath.PartReturn]; b != "" {
		return b
	}
	if len(returns) == 0 || slices.ContainsFunc(returns, func(r job.Return) bool { return r.LacksDuct() }) {
		return assumed
	}
	return "geometry"
}

// fieldOf is the field of the job that describes the coil, the supply or the return.
func fieldOf(part airpath.PartName) string {
	if part == airpath.PartReturn {
		return "returns"
	}
	return string(part)
}

// FilterBasis is the basis of the filters' drop; of several laws, of the first that
// is not a rating.
func (h *House) FilterBasis(a *Arrangement) message.ID {
	for _, p := range a.Places {
		switch p.Law.Source {
		case "generic":
			return assumed
		case "gauge":
			return "gauge"
		case "make":
			return "geometry"
		}
	}
	return "typed"
}
