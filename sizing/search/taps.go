package search

import (
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// TapAdvices solves today's house on every tap of the blower, filter clean, and
// marks which one to use in cooling and in heating.
func TapAdvices(h *house.House) ([]study.TapAdvice, error) {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return nil, err
	}
	sys, err := h.System(a)
	if err != nil {
		return nil, err
	}
	e := h.Equipment
	dry, offset, changed := h.DryCoil(sys)
	var out []study.TapAdvice
	for _, tap := range e.Blower.Taps {
		p, err := h.OperatingPoint(sys, house.AtTableSpeed(tap.Name), h.TableIncludes)
		if err != nil {
			return nil, err
		}
		t := study.TapAdvice{
			Tap: tap.Name, Airflow: units.Flow(p.Flow),
			AirflowPerCapacity: units.FlowPerCapacity(p.Flow / float64(e.CoolingCapacity)),
			ExternalStatic:     p.External,
			BlowerPower:        p.Power,
			WithinBlowerTable:  p.WithinBlowerTable,
		}
		if !e.NoHeating {
			heating := p
			if changed {
				if heating, err = h.OperatingPoint(dry, house.AtTableSpeed(tap.Name), offset); err != nil {
					return nil, err
				}
			}
			t.HeatingAirflow = units.Flow(heating.Flow)
			t.TemperatureRise = h.Rise(heating.Power, t.HeatingAirflow)
		}
		t.ReachesFlow = !study.Short(t.Airflow, h.DesignAirflow)
		t.WithinStatic = !study.Exceeds(t.ExternalStatic, e.RatedExternalStatic)
		t.WithinRise = !e.NoHeating && t.TemperatureRise >= e.RiseLow && t.TemperatureRise <= e.RiseHigh
		out = append(out, t)
	}
	pickTap(out, func(t *study.TapAdvice) bool { return t.WithinBlowerTable && t.ReachesFlow && t.WithinStatic }, func(t *study.TapAdvice) { t.ForCooling = true })
	pickTap(out, func(t *study.TapAdvice) bool {
		return t.WithinRise && h.ReachesHeating(*t)
	}, func(t *study.TapAdvice) { t.ForHeating = true })
	return out, nil
}

// pickTap picks the tap with the lowest airflow among those that fit.
func pickTap(taps []study.TapAdvice, fit func(*study.TapAdvice) bool, pick func(*study.TapAdvice)) {
	var best *study.TapAdvice
	for i := range taps {
		if t := &taps[i]; fit(t) && (best == nil || t.Airflow < best.Airflow) {
			best = t
		}
	}
	if best != nil {
		pick(best)
	}
}
