package gui

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/fields"
	"returnbench/gui/session"
	"returnbench/sizing"
)

const (
	realSolve = 150 // one solve in so many is the engine's own
	undoEvery = 450 // actions between one walk through the history and the next
	logged    = 30  // last actions that a failure tells
)

// anyUser does at random what a person can do to the window: it knows no place
// by name, only what the toolkit shows.
type anyUser struct {
	working sync.WaitGroup // work off the window's thread
	t       *testing.T
	seed    uint64
	rnd     *rand.Rand
	dir     string
	back    chan func() // results on their way from other goroutines; nil: in step
	solve   session.Solve

	bench  *Bench
	first  sizing.Job // where the history begins
	closed bool

	sight  []fyne.CanvasObject
	log    []string
	steps  int
	did    map[string]int
	longer int // steps undone at most in one walk
}

func TestAnyUser(t *testing.T) { newAnyUser(t, 1, false).wander(steps(wholeRun)) }

// The same with results that come from goroutines of their own while the user
// goes on.
func TestAnyUserWhileResultsComeIn(t *testing.T) { newAnyUser(t, 2, true).wander(steps(shortRun)) }

// steps is how many actions a run takes; RETURNBENCH_STEPS asks for another number.
func steps(usual int) int {
	if n, err := strconv.Atoi(os.Getenv("RETURNBENCH_STEPS")); err == nil {
		return n
	}
	return usual
}

func newAnyUser(t *testing.T, seed uint64, apart bool) *anyUser {
	if s := os.Getenv("RETURNBENCH_SEED"); s != "" {
		_, err := fmt.Sscan(s, &seed)
		require.NoError(t, err)
	}
	// The toolkit keeps what it drew for a minute; the collector need not go
	// through that again and again.
	gc := debug.SetGCPercent(300)
	t.Cleanup(func() { debug.SetGCPercent(gc) })
	u := &anyUser{t: t, seed: seed, rnd: rand.New(rand.NewPCG(seed, 0)), dir: t.TempDir(), did: map[string]int{}}
	t.Cleanup(u.working.Wait) // what still writes a copy does so before its folder goes
	t.Chdir(u.dir)
	t.Setenv("HOME", u.dir)
	t.Setenv("USERPROFILE", u.dir)
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(u.dir, "config"))
	if apart {
		u.back = make(chan func(), 64)
	}
	u.solve = u.sometimes(sizing.NewSolver().Solve)
	return u
}

// sometimes spares the engine: most jobs are only checked, and keep the Study
// that was there before, as a job at fault would.
func (u *anyUser) sometimes(solve session.Solve) session.Solve {
	calls := 0
	var last *sizing.Study
	return func(job sizing.Job) (*sizing.Study, error) {
		if calls++; last != nil && calls%realSolve != 0 {
			if faults := job.Check(); len(faults) > 0 {
				return nil, faults
			}
			return last, nil
		}
		study, err := solve(job)
		if err == nil {
			last = study
		}
		return study, err
	}
}

// run takes work to a goroutine; the window takes its result when it next looks.
func (u *anyUser) run(work, done func()) {
	if u.back == nil {
		session.InStep(work, done)
		return
	}
	u.working.Add(1)
	go func() {
		work()
		u.working.Done()
		u.back <- done
	}()
}

// post hands to the window what another goroutine has for it.
func (u *anyUser) post(f func()) {
	if u.back == nil {
		f()
		return
	}
	u.back <- f
}

// takeIn does what has come back.
func (u *anyUser) takeIn() {
	for {
		select {
		case done := <-u.back:
			done()
		default:
			return
		}
	}
}

// settle waits for all that is under way; of a window that is closed nothing comes.
func (u *anyUser) settle() {
	for u.back != nil && !u.closed && u.bench.session.Solving() {
		select {
		case done := <-u.back:
			done()
		case <-time.After(time.Minute):
			require.Fail(u.t, "a result never came")
		}
	}
}

func (u *anyUser) open() {
	b, err := New(test.NewApp(), Options{Dir: filepath.Join(u.dir, "own"), Run: u.run, Post: u.post, Solve: u.solve})
	require.NoError(u.t, err)
	u.bench, u.closed = b, false
	b.window.SetOnClosed(func() { u.closed = true })
	b.window.Resize(fyne.NewSize(1366, 768))
	b.session.OnChange(func() {
		if b.session.UndoName() == "" && b.session.RedoName() == "" {
			u.first = b.session.Job()
		}
	})
	u.first = b.session.Job()
	b.focusFirst()
	b.offerRecovery()
	if u.rnd.IntN(4) > 0 && !b.busy() {
		list := assets.Examples()
		b.NewFrom(list[u.rnd.IntN(len(list))].Name)
	}
}

func (u *anyUser) note(format string, args ...any) {
	line := fmt.Sprintf(format, args...)
	what, _, _ := strings.Cut(line, ":")
	u.did[what]++
	u.log = append(u.log, fmt.Sprintf("%d %s", u.steps, line))
	u.log = u.log[max(0, len(u.log)-logged):]
}

func (u *anyUser) wander(steps int) {
	defer func() {
		if r := recover(); r != nil {
			u.t.Errorf("%v\n%s", r, debug.Stack())
		}
		if u.t.Failed() {
			u.t.Logf("seed %d, step %d; RETURNBENCH_SEED=%d runs it again; the last steps:\n%s", u.seed, u.steps, u.seed, strings.Join(u.log, "\n"))
		}
	}()
	u.open()
	for u.steps = 1; u.steps <= steps; u.steps++ {
		u.takeIn()
		if u.closed {
			u.settle()
			u.open()
		}
		if u.steps%undoEvery == 0 {
			u.throughHistory()
		}
		u.act()
		require.NoError(u.t, u.bench.session.Fault())
	}
	u.settle()
	u.throughHistory()
	u.t.Logf("%d steps, at most %d undone in one go: %v", steps, u.longer, u.did)
}

// throughHistory undoes all there is and redoes it. Sometimes the user stays at
// the start, so that no history grows past what is kept.
func (u *anyUser) throughHistory() {
	s := u.bench.session
	redone := 0
	for s.RedoName() != "" {
		s.Redo()
		redone++
	}
	last, undone := s.Job(), 0
	for s.UndoName() != "" {
		s.Undo()
		u.takeIn()
		undone++
	}
	u.longer = max(u.longer, undone)
	require.Less(u.t, undone, 1000, "the history is longer than what is kept")
	u.same(u.first, s.Job(), "undone to the start")
	u.note("undo: all %d of %d", undone, undone-redone)
	for range undone {
		s.Redo()
		u.takeIn()
	}
	require.Empty(u.t, s.RedoName())
	u.same(last, s.Job(), "redone to the end")
	u.settle()
	u.shownIsSo()
	if undone > 300 || u.rnd.IntN(2) == 0 {
		for s.UndoName() != "" {
			s.Undo()
		}
	}
}

// same tells two jobs apart to the last bit, and tells where they differ.
func (u *anyUser) same(want, got sizing.Job, when string) {
	u.t.Helper()
	if !reflect.DeepEqual(want, got) {
		require.Equal(u.t, want, got, when)
		require.Fail(u.t, when+" the job is another")
	}
}

// shownIsSo holds every field of the place in view to a window that was opened
// on the same job: what is shown is what the job holds.
func (u *anyUser) shownIsSo() {
	b := u.bench
	now, ok := b.screens[b.at].(formFields)
	if !ok {
		return
	}
	b.window.Canvas().Unfocus()
	for _, path := range now.Paths() {
		f := now.Field(path)
		e, typed := f.(interface {
			Entry() *fields.Entry
			FaultText() string
		})
		if !typed || e.FaultText() != "" {
			continue
		}
		shown := e.Entry().Text
		f.(interface{ Reset() }).Reset()
		require.Equal(u.t, e.Entry().Text, shown, "%s in %s", path, b.at)
	}
}
