package study

import (
	"strconv"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Problem identifies a problem in every option, so that it can be compared
// between them, whichever finding reports it.
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

// problemWords name a problem in a sentence.
var problemWords = map[Problem]message.ID{
	OffTable: "a blower off its table", Frost: "coil frost", FrostRisk: "a risk of coil frost", RiseHigh: "too high a temperature rise", RiseLow: "too low a temperature rise",
	AirflowShort: "short airflow", AirflowHigh: "too much airflow", StaticHigh: "high external static", FaceVelocity: "high face velocity",
	FilterDrop: "high filter drop", FilterLeak: "air past the filter", "over_budget": "a price over the budget", "speed_up": "a faster wheel",
	"speed_far": "a speed far from the table's", "title24_efficacy": "fan efficacy by the energy code", "title24_airflow": "airflow by the energy code",
	"title24_merv": "MERV by the energy code", "title24_face": "filter face by the energy code", "title24_drop": "filter drop by the energy code",
	"title24_grilles": "filter grilles by the energy code", "title24_ducts": "return ducts by the energy code", "title24_run": "run length by the energy code",
	"title24_bends": "bends by the energy code", "title24_table_drop": "filter drop by the energy code's table", "ashrae622_merv": "MERV by ASHRAE 62.2",
	"ifgc_return_area": "return area by the fuel gas code", "title24_unmeasured": "airflow and watts not measured for the energy code",
	CodeWall: "a grille too large for its wall", CodeStudBay: "a grille too wide for its stud bay", CodeRoom: "a cabinet too large for its room",
	CodeDepth: "a cabinet too deep for its room", "merv": "too coarse a filter",
}

// Words name the problem in a sentence.
func (p Problem) Words() message.ID {
	if w, ok := problemWords[p]; ok {
		return w
	}
	return message.ID(p)
}

// Show is Words, written for a reader.
func (p Problem) Show(l units.Locale) string { return message.Text(l, p.Words()) }

// FilterState is the state of the filter to which a figure belongs.
type FilterState string

const (
	WhenClean  FilterState = "clean"
	WhenLoaded FilterState = "loaded" // at the change limit
	WhenBoth   FilterState = "both"
)

var filterStates = map[FilterState]message.ID{WhenClean: "clean", WhenLoaded: "loaded", WhenBoth: "both"}

// Show names the state.
func (s FilterState) Show(l units.Locale) string { return message.Text(l, filterStates[s]) }

// Amount is a measured figure or its limit: a quantity, or a Share.
type Amount interface {
	SI() float64
	Show(units.Locale) string
}

// Share is a part of a whole, 0 to 1.
type Share float64

// SI is the plain number.
func (s Share) SI() float64 { return float64(s) }

// Show writes it in percent.
func (s Share) Show(l units.Locale) string {
	return l.Mark(strconv.FormatFloat(100*float64(s), 'f', 1, 64)) + " %"
}

// HeldLimit is a limit with which an option is compared in one state of its
// filter.
type HeldLimit struct {
	Problem  Problem
	State    FilterState
	Measured Amount
	Limit    Amount
	Least    bool // the limit is a minimum
	Missed   bool
}

// Over is how far a figure is beyond the limit, in SI; zero or less where it
// keeps it.
func (l *HeldLimit) Over(v Amount) float64 {
	if l.Least {
		return l.Limit.SI() - v.SI()
	}
	return v.SI() - l.Limit.SI()
}

// bound is a quantity or a Share.
type bound interface {
	~float64
	Amount
}

// AtMost compares a figure with a maximum; see Exceeds.
func AtMost[T bound](p Problem, state FilterState, v, most T) HeldLimit {
	return HeldLimit{p, state, v, most, false, Exceeds(v, most)}
}

// AtLeast compares a figure with a minimum; see Under.
func AtLeast[T bound](p Problem, state FilterState, v, least T) HeldLimit {
	return HeldLimit{p, state, v, least, true, Under(v, least)}
}

// LimitFor finds the limit of a problem in a state; nil where there is none.
func (o *OptionResult) LimitFor(p Problem, state FilterState) *HeldLimit {
	for i := range o.Held {
		if l := &o.Held[i]; l.Problem == p && l.State == state {
			return l
		}
	}
	return nil
}

// Misses reports whether the option misses a limit in a state.
func (o *OptionResult) Misses(p Problem, state FilterState) bool {
	l := o.LimitFor(p, state)
	return l != nil && l.Missed
}
