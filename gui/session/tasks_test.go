package session

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestTasksTurnAPanicIntoAnError(t *testing.T) {
	var got []error
	tasks := NewTasks(InStep, nil)
	slip := errors.New("slip")
	tasks.Go(func(context.Context) error { panic("out of range") }, func(err error) { got = append(got, err) })
	tasks.Go(func(context.Context) error { return slip }, func(err error) { got = append(got, err) })
	tasks.Go(func(context.Context) error { return nil }, func(err error) { got = append(got, err) })
	require.Len(t, got, 3)
	require.ErrorContains(t, got[0], "out of range")
	require.Equal(t, slip, got[1])
	require.NoError(t, got[2])
}

func TestClosedTasksReachTheWindowNoMore(t *testing.T) {
	q := &queue{}
	tasks := NewTasks(q.run, nil)
	worked, told := 0, 0
	work := func(context.Context) error { worked++; return nil }
	done := func(error) { told++ }
	tasks.Go(work, done)
	tasks.Close()
	tasks.Go(work, done)
	tasks.Post(func() { told++ })
	require.Len(t, q.waiting, 1, "nothing new is begun")
	q.next()
	require.Zero(t, worked, "what had not begun is left out")
	require.Zero(t, told)
	require.ErrorIs(t, tasks.Context().Err(), context.Canceled)
}

// goroutine is a Runner whose done is taken on the goroutine of the work, as in a
// window that is gone.
func goroutine(work, done func()) { go func() { work(); done() }() }

func TestCloseCancelsSampling(t *testing.T) {
	began, ended := make(chan struct{}), make(chan error, 1)
	h := &thread{back: make(chan func(), 64)}
	s := New(echo, h.run)
	s.RangeBy(Ranging{Samples: someSamples, Sample: func(ctx context.Context, _ sizing.Job, _ func(int)) ([]sizing.OptionRange, error) {
		close(began)
		<-ctx.Done()
		ended <- ctx.Err()
		return nil, ctx.Err()
	}})
	(<-h.back)() // the first solve, which begins the sampling
	<-began
	heard := 0
	s.OnChange(func() { heard++ })
	s.OnRanges(func() { heard++ })
	require.NoError(t, s.Close())
	select {
	case err := <-ended:
		require.ErrorIs(t, err, context.Canceled)
	case <-time.After(10 * time.Second):
		t.Fatal("sampling goes on in a closed window")
	}
	(<-h.back)()
	require.Zero(t, heard)
}

// A solve under way writes its copy when it is done. By then the work may be
// discarded, saved, closed, or another job in its place.
func TestADiscardedJobDoesNotComeBack(t *testing.T) {
	for name, end := range map[string]func(*Session){
		"discard": func(s *Session) { require.NoError(t, s.Discard()) },
		"save":    func(s *Session) { s.MarkSaved("hill.job.json") },
		"load":    func(s *Session) { s.Load(sizing.Job{Name: "other"}, "other.job.json") },
		"close":   func(s *Session) { require.NoError(t, s.Close()) },
	} {
		t.Run(name, func(t *testing.T) {
			store, q := &memory{}, &queue{}
			s := New(echo, q.run)
			q.next()
			s.KeepIn(store)
			s.Apply("Design airflow", airflow(1200*units.CFM))
			work := q.waiting[0]
			q.waiting = nil
			end(s)
			work()
			require.Nil(t, store.copy)
			if name == "load" || name == "close" {
				require.NotEqual(t, 1200*units.CFM, designAirflow(s.Study()), "nor does its result")
			}
		})
	}
}

func designAirflow(s *sizing.Study) units.Flow {
	if s == nil {
		return 0
	}
	return s.DesignAirflow
}

// slowStore keeps its copy only once it is let go.
type slowStore struct {
	memory
	keeping, free chan struct{}
}

func (s *slowStore) Keep(r Recovery) error {
	close(s.keeping)
	<-s.free
	return s.memory.Keep(r)
}

// A copy that is being written when the work is discarded goes with it.
func TestACopyUnderWayIsDroppedWithTheJob(t *testing.T) {
	store := &slowStore{keeping: make(chan struct{}), free: make(chan struct{})}
	q := &queue{}
	s := New(echo, q.run)
	q.next()
	s.KeepIn(store)
	s.tasks.run = goroutine
	s.Apply("Design airflow", airflow(1200*units.CFM))
	<-store.keeping
	closed := make(chan error)
	go func() { closed <- s.recovery.close() }()
	close(store.free)
	require.NoError(t, <-closed)
	kept, err := store.Kept()
	require.NoError(t, err)
	require.Nil(t, kept)
}
