package sizing

import (
	"cmp"
	"slices"

	"returnbench/sizing/units"
)

// Limits of common practice that findings are held against.
const (
	lowPerCapacity   = 350 * units.CFMPerTon
	highPerCapacity  = 450 * units.CFMPerTon
	filterBudget     = 0.20 // of the rated external static
	leakWorthSaying  = 0.02
	assumedWorthNote = 0.5
)

const (
	nameplate    = "the equipment's nameplate"
	ratedStatic  = "the equipment's rated external static"
	jobsTarget   = "the job's target"
	blowersTable = "the blower's table"
)

// judge writes the findings of the house and of each option, and the verdict
// that follows from them.
func (h *house) judge(s *Study) {
	h.judgeOptions(s)
	for i := range s.Options {
		s.Findings = append(s.Findings, s.Options[i].Findings...)
	}
	s.Findings = append(s.Findings, h.judgeHouse(s)...)
	s.Findings = append(s.Findings, h.judgeTaps(s)...)
	s.Findings = append(s.Findings, h.judgeReadings(s)...)
	GravestFirst(s.Findings)
	s.Recommendation = s.recommend()
}

// judgeOptions writes the findings and the verdict of each option.
func (h *house) judgeOptions(s *Study) {
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind == KindNoFilter {
			o.Verdict, o.Why = Caution, "Comparison only: never run the blower without its filter."
			continue
		}
		o.Findings = append(h.judgeOption(o), h.judgeSpeed(o, s.Today())...)
		for k := range o.Findings {
			o.Findings[k].Option = o.Name
		}
		GravestFirst(o.Findings)
		o.Verdict, o.Why = verdict(o.Findings)
	}
	for i := range s.Options {
		s.Options[i].compare(s.Today(), nil, nil)
	}
}

// GravestFirst sorts findings by severity; those of like severity keep their order.
func GravestFirst(fs []Finding) {
	slices.SortStableFunc(fs, func(a, b Finding) int { return cmp.Compare(b.Severity.Rank(), a.Severity.Rank()) })
}

func verdict(fs []Finding) (Severity, string) {
	if len(fs) == 0 {
		return Good, "It keeps every limit."
	}
	return fs[0].Severity, fs[0].Text
}

func (h *house) judgeOption(o *OptionResult) []Finding {
	o.held = h.holds(o)
	var out []Finding
	add := func(f *Finding) {
		if f != nil {
			out = append(out, *f)
		}
	}
	add(h.judgeTable(o))
	add(h.judgeFrost(o))
	out = append(out, h.judgeRise(o)...)
	add(h.judgeAirflow(o))
	add(h.judgeStatic(o))
	add(h.judgeFace(o))
	add(h.judgeDrop(o))
	add(h.judgeLeak(o))
	add(h.judgeSeat(o))
	add(h.judgePrice(o))
	out = append(out, judgeBreaches(o)...)
	out = append(out, h.checkSets(o)...)
	for i := range out {
		o.measure(&out[i])
	}
	return out
}

func finding(sev Severity, code, source, format string, args ...any) *Finding {
	f := newFinding(sev, code, source, format, args...)
	return &f
}

func (h *house) judgeTable(o *OptionResult) *Finding {
	if o.Clean.Inside && o.Loaded.Inside {
		return nil
	}
	c := o.Clean
	if c.Inside {
		c = o.Loaded
	}
	low, high, _, _ := h.curves[o.Tap].Range()
	return finding(Stop, "off_table", blowersTable,
		"The blower would run at %v and %v, outside its table of %v to %v: the numbers there are a guess.",
		c.ExternalStatic, c.Airflow, low, high).advise("Type more rows of the table, or bring the static back into it.")
}

func (h *house) judgeFrost(o *OptionResult) *Finding {
	if h.Equipment.Kind == Furnace {
		return nil
	}
	states := []struct {
		when string
		*Condition
	}{{"", &o.Clean}, {" with the filter due for change", &o.Loaded}}
	for _, c := range states {
		if c.Frost {
			return finding(Stop, "frost", frostSource,
				"The cooling coil will frost"+c.when+": at %v its surface is at %v and the air leaves at %v, where it has to stay over %v and %v. Ice stops the air: raise the airflow before cooling is run.",
				c.Airflow, c.ApparatusDewPt, c.CoilAirLeaving, coldestSurface, coldestLeaving)
		}
	}
	for _, c := range states {
		switch {
		case c.ApparatusDewPt < coolSurface:
			return finding(Caution, "frost_risk", frostSource,
				"The cooling coil may frost"+c.when+": at %v its surface is at %v, under %v. Raise the airflow.", c.Airflow, c.ApparatusDewPt, coolSurface)
		case c.AirflowPerCapacity < leastPerCapacity:
			return finding(Caution, "frost_risk", frostSource,
				"The cooling coil may frost"+c.when+": %v is %v of cooling, under %v. Raise the airflow.", c.Airflow, c.AirflowPerCapacity, leastPerCapacity)
		}
	}
	return nil
}

// Limits of frost. The refrigerant runs colder than the dew point that the air
// feels, so they lie above the freezing point.
var (
	coolSurface    = units.Fahrenheit(40)
	coldestSurface = units.Fahrenheit(36)
	coldestLeaving = units.Fahrenheit(38)
)

const (
	leastPerCapacity = 300 * units.CFMPerTon
	frostSource      = "caution under an apparatus dew point of 40 F or 300 cfm per ton, stop at 36 F or with air leaving under 38 F: " + commonPractice
)

// freezes tells whether a cooling coil will frost.
func freezes(c *Condition) bool {
	return c.ApparatusDewPt <= coldestSurface || c.CoilAirLeaving < coldestLeaving
}

// judgeRise holds the temperature rise against the nameplate's range. Where its
// output or its range is assumed, the equipment is asked for, not stopped.
func (h *house) judgeRise(o *OptionResult) []Finding {
	e := h.Equipment
	rise, when := o.Clean.TemperatureRise, ""
	if rise <= e.RiseHigh && o.Loaded.TemperatureRise > e.RiseHigh {
		rise, when = o.Loaded.TemperatureRise, " with a dirty filter"
	}
	high, knownHigh := h.riseSource("equipment.rise_high")
	low, knownLow := h.riseSource("equipment.rise_low")
	say := func(f *Finding, format string, args ...any) []Finding { return []Finding{*f.advise(format, args...)} }
	const ask = "Output or range is assumed: type the nameplate's."
	switch {
	case e.NoHeating:
		return nil
	case rise > e.RiseHigh && knownHigh:
		return say(finding(Stop, "rise_high", high,
			"Heating raises the air by %v"+when+", %v over the nameplate's %v: too little air crosses the "+h.heater()+".", rise, rise-e.RiseHigh, e.RiseHigh),
			"Raise the heating airflow before heating is run.")
	case rise > e.RiseHigh:
		return say(finding(Caution, "rise_high_assumed", high, "Heating would raise the air by %v"+when+", %v over %v.", rise, rise-e.RiseHigh, e.RiseHigh), ask)
	case rise < e.RiseLow && knownLow && !h.burns():
		return say(finding(Caution, "supply_cool", low,
			"Heating raises the air by %v, %v under the nameplate's %v: the rooms may feel a draft.", rise, e.RiseLow-rise, e.RiseLow),
			"Run heating on a lower tap.")
	case rise < e.RiseLow && knownLow:
		return say(finding(Caution, "rise_low", low,
			"Heating raises the air by %v, %v under the nameplate's %v: flue gas may condense where it must not.", rise, e.RiseLow-rise, e.RiseLow),
			"Choose a slower heating tap.")
	case rise < e.RiseLow:
		return say(finding(Caution, "rise_low_assumed", low, "Heating would raise the air by %v, %v under %v.", rise, e.RiseLow-rise, e.RiseLow), ask)
	}
	return nil
}

// riseSource is what an end of the range of temperature rise rests on, and
// whether it and the output are the nameplate's.
func (h *house) riseSource(end string) (source string, known bool) {
	if h.assumes(end) || h.assumes("equipment.heating_output") {
		return "assumed output or range: " + commonPractice, false
	}
	return nameplate, true
}

// heater is what warms the air.
func (h *house) heater() string {
	if h.burns() {
		return "heat exchanger"
	}
	return "coil or heating elements"
}

// judgeAirflow holds the airflow with a clean filter to the design airflow, by
// the one rule of short: what is not short of it is good.
func (h *house) judgeAirflow(o *OptionResult) *Finding {
	c, want := &o.Clean, h.DesignAirflow
	per := c.AirflowPerCapacity
	missing := want - c.Airflow
	const usual = "350 to 450 cfm per ton: " + commonPractice
	switch cools := h.Equipment.Kind != Furnace; {
	case short(c.Airflow, want) && cools && per < lowPerCapacity:
		f := finding(Caution, "airflow_low", usual, "Airflow is %v (%v), %v short of the %v the coil needs.", c.Airflow, per, missing, want)
		return c.relieve(f)
	case short(c.Airflow, want):
		return c.relieve(finding(Caution, "airflow_short", "the design airflow", "Airflow is %v, %v short of the design airflow of %v.", c.Airflow, missing, want))
	case cools && exceeds(per, highPerCapacity):
		return finding(Caution, "airflow_high", usual, "Airflow is %v, %v over the usual %v: the coil takes out less moisture.", per, per-highPerCapacity, highPerCapacity).
			advise("Choose a slower tap.")
	case c.Airflow < want:
		return finding(Good, "airflow", "the design airflow", "Airflow is %v: it meets the design airflow of %v as near as a gauge can tell.", c.Airflow, want)
	}
	return finding(Good, "airflow", "the design airflow", "Airflow is %v: it meets the design airflow of %v.", c.Airflow, want)
}

// reliefs are what to do about the part that restricts the air most.
var reliefs = map[string]string{
	"return":     "The return is the biggest restriction, %v: add a return or enlarge it.",
	"filter":     "The filter is the biggest restriction, %v: give it more face or more depth.",
	"slot entry": "The way into the filter slot is the biggest restriction, %v: widen it.",
	"coil":       "The coil is the biggest restriction, %v: clean it, or ask whether it matches the equipment.",
	"supply":     "The supply is the biggest restriction, %v: look for closed dampers and small ducts.",
}

// worst is the part that drops the most.
func (c *Condition) worst() PartDrop {
	return slices.MaxFunc(c.Parts, func(a, b PartDrop) int { return cmp.Compare(a.Drop, b.Drop) })
}

// relieve adds what to do about the part that drops the most.
func (c *Condition) relieve(f *Finding) *Finding {
	worst := c.worst()
	if words, ok := reliefs[worst.Name]; ok {
		f.advise(words, worst.Drop)
	}
	return f
}

func (h *house) judgeStatic(o *OptionResult) *Finding {
	rated := h.Equipment.RatedExternalStatic
	switch clean, dirty := &o.Clean, &o.Loaded; {
	case o.misses(StaticHigh, WhenClean):
		return clean.relieve(finding(Caution, "static_high", ratedStatic, "External static is %v, %v over the rated %v.",
			clean.ExternalStatic, clean.ExternalStatic-rated, rated))
	case o.misses(StaticHigh, WhenLoaded):
		return dirty.relieve(finding(Caution, "static_high", ratedStatic, "External static rises to %v with a dirty filter, %v over the rated %v.",
			dirty.ExternalStatic, dirty.ExternalStatic-rated, rated))
	}
	return finding(Good, "static", ratedStatic, "External static is %v, within the rated %v.", o.Clean.ExternalStatic, rated)
}

// deepFace is the face velocity that a deep filter is held to: that of the
// rating points it is sold by, one of the test velocities of ASHRAE 52.2 (from
// secondary text).
const deepFace = 492 * units.FPM

// faceLimit is the face velocity that a filter of a depth may see. The job's
// target stands for drop and whistle of a thin filter; a deep pack holds several
// times the media behind each face, so it is held to its rating velocity and,
// like all, to its drop. Sizes are offered at the target in every depth: a new
// cabinet had better be generous.
func (h *house) faceLimit(depth units.Length) (limit units.Speed, source string) {
	if !isDeep(depth) || h.TargetFaceVelocity >= deepFace {
		return h.TargetFaceVelocity, h.targetSource()
	}
	return deepFace, "rating velocity of deep filters, a test velocity of ASHRAE 52.2, from secondary text; the job's target is for filters up to 2 in deep"
}

// targetSource is who set the target face velocity.
func (h *house) targetSource() string {
	if h.assumes("target_face_velocity") {
		return "an assumed target: " + commonPractice
	}
	return jobsTarget
}

func (h *house) judgeFace(o *OptionResult) *Finding {
	if !o.misses(FaceVelocity, WhenClean) {
		return nil
	}
	limit, source := h.faceLimit(o.filterDepth)
	v := o.Clean.FaceVelocity
	need := units.Area(float64(o.Clean.Airflow) / float64(limit))
	return finding(Caution, "face_velocity", source, "Face velocity is %v, %v over the %v for a filter of this depth.", v, v-limit, limit).
		advise("At %v it needs %v of face; there is %v.", o.Clean.Airflow, need, o.FaceArea)
}

// budget is what a part may take: its usual share of the rated external static
// (common practice, no source), or the job's own limit for the filter.
func (h *house) budget(part string) units.Pressure {
	if part == "filter" && h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop
	}
	share := map[string]float64{"filter": filterBudget, "return": returnShare, "coil": coilShare, "supply": supplyShare}[part]
	return units.Pressure(share) * h.Equipment.RatedExternalStatic
}

// dropLimit is what a clean filter may take, and who says so.
func (h *house) dropLimit() (most units.Pressure, source string) {
	if h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop, "the job's limit"
	}
	return h.budget("filter"), "20 % of the rated external static for the filter: " + commonPractice
}

func (h *house) judgeDrop(o *OptionResult) *Finding {
	if !o.misses(FilterDrop, WhenClean) {
		return nil
	}
	most, source := h.dropLimit()
	return finding(Caution, "filter_drop", source, "The clean filter drops %v, %v over the %v allowed.", o.Clean.FilterDrop, o.Clean.FilterDrop-most, most).
		advise("Give it more face, more depth or media that resists less.")
}

func (h *house) judgeLeak(o *OptionResult) *Finding {
	share, when := o.Clean.LeakFraction, ""
	if !o.misses(FilterLeak, WhenClean) {
		share, when = o.Loaded.LeakFraction, " when it is dirty"
	}
	if share < leakWorthSaying {
		return nil
	}
	worth, args := "", []any{100 * share}
	if o.Efficiency.InstalledMERV != o.Efficiency.MERV {
		worth = ", so it works as MERV %d, not %d"
		args = append(args, o.Efficiency.InstalledMERV, o.Efficiency.MERV)
	}
	do := "Seal the gap round the frame."
	if slices.ContainsFunc(o.Clean.Branches, func(b BranchFlow) bool { return b.FilterDrop > 0 }) {
		do = "Filter every return."
	}
	return finding(Caution, "leak", "share of the air that passes no media, computed",
		"%.0f %% of the air slips past the filter"+when+worth+", and fouls the coil.", args...).advise(do)
}

func (h *house) judgeHouse(s *Study) []Finding {
	out := h.judgeDucts(s)
	if s.AssumedShare > assumedWorthNote || s.BlowerAssumed {
		text := "%.0f %% of the external static is assumed"
		if s.BlowerAssumed {
			text += ", and so is the blower table"
		}
		out = append(out, *finding(Caution, "assumed", "what was typed and measured", text+".", 100*s.AssumedShare).
			advise("Measure or type what is marked as assumed."))
	}
	if h.gauge.round != nil && !h.gauge.inside {
		out = append(out, *finding(Stop, "reading_off_table", blowersTable, "The measured external static of %v is outside the blower table.", h.gauge.static).
			advise("Check the tap, the table and the ports."))
	}
	return out
}
