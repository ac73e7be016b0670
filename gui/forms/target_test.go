package forms

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

func inStep() *session.Tasks { return session.NewTasks(session.InStep, nil) }

// house is an invented one with a return too small for its airflow.
func house() sizing.Job {
	return sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Returns: []sizing.Return{{
		Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Flex, Diameter: 14 * units.Inch, Length: 20 * units.Foot, Compression: 0.1}},
	}}}
}

func made(t *testing.T, tasks *session.Tasks) (*Target, *session.Session, *string) {
	t.Helper()
	test.NewTempApp(t)
	m := session.New(sizing.Solve, session.InStep)
	m.Load(house(), "")
	entered := new(string)
	s := NewTarget(m, tasks, func(place string) { *entered = place })
	w := test.NewTempWindow(t, s.Object())
	w.Resize(fyne.NewSize(1200, 740))
	return s, m, entered
}

func typed(s *Target, text string) {
	e := s.field.Focusable().(*fields.Entry)
	e.SetText(text)
}

func TestTheDesignAirflowIsAskedForFirst(t *testing.T) {
	s, m, _ := made(t, inStep())
	require.NotNil(t, s.result)
	assert.Equal(t, m.Study().DesignAirflow, s.result.Target)
	assert.Contains(t, s.status.Text, "Target 1200 cfm")
	assert.Equal(t, len(s.result.Upgrades), len(s.reaching.Rows()))
	assert.Equal(t, len(s.result.RequiredDrops), len(s.requiredDrops.Rows()))
	typed(s, "500 L/s")
	assert.InEpsilon(t, 0.5, float64(s.result.Target), 1e-9, "any unit may be typed")
	m.SetUnits(units.SI)
	s.Refresh()
	assert.Contains(t, s.status.Text, "Target 500 L/s")
	typed(s, "")
	assert.Equal(t, m.Study().DesignAirflow, s.result.Target)
	m.Apply("Design airflow", func(j *sizing.Job) { j.DesignAirflow = 1000 * units.CFM })
	s.Refresh()
	assert.Equal(t, 1000*units.CFM, s.result.Target, "a new study is searched anew")
}

// One key on a row puts the answer beside today, as one step to undo.
func TestAnAnswerIsTakenIntoCompare(t *testing.T) {
	s, m, entered := made(t, inStep())
	now := m.Study().Today().Clean.Airflow
	before := m.Job()
	typed(s, (now * 1.02).Show(units.IP))
	require.NotEmpty(t, s.result.Upgrades)
	way := s.result.Upgrades[0]
	s.reaching.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Contains(t, s.why.Text, way.Name())
	s.reaching.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, "compare", *entered)
	assert.Equal(t, "Add "+way.Name()+" to Compare", m.UndoName())
	require.Empty(t, m.Errors())
	got := m.Study().Option(way.Name())
	require.NotNil(t, got)
	assert.GreaterOrEqual(t, got.Clean.Airflow, s.typed*(1-1e-9))
	m.Undo()
	assert.Equal(t, before, m.Job())
}

func TestOneListIsChosenFrom(t *testing.T) {
	s, m, _ := made(t, inStep())
	typed(s, (m.Study().Today().Clean.Airflow * 1.02).Show(units.IP))
	require.NotEmpty(t, s.result.FallShort)
	s.reaching.Select(0)
	s.fallShort.Select(0)
	assert.Equal(t, -1, s.reaching.Selected())
	assert.Equal(t, s.result.FallShort[0].Name(), s.chosen().Name())
	s.reaching.Select(0)
	assert.Equal(t, s.result.Upgrades[0].Name(), s.chosen().Name())
}

func TestNothingReachesTheSky(t *testing.T) {
	s, _, _ := made(t, inStep())
	typed(s, "9000 cfm")
	assert.Empty(t, s.reaching.Rows())
	assert.False(t, s.none.Hidden)
	assert.NotEmpty(t, s.fallShort.Rows())
	assert.Contains(t, s.status.Text, "off the blower's table")
	typed(s, "-3")
	assert.NotEmpty(t, s.field.FaultText())
	assert.Equal(t, 9000*units.CFM, s.result.Target, "what cannot be read changes nothing")
}

// held keeps each search back until it is let go.
type held struct {
	work, done []func()
}

func (h *held) tasks() *session.Tasks {
	return session.NewTasks(func(work, done func()) { h.work, h.done = append(h.work, work), append(h.done, done) }, nil)
}

func TestTheNewestSearchWins(t *testing.T) {
	h := &held{}
	s, _, _ := made(t, h.tasks())
	typed(s, "1100")
	typed(s, "1150")
	require.GreaterOrEqual(t, len(h.work), 2)
	for i := len(h.work) - 1; i >= 0; i-- { // the oldest comes back last
		h.work[i]()
		h.done[i]()
	}
	require.NotNil(t, s.result)
	assert.Equal(t, 1150*units.CFM, s.result.Target)
}

// A search that takes long shows how far it is and can be ended.
func TestALongSearchCanBeCancelled(t *testing.T) {
	h := &held{}
	s, _, _ := made(t, h.tasks())
	s.search.reach = func(ctx context.Context, _ sizing.Job, _ units.Flow, done func(float64)) (*sizing.UpgradeSearch, error) {
		done(0.1)
		assert.True(t, s.busy.Hidden, "what is over soon needs no bar")
		time.Sleep(patience + 10*time.Millisecond)
		done(0.4)
		assert.False(t, s.busy.Hidden)
		assert.Equal(t, 0.4, s.bar.Value)
		test.Tap(s.cancel)
		return nil, ctx.Err()
	}
	typed(s, "1100")
	last := len(h.work) - 1
	h.work[last]()
	h.done[last]()
	assert.True(t, s.busy.Hidden)
	assert.Nil(t, s.result)
	assert.Contains(t, s.status.Text, "Cancelled")
}

// The search of a closed window is cancelled, and what it finds is dropped.
func TestClosingTheWindowCancelsTheSearch(t *testing.T) {
	h := &held{}
	tasks := h.tasks()
	s, _, _ := made(t, tasks)
	searched := false
	s.search.reach = func(ctx context.Context, _ sizing.Job, _ units.Flow, done func(float64)) (*sizing.UpgradeSearch, error) {
		searched = true
		require.NoError(t, ctx.Err())
		tasks.Close()
		require.ErrorIs(t, ctx.Err(), context.Canceled)
		time.Sleep(patience + 10*time.Millisecond)
		done(0.4)
		return &sizing.UpgradeSearch{}, nil // too late to be cancelled
	}
	typed(s, "1100")
	last := len(h.work) - 1
	h.work[last]()
	h.done[last]()
	assert.True(t, searched)
	assert.Nil(t, s.result)
	assert.Zero(t, s.bar.Value, "no progress is shown in a closed window")
}

func TestABlankJobIsAskedForItsTonnage(t *testing.T) {
	test.NewTempApp(t)
	s := NewTarget(session.New(sizing.Solve, session.InStep), inStep(), func(string) {})
	assert.Contains(t, s.status.Text, "Enter the cooling capacity")
	assert.True(t, s.add.Disabled())
}
