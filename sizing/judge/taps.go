package judge

import (
	"slices"

	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
)

// JudgeTaps says which tap to take, or that none will do.
func JudgeTaps(h *house.House, s *study.Study) []study.Finding {
	if len(s.Taps) < 2 || s.BlowerAssumed {
		return nil
	}
	var cool, heat *study.TapAdvice
	for i := range s.Taps {
		if s.Taps[i].ForCooling {
			cool = &s.Taps[i]
		}
		if s.Taps[i].ForHeating {
			heat = &s.Taps[i]
		}
	}
	var out []study.Finding
	switch {
	case cool == nil:
		out = append(out, study.NewFinding(study.Caution, "tap_cooling", blowersTable,
			"No tap reaches %v in cooling within the rated static of %v with today's return and filter.", h.DesignAirflow, s.RatedExternalStatic))
	case cool.Tap != s.Blower.CoolingTap:
		out = append(out, study.NewFinding(study.Caution, "tap_cooling", blowersTable,
			"The cooling airflow is reached by %s: %v at %v, instead of %s.", job.TapName(cool.Tap), cool.Airflow, cool.ExternalStatic, job.TapName(s.Blower.CoolingTap)))
	}
	return append(out, judgeHeatingTap(h, s, heat)...)
}

// judgeHeatingTap says which tap suits heating; nil is none.
func judgeHeatingTap(h *house.House, s *study.Study, heat *study.TapAdvice) []study.Finding {
	e := h.Equipment
	source, known := riseSource(h, "equipment.rise_high")
	if _, low := riseSource(h, "equipment.rise_low"); !low {
		source, known = riseSource(h, "equipment.rise_low")
	}
	reached := slices.ContainsFunc(s.Taps, h.ReachesHeating)
	switch {
	case e.NoHeating:
	case !reached:
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", blowersTable, "No tap reaches the heating airflow of %v with today's return and filter.", h.HeatingAirflow)}
	case heat == nil:
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", source,
			"No tap that reaches the heating airflow of %v keeps the temperature rise between %v and %v.", h.HeatingAirflow, e.RiseLow, e.RiseHigh)}
	case heat.Tap != s.Blower.HeatingTap && known:
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", source,
			"Heating is suited by %s: %v with a rise of %v, instead of %s.", job.TapName(heat.Tap), heat.HeatingAirflow, heat.TemperatureRise, job.TapName(s.Blower.HeatingTap))}
	}
	return nil
}
