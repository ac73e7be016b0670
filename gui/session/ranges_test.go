package session

import (
	"context"
	"errors"
	"os"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

const someSamples = 40

// echoRanges is a Sample whose range is the airflow of the job.
func echoRanges(ctx context.Context, j sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
	for i := range someSamples {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		done(i + 1)
	}
	return []sizing.OptionRange{{Airflow: sizing.Range[units.Flow]{Low: j.DesignAirflow, High: j.DesignAirflow}}}, nil
}

func TestRangesFollowTheStudyAndReportProgress(t *testing.T) {
	s := New(echo, InStep)
	require.Equal(t, RangesOff, s.RangeProgress().State)
	s.RangeBy(Ranging{Sample: echoRanges, Samples: someSamples})
	var heard []int
	ready := 0
	s.OnRanges(func() {
		if p := s.RangeProgress(); p.State == RangesRunning {
			heard = append(heard, p.Finished)
			require.Equal(t, someSamples, p.Of)
		}
	})
	s.OnChange(func() {
		if s.Ranges() != nil {
			ready++
		}
	})
	s.Apply("Design airflow", airflow(3))
	require.Equal(t, RangesReady, s.RangeProgress().State)
	require.Equal(t, units.Flow(3), s.Ranges()[0].Airflow.High)
	require.Positive(t, ready, "the result is told as a change")
	require.Len(t, heard, 1+mostReports, "the start and each step")
	require.IsIncreasing(t, heard)
	require.Equal(t, someSamples, heard[len(heard)-1])
}

// Once the samples are there, what they do not agree on is no longer said to help: the
// window says what the pages say.
func TestTheStudyIsHeldToItsSamples(t *testing.T) {
	data, err := os.ReadFile("../../assets/jobs/two-returns.job.json")
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	s := New(sizing.Solve, InStep)
	s.RangeBy(Ranging{Samples: 40, Sample: func(ctx context.Context, j sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
		return sizing.Ranges(ctx, j, 40, 2, done)
	}})
	s.Apply("Open", func(j *sizing.Job) { *j = job })
	plain, err := sizing.Solve(job)
	require.NoError(t, err)
	require.NotNil(t, s.Ranges())
	held := sizing.WithRanges(plain, s.Ranges())
	require.NotEqual(t, plain.Recommendation.Why.In(units.IP), held.Recommendation.Why.In(units.IP), "an example that can tell")
	require.Equal(t, held.Recommendation.Why.In(units.IP), s.Study().Recommendation.Why.In(units.IP))
	require.Equal(t, held.Option("a third grille").Against, s.Study().Option("a third grille").Against)
}

// Samples without a solution are counted, and a person is told how many.
func TestSamplesWithoutASolutionAreReported(t *testing.T) {
	s := New(echo, InStep)
	s.RangeBy(Ranging{Samples: 20, Sample: func(context.Context, sizing.Job, func(int)) ([]sizing.OptionRange, error) {
		return []sizing.OptionRange{{Samples: 18, Unsolved: 2}}, nil
	}})
	s.Apply("Design airflow", airflow(3))
	require.Equal(t, 2, s.RangeProgress().Unsolved)
	require.Contains(t, s.RangeWords(), "90 % of 18 samples")
	require.Contains(t, s.RangeWords(), "2 of 20 samples have no solution and are left out.")
}

func TestRangesNeverHoldUpTheStudy(t *testing.T) {
	q := &queue{}
	s := New(echo, q.run)
	s.RangeBy(Ranging{Sample: echoRanges, Samples: someSamples})
	q.next()
	for _, a := range []units.Flow{1, 2} {
		s.Apply("Design airflow", airflow(a))
		for s.Stale() {
			q.next()
		}
		require.Equal(t, a, s.Study().DesignAirflow)
		require.Nil(t, s.Ranges(), "older ranges are not those of this study")
		require.Equal(t, RangesRunning, s.RangeProgress().State)
	}
	for len(q.waiting) > 0 {
		q.next()
	}
	require.Equal(t, units.Flow(2), s.Ranges()[0].Airflow.High)
}

func TestTheNewestEditsRangesWin(t *testing.T) {
	q := &queue{}
	s := New(echo, q.run)
	var sampled []units.Flow
	s.RangeBy(Ranging{Samples: someSamples, Sample: func(ctx context.Context, j sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
		if ctx.Err() == nil {
			sampled = append(sampled, j.DesignAirflow)
		}
		r, _ := echoRanges(context.Background(), j, done) // one that does not listen
		return r, nil
	}})
	q.next() // the empty job
	first := q.waiting[0]
	q.waiting = q.waiting[1:]
	s.Apply("Design airflow", airflow(1))
	first() // brings back the ranges of the empty job
	require.Nil(t, s.Ranges())
	for len(q.waiting) > 0 {
		q.next()
	}
	require.Equal(t, units.Flow(1), s.Ranges()[0].Airflow.High)
	require.Equal(t, []units.Flow{1}, sampled, "the edit had cancelled the older work")
}

func TestRangesStayWithTheirStudyWhileAFieldIsAtFault(t *testing.T) {
	s := New(echo, InStep)
	s.RangeBy(Ranging{Sample: echoRanges, Samples: someSamples})
	s.Apply("Design airflow", airflow(2))
	s.Apply("Design airflow", airflow(-1))
	require.True(t, s.Stale())
	require.Equal(t, units.Flow(2), s.Ranges()[0].Airflow.High, "with the study in view")
	require.Equal(t, RangesWaiting, s.RangeProgress().State)
	s.Undo()
	require.Equal(t, RangesReady, s.RangeProgress().State)
}

func TestRangesAreCancelledResumedAndSwitchedOff(t *testing.T) {
	q := &queue{}
	s := New(echo, q.run)
	s.RangeBy(Ranging{Sample: echoRanges, Samples: someSamples})
	q.next()
	s.CancelRanges()
	require.Equal(t, RangesCancelled, s.RangeProgress().State)
	q.next()
	require.Nil(t, s.Ranges())
	require.Equal(t, RangesCancelled, s.RangeProgress().State)
	s.ResumeRanges()
	require.Equal(t, RangesRunning, s.RangeProgress().State)
	q.next()
	require.NotNil(t, s.Ranges())
	s.CancelRanges()
	require.Equal(t, RangesReady, s.RangeProgress().State, "what is done is not cancelled")

	s.SetRanging(false)
	require.Nil(t, s.Ranges())
	require.Equal(t, RangesOff, s.RangeProgress().State)
	s.Apply("Design airflow", airflow(1))
	q.next()
	require.Empty(t, q.waiting)
	s.SetRanging(true)
	q.next()
	require.NotNil(t, s.Ranges())
}

func TestRangesThatFailLeaveTheStudy(t *testing.T) {
	fails := errors.New("3 of 20 samples have no solution")
	for name, sample := range map[string]Sample{
		"error": func(context.Context, sizing.Job, func(int)) ([]sizing.OptionRange, error) { return nil, fails },
		"slip":  func(context.Context, sizing.Job, func(int)) ([]sizing.OptionRange, error) { panic(fails) },
	} {
		s := New(echo, InStep)
		s.RangeBy(Ranging{Sample: sample, Samples: someSamples})
		s.Apply("Design airflow", airflow(1))
		require.NotNil(t, s.Study(), name)
		require.Nil(t, s.Ranges(), name)
		require.Equal(t, RangesFailed, s.RangeProgress().State, name)
		require.ErrorContains(t, s.RangeProgress().Fault, fails.Error(), name)
	}
}

// serve runs what comes back until the condition holds.
func (h *thread) serve(t *testing.T, until func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !until(); {
		select {
		case done := <-h.back:
			done()
		case <-time.After(time.Millisecond):
			require.True(t, time.Now().Before(end), "the work does not end")
		}
	}
}

func TestEditsEndTheWorkAndLeaveNoGoroutine(t *testing.T) {
	before := runtime.NumGoroutine()
	h := &thread{back: make(chan func(), 1024)}
	var working, begun atomic.Int32
	s := New(echo, h.run)
	s.RangeBy(Ranging{Samples: someSamples, Post: func(f func()) { h.back <- f },
		Sample: func(ctx context.Context, j sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
			begun.Add(1)
			working.Add(1)
			defer working.Add(-1)
			return sizing.Sampling{Samples: someSamples, Seed: 1, Workers: 3, Done: done}.Ranges(ctx, j)
		}})
	for i := range 30 {
		s.Apply("Design airflow", airflow(units.Flow(1000+i)*units.CFM))
		h.serve(t, func() bool { return !s.Stale() })
		if i%3 == 0 {
			h.serve(t, func() bool { return s.RangeProgress().Finished > 0 })
		}
	}
	h.serve(t, func() bool { return s.RangeProgress().State == RangesReady })
	require.Len(t, s.Ranges(), 2)
	require.Greater(t, begun.Load(), int32(1))

	s.Apply("Design airflow", airflow(900*units.CFM))
	h.serve(t, func() bool { return !s.Stale() && s.RangeProgress().Finished > 0 })
	s.CancelRanges()
	h.serve(t, func() bool { return working.Load() == 0 && len(h.back) == 0 && runtime.NumGoroutine() <= before })
	require.Nil(t, s.Ranges())
}

func TestQuickTypingStartsNothing(t *testing.T) {
	before := runtime.NumGoroutine()
	h := &thread{back: make(chan func(), 64)}
	s := New(echo, h.run)
	s.RangeBy(Ranging{Samples: someSamples, Debounce: time.Hour, Post: func(f func()) { h.back <- f },
		Sample: func(context.Context, sizing.Job, func(int)) ([]sizing.OptionRange, error) {
			t.Error("begun before the edit had settled")
			return nil, nil
		}})
	for i := range 20 {
		s.Type("design_airflow", "Design airflow", airflow(units.Flow(i+1)))
		h.serve(t, func() bool { return s.RangeProgress().State == RangesRunning })
	}
	s.SetRanging(false)
	h.serve(t, func() bool { return runtime.NumGoroutine() <= before && len(h.back) == 0 })
}
