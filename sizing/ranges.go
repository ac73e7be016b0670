package sizing

import (
	"context"
	"fmt"
	"runtime"
	"sync"

	"returnbench/sizing/units"
)

// Samples and seed that window, pages and command line share, so that all give
// the same ranges of a job. With 200 samples the ends of a range are themselves
// known to about a seventh of the standard deviation of the number (README.md).
const (
	UsualSamples        = 200
	UsualSeed    uint64 = 1
)

// RangeShare is the share of the samples that a Range holds.
const RangeShare = 0.9

// Range holds the middle nine tenths of the samples of a number.
type Range[T ~float64] struct {
	Low  T `json:"low"`
	High T `json:"high"`
}

// Within is how far the farther end of the range lies from v: v with this on
// either side covers at least the range.
func (r Range[T]) Within(v T) T { return max(r.High-v, v-r.Low, 0) }

// turned is the range of the number with the other sign.
func (r Range[T]) turned() Range[T] { return Range[T]{-r.High, -r.Low} }

// OptionRange is how well the headline numbers of an option are known, with a
// clean filter where nothing else is said.
type OptionRange struct {
	Name    string     `json:"name"`
	Kind    OptionKind `json:"kind"`    // as in OptionResult
	Samples int        `json:"samples"` // those that had a solution

	Airflow         Range[units.Flow]                  `json:"airflow"`
	LoadedAirflow   Range[units.Flow]                  `json:"loaded_airflow"` // at the change limit
	ExternalStatic  Range[units.Pressure]              `json:"external_static"`
	FilterDrop      Range[units.Pressure]              `json:"filter_drop"`
	BlowerPower     Range[units.Power]                 `json:"blower_power"`
	TemperatureRise Range[units.TemperatureDifference] `json:"temperature_rise"`
	Life            Range[units.Duration]              `json:"life"`
	AnnualCost      Range[units.Money]                 `json:"annual_cost"`
	// TenYearCost is left at zero where a price is missing, PaysBack where it is
	// not known whether the work pays.
	TenYearCost Range[units.Money] `json:"ten_year_cost,omitzero"`
	PaysBack    Agreement          `json:"pays_back,omitzero"` // share of the samples in which it does, and does not

	// Against today, sample by sample: what is uncertain of both alike does not
	// blur the difference.
	AirflowGain  Range[units.Flow]  `json:"airflow_gain"`
	PowerSaved   Range[units.Power] `json:"power_saved"`
	AnnualSaved  Range[units.Money] `json:"annual_saved"`
	MoreAir      Agreement          `json:"more_air"`
	FewerWatts   Agreement          `json:"fewer_watts"`
	LessFilter   Agreement          `json:"less_filter_drop"`
	CheaperAYear Agreement          `json:"cheaper_a_year"`
	// AgainstToday sums up airflow and watts; how well it cleans and what it costs
	// is not in it. Empty for today itself and for no filter.
	AgainstToday Standing `json:"against_today,omitzero"`

	drawn  map[string][]float64 // by key of a Measure, a number a sample; NaN where not known
	limits map[limitKey]*drawnLimit
}

// Sampling says how samples are taken. What is left open is usual, the seed
// aside.
type Sampling struct {
	Samples int    // zero: UsualSamples
	Seed    uint64 // the same seed gives the same ranges
	Workers int    // at once; zero: one a processor. The ranges are the same with any number
	// Done, where not nil, is told how many samples are finished: one call at a
	// time, each with a higher number.
	Done func(finished int)
}

// Ranges takes samples of the job with as many workers as there are processors.
// done, where not nil, is told how many samples are finished; a cancelled
// context ends the work with its error.
func Ranges(ctx context.Context, job Job, samples int, seed uint64, done func(int)) ([]OptionRange, error) {
	return Sampling{Samples: samples, Seed: seed, Done: done}.Ranges(ctx, job)
}

// Ranges solves the job many times, each time with what went in moved within
// its uncertainty, and gives the spread of each option's numbers. It returns when
// all its workers have ended, also where the context is cancelled.
func (p Sampling) Ranges(ctx context.Context, job Job) ([]OptionRange, error) {
	if faults := job.Check(); faults != nil {
		return nil, faults
	}
	return p.ranges(ctx, job, job.Uncertainty.Deviations())
}

func (p Sampling) ranges(ctx context.Context, job Job, d Deviations) ([]OptionRange, error) {
	if p.Samples <= 0 {
		p.Samples = UsualSamples
	}
	if p.Workers <= 0 {
		p.Workers = runtime.GOMAXPROCS(0)
	}
	runs := make([]sample, p.Samples)
	p.take(ctx, runs, func(i int) sample { return takeSample(job, newScatter(d, p.Seed, i)) })
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	solved, err := solvedSamples(runs)
	if err != nil {
		return nil, err
	}
	return spread(solved), nil
}

// take fills the samples, each by its number alone, so that it does not matter
// which worker takes it or when.
func (p Sampling) take(ctx context.Context, runs []sample, one func(int) sample) {
	var (
		mu             sync.Mutex
		next, finished int
		workers        sync.WaitGroup
	)
	draw := func() (int, bool) {
		mu.Lock()
		defer mu.Unlock()
		i := next
		next++
		return i, i < len(runs) && ctx.Err() == nil
	}
	work := func() {
		for i, more := draw(); more; i, more = draw() {
			runs[i] = one(i)
			mu.Lock()
			finished++
			if p.Done != nil {
				p.Done(finished)
			}
			mu.Unlock()
		}
	}
	for range min(p.Workers, len(runs)) {
		workers.Go(work)
	}
	workers.Wait()
}

// sample is the headline numbers of every option in one moved house.
type sample struct {
	options []headline
	err     error
}

type headline struct {
	name            string
	kind            OptionKind
	airflow, loaded units.Flow
	static, filter  units.Pressure
	power           units.Power
	rise            units.TemperatureDifference
	life            units.Duration
	cost, tenYears  units.Money
	payback         Payback
	figures         []float64 // of the sampled Measures, in their order; NaN where not known
	held            []held
}

// takeSample turns a slip of the engine into an error: it runs on a goroutine
// that nobody else watches.
func takeSample(job Job, s *scatter) (out sample) {
	defer func() {
		if r := recover(); r != nil {
			out = sample{err: fmt.Errorf("the engine stopped: %v", r)}
		}
	}()
	h, err := newHouse(assumeWith(s.moved(job), s), nil)
	if err != nil {
		return sample{err: err}
	}
	study := &Study{}
	if err := h.solveOptions(study); err != nil {
		return sample{err: err}
	}
	h.judgeOptions(study)
	for i := range study.Options {
		out.options = append(out.options, headlineOf(&study.Options[i]))
	}
	return out
}

func headlineOf(o *OptionResult) headline {
	c := &o.Clean
	return headline{
		name: o.Name, kind: o.Kind, airflow: c.Airflow, loaded: o.Loaded.Airflow, static: c.ExternalStatic,
		filter: c.FilterDrop, power: c.BlowerPower, rise: c.TemperatureRise, life: o.Life, cost: o.AnnualCost, tenYears: o.TenYearCost, payback: o.Payback,
		figures: figuresOf(o), held: o.held,
	}
}

// mostUnsolved is the share of samples that may be without a solution, as where
// chance moves two readings past each other; past it the ranges would not be of
// the house that was asked about.
const mostUnsolved = 0.1

func solvedSamples(runs []sample) ([]sample, error) {
	var solved []sample
	var first error
	for _, r := range runs {
		if r.err == nil {
			solved = append(solved, r)
		} else if first == nil {
			first = r.err
		}
	}
	if lost := len(runs) - len(solved); float64(lost) > mostUnsolved*float64(len(runs)) {
		return nil, fmt.Errorf("%d of %d samples have no solution: %w", lost, len(runs), first)
	}
	return solved, nil
}
