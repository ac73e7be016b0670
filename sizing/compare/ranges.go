package compare

import (
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// RangeShare is the share of the samples that a Range holds.
const RangeShare = 0.9

// Range holds the middle nine tenths of the samples of a number.
type Range[T ~float64] struct {
	Low  T `json:"low"`
	High T `json:"high"`
}

// Within is the distance from v to the farther end of the range: v plus and
// minus this covers at least the range.
func (r Range[T]) Within(v T) T { return max(r.High-v, v-r.Low, 0) }

// negated is the range of the number with the other sign.
func (r Range[T]) negated() Range[T] { return Range[T]{-r.High, -r.Low} }

// OptionRange is how well the headline numbers of an option are known, with a
// clean filter where nothing else is said.
type OptionRange struct {
	Name    string           `json:"name"`
	Kind    study.OptionKind `json:"kind"`    // as in OptionResult
	Samples int              `json:"samples"` // those that had a solution
	// Unsolved is how many samples had none; they are left out.
	Unsolved int `json:"unsolved,omitzero"`

	Airflow         Range[units.Flow]                  `json:"airflow"`          // m3/s, clean
	LoadedAirflow   Range[units.Flow]                  `json:"loaded_airflow"`   // at the change limit
	ExternalStatic  Range[units.Pressure]              `json:"external_static"`  // Pa, clean
	FilterDrop      Range[units.Pressure]              `json:"filter_drop"`      // Pa, clean
	BlowerPower     Range[units.Power]                 `json:"blower_power"`     // W, clean
	TemperatureRise Range[units.TemperatureDifference] `json:"temperature_rise"` // K, clean
	Life            Range[units.Duration]              `json:"life"`             // s of the calendar, to the first change
	AnnualCost      Range[units.Money]                 `json:"annual_cost"`      // power and filters
	// TenYearCost is zero where a price is missing, PaysBack where it is not
	// known whether the work pays for itself.
	TenYearCost Range[units.Money] `json:"ten_year_cost,omitzero"`
	PaysBack    Agreement          `json:"pays_back,omitzero"` // share of the samples in which it does, and does not

	// Differences from today within each sample: an uncertainty that both share
	// does not blur them.
	AirflowGain  Range[units.Flow]  `json:"airflow_gain"`
	PowerSaved   Range[units.Power] `json:"power_saved"`
	AnnualSaved  Range[units.Money] `json:"annual_saved"`
	MoreAir      Agreement          `json:"more_air"`
	FewerWatts   Agreement          `json:"fewer_watts"`
	LessFilter   Agreement          `json:"less_filter_drop"`
	CheaperAYear Agreement          `json:"cheaper_a_year"`
	// AgainstToday is the claim about airflow and watts alone, without efficiency
	// and cost. Empty for today itself and for no filter.
	AgainstToday Claim `json:"against_today,omitzero"`

	Drawn  map[string][]float64     `json:"-"` // by key of a Measure, a number a sample; NaN where not known
	Limits map[LimitKey]*DrawnLimit `json:"-"`
}

// UnsolvedNote is a sentence with the number of samples that had no solution and
// are left out; empty where all had one.
func UnsolvedNote(ranges []OptionRange) message.Message {
	if len(ranges) == 0 {
		return message.Message{}
	}
	first := ranges[0] // a sample without a solution is left out of all
	if first.Unsolved == 0 {
		return message.Message{}
	}
	return message.New("{count} of {all} samples have no solution and are left out.", "count", first.Unsolved, "all", first.Samples+first.Unsolved)
}

// Sample is the headline numbers of every option in one perturbed house.
type Sample struct {
	Options []headline
	Err     error
}

type headline struct {
	name            string
	kind            study.OptionKind
	airflow, loaded units.Flow
	static, filter  units.Pressure
	power           units.Power
	rise            units.TemperatureDifference
	life            units.Duration
	cost, tenYears  units.Money
	payback         study.Payback
	figures         []float64 // of the sampled Measures, in their order; NaN where not known
	held            []study.HeldLimit
}

// NewHeadline takes the headline numbers from a solved option.
func NewHeadline(o *study.OptionResult) headline {
	c := &o.Clean
	return headline{
		name: o.Name, kind: o.Kind, airflow: c.Airflow, loaded: o.Loaded.Airflow, static: c.ExternalStatic,
		filter: c.FilterDrop, power: c.BlowerPower, rise: c.TemperatureRise, life: o.Life, cost: o.AnnualCost, tenYears: o.TenYearCost, payback: o.Payback,
		figures: sampledFigures(o), held: o.Held,
	}
}
