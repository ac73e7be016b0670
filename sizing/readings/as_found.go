package readings

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// FindAsFound is the house at the moment of the round by which the study is
// calibrated; nil where there is none.
func FindAsFound(h *house.House) (*study.AsFound, error) {
	g := h.Gauge
	if g.Round == nil {
		return nil, nil
	}
	r := g.Round
	f := &study.AsFound{Label: r.Label, Date: r.Date, Mode: r.Season(), Tap: h.ReadingTap(r), AirflowBasis: g.Basis,
		FilterIsClean: r.FilterIsClean, Unexplained: g.Unexplained}
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return nil, err
	}
	sys, err := h.System(a)
	if err != nil {
		return nil, err
	}
	if f.Mode == job.Heating {
		sys, _, _ = h.DryCoil(sys)
	}
	law, err := dropsAt(sys, float64(g.Flow))
	if err != nil {
		return nil, err
	}
	foundParts(h, f, law, h.FilterBasis(a))
	if f.CleanDrop = g.CleanDrop; g.FilterScale > 0 {
		f.CleanDrop *= units.Pressure(g.FilterScale)
	}
	f.DustDrop = max(g.CleanDrop*units.Pressure(g.FoundScale)-g.CleanDrop, 0)
	return f, foundWork(h, f, a)
}

// foundParts sets the drops and the ports that were read; law has the drops of
// the others.
func foundParts(h *house.House, f *study.AsFound, law map[airpath.PartName]float64, filterBasis message.ID) {
	p, c, rated := h.PortsRead(h.Gauge.Round), &f.Condition, float64(h.Equipment.RatedExternalStatic)
	sum := 0.0
	part := func(name airpath.PartName, basis message.ID, drop float64) {
		sum += drop
		c.Parts = append(c.Parts, study.PartDrop{Name: name, Drop: units.Pressure(drop), Share: drop / rated, Basis: basis, Budget: h.Budget(name)})
	}
	either := func(name airpath.PartName, basis message.ID, has bool, read, otherwise float64) {
		if has {
			basis, otherwise = "gauge", read
		}
		if otherwise > 0 {
			part(name, basis, otherwise)
		}
	}
	lost := float64(f.Unexplained)
	plenum := law[airpath.PartReturn]
	if p.HasReturn {
		plenum = p.ReturnPlenum
	}
	suction := p.BlowerInlet
	if p.HasInlet && !p.HasReturn && !p.HasFD {
		part(airpath.PartReturnAndFilter, "gauge", suction)
	} else {
		either(airpath.PartReturn, h.Basis(airpath.PartReturn), p.HasReturn, plenum-lost, plenum-lost)
		either(airpath.PartUnexplained, "gauge", true, lost, lost)
		if !h.Slot.None {
			either(airpath.PartFilter, filterBasis, p.HasFD, p.FilterDrop, law[airpath.PartFilter]+law[airpath.PartSlotEntry])
		}
		suction = sum
	}
	coil := law[airpath.PartCoil]
	either(airpath.PartCoil, h.Basis(airpath.PartCoil), p.HasOutlet && p.HasSupply, p.BlowerOutlet-p.SupplyPlenum, coil)
	supply := law[airpath.PartSupply] // as read, where it was
	either(airpath.PartSupply, h.Basis(airpath.PartSupply), p.HasSupply, supply, supply)
	for i := range c.Parts {
		if c.Parts[i].Name == airpath.PartFilter {
			c.FilterDrop = c.Parts[i].Drop
		}
	}
	if h.Slot.None {
		c.FilterDrop = units.Pressure(p.FilterDrop) // within the return
	}
	outlet := supply + coil
	if p.HasOutlet {
		outlet = p.BlowerOutlet
	}
	c.ExternalStatic = units.Pressure(sum)
	if static := h.Gauge.Static; static > 0 {
		c.ExternalStatic, f.StaticRead = static, true
	}
	c.ReturnStatic = units.Pressure(-suction)
	for _, q := range []struct {
		name message.ID
		read bool
	}{{"external static", f.StaticRead}, {"filter drop", p.HasFD && !p.WorkedFD}, {house.PortReturn, p.HasReturn && !p.WorkedReturn},
		{house.PortInlet, p.HasInlet && !p.WorkedInlet}, {house.PortOutlet, p.HasOutlet}, {house.PortSupply, p.HasSupply}} {
		if !q.read {
			f.NotRead = append(f.NotRead, q.name)
		}
	}
	c.Ports = []study.Port{{Name: house.PortReturn, Static: units.Pressure(-plenum)}, {Name: house.PortInlet, Static: c.ReturnStatic}, {Name: house.PortOutlet, Static: units.Pressure(outlet)}, {Name: house.PortSupply, Static: units.Pressure(supply)}}
}

// foundWork sets what follows from that airflow: watts, face velocity and
// temperatures.
func foundWork(h *house.House, f *study.AsFound, a *house.Arrangement) error {
	r, c, q := h.Gauge.Round, &f.Condition, h.Gauge.Flow
	c.Airflow, c.WithinBlowerTable = q, h.Gauge.WithinBlowerTable
	c.AirflowPerCapacity = units.FlowPerCapacity(float64(q) / float64(h.Equipment.CoolingCapacity))
	if c.BlowerPower = r.BlowerPower; c.BlowerPower == 0 {
		c.BlowerPower, _ = h.Curves[house.AtTableSpeed(f.Tap)].Power(c.ExternalStatic)
	}
	c.FanEfficacy = units.FanEfficacy(float64(c.BlowerPower) / float64(q))
	if face, _ := a.Areas(); face > 0 && a.Central() != nil {
		c.FaceVelocity = units.Speed(float64(q) / face)
	}
	if f.Mode == job.Heating {
		c.HeatingAirflow, c.HeatingStatic, c.HeatingPower = q, c.ExternalStatic, c.BlowerPower
		c.TemperatureRise = h.Rise(c.BlowerPower, q)
		return nil
	}
	return h.Cooling(c)
}
