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
	shortOfDesign    = 0.95
	nearlyAll        = 0.999 // less than an airflow is known to
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
	gravestFirst(s.Findings)
}

// judgeOptions writes the findings and the verdict of each option.
func (h *house) judgeOptions(s *Study) {
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind == "no_filter" {
			o.Verdict, o.Why = Caution, "for comparison only: never run the blower without its filter"
			continue
		}
		o.Findings = append(h.judgeOption(o), h.judgeSpeed(o, s.Today())...)
		for k := range o.Findings {
			o.Findings[k].Option = o.Name
		}
		gravestFirst(o.Findings)
		o.Verdict, o.Why = verdict(o.Findings)
	}
}

func gravestFirst(fs []Finding) {
	rank := map[Severity]int{Stop: 0, Caution: 1, Good: 2}
	slices.SortStableFunc(fs, func(a, b Finding) int { return cmp.Compare(rank[a.Severity], rank[b.Severity]) })
}

func verdict(fs []Finding) (Severity, string) {
	if len(fs) == 0 {
		return Good, "within every limit held against it"
	}
	return fs[0].Severity, fs[0].Text
}

func (h *house) judgeOption(o *OptionResult) []Finding {
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
	out = append(out, h.checkSets(o)...)
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
		"The blower would run at %v, %v, outside its table of %v to %v; the numbers beyond its ends are a guess.",
		c.ExternalStatic, c.Airflow, low, high)
}

func (h *house) judgeFrost(o *OptionResult) *Finding {
	if h.Equipment.Kind == Furnace {
		return nil
	}
	for _, c := range []Condition{o.Clean, o.Loaded} {
		if c.Frost {
			return finding(Stop, "frost", "apparatus dew point at or under 32 F (water freezes)",
				"The coil surface falls to %v at %v: it will frost, and a frosted coil stops the air.", c.ApparatusDewPt, c.Airflow)
		}
	}
	return nil
}

// judgeRise holds the temperature rise against the nameplate's range. Where its
// output or its range is assumed, the equipment is asked for, not stopped.
func (h *house) judgeRise(o *OptionResult) []Finding {
	e := h.Equipment
	rise, when := o.Clean.TemperatureRise, ""
	if rise <= e.RiseHigh && o.Loaded.TemperatureRise > e.RiseHigh {
		rise, when = o.Loaded.TemperatureRise, ", with the filter at its change limit"
	}
	high, knownHigh := h.riseSource("equipment.rise_high")
	low, knownLow := h.riseSource("equipment.rise_low")
	const ask = " Output or range is assumed: type the nameplate's."
	switch {
	case e.NoHeating:
		return nil
	case rise > e.RiseHigh && knownHigh:
		return []Finding{newFinding(Stop, "rise_high", high,
			"Heating raises the air by %v"+when+", over the nameplate's %v: too little air crosses the heat exchanger.", rise, e.RiseHigh)}
	case rise > e.RiseHigh:
		return []Finding{newFinding(Caution, "rise_high_assumed", high, "Heating would raise the air by %v"+when+", over %v."+ask, rise, e.RiseHigh)}
	case rise < e.RiseLow && knownLow:
		return []Finding{newFinding(Caution, "rise_low", low,
			"Heating raises the air by %v, under the nameplate's %v: flue gas may condense where it must not.", rise, e.RiseLow)}
	case rise < e.RiseLow:
		return []Finding{newFinding(Caution, "rise_low_assumed", low, "Heating would raise the air by %v, under %v."+ask, rise, e.RiseLow)}
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

func (h *house) judgeAirflow(o *OptionResult) *Finding {
	per := o.Clean.AirflowPerCapacity
	switch {
	case h.Equipment.Kind != Furnace && per < lowPerCapacity && per < h.AirflowPerCapacity*shortOfDesign:
		return finding(Caution, "airflow_low", "350 to 450 cfm per ton: "+commonPractice,
			"%v is %v of cooling: low, the coil gives less than it could.", o.Clean.Airflow, per)
	case o.Clean.Airflow < h.DesignAirflow*shortOfDesign:
		return finding(Caution, "airflow_short", "the design airflow",
			"%v is short of the design airflow of %v.", o.Clean.Airflow, h.DesignAirflow)
	case h.Equipment.Kind != Furnace && per > highPerCapacity:
		return finding(Caution, "airflow_high", "350 to 450 cfm per ton: "+commonPractice,
			"%v is %v of cooling: high, the coil takes out less moisture.", o.Clean.Airflow, per)
	}
	if o.Clean.Airflow < h.DesignAirflow*nearlyAll {
		return finding(Good, "airflow", "the design airflow", "%v is within 5 %% of the design airflow of %v.", o.Clean.Airflow, h.DesignAirflow)
	}
	return finding(Good, "airflow", "the design airflow", "%v meets the design airflow of %v.", o.Clean.Airflow, h.DesignAirflow)
}

func (h *house) judgeStatic(o *OptionResult) *Finding {
	rated := h.Equipment.RatedExternalStatic
	c := o.Clean
	if c.ExternalStatic <= rated {
		return finding(Good, "static", ratedStatic, "External static %v is within the rated %v.", c.ExternalStatic, rated)
	}
	worst := c.Parts[0]
	for _, p := range c.Parts {
		if p.Drop > worst.Drop {
			worst = p
		}
	}
	return finding(Caution, "static_high", ratedStatic,
		"External static %v is over the rated %v; the %s takes the most, %v.", c.ExternalStatic, rated, worst.Name, worst.Drop)
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
	if depth <= thickest || h.TargetFaceVelocity >= deepFace {
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
	limit, source := h.faceLimit(o.filterDepth)
	if o.FaceArea == 0 || o.Clean.FaceVelocity <= limit*1.0001 {
		return nil
	}
	need := units.Area(float64(o.Clean.Airflow) / float64(limit))
	return finding(Caution, "face_velocity", source,
		"Face velocity %v is over the %v for a filter of its depth: %v of face would meet it at %v, there is %v.", o.Clean.FaceVelocity, limit, need, o.Clean.Airflow, o.FaceArea)
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
	most, source := h.dropLimit()
	if o.Clean.FilterDrop <= most {
		return nil
	}
	return finding(Caution, "filter_drop", source,
		"The clean filter takes %v, over the %v that it may.", o.Clean.FilterDrop, most)
}

func (h *house) judgeLeak(o *OptionResult) *Finding {
	if o.LeakFraction < leakWorthSaying {
		return nil
	}
	const source = "share of the air that passes no media, computed"
	if o.Efficiency.InstalledMERV == o.Efficiency.MERV {
		return finding(Caution, "leak", source, "%.0f %% of the air slips past the filter, and what slips past fouls the coil.", 100*o.LeakFraction)
	}
	return finding(Caution, "leak", source,
		"%.0f %% of the air slips past the filter: installed it is worth MERV %d, not %d, and what slips past fouls the coil.",
		100*o.LeakFraction, o.Efficiency.InstalledMERV, o.Efficiency.MERV)
}

func (h *house) judgeHouse(s *Study) []Finding {
	out := h.judgeDucts(s)
	if s.AssumedShare > assumedWorthNote || s.BlowerAssumed {
		text := "%.0f %% of the external static rests on assumed parts"
		if s.BlowerAssumed {
			text += ", and the blower on a generic table"
		}
		out = append(out, newFinding(Caution, "assumed", "what was typed and measured", text+": measure or type what is marked as assumed.", 100*s.AssumedShare))
	}
	if h.gauge.round != nil && !h.gauge.inside {
		out = append(out, newFinding(Stop, "reading_off_table", blowersTable,
			"The measured external static of %v lies outside the blower's table: check the tap, the table and the ports.", h.gauge.static))
	}
	return out
}
