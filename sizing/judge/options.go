package judge

import (
	"cmp"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Limits of common practice that findings are held against.
const lowPerCapacity = 350 * units.CFMPerTon

const highPerCapacity = 450 * units.CFMPerTon

const leakThreshold = 0.02

const assumedThreshold = 0.5

const (
	nameplate    = "the equipment's nameplate"
	ratedStatic  = "the equipment's rated external static"
	jobsTarget   = "the job's target"
	blowersTable = "the blower's table"
)

// WorstFirst sorts findings by severity; those of like severity keep their order.
func WorstFirst(fs []study.Finding) {
	slices.SortStableFunc(fs, func(a, b study.Finding) int { return cmp.Compare(b.Severity.Rank(), a.Severity.Rank()) })
}

func Verdict(fs []study.Finding) (study.Severity, string) {
	if len(fs) == 0 {
		return study.Good, "It keeps every limit."
	}
	return fs[0].Severity, fs[0].In(units.IP)
}

func OptionFindings(h *house.House, o *study.OptionResult) []study.Finding {
	o.Held = optionLimits(h, o)
	var out []study.Finding
	add := func(f *study.Finding) {
		if f != nil {
			out = append(out, *f)
		}
	}
	add(judgeTable(h, o))
	add(JudgeFrost(h, o))
	out = append(out, judgeRise(h, o)...)
	add(judgeAirflow(h, o))
	add(judgeStatic(h, o))
	add(judgeFace(h, o))
	add(judgeDrop(h, o))
	add(JudgeLeak(h, o))
	add(judgeSeat(h, o))
	add(judgePrice(h, o))
	out = append(out, judgeBreaches(o)...)
	out = append(out, checkSets(h, o)...)
	for i := range out {
		measure(o, &out[i])
	}
	return out
}

func judgeTable(h *house.House, o *study.OptionResult) *study.Finding {
	if o.Clean.Inside && o.Loaded.Inside {
		return nil
	}
	c := o.Clean
	if c.Inside {
		c = o.Loaded
	}
	low, high, _, _ := h.Curves[o.Tap].Range()
	return study.Raise(study.Stop, "off_table", blowersTable,
		"The blower would run at %v and %v, outside its table of %v to %v: the numbers there are a guess.",
		c.ExternalStatic, c.Airflow, low, high).Advise("Type more rows of the table, or bring the static back into it.")
}

func JudgeFrost(h *house.House, o *study.OptionResult) *study.Finding {
	if h.Equipment.Kind == job.Furnace {
		return nil
	}
	states := []struct {
		when string
		*study.Condition
	}{{"", &o.Clean}, {" with the filter due for change", &o.Loaded}}
	for _, c := range states {
		if c.Frost {
			return study.Raise(study.Stop, "frost", house.FrostSource,
				"The cooling coil will frost"+c.when+": at %v its surface is at %v and the air leaves at %v, where it has to stay over %v and %v. Ice stops the air: raise the airflow before cooling is run.",
				c.Airflow, c.ApparatusDewPt, c.CoilAirLeaving, house.ColdestSurface, house.ColdestLeaving)
		}
	}
	for _, c := range states {
		switch {
		case c.ApparatusDewPt < house.CoolSurface:
			return study.Raise(study.Caution, "frost_risk", house.FrostSource,
				"The cooling coil may frost"+c.when+": at %v its surface is at %v, under %v. Raise the airflow.", c.Airflow, c.ApparatusDewPt, house.CoolSurface)
		case c.AirflowPerCapacity < house.LeastPerCapacity:
			return study.Raise(study.Caution, "frost_risk", house.FrostSource,
				"The cooling coil may frost"+c.when+": %v is %v of cooling, under %v. Raise the airflow.", c.Airflow, c.AirflowPerCapacity, house.LeastPerCapacity)
		}
	}
	return nil
}

// judgeRise compares the temperature rise with the nameplate's range. Where its
// output or its range is assumed, the finding asks for the nameplate and is no stop.
func judgeRise(h *house.House, o *study.OptionResult) []study.Finding {
	e := h.Equipment
	rise, when := o.Clean.TemperatureRise, ""
	if rise <= e.RiseHigh && o.Loaded.TemperatureRise > e.RiseHigh {
		rise, when = o.Loaded.TemperatureRise, " with a dirty filter"
	}
	high, knownHigh := riseSource(h, "equipment.rise_high")
	low, knownLow := riseSource(h, "equipment.rise_low")
	advised := func(f *study.Finding, format string, args ...any) []study.Finding {
		return []study.Finding{*f.Advise(format, args...)}
	}
	const typeNameplate = "Output or range is assumed: type the nameplate's."
	switch {
	case e.NoHeating:
		return nil
	case rise > e.RiseHigh && knownHigh:
		return advised(study.Raise(study.Stop, "rise_high", high,
			"Heating raises the air by %v"+when+", %v over the nameplate's %v: too little air crosses the "+heater(h)+".", rise, rise-e.RiseHigh, e.RiseHigh),
			"Raise the heating airflow before heating is run.")
	case rise > e.RiseHigh:
		return advised(study.Raise(study.Caution, "rise_high_assumed", high, "Heating would raise the air by %v"+when+", %v over %v.", rise, rise-e.RiseHigh, e.RiseHigh), typeNameplate)
	case rise < e.RiseLow && knownLow && !h.Burns():
		return advised(study.Raise(study.Caution, "supply_cool", low,
			"Heating raises the air by %v, %v under the nameplate's %v: the rooms may feel a draft.", rise, e.RiseLow-rise, e.RiseLow),
			"Run heating on a lower tap.")
	case rise < e.RiseLow && knownLow:
		return advised(study.Raise(study.Caution, "rise_low", low,
			"Heating raises the air by %v, %v under the nameplate's %v: flue gas may condense where it must not.", rise, e.RiseLow-rise, e.RiseLow),
			"Choose a slower heating tap.")
	case rise < e.RiseLow:
		return advised(study.Raise(study.Caution, "rise_low_assumed", low, "Heating would raise the air by %v, %v under %v.", rise, e.RiseLow-rise, e.RiseLow), typeNameplate)
	}
	return nil
}

// riseSource is what an end of the range of temperature rise rests on, and
// whether it and the output are the nameplate's.
func riseSource(h *house.House, end string) (source string, known bool) {
	if h.Assumes(end) || h.Assumes("equipment.heating_output") {
		return "assumed output or range: " + assume.CommonPractice, false
	}
	return nameplate, true
}

// heater is what warms the air.
func heater(h *house.House) string {
	if h.Burns() {
		return "heat exchanger"
	}
	return "coil or heating elements"
}

// judgeAirflow compares the airflow with a clean filter with the design airflow, by
// study.Short alone: what is not short of it is good.
func judgeAirflow(h *house.House, o *study.OptionResult) *study.Finding {
	c, want := &o.Clean, h.DesignAirflow
	per := c.AirflowPerCapacity
	missing := want - c.Airflow
	const usual = "350 to 450 cfm per ton: " + assume.CommonPractice
	switch cools := h.Equipment.Kind != job.Furnace; {
	case study.Short(c.Airflow, want) && cools && per < lowPerCapacity:
		f := study.Raise(study.Caution, "airflow_low", usual, "Airflow is %v (%v), %v short of the %v the coil needs.", c.Airflow, per, missing, want)
		return relieve(c, f)
	case study.Short(c.Airflow, want):
		return relieve(c, study.Raise(study.Caution, "airflow_short", "the design airflow", "Airflow is %v, %v short of the design airflow of %v.", c.Airflow, missing, want))
	case cools && study.Exceeds(per, highPerCapacity):
		return study.Raise(study.Caution, "airflow_high", usual, "Airflow is %v, %v over the usual %v: the coil takes out less moisture.", per, per-highPerCapacity, highPerCapacity).
			Advise("Choose a slower tap.")
	case c.Airflow < want:
		return study.Raise(study.Good, "airflow", "the design airflow", "Airflow is %v: it meets the design airflow of %v as near as a gauge can tell.", c.Airflow, want)
	}
	return study.Raise(study.Good, "airflow", "the design airflow", "Airflow is %v: it meets the design airflow of %v.", c.Airflow, want)
}

// reliefs are what to do about the part that restricts the air most.
var reliefs = map[airpath.PartName]string{
	airpath.PartReturn:    "The return is the biggest restriction, %v: add a return or enlarge it.",
	airpath.PartFilter:    "The filter is the biggest restriction, %v: give it more face or more depth.",
	airpath.PartSlotEntry: "The way into the filter slot is the biggest restriction, %v: widen it.",
	airpath.PartCoil:      "The coil is the biggest restriction, %v: clean it, or ask whether it matches the equipment.",
	airpath.PartSupply:    "The supply is the biggest restriction, %v: look for closed dampers and small ducts.",
}

// worst is the part that drops the most.
func worst(c *study.Condition) study.PartDrop {
	return slices.MaxFunc(c.Parts, func(a, b study.PartDrop) int { return cmp.Compare(a.Drop, b.Drop) })
}

// relieve adds what to do about the part that drops the most.
func relieve(c *study.Condition, f *study.Finding) *study.Finding {
	worst := worst(c)
	if words, ok := reliefs[worst.Name]; ok {
		f.Advise(words, worst.Drop)
	}
	return f
}

func judgeStatic(h *house.House, o *study.OptionResult) *study.Finding {
	rated := h.Equipment.RatedExternalStatic
	switch clean, dirty := &o.Clean, &o.Loaded; {
	case o.Misses(study.StaticHigh, study.WhenClean):
		return relieve(clean, study.Raise(study.Caution, "static_high", ratedStatic, "External static is %v, %v over the rated %v.",
			clean.ExternalStatic, clean.ExternalStatic-rated, rated))
	case o.Misses(study.StaticHigh, study.WhenLoaded):
		return relieve(dirty, study.Raise(study.Caution, "static_high", ratedStatic, "External static rises to %v with a dirty filter, %v over the rated %v.",
			dirty.ExternalStatic, dirty.ExternalStatic-rated, rated))
	}
	return study.Raise(study.Good, "static", ratedStatic, "External static is %v, within the rated %v.", o.Clean.ExternalStatic, rated)
}

// deepFace is the limit on face velocity for a deep filter: that of the
// rating points it is sold by, one of the test velocities of ASHRAE 52.2 (from
// secondary text).
const deepFace = 492 * units.FPM

// faceLimit is the highest face velocity for a filter of a depth. The job's
// target limits drop and whistle of a thin filter; a deep pack has several
// times the media behind each face, so its limits are its rating velocity and,
// like all, its drop. Sizes are offered at the target in every depth: a new
// cabinet should have a margin.
func faceLimit(h *house.House, depth units.Length) (limit units.Speed, source string) {
	if !job.IsDeep(depth) || h.TargetFaceVelocity >= deepFace {
		return h.TargetFaceVelocity, TargetSource(h)
	}
	return deepFace, "rating velocity of deep filters, a test velocity of ASHRAE 52.2, from secondary text; the job's target is for filters up to 2 in deep"
}

// TargetSource is who set the target face velocity.
func TargetSource(h *house.House) string {
	if h.Assumes("target_face_velocity") {
		return "an assumed target: " + assume.CommonPractice
	}
	return jobsTarget
}

func judgeFace(h *house.House, o *study.OptionResult) *study.Finding {
	if !o.Misses(study.FaceVelocity, study.WhenClean) {
		return nil
	}
	limit, source := faceLimit(h, o.FilterDepth)
	v := o.Clean.FaceVelocity
	need := units.Area(float64(o.Clean.Airflow) / float64(limit))
	return study.Raise(study.Caution, "face_velocity", source, "Face velocity is %v, %v over the %v for a filter of this depth.", v, v-limit, limit).
		Advise("At %v it needs %v of face; there is %v.", o.Clean.Airflow, need, o.FaceArea)
}

func judgeDrop(h *house.House, o *study.OptionResult) *study.Finding {
	if !o.Misses(study.FilterDrop, study.WhenClean) {
		return nil
	}
	most, source := h.DropLimit()
	return study.Raise(study.Caution, "filter_drop", source, "The clean filter drops %v, %v over the %v allowed.", o.Clean.FilterDrop, o.Clean.FilterDrop-most, most).
		Advise("Give it more face, more depth or media that resists less.")
}

func JudgeLeak(h *house.House, o *study.OptionResult) *study.Finding {
	share, when := o.Clean.LeakFraction, ""
	if !o.Misses(study.FilterLeak, study.WhenClean) {
		share, when = o.Loaded.LeakFraction, " when it is dirty"
	}
	if share < leakThreshold {
		return nil
	}
	worth, args := "", []any{100 * share}
	if o.Efficiency.InstalledMERV != o.Efficiency.MERV {
		worth = ", so it works as MERV %d, not %d"
		args = append(args, o.Efficiency.InstalledMERV, o.Efficiency.MERV)
	}
	do := "Seal the gap round the frame."
	if slices.ContainsFunc(o.Clean.Branches, func(b study.BranchFlow) bool { return b.FilterDrop > 0 }) {
		do = "Filter every return."
	}
	return study.Raise(study.Caution, "leak", "share of the air that passes no media, computed",
		"%.0f %% of the air slips past the filter"+when+worth+", and fouls the coil.", args...).Advise(do)
}

func JudgeHouse(h *house.House, s *study.Study) []study.Finding {
	out := judgeDucts(h, s)
	if s.AssumedShare > assumedThreshold || s.BlowerAssumed {
		text := "%.0f %% of the external static is assumed"
		if s.BlowerAssumed {
			text += ", and so is the blower table"
		}
		out = append(out, *study.Raise(study.Caution, "assumed", "what was typed and measured", text+".", 100*s.AssumedShare).
			Advise("Measure or type what is marked as assumed."))
	}
	if h.Gauge.Round != nil && !h.Gauge.Inside {
		out = append(out, *study.Raise(study.Stop, "reading_off_table", blowersTable, "The measured external static of %v is outside the blower table.", h.Gauge.Static).
			Advise("Check the tap, the table and the ports."))
	}
	return out
}

// judgePrice compares the price of an option with the budget.
func judgePrice(h *house.House, o *study.OptionResult) *study.Finding {
	if most := h.Limits.Budget; most > 0 && o.Upgrade > most {
		return study.Raise(study.Caution, "over_budget", "the job's budget", "The work costs %v, over the budget of %v.", o.Upgrade, most)
	}
	return nil
}
