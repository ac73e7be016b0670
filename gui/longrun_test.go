//go:build longrun && linux

package gui

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"runtime"
	"runtime/debug"
	"runtime/pprof"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"github.com/stretchr/testify/require"

	_ "returnbench/gui/toolkit" // what the program tells the toolkit
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/units"
)

// TestACopyOfTheSameProcessNumber: in a fresh namespace every run has the process
// number 1, as in a container. No run hides or overwrites the copy of another.
func TestACopyOfTheSameProcessNumber(t *testing.T) {
	dir := t.TempDir()
	fresh := []string{"unshare", "--pid", "--fork", "--mount-proc", "--kill-child"}
	start := func() (typingRun, int) {
		run := startTyping(t, dir, fresh...)
		require.Equal(t, 1, run.says(t), "its process number")
		return run, run.says(t)
	}
	const ended = 5
	for range ended {
		run, last := start()
		run.dies(t, last)
	}
	alive, _ := start()
	require.Len(t, copies(t, dir, recoveryPrefix), ended+1)
	b := sit(t, dir)
	for n := range ended {
		require.Eventually(t, func() bool { // the system frees a lock once the namespace is gone
			kept, err := b.session.Offered()
			require.NoError(t, err)
			return kept != nil
		}, 10*time.Second, 10*time.Millisecond, "copy %d", n)
		require.NoError(t, b.recovery.deleteFound())
	}
	kept, err := b.session.Offered()
	require.NoError(t, err)
	require.Nil(t, kept, "its run still lasts")
	alive.says(t)
}

// manyEdits asks for another number of edits.
const manyEdits = "RETURNBENCH_EDITS"

// sample is what the window takes after so many edits.
type sample struct {
	Edits, Goroutines int
	After             time.Duration
	HeapMB, RSSMB     float64
}

// longOutcome is what came of the run.
type longOutcome struct {
	Samples   []sample
	Saves     int
	Left      string // stacks of the program's own that still run
	Differs   string // how the Study differs from a fresh one
	Fault     string
	EditsDone int // changes of the job, a typed digit among them
}

// TestLongRun: thousands of edits in the real window on a display of its own, by
// keys and through the session, with autosave on. Memory stays flat within 5 %
// after the first 500, no goroutine is left, and the Study equals a fresh solve.
func TestLongRun(t *testing.T) {
	dir := t.TempDir()
	c := playing("window", dir)
	c.Env = append(c.Env, "HOME="+dir, "XDG_CONFIG_HOME="+filepath.Join(dir, "config"), "XDG_CACHE_HOME="+filepath.Join(dir, "cache"),
		"LANG=en_US.UTF-8", "LIBGL_ALWAYS_SOFTWARE=1", "FYNE_SCALE=1", "WAYLAND_DISPLAY=", "DISPLAY="+display(t))
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { _ = c.Process.Kill() })
	var got longOutcome
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		if json.Unmarshal(lines.Bytes(), &got) != nil {
			t.Log(lines.Text())
		}
	}
	require.NoError(t, c.Wait())
	require.Empty(t, got.Fault)
	require.Empty(t, got.Differs)
	require.Empty(t, got.Left)
	require.GreaterOrEqual(t, got.EditsDone, edits())
	first, last := ends(got.Samples)
	t.Logf("%d edits, %d saves: %.0f MB resident and %.1f MB of heap after the first 500, %.0f and %.1f at the end",
		got.EditsDone, got.Saves, first.RSSMB, first.HeapMB, last.RSSMB, last.HeapMB)
	require.LessOrEqual(t, last.RSSMB, 1.05*first.RSSMB)
	require.LessOrEqual(t, last.Goroutines, first.Goroutines+2)
	require.Empty(t, copies(t, dir, recoveryPrefix), "a job that is saved leaves no copy")
}

// cached is longer than the toolkit keeps what it drew, a minute: until then
// memory grows with the speed of the edits.
const cached = 2 * time.Minute

// ends are the middle ones of the first and of the last four samples past 500
// edits and past the time that the toolkit's caches take to fill: they are emptied
// once a minute, so that one sample alone is in doubt.
func ends(samples []sample) (first, last sample) {
	from := slices.IndexFunc(samples, func(s sample) bool { return s.Edits >= 500 && s.After >= cached })
	samples = samples[max(from, 0):]
	n := min(4, len(samples))
	return middle(samples[:n]), middle(samples[len(samples)-n:])
}

func middle(samples []sample) sample {
	samples = slices.Clone(samples)
	slices.SortFunc(samples, func(a, b sample) int { return int(math.Copysign(1, a.RSSMB-b.RSSMB)) })
	return samples[len(samples)/2]
}

func edits() int {
	if n, err := strconv.Atoi(os.Getenv(manyEdits)); err == nil {
		return n
	}
	return 10_000
}

// display starts an X server that picks a free number.
func display(t *testing.T) string {
	t.Helper()
	r, w, err := os.Pipe()
	require.NoError(t, err)
	x := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1400x900x24", "-nolisten", "tcp")
	x.ExtraFiles = []*os.File{w}
	require.NoError(t, x.Start())
	t.Cleanup(func() {
		_ = x.Process.Kill()
		_ = x.Wait()
	})
	require.NoError(t, w.Close())
	var number int
	_, err = fmt.Fscan(r, &number)
	require.NoError(t, err)
	return fmt.Sprintf(":%d", number)
}

func init() { roles["window"] = editInWindow }

// editor edits in the real window, from a goroutine beside the toolkit's.
type editor struct {
	*Bench
	file    string
	job     sizing.Job // after the last edit that was counted
	began   time.Time
	changes chan struct{}
	out     longOutcome
}

func editInWindow() int {
	dir := os.Getenv(inDir)
	b, err := New(app.NewWithID("org.returnbench.longrun"), Options{Dir: dir})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	job, err := openExample("one-inch-slot")
	if err != nil {
		return 1
	}
	b.put(job, "")
	b.appear()
	e := &editor{Bench: b, file: filepath.Join(dir, "long"+jobSuffix), job: job, began: time.Now(), changes: make(chan struct{}, 1)}
	b.session.SetRanging(false) // sampling takes both processors; it is switched on now and then
	b.session.OnChange(e.hears)
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		e.run()
	}()
	b.app.Run()
	<-ended
	e.out.Left = left()
	line, err := json.Marshal(e.out)
	if err != nil {
		return 1
	}
	fmt.Println(string(line))
	return 0
}

// hears counts a change of the job, and wakes who waits for the session.
func (e *editor) hears() {
	if job := e.session.Peek(); !reflect.DeepEqual(*job, e.job) {
		e.job = job.Clone()
		e.out.EditsDone++
	}
	select {
	case e.changes <- struct{}{}:
	default:
	}
}

// run makes the edits and closes the window.
func (e *editor) run() {
	defer fyne.DoAndWait(func() { e.close() })
	for n, next := 1, 250; e.out.EditsDone < edits() && e.out.Fault == ""; n++ {
		fyne.DoAndWait(func() { e.edit(n) })
		if err := e.rests(); err != nil {
			e.out.Fault = fmt.Sprintf("step %d: %v", n, err)
			return
		}
		if e.out.EditsDone >= next {
			e.measure(e.out.EditsDone)
			next += 250
		}
	}
	fyne.DoAndWait(func() { e.saveTo(e.file, func() { e.out.Saves++ }) })
	e.compare()
}

// rests waits for the Study of the newest edit.
func (e *editor) rests() error {
	late := time.After(time.Minute)
	for {
		var busy bool
		var fault error
		fyne.DoAndWait(func() {
			s := e.session
			busy, fault = s.Solving() || s.Stale(), errors.Join(s.Fault(), s.KeepFault())
			if faults := s.Errors(); len(faults) > 0 && !s.Solving() {
				fault = faults
			}
		})
		if !busy || fault != nil {
			return fault
		}
		select {
		case <-e.changes:
		case <-late:
			return errors.New("no Study within a minute")
		}
	}
}

// edit does what a person at work does: mostly a number typed into a field, at times a change of a list, a step back and forth, another place.
func (e *editor) edit(n int) {
	if list := places(); n <= len(list) || n%20 == 0 { // every screen is built before memory is watched
		e.goTo(list[n%len(list)].key)
	}
	e.session.SetRanging(n%50 == 0)
	switch {
	case n%100 == 0:
		e.saveTo(e.file, func() { e.out.Saves++ })
		e.session.Apply("Notes", func(j *sizing.Job) { j.Notes = fmt.Sprintf("after %d edits", n) })
	case n%10 == 7:
		e.Undo()
	case n%10 == 8:
		e.Redo()
	case n%10 == 9:
		e.session.Apply("Prices", func(j *sizing.Job) { j.Prices.Visit = units.Money(50+n%40) * units.Dollar })
	case n%2 == 0:
		e.types("design_airflow", strconv.Itoa(1000+n%400))
	default:
		e.types("coil.drop", fmt.Sprintf("0.%d", 150+n%150))
	}
}

// types types a number over what is in a field.
func (e *editor) types(path, text string) {
	e.goTo(placeOfPath(path))
	field := e.screens[e.at].(formFields).Field(path)
	if field == nil {
		e.out.Fault = path + " has no field"
		return
	}
	f := field.Focusable()
	e.window.Canvas().Focus(f)
	entry, ok := f.(fyne.Shortcutable)
	if !ok {
		e.out.Fault = path + " has no keyboard"
		return
	}
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		f.TypedRune(r)
	}
}

// measure takes a sample after what can be freed is freed.
func (e *editor) measure(n int) {
	runtime.GC()
	debug.FreeOSMemory()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	s := sample{Edits: n, After: time.Since(e.began), Goroutines: runtime.NumGoroutine(), HeapMB: float64(m.HeapAlloc) / (1 << 20), RSSMB: resident()}
	e.out.Samples = append(e.out.Samples, s)
	fmt.Printf("%s: %d edits: %.1f MB of heap, %.1f MB resident, %d goroutines\n", time.Now().Format(time.TimeOnly), n, s.HeapMB, s.RSSMB, s.Goroutines)
}

func resident() float64 {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return math.NaN()
	}
	for line := range strings.Lines(string(status)) {
		var kb float64
		if n, _ := fmt.Sscanf(line, "VmRSS: %f kB", &kb); n == 1 {
			return kb / 1024
		}
	}
	return math.NaN()
}

// compare holds the Study in view to one that is solved again.
func (e *editor) compare() {
	fyne.DoAndWait(func() {
		fresh, err := sizing.Solve(e.session.Job())
		if err != nil {
			e.out.Differs = err.Error()
			return
		}
		var shown, want bytes.Buffer
		if err := errors.Join(export.JSON(&shown, e.session.Study(), units.IP), export.JSON(&want, fresh, units.IP)); err != nil {
			e.out.Differs = err.Error()
		} else if !bytes.Equal(shown.Bytes(), want.Bytes()) {
			e.out.Differs = "the Study in view is not that of a fresh solve"
		}
	})
}

// left are the stacks that run the program's own code once the window is closed,
// but for this one.
func left() string {
	const patience = 100
	var out string
	for range patience {
		var all bytes.Buffer
		_ = pprof.Lookup("goroutine").WriteTo(&all, 2)
		out = ""
		for stack := range strings.SplitSeq(all.String(), "\n\n") {
			if strings.Contains(stack, "returnbench/") && !strings.Contains(stack, "editInWindow") {
				out += stack + "\n\n"
			}
		}
		if out == "" {
			return ""
		}
		time.Sleep(100 * time.Millisecond)
	}
	return out
}
