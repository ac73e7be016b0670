package judge

import (
	"cmp"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Sources of limits, as findings name them.
const (
	nameplate    message.ID = "the equipment's nameplate"
	ratedStatic  message.ID = "the equipment's rated external static"
	jobsTarget   message.ID = "the job's target"
	blowersTable message.ID = "the blower's table"
)

// WorstFirst sorts findings by severity; those of like severity keep their order.
func WorstFirst(fs []study.Finding) {
	slices.SortStableFunc(fs, func(a, b study.Finding) int { return cmp.Compare(b.Severity.Rank(), a.Severity.Rank()) })
}

// Verdict gives the severity and the words of the first finding. The findings must be
// sorted, the worst first; without any the verdict is good.
func Verdict(fs []study.Finding) (study.Severity, message.Sentences) {
	if len(fs) == 0 {
		return study.Good, message.Sentences{message.New("It keeps every limit.")}
	}
	return fs[0].Severity, fs[0].Words()
}

// OptionFindings sets the limits of an option and returns its findings, the blower
// table first.
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
	rise := judgeRise(h, o)
	assumed := func(f study.Finding) bool { return f.Code == codeRiseHighAssumed || f.Code == codeRiseLowAssumed }
	out = append(out, slices.DeleteFunc(slices.Clone(rise), assumed)...)
	add(judgeAirflow(h, o))
	add(judgeStatic(h, o))
	if n := len(out); staticFirst(h, o) {
		out[n-2], out[n-1] = out[n-1], out[n-2]
	}
	// A limit that nobody entered does not come before those of the house.
	out = append(out, slices.DeleteFunc(rise, func(f study.Finding) bool { return !assumed(f) })...)
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
	if o.Clean.WithinBlowerTable && o.Loaded.WithinBlowerTable {
		return nil
	}
	c := o.Clean
	if c.WithinBlowerTable {
		c = o.Loaded
	}
	low, high, _, _ := h.TapCurve(o.Tap, o.SpeedRatio).Range()
	return study.Raise(study.Stop, "off_table", blowersTable,
		"The blower would run at {static} and {airflow}, outside its table of {low} to {high}: the numbers there are a guess.",
		"static", c.ExternalStatic, "airflow", c.Airflow, "low", low, "high", high).Advise("Type more rows of the table, or bring the static back into it.")
}

// JudgeFrost reports a coil that will frost, or may, with the filter clean or
// dirty; nil where neither. The limits are those of house/frost.go.
func JudgeFrost(h *house.House, o *study.OptionResult) *study.Finding {
	if h.Equipment.Kind == job.Furnace {
		return nil
	}
	states := []struct {
		*study.Condition
		freezes, cold, short message.ID
	}{
		{&o.Clean,
			"The cooling coil will frost: at {airflow} its surface is at {surface} and the air leaves at {leaving}, where it has to stay over {least_surface} and {least_leaving}. Ice stops the air: raise the airflow before cooling is run.",
			"The cooling coil may frost: at {airflow} its surface is at {surface}, under {least}. Raise the airflow.",
			"The cooling coil may frost: {airflow} is {per_capacity} of cooling, under {least}. Raise the airflow."},
		{&o.Loaded,
			"The cooling coil will frost with the filter due for change: at {airflow} its surface is at {surface} and the air leaves at {leaving}, where it has to stay over {least_surface} and {least_leaving}. Ice stops the air: raise the airflow before cooling is run.",
			"The cooling coil may frost with the filter due for change: at {airflow} its surface is at {surface}, under {least}. Raise the airflow.",
			"The cooling coil may frost with the filter due for change: {airflow} is {per_capacity} of cooling, under {least}. Raise the airflow."},
	}
	for _, c := range states {
		if c.Frost {
			return study.Raise(study.Stop, "frost", house.FrostSource, c.freezes,
				"airflow", c.Airflow, "surface", c.ApparatusDewPt, "leaving", c.CoilAirLeaving, "least_surface", house.ColdestSurface, "least_leaving", house.ColdestLeaving)
		}
	}
	for _, c := range states {
		switch {
		case c.ApparatusDewPt < house.CoolSurface:
			return study.Raise(study.Caution, "frost_risk", house.FrostSource, c.cold, "airflow", c.Airflow, "surface", c.ApparatusDewPt, "least", house.CoolSurface)
		case c.AirflowPerCapacity < house.LeastPerCapacity:
			return study.Raise(study.Caution, "frost_risk", house.FrostSource, c.short, "airflow", c.Airflow, "per_capacity", c.AirflowPerCapacity, "least", house.LeastPerCapacity)
		}
	}
	return nil
}

// Codes of findings against a range of temperature rise that nobody entered.
const (
	codeRiseHighAssumed = "rise_high_assumed"
	codeRiseLowAssumed  = "rise_low_assumed"
)

// judgeRise compares the temperature rise with the nameplate's range. Where its
// output or its range is assumed, the finding asks for the nameplate's values and is
// a caution, not a stop.
func judgeRise(h *house.House, o *study.OptionResult) []study.Finding {
	e := h.Equipment
	rise, dirty := o.Clean.TemperatureRise, false
	if rise <= e.RiseHigh && o.Loaded.TemperatureRise > e.RiseHigh {
		rise, dirty = o.Loaded.TemperatureRise, true
	}
	high, knownHigh := riseSource(h, "equipment.rise_high")
	low, knownLow := riseSource(h, "equipment.rise_low")
	over := []any{"rise", rise, "over", rise - e.RiseHigh, "limit", e.RiseHigh}
	under := []any{"rise", rise, "under", e.RiseLow - rise, "limit", e.RiseLow}
	advised := func(f *study.Finding, advice message.ID) []study.Finding {
		return []study.Finding{*f.Advise(advice)}
	}
	const typeNameplate message.ID = "Output or range is assumed: type the nameplate's."
	switch {
	case e.NoHeating:
		return nil
	case rise > e.RiseHigh && knownHigh:
		return advised(study.Raise(study.Stop, "rise_high", high, riseHigh(h.IsFurnace(), dirty), over...), "Raise the heating airflow before heating is run.")
	case rise > e.RiseHigh && dirty:
		return advised(study.Raise(study.Caution, codeRiseHighAssumed, high, "Heating would raise the air by {rise} with a dirty filter, {over} over {limit}.", over...), typeNameplate)
	case rise > e.RiseHigh:
		return advised(study.Raise(study.Caution, codeRiseHighAssumed, high, "Heating would raise the air by {rise}, {over} over {limit}.", over...), typeNameplate)
	case rise < e.RiseLow && knownLow && !h.IsFurnace():
		return advised(study.Raise(study.Caution, "supply_cool", low,
			"Heating raises the air by {rise}, {under} under the nameplate's {limit}: the rooms may feel a draft.", under...), "Run heating on a lower tap.")
	case rise < e.RiseLow && knownLow:
		return advised(study.Raise(study.Caution, "rise_low", low,
			"Heating raises the air by {rise}, {under} under the nameplate's {limit}: flue gas may condense where it must not.", under...), "Choose a slower heating tap.")
	case rise < e.RiseLow:
		return advised(study.Raise(study.Caution, codeRiseLowAssumed, low, "Heating would raise the air by {rise}, {under} under {limit}.", under...), typeNameplate)
	}
	return nil
}

// riseHigh is the message that the air is heated too much, by a burner or not.
func riseHigh(burns, dirty bool) message.ID {
	switch {
	case burns && dirty:
		return "Heating raises the air by {rise} with a dirty filter, {over} over the nameplate's {limit}: too little air crosses the heat exchanger."
	case burns:
		return "Heating raises the air by {rise}, {over} over the nameplate's {limit}: too little air crosses the heat exchanger."
	case dirty:
		return "Heating raises the air by {rise} with a dirty filter, {over} over the nameplate's {limit}: too little air crosses the coil or heating elements."
	}
	return "Heating raises the air by {rise}, {over} over the nameplate's {limit}: too little air crosses the coil or heating elements."
}

// riseSource is the source of an end of the range of temperature rise, and
// whether it and the output are the nameplate's.
func riseSource(h *house.House, end string) (source message.ID, known bool) {
	if h.Assumes(end) || h.Assumes("equipment.heating_output") {
		return "assumed output or range: " + assume.CommonPractice, false
	}
	return nameplate, true
}

// judgeAirflow compares the airflow with a clean filter with the design airflow, by
// study.Short alone: an airflow that is not short of it is good.
func judgeAirflow(h *house.House, o *study.OptionResult) *study.Finding {
	c, want := &o.Clean, h.DesignAirflow
	per := c.AirflowPerCapacity
	missing := want - c.Airflow
	const usual = "350 to 450 cfm per ton (47 to 60 L/s per kW): " + assume.CommonPractice
	switch cools := h.Equipment.Kind != job.Furnace; {
	case study.Short(c.Airflow, want) && cools && per < lowPerCapacity:
		f := study.Raise(study.Caution, "airflow_low", usual, "Airflow is {airflow} ({per_capacity}), {missing} short of the {wanted} the coil needs.",
			"airflow", c.Airflow, "per_capacity", per, "missing", missing, "wanted", want)
		return relieve(c, f)
	case study.Short(c.Airflow, want):
		return relieve(c, study.Raise(study.Caution, "airflow_short", "the design airflow", "Airflow is {airflow}, {missing} short of the design airflow of {wanted}.",
			"airflow", c.Airflow, "missing", missing, "wanted", want))
	case cools && study.Exceeds(per, highPerCapacity):
		return study.Raise(study.Caution, "airflow_high", usual, "Airflow is {airflow}, {over} over the usual {usual}: the coil takes out less moisture.",
			"airflow", per, "over", per-highPerCapacity, "usual", highPerCapacity).
			Advise("Choose a slower tap.")
	case c.Airflow < want:
		return study.Raise(study.Good, "airflow", "the design airflow", "Airflow is {airflow}: it meets the design airflow of {wanted} as near as a gauge can tell.", "airflow", c.Airflow, "wanted", want)
	}
	return study.Raise(study.Good, "airflow", "the design airflow", "Airflow is {airflow}: it meets the design airflow of {wanted}.", "airflow", c.Airflow, "wanted", want)
}

// slightly is the share by which an airflow may be short and still be accepted where air
// is balanced: common practice, no source.
const slightly = 0.10

// staticFirst reports whether the external static is the more serious of the two: over
// the rated one by a larger share than the airflow is short by, while that is hardly
// short. A blower that holds its airflow shows a restriction by its static and watts
// alone.
func staticFirst(h *house.House, o *study.OptionResult) bool {
	over := o.Misses(study.StaticHigh, study.WhenClean) || o.Misses(study.StaticHigh, study.WhenLoaded)
	missing := 1 - float64(o.Clean.Airflow/h.DesignAirflow)
	excess := float64(max(o.Clean.ExternalStatic, o.Loaded.ExternalStatic)/h.Equipment.RatedExternalStatic) - 1
	if o.Misses(study.StaticHigh, study.WhenClean) {
		excess = float64(o.Clean.ExternalStatic/h.Equipment.RatedExternalStatic) - 1
	}
	return over && study.Short(o.Clean.Airflow, h.DesignAirflow) && missing < slightly && excess > missing
}

// reliefs are what to do about the part that restricts the air most.
var reliefs = map[airpath.PartName]message.ID{
	airpath.PartReturn:    "The return is the biggest restriction, {drop}: add a return or enlarge it.",
	airpath.PartFilter:    "The filter is the biggest restriction, {drop}: give it more face or more depth.",
	airpath.PartSlotEntry: "The entry to the filter slot is the biggest restriction, {drop}: widen it.",
	airpath.PartCoil:      "The coil is the biggest restriction, {drop}: clean it, or ask whether it matches the equipment.",
	airpath.PartSupply:    "The supply is the biggest restriction, {drop}: look for closed dampers and small ducts.",
}

// worst is the part that drops the most.
func worst(c *study.Condition) study.PartDrop {
	return slices.MaxFunc(c.Parts, func(a, b study.PartDrop) int { return cmp.Compare(a.Drop, b.Drop) })
}

// relieve adds what to do about the part that drops the most.
func relieve(c *study.Condition, f *study.Finding) *study.Finding {
	worst := worst(c)
	if words, ok := reliefs[worst.Name]; ok {
		f.Advise(words, "drop", worst.Drop)
	}
	return f
}

func judgeStatic(h *house.House, o *study.OptionResult) *study.Finding {
	rated := h.Equipment.RatedExternalStatic
	holds := h.HoldsAirflow()
	switch clean, dirty := &o.Clean, &o.Loaded; {
	case o.Misses(study.StaticHigh, study.WhenClean) && holds:
		return relieve(clean, study.Raise(study.Caution, "static_high", ratedStatic, "External static is {static}, {over} over the rated {rated}: the blower takes {power} to hold its airflow.",
			"static", clean.ExternalStatic, "over", clean.ExternalStatic-rated, "rated", rated, "power", clean.BlowerPower))
	case o.Misses(study.StaticHigh, study.WhenClean):
		return relieve(clean, study.Raise(study.Caution, "static_high", ratedStatic, "External static is {static}, {over} over the rated {rated}.",
			"static", clean.ExternalStatic, "over", clean.ExternalStatic-rated, "rated", rated))
	case o.Misses(study.StaticHigh, study.WhenLoaded):
		return relieve(dirty, study.Raise(study.Caution, "static_high", ratedStatic, "External static rises to {static} with a dirty filter, {over} over the rated {rated}.",
			"static", dirty.ExternalStatic, "over", dirty.ExternalStatic-rated, "rated", rated))
	}
	return study.Raise(study.Good, "static", ratedStatic, "External static is {static}, within the rated {rated}.", "static", o.Clean.ExternalStatic, "rated", rated)
}

// deepFace is the limit on face velocity for a deep filter: the velocity at
// which such filters are rated, one of the test velocities of ASHRAE 52.2 (from
// secondary text).
const deepFace = 492 * units.FPM

// faceLimit is the highest face velocity for a filter of a depth. The job's
// target limits the drop and the noise of a thin filter. A deep pack has
// several times the media behind each face, so its limits are its rating
// velocity and, as for all filters, its drop. Sizes are searched at the target
// in every depth: a new cabinet should have a margin.
func faceLimit(h *house.House, depth units.Length) (limit units.Speed, source message.ID) {
	if !job.IsDeep(depth) || h.TargetFaceVelocity >= deepFace {
		return h.TargetFaceVelocity, TargetSource(h)
	}
	return deepFace, "rating velocity of deep filters, a test velocity of ASHRAE 52.2, from secondary text; the job's target is for filters up to 2 in (50 mm) deep"
}

// TargetSource is the source of the target face velocity: typed, or common
// practice.
func TargetSource(h *house.House) message.ID {
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
	return study.Raise(study.Caution, "face_velocity", source, "Face velocity is {velocity}, {over} over the {limit} for a filter of this depth.",
		"velocity", v, "over", v-limit, "limit", limit).
		Advise("At {airflow} it needs {needed} of face; there is {face}.", "airflow", o.Clean.Airflow, "needed", need, "face", o.FaceArea)
}

func judgeDrop(h *house.House, o *study.OptionResult) *study.Finding {
	if !o.Misses(study.FilterDrop, study.WhenClean) {
		return nil
	}
	most, source := h.DropLimit()
	return study.Raise(study.Caution, "filter_drop", source, "The clean filter drops {drop}, {over} over the {limit} allowed.",
		"drop", o.Clean.FilterDrop, "over", o.Clean.FilterDrop-most, "limit", most).
		Advise("Give it more face, more depth or media that resists less.")
}

// JudgeLeak reports a share of the air past the media of at least leakThreshold.
func JudgeLeak(h *house.House, o *study.OptionResult) *study.Finding {
	share, dirty := o.Clean.LeakFraction, !o.Misses(study.FilterLeak, study.WhenClean)
	if dirty {
		share = o.Loaded.LeakFraction
	}
	if share < leakThreshold {
		return nil
	}
	var text message.ID
	switch worth := o.Efficiency.InstalledMERV != o.Efficiency.MERV; {
	case dirty && worth:
		text = "{share} % of the air slips past the filter when it is dirty, so it works as MERV {installed}, not {merv}, and fouls the coil."
	case dirty:
		text = "{share} % of the air slips past the filter when it is dirty, and fouls the coil."
	case worth:
		text = "{share} % of the air slips past the filter, so it works as MERV {installed}, not {merv}, and fouls the coil."
	default:
		text = "{share} % of the air slips past the filter, and fouls the coil."
	}
	f := study.Raise(study.Caution, "leak", "share of the air that passes no media, computed", text,
		"share", message.Fixed(100*share, 0), "installed", o.Efficiency.InstalledMERV, "merv", o.Efficiency.MERV)
	if slices.ContainsFunc(o.Clean.Branches, func(b study.BranchFlow) bool { return b.FilterDrop > 0 }) {
		return f.Advise("Filter every return.")
	}
	return f.Advise("Seal the gap round the frame.")
}

// JudgeHouse returns the findings that belong to no option: ducts, assumed values,
// a reading outside the blower table.
func JudgeHouse(h *house.House, s *study.Study) []study.Finding {
	out := judgeDucts(h, s)
	if s.AssumedShare > assumedThreshold || s.BlowerAssumed {
		text := message.ID("{share} % of the external static is assumed.")
		if s.BlowerAssumed {
			text = "{share} % of the external static is assumed, and so is the blower table."
		}
		out = append(out, *study.Raise(study.Caution, "assumed", "what was typed and measured", text, "share", message.Fixed(100*s.AssumedShare, 0)).
			Advise("Measure or type what is marked as assumed."))
	}
	out = append(out, judgeWatts(h, s)...)
	if h.Gauge.Round != nil && !h.Gauge.WithinBlowerTable {
		out = append(out, *study.Raise(study.Stop, "reading_off_table", blowersTable, "The measured external static of {static} is outside the blower table.", "static", h.Gauge.Static).
			Advise("Check the tap, the table and the ports."))
	}
	return out
}

// judgePrice compares the price of an option with the budget.
func judgePrice(h *house.House, o *study.OptionResult) *study.Finding {
	if most := h.Limits.Budget; most > 0 && o.Upgrade > most {
		return study.Raise(study.Caution, "over_budget", "the job's budget", "The work costs {price}, over the budget of {budget}.", "price", o.Upgrade, "budget", most)
	}
	return nil
}
