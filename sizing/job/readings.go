package job

import "math"

// Season is the mode of the round; left open: cooling.
func (r *Reading) Season() Mode {
	if r.Mode == Heating {
		return Heating
	}
	return Cooling
}

// Ports are a round's readings with the signs set right and the ports that
// follow from others filled in.
type Ports struct {
	ReturnPlenum, BlowerInlet   float64 // suction, Pa, positive
	BlowerOutlet, SupplyPlenum  float64 // pressure, Pa
	FilterDrop                  float64 // Pa, positive
	HasReturn, HasInlet         bool
	HasOutlet, HasSupply, HasFD bool
	// That one of the three which was not read, but follows from the other two.
	WorkedReturn, WorkedInlet, WorkedFD bool
}

// Ports are the readings of the round, Pa, all positive. Of return plenum, blower
// inlet and filter drop the third follows from the other two.
func (r *Reading) Ports() Ports {
	p := Ports{
		ReturnPlenum: math.Abs(float64(r.ReturnPlenum)), BlowerInlet: math.Abs(float64(r.BlowerInlet)),
		BlowerOutlet: math.Abs(float64(r.BlowerOutlet)), SupplyPlenum: math.Abs(float64(r.SupplyPlenum)),
		FilterDrop: math.Abs(float64(r.FilterDrop)),
	}
	p.HasReturn, p.HasInlet = p.ReturnPlenum > 0, p.BlowerInlet > 0
	p.HasOutlet, p.HasSupply, p.HasFD = p.BlowerOutlet > 0, p.SupplyPlenum > 0, p.FilterDrop > 0
	switch {
	case !p.HasFD && p.HasReturn && p.HasInlet && p.BlowerInlet > p.ReturnPlenum:
		p.FilterDrop, p.HasFD, p.WorkedFD = p.BlowerInlet-p.ReturnPlenum, true, true
	case !p.HasInlet && p.HasReturn && p.HasFD:
		p.BlowerInlet, p.HasInlet, p.WorkedInlet = p.ReturnPlenum+p.FilterDrop, true, true
	case !p.HasReturn && p.HasInlet && p.HasFD && p.BlowerInlet > p.FilterDrop:
		p.ReturnPlenum, p.HasReturn, p.WorkedReturn = p.BlowerInlet-p.FilterDrop, true, true
	}
	return p
}

// CalibratesStudy reports whether the study may be calibrated by a round: one of the house
// before any work.
func (r *Reading) CalibratesStudy() bool {
	return (r.Option == "" || r.Option == TodayName) && !r.AfterWork
}
