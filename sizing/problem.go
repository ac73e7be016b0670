package sizing

import (
	"fmt"

	"returnbench/sizing/units"
)

// Problem is what a trouble is called in every option, so that the same one is
// compared between them whatever finding tells of it.
type Problem string

const (
	OffTable     Problem = "off_table"
	Frost        Problem = "frost"
	FrostRisk    Problem = "frost_risk"
	RiseHigh     Problem = "rise_high"
	RiseLow      Problem = "rise_low"
	AirflowShort Problem = "airflow_short"
	AirflowHigh  Problem = "airflow_high"
	StaticHigh   Problem = "static_high"
	FaceVelocity Problem = "face_velocity"
	FilterDrop   Problem = "filter_drop"
	FilterLeak   Problem = "leak"
)

// problemOf names the problem of findings whose code is another.
var problemOf = map[string]Problem{
	"rise_high_assumed": RiseHigh,
	"rise_low_assumed":  RiseLow,
	"supply_cool":       RiseLow,
	"airflow_low":       AirflowShort,
	"airflow":           AirflowShort,
	"static":            StaticHigh,
}

// problemWords name a problem in a sentence.
var problemWords = map[Problem]string{
	OffTable: "a blower off its table", Frost: "coil frost", FrostRisk: "a risk of coil frost", RiseHigh: "too high a temperature rise", RiseLow: "too low a temperature rise",
	AirflowShort: "short airflow", AirflowHigh: "too much airflow", StaticHigh: "high external static", FaceVelocity: "high face velocity",
	FilterDrop: "high filter drop", FilterLeak: "air past the filter", "over_budget": "a price over the budget", "speed_up": "a faster wheel",
	"speed_far": "a speed far from the table's", "title24_efficacy": "fan efficacy by the energy code", "title24_airflow": "airflow by the energy code",
	"title24_merv": "MERV by the energy code", "title24_face": "filter face by the energy code", "title24_drop": "filter drop by the energy code",
	"title24_grilles": "filter grilles by the energy code", "title24_ducts": "return ducts by the energy code", "title24_run": "run length by the energy code",
	"title24_bends": "bends by the energy code", "title24_table_drop": "filter drop by the energy code's table", "ashrae622_merv": "MERV by ASHRAE 62.2",
	"ifgc_return_area": "return area by the fuel gas code", "title24_unmeasured": "airflow and watts not measured for the energy code",
	codeWall: "a grille too large for its wall", codeStudBay: "a grille too wide for its stud bay", codeRoom: "a cabinet too large for its room",
	codeDepth: "a cabinet too deep for its room", "merv": "too coarse a filter",
}

// Words name the problem in a sentence.
func (p Problem) Words() string {
	if w, ok := problemWords[p]; ok {
		return w
	}
	return string(p)
}

// FilterState is the state of the filter that a figure is of.
type FilterState string

const (
	WhenClean  FilterState = "clean"
	WhenLoaded FilterState = "loaded" // at the change limit
	WhenBoth   FilterState = "both"
)

// Amount is a measured figure or its limit: a quantity, or a Share.
type Amount interface {
	SI() float64
	Show(units.System) string
}

// Share is a part of a whole, 0 to 1.
type Share float64

// SI is the bare number.
func (s Share) SI() float64 { return float64(s) }

// Show writes it in percent.
func (s Share) Show(units.System) string { return fmt.Sprintf("%.1f %%", 100*float64(s)) }

// held is a limit that an option is held to in one state of its filter.
type held struct {
	problem  Problem
	state    FilterState
	measured Amount
	limit    Amount
	least    bool // the limit is a minimum
	missed   bool
}

// over is how far a figure lies past the limit, in SI; zero or less within it.
func (l *held) over(v Amount) float64 {
	if l.least {
		return l.limit.SI() - v.SI()
	}
	return v.SI() - l.limit.SI()
}

// holds are all the limits of an option, each state by itself. The clean filter
// alone is held to face velocity and drop: dust slows the air, and a filter is
// there to be loaded. The airflow may fall with dust by the share at which the
// job has the filter changed, and no further.
func (h *house) holds(o *OptionResult) []held {
	mostDrop, _ := h.dropLimit()
	out := []held{atMost(FilterDrop, WhenClean, o.Clean.FilterDrop, mostDrop)}
	if o.FaceArea > 0 {
		limit, _ := h.faceLimit(o.filterDepth)
		out = append(out, atMost(FaceVelocity, WhenClean, o.Clean.FaceVelocity, limit))
	}
	for _, s := range []struct {
		state   FilterState
		at      *Condition
		airflow units.Flow
	}{
		{WhenClean, &o.Clean, h.DesignAirflow},
		{WhenLoaded, &o.Loaded, h.DesignAirflow * units.Flow(1-h.Limits.ChangeAirflowLoss)},
	} {
		flow := atLeast(AirflowShort, s.state, s.at.Airflow, s.airflow)
		flow.missed = short(s.at.Airflow, s.airflow)
		out = append(out, flow,
			atMost(StaticHigh, s.state, s.at.ExternalStatic, h.Equipment.RatedExternalStatic),
			h.heldToTable(o, s.state, s.at))
		leak := atMost(FilterLeak, s.state, Share(s.at.LeakFraction), Share(leakWorthSaying))
		leak.missed = s.at.LeakFraction >= leakWorthSaying
		out = append(out, leak)
		if h.Equipment.Kind != Furnace {
			out = append(out, frost(s.state, s.at), frostRisk(s.state, s.at), atMost(AirflowHigh, s.state, s.at.AirflowPerCapacity, highPerCapacity))
		}
		if e := h.Equipment; !e.NoHeating {
			out = append(out, atMost(RiseHigh, s.state, s.at.TemperatureRise, e.RiseHigh), atLeast(RiseLow, s.state, s.at.TemperatureRise, e.RiseLow))
		}
	}
	return out
}

// frost holds the coil to the surface at which it will frost.
func frost(state FilterState, c *Condition) held {
	l := atLeast(Frost, state, c.ApparatusDewPt, coldestSurface)
	if c.ApparatusDewPt > coldestSurface && c.CoilAirLeaving < coldestLeaving {
		l = atLeast(Frost, state, c.CoilAirLeaving, coldestLeaving)
	}
	l.missed = c.Frost
	return l
}

// frostRisk holds it to the surface and to the airflow per ton at which it may.
func frostRisk(state FilterState, c *Condition) held {
	l := atLeast(FrostRisk, state, c.ApparatusDewPt, coolSurface)
	if c.ApparatusDewPt >= coolSurface {
		l = atLeast(FrostRisk, state, c.AirflowPerCapacity, leastPerCapacity)
	}
	l.missed = l.missed && !c.Frost
	return l
}

// heldToTable holds the operating point to the nearer end of the blower table.
func (h *house) heldToTable(o *OptionResult, state FilterState, c *Condition) held {
	low, high, _, _ := h.curves[o.Tap].Range()
	l := atMost(OffTable, state, c.ExternalStatic, high)
	if c.ExternalStatic < low {
		l = atLeast(OffTable, state, c.ExternalStatic, low)
	}
	l.missed = !c.Inside
	return l
}

// bound is a quantity or a Share.
type bound interface {
	~float64
	Amount
}

func atMost[T bound](p Problem, state FilterState, v, most T) held {
	return held{p, state, v, most, false, exceeds(v, most)}
}

func atLeast[T bound](p Problem, state FilterState, v, least T) held {
	return held{p, state, v, least, true, under(v, least)}
}

// heldTo finds the limit of a problem in a state; nil where there is none.
func (o *OptionResult) heldTo(p Problem, state FilterState) *held {
	for i := range o.held {
		if l := &o.held[i]; l.problem == p && l.state == state {
			return l
		}
	}
	return nil
}

// misses tells whether the option misses a limit in a state.
func (o *OptionResult) misses(p Problem, state FilterState) bool {
	l := o.heldTo(p, state)
	return l != nil && l.missed
}

// measure gives a finding its problem, the state it is there in, and by what.
func (o *OptionResult) measure(f *Finding) {
	f.Problem = Problem(f.Code)
	if p, ok := problemOf[f.Code]; ok {
		f.Problem = p
	}
	clean, loaded := o.heldTo(f.Problem, WhenClean), o.heldTo(f.Problem, WhenLoaded)
	if clean == nil {
		return
	}
	told := clean
	switch {
	case f.Severity == Good:
		f.State = WhenClean
	case o.misses(f.Problem, WhenClean) && o.misses(f.Problem, WhenLoaded):
		f.State = WhenBoth
	case o.misses(f.Problem, WhenLoaded):
		f.State, told = WhenLoaded, loaded
	default:
		f.State = WhenClean
	}
	f.Measured, f.Limit = told.measured, told.limit
}
