package house

import (
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// record adds a point of the life curve, up to the first change.
func (m *dustSimulation) record() error {
	if m.unchanged < len(m.lifetimes) {
		return nil
	}
	p := study.LifePoint{Time: m.time, Airflow: m.now.Flow, Power: m.now.power}
	if err := m.seasons(&p); err != nil {
		return err
	}
	for k, f := range m.now.filters {
		p.Dust += min(f.dust, m.capacities[k])
		through := units.Pressure(m.a.Places[k].frames()) * units.Pressure(f.held.Media+f.held.Leak)
		p.Drop += f.held.Drop * through / units.Pressure(m.now.Flow)
	}
	if n := len(m.Points); n > 0 && m.Points[n-1].Time == p.Time {
		m.Points[n-1] = p
		return nil
	}
	m.Points = append(m.Points, p)
	return nil
}

// seasons adds what the year's cost needs of a point: the watts in heating and of
// the blower alone, and the coil's sensible capacity.
func (m *dustSimulation) seasons(p *study.LifePoint) error {
	h := m.house
	if err := h.applyDust(m.a, m.now.filters); err != nil {
		return err
	}
	var c study.Condition
	if err := h.otherSeasons(m.a, m.sys, m.now.point, &c); err != nil {
		return err
	}
	c.Airflow, c.BlowerPower = p.Airflow, p.Power
	if err := h.Cooling(&c); err != nil {
		return err
	}
	p.HeatingPower, p.FanPower, p.SensibleCapacity = c.HeatingPower, c.FanPower, c.SensibleCapacity
	return nil
}
