package session

import (
	"errors"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// echo is an engine that hands back the airflow it was given, and refuses a
// negative one.
func echo(j sizing.Job) (*sizing.Study, error) {
	switch {
	case j.DesignAirflow < 0:
		return nil, sizing.FieldErrors{{Path: "design_airflow", Given: j.DesignAirflow.String(), Wanted: message.New("an airflow above zero")}}
	case j.Name == "broken":
		panic("out of range")
	case j.Name == "failing":
		return nil, errors.New("no solution")
	}
	return &sizing.Study{Name: j.Name, DesignAirflow: j.DesignAirflow}, nil
}

func airflow(q units.Flow) func(*sizing.Job) {
	return func(j *sizing.Job) { j.DesignAirflow = q }
}

func TestApplySolvesAndCallsListeners(t *testing.T) {
	s := New(echo, InStep)
	heard := 0
	s.OnChange(func() { heard++ })
	s.Apply("Design airflow", airflow(1200*units.CFM))
	require.Equal(t, 1200*units.CFM, s.Study().DesignAirflow)
	require.Positive(t, heard)
	require.True(t, s.Dirty())
	require.False(t, s.Stale())
}

func TestAnEditThatChangesNothingIsNoStep(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Nothing", func(*sizing.Job) {})
	require.Empty(t, s.UndoName())
	require.False(t, s.Dirty())
}

func TestFaultKeepsTheLastGoodStudy(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Design airflow", airflow(1200*units.CFM))
	s.Apply("Design airflow", airflow(-1))
	require.True(t, s.Stale())
	require.NotNil(t, s.Errors().At("design_airflow"))
	require.Equal(t, 1200*units.CFM, s.Study().DesignAirflow)
	s.Undo()
	require.False(t, s.Stale())
	require.Empty(t, s.Errors())
}

func TestASlipInTheEngineIsAFaultNotACrash(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Name", func(j *sizing.Job) { j.Name = "broken" })
	require.ErrorContains(t, s.Fault(), "out of range")
	s.Apply("Name", func(j *sizing.Job) { j.Name = "failing" })
	require.ErrorContains(t, s.Fault(), "no solution")
	s.Apply("Name", func(j *sizing.Job) { j.Name = "good" })
	require.NoError(t, s.Fault())
}

func TestTypingInOneFieldIsOneStep(t *testing.T) {
	s := New(echo, InStep)
	for _, q := range []units.Flow{1, 12, 120, 1200} {
		s.Type("design_airflow", "Design airflow", airflow(q*units.CFM))
	}
	s.Type("name", "Name", func(j *sizing.Job) { j.Name = "Hill house" })
	require.Equal(t, "Name", s.UndoName())
	s.Undo()
	require.Equal(t, "Design airflow", s.UndoName())
	require.Equal(t, "Name", s.RedoName())
	s.Undo()
	require.Zero(t, s.Job().DesignAirflow)
	require.Empty(t, s.UndoName())
	s.Redo()
	require.Equal(t, 1200*units.CFM, s.Job().DesignAirflow)
}

func TestTypingBackToTheStartLeavesNoStep(t *testing.T) {
	s := New(echo, InStep)
	s.Type("design_airflow", "Design airflow", airflow(1))
	s.Type("design_airflow", "Design airflow", airflow(0))
	require.Empty(t, s.UndoName())
	require.False(t, s.Dirty())
}

func TestEndTypingSplitsSteps(t *testing.T) {
	s := New(echo, InStep)
	s.Type("design_airflow", "Design airflow", airflow(1))
	s.EndTyping()
	s.Type("design_airflow", "Design airflow", airflow(2))
	s.Undo()
	require.Equal(t, units.Flow(1), s.Job().DesignAirflow)
}

func TestTypingAfterUndoIsAStepOfItsOwn(t *testing.T) {
	s := New(echo, InStep)
	s.Type("design_airflow", "Design airflow", airflow(1))
	s.Type("name", "Name", func(j *sizing.Job) { j.Name = "a" })
	s.Undo()
	s.Type("design_airflow", "Design airflow", airflow(2))
	require.Empty(t, s.RedoName())
	s.Undo()
	require.Equal(t, units.Flow(1), s.Job().DesignAirflow)
}

func TestHistoryIsBounded(t *testing.T) {
	s := New(echo, InStep)
	for i := range longest + 5 {
		s.Apply("Design airflow", airflow(units.Flow(i+1)))
	}
	undone := 0
	for s.UndoName() != "" {
		s.Undo()
		undone++
	}
	require.Equal(t, longest, undone)
	require.Equal(t, units.Flow(5), s.Job().DesignAirflow)
}

func TestSavedMarkFollowsTheJobNotTheCountOfEdits(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Design airflow", airflow(1))
	s.MarkSaved("hill.job.json")
	require.False(t, s.Dirty())
	require.Equal(t, "hill.job.json", s.Path())
	s.Apply("Design airflow", airflow(2))
	require.True(t, s.Dirty())
	s.Undo()
	require.False(t, s.Dirty())
}

func TestUnitsChangeNoResult(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Design airflow", airflow(1200*units.CFM))
	before, study := s.Job(), s.Study()
	s.SetUnits(units.SI)
	require.Equal(t, units.SI, s.Units())
	require.Equal(t, before, s.Job())
	require.Same(t, study, s.Study())
	require.Equal(t, "Design airflow", s.UndoName())
}

// queue is a Runner whose work waits until the test lets it run.
type queue struct{ waiting []func() }

func (q *queue) run(work, done func()) {
	q.waiting = append(q.waiting, func() { work(); done() })
}

func (q *queue) next() {
	f := q.waiting[0]
	q.waiting = q.waiting[1:]
	f()
}

func TestNewestEditWinsAndOneSolveRunsAtATime(t *testing.T) {
	q := &queue{}
	var solved []units.Flow
	s := New(func(j sizing.Job) (*sizing.Study, error) {
		solved = append(solved, j.DesignAirflow)
		return echo(j)
	}, q.run)
	q.next()
	for _, a := range []units.Flow{1, 2, 3} {
		s.Apply("Design airflow", airflow(a))
		require.Len(t, q.waiting, 1)
	}
	require.True(t, s.Stale())
	q.next()
	require.Zero(t, s.Study().DesignAirflow, "the result of an older edit is dropped")
	require.True(t, s.Solving())
	q.next()
	require.Equal(t, units.Flow(3), s.Study().DesignAirflow)
	require.Equal(t, []units.Flow{0, 1, 3}, solved)
	require.Empty(t, q.waiting)
	require.False(t, s.Stale())
}

// memory is a Store in memory.
type memory struct {
	mu   sync.Mutex
	copy *Recovery
}

func (m *memory) Keep(r Recovery) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.copy = &r
	return nil
}

func (m *memory) Kept() (*Recovery, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.copy, nil
}

func (m *memory) Drop() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.copy = nil
	return nil
}

func TestRecoveryCopyFollowsUnsavedWork(t *testing.T) {
	store := &memory{}
	s := New(echo, InStep)
	s.KeepIn(store)
	s.Apply("Design airflow", airflow(1200*units.CFM))
	kept, err := s.Offered()
	require.NoError(t, err)
	require.Equal(t, 1200*units.CFM, kept.Job.DesignAirflow)

	later := New(echo, InStep)
	later.KeepIn(store)
	later.Restore(*kept)
	require.True(t, later.Dirty())
	require.Equal(t, 1200*units.CFM, later.Study().DesignAirflow)
	later.MarkSaved("hill.job.json")
	require.Nil(t, store.copy)
}

func TestRecoveryCopyOfAnEarlierSittingIsLeftToBeOffered(t *testing.T) {
	store := &memory{copy: &Recovery{Path: "hill.job.json"}}
	q := &queue{}
	s := New(echo, q.run)
	s.KeepIn(store)
	q.next()
	s.Load(sizing.Job{Name: "other"}, "other.job.json")
	q.next()
	require.NotNil(t, store.copy)
	require.NoError(t, s.Discard())
	require.Nil(t, store.copy)
}

func TestSaveDuringASolveLeavesNoRecoveryCopy(t *testing.T) {
	store, q := &memory{}, &queue{}
	s := New(echo, q.run)
	q.next()
	s.KeepIn(store)
	s.Apply("Design airflow", airflow(1))
	s.MarkSaved("hill.job.json")
	q.next() // keeps its copy only now
	require.Nil(t, store.copy)
}

// thread runs done on the one goroutine that serves it, as a window does.
type thread struct{ back chan func() }

func (h *thread) run(work, done func()) {
	go func() { work(); h.back <- done }()
}

func TestEditsAreSafeBesideARunningSolve(t *testing.T) {
	h := &thread{back: make(chan func(), 64)}
	s := New(echo, h.run)
	store := &memory{}
	s.KeepIn(store)
	for i := range 200 {
		s.Apply("Returns", func(j *sizing.Job) {
			j.Returns = append(j.Returns, sizing.Return{Name: "hall"})
			j.Returns[0].OpeningWidth = units.Length(i + 1)
		})
		select {
		case done := <-h.back:
			done()
		default:
		}
	}
	for s.Solving() {
		(<-h.back)()
	}
	require.False(t, s.Stale())
	require.Len(t, store.copy.Job.Returns, 200)
}

func TestUndoToTheStartRestoresTheFirstJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := full(t)
		s := New(echo, InStep)
		s.Load(first, "first.job.json")
		n := rapid.IntRange(1, 60).Draw(t, "edits")
		for range n {
			edit(t, s)
		}
		last, undone := s.Job(), 0
		for s.UndoName() != "" {
			s.Undo()
			undone++
		}
		require.Equal(t, first, s.Job())
		require.False(t, s.Dirty())
		for range undone {
			s.Redo()
		}
		require.Equal(t, last, s.Job())
	})
}

// edit makes one random edit, undo or redo.
func edit(t *rapid.T, s *Session) {
	v := rapid.Float64Range(0, 1e3).Draw(t, "value")
	switch rapid.IntRange(0, 8).Draw(t, "edit") {
	case 0:
		s.Type("design_airflow", "Design airflow", airflow(units.Flow(v)))
	case 1:
		s.Type("name", "Name", func(j *sizing.Job) { j.Name += "x" })
	case 2:
		s.Apply("Add return", func(j *sizing.Job) { j.Returns = append(j.Returns, sizing.Return{}) })
	case 3:
		s.Apply("Remove return", func(j *sizing.Job) { j.Returns = j.Returns[:max(1, len(j.Returns)-1)] })
	case 4:
		s.Type("blower", "Blower table", func(j *sizing.Job) {
			j.Equipment.Blower.Taps[0].Points[0].Airflow = units.Flow(v)
		})
	case 5:
		s.Type("rating", "Rating", func(j *sizing.Job) { j.Filters[0].Rating[0].Drop = units.Pressure(v) })
	case 6:
		s.Undo()
	case 7:
		s.Redo()
	case 8:
		s.Apply("Add option", func(j *sizing.Job) {
			j.Options = append(j.Options, sizing.Option{Returns: j.Returns[:1]})
			j.Options[0].Returns = append(j.Options[0].Returns, sizing.Return{})
			j.Filters = append(j.Filters, filter.Filter{Name: "new"})
		})
	}
}

func BenchmarkApply(b *testing.B) {
	s := New(echo, InStep)
	for i := range b.N {
		s.Type("design_airflow", "Design airflow", airflow(units.Flow(i%7+1)))
	}
}
