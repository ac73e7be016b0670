package sampling

import (
	"context"
	"runtime"
	"sync"

	"returnbench/sizing/assume"
	"returnbench/sizing/compare"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/option"
	"returnbench/sizing/perturb"
	"returnbench/sizing/recommend"
	"returnbench/sizing/study"
)

// The number of samples and the seed that window, pages and command line share,
// so that all have the same ranges of a job. With 200 samples the ends of a
// range are themselves known to about a seventh of the standard deviation of
// the number (README.md).
const (
	UsualSamples        = 200
	UsualSeed    uint64 = 1
)

// Sampling is how samples are taken. Fields left at zero have usual values,
// except the seed.
type Sampling struct {
	Samples int    // zero: UsualSamples
	Seed    uint64 // the same seed gives the same ranges
	Workers int    // at once; zero: one a processor. The ranges are the same with any number
	// Done, where not nil, is called with the number of samples finished: one call at a
	// time, each with a higher number.
	Done func(finished int)
}

// Ranges takes samples of the job with as many workers as there are processors.
// done, where not nil, is called with the number of samples finished; a cancelled
// context ends the work with its error.
func Ranges(ctx context.Context, j job.Job, samples int, seed uint64, done func(int)) ([]compare.OptionRange, error) {
	return Sampling{Samples: samples, Seed: seed, Done: done}.Ranges(ctx, j)
}

// Ranges solves the job many times, each time with its inputs changed within
// their uncertainty (Monte Carlo), and returns the range of each option's
// numbers: the middle nine tenths of the samples. It returns when all its workers
// have ended, also where the context is cancelled.
func (p Sampling) Ranges(ctx context.Context, j job.Job) ([]compare.OptionRange, error) {
	if faults := j.Check(); faults != nil {
		return nil, faults
	}
	return p.RangesWith(ctx, j, j.Uncertainty.Deviations())
}

// RangesWith is Ranges with given deviations in place of the job's; the job must
// have passed its check.
func (p Sampling) RangesWith(ctx context.Context, j job.Job, d job.Deviations) ([]compare.OptionRange, error) {
	if p.Samples <= 0 {
		p.Samples = UsualSamples
	}
	if p.Workers <= 0 {
		p.Workers = runtime.GOMAXPROCS(0)
	}
	runs := make([]compare.Sample, p.Samples)
	laws := house.NewMovedLaws(j.Filters)
	p.run(ctx, runs, func(i int) compare.Sample { return solveSample(j, perturb.New(d, p.Seed, i), laws) })
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return SolvedRanges(runs)
}

// run fills the samples. Each depends on its number alone, so that order and worker
// do not matter.
func (p Sampling) run(ctx context.Context, runs []compare.Sample, one func(int) compare.Sample) {
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

// solveSample turns a panic of the engine into an error: it runs on a goroutine
// without any other recover.
func solveSample(j job.Job, s *perturb.Perturbation, laws *house.LawCache) (out compare.Sample) {
	defer func() {
		if r := recover(); r != nil {
			out = compare.Sample{Err: message.Errorf("the engine stopped: {fault}", "fault", r)}
		}
	}()
	h, err := house.New(assume.JobWith(s.PerturbJob(j), s), laws)
	if err != nil {
		return compare.Sample{Err: err}
	}
	st := &study.Study{}
	if err := option.SolveAll(h, st); err != nil {
		return compare.Sample{Err: err}
	}
	recommend.JudgeOptions(h, st)
	for i := range st.Options {
		out.Options = append(out.Options, compare.NewHeadline(&st.Options[i]))
	}
	return out
}

// mostUnsolved is the share of samples that may be without a solution; above it the ranges
// would describe another house.
const mostUnsolved = 0.1

// SolvedRanges are the ranges over the samples that have a solution; each says how many
// have none.
func SolvedRanges(runs []compare.Sample) ([]compare.OptionRange, error) {
	var solved []compare.Sample
	var first error
	for _, r := range runs {
		if r.Err == nil {
			solved = append(solved, r)
		} else if first == nil {
			first = r.Err
		}
	}
	lost := len(runs) - len(solved)
	if float64(lost) > mostUnsolved*float64(len(runs)) {
		return nil, message.Errorf("{count} of {all} samples have no solution: {fault}", "count", lost, "all", len(runs), "fault", first)
	}
	ranges := compare.RangesOf(solved)
	for i := range ranges {
		ranges[i].Unsolved = lost
	}
	return ranges, nil
}
