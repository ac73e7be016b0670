package sizing

import (
	"slices"
	"strings"

	"returnbench/sizing/units"
)

// tapAdvice solves today's house on every tap and marks which to take.
func (h *house) tapAdvice() ([]TapAdvice, error) {
	a, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return nil, err
	}
	sys, err := h.system(a)
	if err != nil {
		return nil, err
	}
	e := h.Equipment
	dry, offset, changed := h.dry(sys)
	var out []TapAdvice
	for _, tap := range e.Blower.Taps {
		p, err := h.operatingPoint(sys, tap.Name, h.offset)
		if err != nil {
			return nil, err
		}
		t := TapAdvice{
			Tap: tap.Name, Airflow: units.Flow(p.Flow),
			AirflowPerCapacity: units.FlowPerCapacity(p.Flow / float64(e.CoolingCapacity)),
			ExternalStatic:     p.External,
			BlowerPower:        p.Power,
			Inside:             p.Inside,
		}
		if !e.NoHeating {
			heating := p
			if changed {
				if heating, err = h.operatingPoint(dry, tap.Name, offset); err != nil {
					return nil, err
				}
			}
			t.HeatingAirflow = units.Flow(heating.Flow)
			t.TemperatureRise = h.rise(heating.Power, t.HeatingAirflow)
		}
		t.ReachesFlow = !short(t.Airflow, h.DesignAirflow)
		t.WithinStatic = !exceeds(t.ExternalStatic, e.RatedExternalStatic)
		t.WithinRise = !e.NoHeating && t.TemperatureRise >= e.RiseLow && t.TemperatureRise <= e.RiseHigh
		out = append(out, t)
	}
	mark(out, func(t *TapAdvice) bool { return t.Inside && t.ReachesFlow && t.WithinStatic }, func(t *TapAdvice) { t.ForCooling = true })
	mark(out, func(t *TapAdvice) bool {
		return t.WithinRise && h.reachesHeating(*t)
	}, func(t *TapAdvice) { t.ForHeating = true })
	return out, nil
}

// mark picks the gentlest tap that is fit.
func mark(taps []TapAdvice, fit func(*TapAdvice) bool, pick func(*TapAdvice)) {
	var best *TapAdvice
	for i := range taps {
		if t := &taps[i]; fit(t) && (best == nil || t.Airflow < best.Airflow) {
			best = t
		}
	}
	if best != nil {
		pick(best)
	}
}

// judgeTaps says which tap to take, or that none will do.
func (h *house) judgeTaps(s *Study) []Finding {
	if len(s.Taps) < 2 || s.BlowerAssumed {
		return nil
	}
	var cool, heat *TapAdvice
	for i := range s.Taps {
		if s.Taps[i].ForCooling {
			cool = &s.Taps[i]
		}
		if s.Taps[i].ForHeating {
			heat = &s.Taps[i]
		}
	}
	var out []Finding
	switch {
	case cool == nil:
		out = append(out, newFinding(Caution, "tap_cooling", blowersTable,
			"No tap reaches %v in cooling within the rated static of %v with today's return and filter.", h.DesignAirflow, s.RatedExternalStatic))
	case cool.Tap != s.Blower.CoolingTap:
		out = append(out, newFinding(Caution, "tap_cooling", blowersTable,
			"The cooling airflow is reached by %s: %v at %v, instead of %s.", TapName(cool.Tap), cool.Airflow, cool.ExternalStatic, TapName(s.Blower.CoolingTap)))
	}
	return append(out, h.judgeHeatingTap(s, heat)...)
}

// judgeHeatingTap says which tap suits heating; nil is none.
func (h *house) judgeHeatingTap(s *Study, heat *TapAdvice) []Finding {
	e := h.Equipment
	source, known := h.riseSource("equipment.rise_high")
	if _, low := h.riseSource("equipment.rise_low"); !low {
		source, known = h.riseSource("equipment.rise_low")
	}
	reached := slices.ContainsFunc(s.Taps, h.reachesHeating)
	switch {
	case e.NoHeating:
	case !reached:
		return []Finding{newFinding(Caution, "tap_heating", blowersTable, "No tap reaches the heating airflow of %v with today's return and filter.", h.HeatingAirflow)}
	case heat == nil:
		return []Finding{newFinding(Caution, "tap_heating", source,
			"No tap that reaches the heating airflow of %v keeps the temperature rise between %v and %v.", h.HeatingAirflow, e.RiseLow, e.RiseHigh)}
	case heat.Tap != s.Blower.HeatingTap && known:
		return []Finding{newFinding(Caution, "tap_heating", source,
			"Heating is suited by %s: %v with a rise of %v, instead of %s.", TapName(heat.Tap), heat.HeatingAirflow, heat.TemperatureRise, TapName(s.Blower.HeatingTap))}
	}
	return nil
}

func (h *house) reachesHeating(t TapAdvice) bool {
	return t.Inside && !short(t.HeatingAirflow, h.HeatingAirflow)
}

// TapName names a tap in a sentence. It does not say tap twice.
func TapName(name string) string {
	if strings.HasPrefix(strings.ToLower(name), "tap") {
		return name
	}
	return "tap " + name
}
