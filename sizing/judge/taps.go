package judge

import (
	"slices"

	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
)

// JudgeTaps reports which tap to use, or that none fits.
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
			"No tap reaches {airflow} in cooling within the rated static of {rated}. Fix the return or the filter first.", "airflow", h.DesignAirflow, "rated", s.RatedExternalStatic))
	case cool.Tap != s.Blower.CoolingTap:
		out = append(out, study.NewFinding(study.Caution, "tap_cooling", blowersTable,
			"Run cooling on {tap}: {airflow} at {static}. It runs on {now} now.",
			"tap", job.TapName(cool.Tap), "airflow", cool.Airflow, "static", cool.ExternalStatic, "now", job.TapName(s.Blower.CoolingTap)))
	}
	return append(out, judgeHeatingTap(h, s, heat)...)
}

// judgeHeatingTap reports which tap suits heating; heat is nil where none does.
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
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", blowersTable, "No tap reaches the heating airflow of {airflow}. Fix the return or the filter first.", "airflow", h.HeatingAirflow)}
	case heat == nil:
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", source,
			"No tap gives the heating airflow of {airflow} with a temperature rise between {low} and {high}. Fix the return or the filter first.",
			"airflow", h.HeatingAirflow, "low", e.RiseLow, "high", e.RiseHigh)}
	case heat.Tap != s.Blower.HeatingTap && known:
		return []study.Finding{study.NewFinding(study.Caution, "tap_heating", source,
			"Run heating on {tap}: {airflow} with a rise of {rise}. It runs on {now} now.",
			"tap", job.TapName(heat.Tap), "airflow", heat.HeatingAirflow, "rise", heat.TemperatureRise, "now", job.TapName(s.Blower.HeatingTap))}
	}
	return nil
}
