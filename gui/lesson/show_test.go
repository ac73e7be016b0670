package lesson

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

func newShow(t testing.TB) *Show {
	t.Helper()
	s, err := NewShow(sizing.NewSolver().Solve, session.NewTasks(session.InStep, nil))
	require.NoError(t, err)
	require.Len(t, s.Items(), len(assets.Lessons()))
	return s
}

func TestNothingMovesBeforeThePrediction(t *testing.T) {
	s := newShow(t)
	s.MoveTo(5)
	require.Zero(t, s.Position())
	s.Predict(1)
	require.Equal(t, Ask, s.Step())
	s.MoveTo(5)
	require.Zero(t, s.Position(), "choosing is not yet saying")
	s.Forward()
	require.Equal(t, Try, s.Step())
	s.Predict(0)
	require.Equal(t, 1, s.Predicted(), "what was said stays said")
	s.MoveTo(5)
	now, ok := s.Now()
	require.True(t, ok)
	require.Equal(t, 5, now.Setting.Index)
	start, _ := s.Start()
	require.NotEqual(t, start.Condition().Airflow, now.Condition().Airflow)
}

func TestThePredictionMayBeSkipped(t *testing.T) {
	s := newShow(t)
	s.Forward()
	require.True(t, s.Decided())
	require.Equal(t, -1, s.Predicted())
	s.Forward()
	require.Equal(t, Explain, s.Step())
	require.Equal(t, len(s.Settings())-1, s.Position(), "the move that was not made is made")
	s.Back()
	require.Equal(t, Try, s.Step())
	s.Back()
	require.Equal(t, Ask, s.Step())
	require.Zero(t, s.Position())
	require.False(t, s.Decided())
}

func TestEveryDemonstrationGoesThrough(t *testing.T) {
	s := newShow(t)
	for i := range s.Items() {
		require.Equal(t, i, s.At())
		s.Predict(0)
		s.Forward()
		for p := range s.Settings() {
			s.MoveTo(p)
			now, ok := s.Now()
			require.True(t, ok)
			require.Equal(t, p, now.Setting.Index)
		}
		s.Forward()
		o, ok := s.Outcome()
		require.True(t, ok)
		require.Contains(t, o.Right(), true)
		require.NoError(t, s.Fault())
		for range s.parts() {
			s.Forward()
		}
	}
	require.Equal(t, Explain, s.Step(), "after the last there is no next")
}

// TestTheNewestMoveWins: moves made while a solve is under way are passed over,
// but for the last.
func TestTheNewestMoveWins(t *testing.T) {
	var waiting []func()
	solved := 0
	solve := func(j sizing.Job) (*sizing.Study, error) { solved++; return sizing.Solve(j) }
	s, err := NewShow(solve, session.NewTasks(func(work, done func()) { waiting = append(waiting, func() { work(); done() }) }, nil))
	require.NoError(t, err)
	finish := func() { next := waiting[0]; waiting = waiting[1:]; next() }
	_, ok := s.Start()
	require.False(t, ok, "nothing is solved yet")
	finish()
	_, ok = s.Start()
	require.True(t, ok)
	s.Forward()
	require.Len(t, waiting, 1)
	for _, p := range []int{3, 8, 21} {
		s.MoveTo(p)
	}
	require.Len(t, waiting, 1, "one at a time")
	finish() // what was under way when the hand moved
	finish()
	now, ok := s.Now()
	require.True(t, ok)
	require.Equal(t, 21, now.Setting.Index)
	require.Equal(t, 3, solved)

	before := solved
	s.Choose(1) // another demonstration: what is under way belongs to the one before
	finish()
	_, ok = s.Start()
	require.False(t, ok)
	finish()
	start, ok := s.Start()
	require.True(t, ok)
	require.Equal(t, "MERV 8", start.Setting.Show(units.IP))
	require.Equal(t, before+2, solved)
}

func TestAHouseThatCannotBeSolvedIsReported(t *testing.T) {
	s, err := NewShow(func(sizing.Job) (*sizing.Study, error) { return nil, errors.New("the well is dry") }, session.NewTasks(session.InStep, nil))
	require.NoError(t, err)
	require.ErrorContains(t, s.Fault(), "the well is dry")
	s, err = NewShow(func(sizing.Job) (*sizing.Study, error) { panic("slip") }, session.NewTasks(session.InStep, nil))
	require.NoError(t, err)
	require.ErrorContains(t, s.Fault(), "slip")
}

func TestOwnDemonstrations(t *testing.T) {
	s := newShow(t)
	n := len(s.Items())
	own := s.Lesson().Clone()
	own.Title = "Mine"
	s.Open(own, "/a/mine.lesson.json")
	require.Len(t, s.Items(), n+1)
	require.Equal(t, "Mine (mine.lesson.json)", s.Item().Name())
	own.Title = "Mine again"
	s.Open(own, "/a/mine.lesson.json")
	require.Len(t, s.Items(), n+1, "the same file replaces itself")
	require.False(t, s.Dirty())

	d := FromShow(s)
	d.lesson.Title = "Changed"
	s.finish(d, true)
	require.Len(t, s.Items(), n+1)
	require.True(t, s.Dirty())
	require.Contains(t, s.Item().Name(), "not saved")

	s.Choose(0)
	d = FromShow(s)
	s.finish(d, true)
	require.Len(t, s.Items(), n+2, "one that comes with the program is copied")
	require.Equal(t, newShow(t).Items()[0], s.Items()[0])
}

func TestADraftProposesItsMove(t *testing.T) {
	s := newShow(t)
	s.Choose(3)
	d := FromJob(s.Lesson().Job)
	require.Contains(t, d.moves(), optionsMove)
	require.True(t, strings.HasPrefix(d.moves()[1], "filters["), "the filter before all else: %s", d.moves()[1])
	for _, path := range d.moves() {
		require.NotContains(t, path, ".points[", "no one moves a cell of a blower's table")
	}
	d.setMove(optionsMove)
	require.Equal(t, []lesson.Choice{{Label: "as today", Option: "today"}, {Label: "second return", Option: "second return"}}, d.lesson.Move.Choices)
	d.setMove("equipment.blower.motor")
	require.Equal(t, "psc", d.lesson.Move.Choices[0].Value)
	d.setMove("coil.drop")
	require.False(t, d.switched())
	require.Equal(t, "0.2 in. w.c.", d.lesson.Move.From)
}

// BenchmarkOneMove is from the hand to the solved house, at a setting that was
// not met before.
func BenchmarkOneMove(b *testing.B) {
	s := newShow(b)
	s.Forward()
	for i := 0; b.Loop(); i++ {
		at := 1 + i%(len(s.Settings())-1)
		delete(s.solved, at)
		s.MoveTo(at)
	}
}

// A ready demonstration speaks the language of the window where it has words in it.
func TestReadyDemonstrationsSpeakTheLanguage(t *testing.T) {
	english, err := ready("dust", "")
	require.NoError(t, err)
	spanish, err := ready("dust", "es")
	require.NoError(t, err)
	require.Equal(t, "Dust", english.Title)
	require.Equal(t, "Polvo", spanish.Title)
	require.Equal(t, english.Job, spanish.Job)
	other, err := ready("dust", "none")
	require.NoError(t, err)
	require.Equal(t, english, other)
}
