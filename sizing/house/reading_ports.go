package house

import (
	"math"

	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// PortsWithoutSlot are the ports where the filters are in the grilles: a drop read
// over one of them is not between plenum and blower.
func PortsWithoutSlot(r *job.Reading) job.Ports {
	p := r.Ports()
	read := math.Abs(float64(r.FilterDrop))
	p.FilterDrop, p.HasFD = read, read > 0
	p.WorkedReturn, p.WorkedInlet, p.WorkedFD = false, false, false
	p.ReturnPlenum, p.BlowerInlet = math.Abs(float64(r.ReturnPlenum)), math.Abs(float64(r.BlowerInlet))
	switch {
	case p.BlowerInlet == 0:
		p.BlowerInlet = p.ReturnPlenum
	case p.ReturnPlenum == 0:
		p.ReturnPlenum = p.BlowerInlet
	}
	p.HasReturn, p.HasInlet = p.ReturnPlenum > 0, p.BlowerInlet > 0
	return p
}

// PortsRead are the ports of a round. Without a coil outside the equipment, a
// reading after the blower is one of the supply; without a filter at the equipment,
// the return plenum is the blower's inlet.
func (h *House) PortsRead(r *job.Reading) job.Ports {
	p := r.Ports()
	if h.Slot.None {
		p = PortsWithoutSlot(r)
	}
	if apart := h.HasCoil() && h.Equipment.Kind != job.AirHandler; !apart && p.HasOutlet && !p.HasSupply {
		p.SupplyPlenum, p.HasSupply = p.BlowerOutlet, true
		p.BlowerOutlet, p.HasOutlet = 0, false
	}
	if h.Equipment.Kind == job.AirHandler {
		p.BlowerOutlet, p.HasOutlet = 0, false // inside, before a coil that is no part of the house
	}
	return p
}

// external is the external static of the round.
func (h *House) external(p job.Ports) (units.Pressure, bool) {
	after, has := p.BlowerOutlet, p.HasOutlet
	if p.HasSupply && (h.CoilIsInside() || !has && !h.HasCoil()) {
		after, has = p.SupplyPlenum, true
	}
	if !has || !p.HasInlet {
		return 0, false
	}
	return units.Pressure(after + p.BlowerInlet), true
}
