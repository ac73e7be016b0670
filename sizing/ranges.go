package sizing

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// Uncertainty says how well what went in is known, as relative standard
// deviations; left open, the usual ones below stand.
type Uncertainty struct {
	Gauge       float64 `json:"gauge,omitzero"`        // of a pressure read
	BlowerTable float64 `json:"blower_table,omitzero"` // of the airflow of a blower table
	Rating      float64 `json:"rating,omitzero"`       // of a printed drop
	Assumed     float64 `json:"assumed,omitzero"`      // of what nobody typed or measured
}

// Usual relative standard deviations: common practice, no source.
const (
	usualGauge       = 0.03
	usualBlowerTable = 0.04
	usualRating      = 0.05
	usualAssumed     = 0.25
)

func (u Uncertainty) filled() Uncertainty {
	fill := func(v *float64, usual float64) {
		if *v == 0 {
			*v = usual
		}
	}
	fill(&u.Gauge, usualGauge)
	fill(&u.BlowerTable, usualBlowerTable)
	fill(&u.Rating, usualRating)
	fill(&u.Assumed, usualAssumed)
	return u
}

// Range holds the middle nine tenths of the samples of a number.
type Range[T any] struct {
	Low  T `json:"low"`
	High T `json:"high"`
}

// OptionRange is how well the headline numbers of an option are known.
type OptionRange struct {
	Name            string                             `json:"name"`
	Airflow         Range[units.Flow]                  `json:"airflow"`
	ExternalStatic  Range[units.Pressure]              `json:"external_static"`
	FilterDrop      Range[units.Pressure]              `json:"filter_drop"`
	BlowerPower     Range[units.Power]                 `json:"blower_power"`
	TemperatureRise Range[units.TemperatureDifference] `json:"temperature_rise"`
	Life            Range[units.Duration]              `json:"life"`
	AnnualCost      Range[units.Money]                 `json:"annual_cost"`
	// Against today, sample by sample.
	AirflowGain  Range[units.Flow]  `json:"airflow_gain"`
	PowerSaved   Range[units.Power] `json:"power_saved"`
	MoreAir      Agreement          `json:"more_air"`
	FewerWatts   Agreement          `json:"fewer_watts"`
	LessFilter   Agreement          `json:"less_filter_drop"`
	CheaperAYear Agreement          `json:"cheaper_a_year"`
}

// Agreement is the share of samples in which a claim holds.
type Agreement float64

// Sure is the share from which a claim is made at all.
const Sure Agreement = 0.95

// Holds tells whether the claim may be made.
func (a Agreement) Holds() bool { return a >= Sure }

// Ranges solves the job many times, each time with what went in moved within
// its uncertainty, and gives the spread of each option's numbers. The same seed
// gives the same ranges. done, where not nil, is told how many samples are
// finished; a cancelled context ends the work with its error.
func Ranges(ctx context.Context, job Job, samples int, seed uint64, done func(int)) ([]OptionRange, error) {
	if faults := job.Check(); faults != nil {
		return nil, faults
	}
	var runs [][]OptionResult
	random := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	for i := range samples {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s, err := solveSample(job, newScatter(job.Uncertainty.filled(), random))
		if err != nil {
			return nil, err
		}
		runs = append(runs, s.Options)
		if done != nil {
			done(i + 1)
		}
	}
	return spread(runs), nil
}

func solveSample(job Job, s *scatter) (*Study, error) {
	h, err := newHouse(assumeWith(s.moved(job), s), nil)
	if err != nil {
		return nil, err
	}
	study := &Study{}
	return study, h.solveOptions(study)
}

// scatter moves what goes into one sample. A nil scatter moves nothing.
type scatter struct {
	u      Uncertainty
	random *rand.Rand
}

func newScatter(u Uncertainty, random *rand.Rand) *scatter { return &scatter{u, random} }

// factor is lognormal about 1, so that no sample turns a drop negative.
func (s *scatter) factor(deviation float64) float64 {
	if s == nil {
		return 1
	}
	return math.Exp(deviation * s.random.NormFloat64())
}

func (s *scatter) assumed() float64 {
	if s == nil {
		return 1
	}
	return s.factor(s.u.Assumed)
}

// moved is the job with what was typed and read moved within its uncertainty.
func (s *scatter) moved(job Job) Job {
	j := job.Clone()
	scaleTaps(j.Equipment.Blower.Taps, s.factor(s.u.BlowerTable))
	for i := range j.Filters {
		k := units.Pressure(s.factor(s.u.Rating))
		for p := range j.Filters[i].Rating {
			j.Filters[i].Rating[p].Drop *= k
		}
		j.Filters[i].MediaResistance *= units.MediaResistance(k)
		j.Filters[i].MediaPermeability /= units.Permeability(k)
	}
	j.Coil.Drop *= units.Pressure(s.factor(s.u.Rating))
	j.Supply.Drop *= units.Pressure(s.factor(s.u.Rating))
	for i := range j.Readings {
		r := &j.Readings[i]
		for _, p := range []*units.Pressure{&r.ReturnPlenum, &r.BlowerInlet, &r.BlowerOutlet, &r.SupplyPlenum, &r.FilterDrop} {
			*p *= units.Pressure(s.factor(s.u.Gauge))
		}
	}
	return j
}

func scaleTaps(taps []blower.Tap, k float64) {
	for i := range taps {
		for p := range taps[i].Points {
			taps[i].Points[p].Airflow *= units.Flow(k)
		}
	}
}

func spread(runs [][]OptionResult) []OptionRange {
	if len(runs) == 0 {
		return nil
	}
	out := make([]OptionRange, len(runs[0]))
	for i := range out {
		at := func(run int) *OptionResult { return &runs[run][i] }
		today := func(run int) *OptionResult { return &runs[run][1] }
		n := len(runs)
		r := OptionRange{Name: runs[0][i].Name}
		r.Airflow = middle(n, func(k int) units.Flow { return at(k).Clean.Airflow })
		r.ExternalStatic = middle(n, func(k int) units.Pressure { return at(k).Clean.ExternalStatic })
		r.FilterDrop = middle(n, func(k int) units.Pressure { return at(k).Clean.FilterDrop })
		r.BlowerPower = middle(n, func(k int) units.Power { return at(k).Clean.BlowerPower })
		r.TemperatureRise = middle(n, func(k int) units.TemperatureDifference { return at(k).Clean.TemperatureRise })
		r.Life = middle(n, func(k int) units.Duration { return at(k).Life })
		r.AnnualCost = middle(n, func(k int) units.Money { return at(k).AnnualCost })
		r.AirflowGain = middle(n, func(k int) units.Flow { return at(k).Clean.Airflow - today(k).Clean.Airflow })
		r.PowerSaved = middle(n, func(k int) units.Power { return today(k).Clean.BlowerPower - at(k).Clean.BlowerPower })
		r.MoreAir = agree(n, func(k int) bool { return at(k).Clean.Airflow > today(k).Clean.Airflow })
		r.FewerWatts = agree(n, func(k int) bool { return at(k).Clean.BlowerPower < today(k).Clean.BlowerPower })
		r.LessFilter = agree(n, func(k int) bool { return at(k).Clean.FilterDrop < today(k).Clean.FilterDrop })
		r.CheaperAYear = agree(n, func(k int) bool { return at(k).AnnualCost < today(k).AnnualCost })
		out[i] = r
	}
	return out
}

// middle is the range between the 5th and the 95th hundredth of n values.
func middle[T ~float64](n int, value func(int) T) Range[T] {
	vs := make([]T, n)
	for i := range vs {
		vs[i] = value(i)
	}
	slices.Sort(vs)
	at := func(share float64) T { return vs[int(math.Round(share*float64(n-1)))] }
	return Range[T]{at(0.05), at(0.95)}
}

func agree(n int, holds func(int) bool) Agreement {
	count := 0
	for i := range n {
		if holds(i) {
			count++
		}
	}
	return Agreement(float64(count) / float64(n))
}

// RangeFindings say of each option what the samples agree on.
func RangeFindings(ranges []OptionRange) []Finding {
	const source = "sampled uncertainty of gauge, blower table, ratings and assumptions"
	var out []Finding
	for i, r := range ranges {
		if i < 2 {
			continue
		}
		f := newFinding(Caution, "upgrade_unsure", source, "%s: what is known is too uncertain to say that it helps; airflow changes by %v to %v.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
		switch {
		case r.MoreAir.Holds():
			f = newFinding(Good, "upgrade_helps", source, "%s moves more air than today: %v to %v more.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
		case r.FewerWatts.Holds():
			f = newFinding(Good, "upgrade_helps", source, "%s takes fewer watts than today: %v to %v less.", r.Name, r.PowerSaved.Low, r.PowerSaved.High)
		}
		f.Option = r.Name
		out = append(out, f)
	}
	return out
}
