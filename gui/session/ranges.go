package session

import (
	"context"
	"time"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// Sample works out the ranges of a Job. It ends soon after the context is
// cancelled, and reports how many of its samples are finished.
type Sample func(ctx context.Context, job sizing.Job, done func(finished int)) ([]sizing.OptionRange, error)

// Ranging is how ranges are worked out beside the Study.
type Ranging struct {
	Sample  Sample
	Samples int // that Sample takes
	// Post brings progress from where Sample runs to the session's thread. Left
	// open: Sample runs on that thread, as with InStep.
	Post func(func())
	// Debounce is the pause after an edit before the work begins.
	Debounce time.Duration
	// Between is the shortest time between two reports of progress: a window
	// draws itself for each.
	Between time.Duration
}

// RangeState is how far the ranges of the newest Study are.
type RangeState int

const (
	RangesOff     RangeState = iota // switched off, or no way to work them out
	RangesWaiting                   // there is no Study of the Job as it stands
	RangesRunning
	RangesReady
	RangesCancelled // until the next edit
	RangesFailed
)

// RangeProgress is how far the work on the ranges is.
type RangeProgress struct {
	State        RangeState
	Finished, Of int // samples
	Unsolved     int // of the finished: those without a solution
	Fault        error
}

// ranges is the long work beside the solve. An edit cancels it; a late result
// of an older round is dropped.
type ranges struct {
	Ranging
	on        bool
	round     int
	stop      context.CancelFunc // of the work under way
	state     RangeState
	finished  int
	fault     error
	result    []sizing.OptionRange
	study     *sizing.Study // that the result belongs to
	listeners []func()
}

// RangeBy sets how ranges are calculated, and switches them on.
func (s *Session) RangeBy(r Ranging) {
	s.ranges.Ranging = r
	s.SetRanging(true)
}

// SetRanging switches the ranges on or off.
func (s *Session) SetRanging(on bool) {
	if s.ranges.on == on {
		return
	}
	s.ranges.on = on
	s.stopRanges()
	s.ranges.result, s.ranges.study = nil, nil
	s.changed()
	s.startRanges()
}

// Ranging reports whether ranges are calculated.
func (s *Session) Ranging() bool { return s.ranges.on && s.ranges.Sample != nil }

// OnRanges adds a listener for the progress of the ranges. Their result is
// reported to the listeners of OnChange.
func (s *Session) OnRanges(f func()) { s.ranges.listeners = append(s.ranges.listeners, f) }

// Ranges are how well the numbers of the Study are known; nil while that is not
// worked out for this very Study.
func (s *Session) Ranges() []sizing.OptionRange {
	if s.study == nil || s.ranges.study != s.study {
		return nil
	}
	return s.ranges.result
}

// RangeProgress is how far the ranges of the Job as it stands are.
func (s *Session) RangeProgress() RangeProgress {
	return RangeProgress{State: s.ranges.state, Finished: s.ranges.finished, Of: s.ranges.Samples, Unsolved: unsolved(s.ranges.result), Fault: s.ranges.fault}
}

// RangeWords are the state of the ranges, and which claims are missing without
// them.
func (s *Session) RangeWords() string {
	say := func(id message.ID, args ...any) string { return message.Text(s.units, id, args...) }
	r := &s.ranges
	switch r.state {
	case RangesOff:
		return say("Ranges are switched off: no option is called better.")
	case RangesRunning:
		return say("Ranges: {percent} %. Until they are there, no option is called better.", "percent", s.RangeProgress().Percent())
	case RangesReady:
		words := say("Ranges: known. A number with ± holds {share} % of {samples} samples, the filter clean; an option helps where {sure} % of them agree.",
			"share", message.Fixed(100*sizing.RangeShare, 0), "samples", r.Samples-unsolved(r.result), "sure", message.Fixed(100*sizing.SureShare, 0))
		if note := sizing.UnsolvedNote(r.result); !note.Empty() {
			words = words + " " + note.In(s.units)
		}
		return words
	case RangesCancelled:
		return say("Ranges were cancelled: no option is called better.")
	case RangesFailed:
		return say("Ranges cannot be worked out, and no option is called better: {fault}.", "fault", r.fault)
	}
	return say("Ranges wait for a result of the job as it stands.")
}

// unsolved is how many samples had no solution.
func unsolved(ranges []sizing.OptionRange) int {
	if len(ranges) == 0 {
		return 0
	}
	return ranges[0].Unsolved
}

// Percent is the share of the samples that are finished.
func (p RangeProgress) Percent() int { return 100 * p.Finished / max(p.Of, 1) }

// CancelRanges ends the work on the ranges until the next edit.
func (s *Session) CancelRanges() {
	if s.ranges.state == RangesRunning {
		s.stopRanges()
		s.ranges.state = RangesCancelled
		s.notifyRanges()
	}
}

// ResumeRanges begins again what was cancelled or failed.
func (s *Session) ResumeRanges() {
	if s.ranges.state == RangesCancelled || s.ranges.state == RangesFailed {
		s.startRanges()
	}
}

func (s *Session) notifyRanges() {
	for _, f := range s.ranges.listeners {
		f()
	}
}

// stopRanges ends the running work. Ranges already found stay with their Study.
func (s *Session) stopRanges() {
	r := &s.ranges
	if r.stop != nil {
		r.stop()
		r.stop = nil
	}
	r.round++
	r.finished, r.fault = 0, nil
	r.state = RangesWaiting
	if !s.Ranging() {
		r.state = RangesOff
	}
}

// startRanges begins the work for the Study as it stands.
func (s *Session) startRanges() {
	s.stopRanges()
	if s.tasks.Context().Err() != nil || !s.Ranging() || s.study == nil || s.Stale() {
		s.notifyRanges()
		return
	}
	ctx, stop := context.WithCancel(s.tasks.Context())
	var (
		r      = &s.ranges
		round  = r.round
		plan   = r.Ranging
		job    = s.job.Clone()
		study  = s.study
		result []sizing.OptionRange
	)
	r.stop, r.state = stop, RangesRunning
	s.notifyRanges()
	s.tasks.Go(func(context.Context) (err error) {
		result, err = plan.sampleAfterPause(ctx, job, func(finished int) { s.noteRanges(round, finished) })
		return err
	}, func(err error) {
		stop()
		if round != r.round {
			return
		}
		r.stop, r.state = nil, RangesReady
		if err != nil {
			r.state, r.fault = RangesFailed, err
		} else {
			// no claim of help where the samples do not agree
			s.study = sizing.WithRanges(study, result)
			r.result, r.study = result, s.study
		}
		s.notifyRanges()
		s.changed()
	})
}

// noteRanges receives progress on the session's thread.
func (s *Session) noteRanges(round, finished int) {
	if r := &s.ranges; round == r.round && r.state == RangesRunning {
		r.finished = finished
		s.notifyRanges()
	}
}

// mostReports is the most steps of progress that are reported: enough to see it
// move.
const mostReports = 20

// sampleAfterPause runs outside the session's thread. It waits first, so that quick typing
// starts no work.
func (p Ranging) sampleAfterPause(ctx context.Context, job sizing.Job, note func(finished int)) ([]sizing.OptionRange, error) {
	if p.Debounce > 0 {
		rest := time.NewTimer(p.Debounce)
		defer rest.Stop()
		select {
		case <-rest.C:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
	reported, last := 0, time.Now()
	return p.Sample(ctx, job, func(finished int) {
		step := finished * mostReports / max(p.Samples, 1)
		if step == reported {
			return
		}
		if p.Between > 0 && time.Since(last) < p.Between {
			return
		}
		reported, last = step, time.Now()
		if p.Post == nil {
			note(finished)
			return
		}
		p.Post(func() { note(finished) })
	})
}
