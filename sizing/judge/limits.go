package judge

import (
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Airflow per capacity that is usual in cooling, common practice, no source. Frost
// has its limits in house/frost.go; those of the equipment and of the job are typed.
const (
	lowPerCapacity  = 350 * units.CFMPerTon
	highPerCapacity = 450 * units.CFMPerTon
)

// leakThreshold is the share of the air past the media from which a leak is
// reported (common practice, no source).
const leakThreshold = 0.02

// assumedThreshold is the share of the external static from assumed parts above which
// a finding reports it (this program's own).
const assumedThreshold = 0.5

// judgeBreaches reports where an option does not fit the house.
func judgeBreaches(o *study.OptionResult) []study.Finding {
	var out []study.Finding
	for _, b := range o.Breaches {
		out = append(out, b.Finding())
	}
	return out
}

// problemOf names the problem of findings whose code is another.
var problemOf = map[string]study.Problem{
	codeRiseHighAssumed: study.RiseHigh,
	codeRiseLowAssumed:  study.RiseLow,
	"supply_cool":       study.RiseLow,
	"airflow_low":       study.AirflowShort,
	"airflow":           study.AirflowShort,
	"static":            study.StaticHigh,
}

// mostLimits is the most limits that an option has, clean and dirty.
const mostLimits = 20

// optionLimits are all the limits of an option, each state by itself. Only the clean
// filter is compared with the limits of face velocity and drop: with dust the air is
// slower, and a rising drop is normal. The airflow may fall with dust by the share at
// which the job has the filter changed, and no further.
func optionLimits(h *house.House, o *study.OptionResult) []study.HeldLimit {
	mostDrop, _ := h.DropLimit()
	out := make([]study.HeldLimit, 0, mostLimits)
	out = append(out, study.AtMost(study.FilterDrop, study.WhenClean, o.Clean.FilterDrop, mostDrop))
	if o.FaceArea > 0 {
		limit, _ := faceLimit(h, o.FilterDepth)
		out = append(out, study.AtMost(study.FaceVelocity, study.WhenClean, o.Clean.FaceVelocity, limit))
	}
	for _, s := range []struct {
		state   study.FilterState
		at      *study.Condition
		airflow units.Flow
	}{
		{study.WhenClean, &o.Clean, h.DesignAirflow},
		{study.WhenLoaded, &o.Loaded, h.DesignAirflow * units.Flow(1-h.Limits.ChangeAirflowLoss)},
	} {
		flow := study.AtLeast(study.AirflowShort, s.state, s.at.Airflow, s.airflow)
		flow.Missed = study.Short(s.at.Airflow, s.airflow)
		out = append(out, flow,
			study.AtMost(study.StaticHigh, s.state, s.at.ExternalStatic, h.Equipment.RatedExternalStatic),
			tableLimit(h, o, s.state, s.at))
		leak := study.AtMost(study.FilterLeak, s.state, study.Share(s.at.LeakFraction), study.Share(leakThreshold))
		leak.Missed = s.at.LeakFraction >= leakThreshold
		out = append(out, leak)
		if h.Equipment.Kind != job.Furnace {
			out = append(out, frost(s.state, s.at), frostRisk(s.state, s.at), study.AtMost(study.AirflowHigh, s.state, s.at.AirflowPerCapacity, highPerCapacity))
		}
		if e := h.Equipment; !e.NoHeating {
			out = append(out, study.AtMost(study.RiseHigh, s.state, s.at.TemperatureRise, e.RiseHigh), study.AtLeast(study.RiseLow, s.state, s.at.TemperatureRise, e.RiseLow))
		}
	}
	return out
}

// frost compares the coil with the surface temperature at which it will frost.
func frost(state study.FilterState, c *study.Condition) study.HeldLimit {
	l := study.AtLeast(study.Frost, state, c.ApparatusDewPt, house.ColdestSurface)
	if c.ApparatusDewPt > house.ColdestSurface && c.CoilAirLeaving < house.ColdestLeaving {
		l = study.AtLeast(study.Frost, state, c.CoilAirLeaving, house.ColdestLeaving)
	}
	l.Missed = c.Frost
	return l
}

// frostRisk compares the coil with the surface temperature, and with the airflow per
// ton, under which it may frost.
func frostRisk(state study.FilterState, c *study.Condition) study.HeldLimit {
	l := study.AtLeast(study.FrostRisk, state, c.ApparatusDewPt, house.CoolSurface)
	if c.ApparatusDewPt >= house.CoolSurface {
		l = study.AtLeast(study.FrostRisk, state, c.AirflowPerCapacity, house.LeastPerCapacity)
	}
	l.Missed = l.Missed && !c.Frost
	return l
}

// tableLimit compares the operating point with the nearer end of the blower table.
func tableLimit(h *house.House, o *study.OptionResult, state study.FilterState, c *study.Condition) study.HeldLimit {
	low, high, _, _ := h.TapCurve(o.Tap, o.SpeedRatio).Range()
	l := study.AtMost(study.OffTable, state, c.ExternalStatic, high)
	if c.ExternalStatic < low {
		l = study.AtLeast(study.OffTable, state, c.ExternalStatic, low)
	}
	l.Missed = !c.WithinBlowerTable
	return l
}

// measure sets the problem of a finding, the state of the filter, the figure and the limit.
func measure(o *study.OptionResult, f *study.Finding) {
	f.Problem = study.Problem(f.Code)
	if p, ok := problemOf[f.Code]; ok {
		f.Problem = p
	}
	clean, loaded := o.LimitFor(f.Problem, study.WhenClean), o.LimitFor(f.Problem, study.WhenLoaded)
	if clean == nil {
		return
	}
	worst := clean
	switch {
	case f.Severity == study.Good:
		f.State = study.WhenClean
	case o.Misses(f.Problem, study.WhenClean) && o.Misses(f.Problem, study.WhenLoaded):
		f.State = study.WhenBoth
	case o.Misses(f.Problem, study.WhenLoaded):
		f.State, worst = study.WhenLoaded, loaded
	default:
		f.State = study.WhenClean
	}
	f.Measured, f.Limit = worst.Measured, worst.Limit
}
