//go:build e2e

package main

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// TestWindow works the real program on a real display with the
// keyboard alone. Its pictures are kept in the folder that RETURNBENCH_PICTURES
// names.
func TestWindow(t *testing.T) {
	d := newDesk(t)
	var empty image.Image

	t.Run("typed", func(t *testing.T) {
		d.t = t
		file := filepath.Join(d.dir, "house.job.json")
		w := d.start("open", file)
		empty = w.settled("empty")
		w.typed("3")
		w.keys("Tab")
		w.typed("1200")
		w.keys("Tab")
		first := w.changed(empty, "first-answer")
		w.keys("ctrl+s")
		w.holds(file, 3*units.Ton, 1200*units.CFM)

		w.keys("shift+Tab", "ctrl+a")
		w.typed("1400")
		w.keys("Tab")
		w.changed(first, "second-answer")
		w.keys("ctrl+s")
		w.holds(file, 3*units.Ton, 1400*units.CFM)
		saved, err := os.ReadFile(file)
		require.NoError(t, err)
		w.close()

		again := d.start("open", file)
		again.changed(empty, "opened-again")
		require.NoError(t, os.Remove(file))
		again.keys("ctrl+s")
		again.holds(file, 3*units.Ton, 1400*units.CFM)
		kept, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, string(saved), string(kept), "what was opened is saved unchanged")
		again.close()
	})

	t.Run("example", func(t *testing.T) {
		d.t = t
		w := d.start("open", example("one-inch-slot"))
		w.changed(empty, "example")
		w.close()
	})
}

// desk is a display of its own with a window manager, and a home of its own.
type desk struct {
	t                          *testing.T
	dir, pictures, binary, log string
	env                        []string
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{t: t, dir: t.TempDir()}
	d.pictures = os.Getenv("RETURNBENCH_PICTURES")
	if d.pictures == "" {
		d.pictures = d.dir
	}
	require.NoError(t, os.MkdirAll(d.pictures, 0o755))
	d.log = filepath.Join(d.dir, "log")
	var err error
	d.binary, err = built()
	require.NoError(t, err)
	d.env = append(os.Environ(), "HOME="+d.dir, "XDG_CONFIG_HOME="+filepath.Join(d.dir, "config"),
		"XDG_CACHE_HOME="+filepath.Join(d.dir, "cache"), "XDG_DATA_HOME="+filepath.Join(d.dir, "data"),
		"LANG=en_US.UTF-8", "LIBGL_ALWAYS_SOFTWARE=1", "FYNE_SCALE=1", "WAYLAND_DISPLAY=", "DISPLAY="+d.display())
	d.manage()
	t.Cleanup(func() { d.t = t; d.quiet() })
	return d
}

// built is the program, built once for all tests of a run.
var built = sync.OnceValues(func() (string, error) {
	binary, err := filepath.Abs(filepath.Join("..", "..", "out", "returnbench-window"))
	if err != nil {
		return "", err
	}
	if out, err := exec.Command("go", "build", "-tags", "checkthreads,no_emoji", "-o", binary, ".").CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return binary, nil
})

// display starts an X server that picks a free number.
func (d *desk) display() string {
	d.t.Helper()
	r, w, err := os.Pipe()
	require.NoError(d.t, err)
	defer r.Close()
	x := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1400x900x24", "-nolisten", "tcp", "-noreset")
	x.ExtraFiles = []*os.File{w}
	d.run(x)
	require.NoError(d.t, w.Close())
	var number int
	_, err = fmt.Fscan(r, &number)
	require.NoError(d.t, err, "Xvfb gives its display")
	return fmt.Sprintf(":%d", number)
}

// manage starts a window manager and waits until it answers: one that finds no display
// yet ends at once.
func (d *desk) manage() {
	d.t.Helper()
	for range 10 {
		d.background("openbox")
		for range 20 {
			if _, err := d.tool("wmctrl", "-m"); err == nil {
				return
			}
			time.Sleep(100 * time.Millisecond)
		}
	}
	d.t.Fatal("no window manager answers")
}

func (d *desk) background(name string, args ...string) *exec.Cmd {
	d.t.Helper()
	c := exec.Command(name, args...)
	c.Env = d.env
	d.run(c)
	return c
}

// run starts a program that ends with the test.
func (d *desk) run(c *exec.Cmd) {
	d.t.Helper()
	log, err := os.OpenFile(d.log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	require.NoError(d.t, err)
	defer log.Close()
	c.Stdout, c.Stderr = log, log
	require.NoError(d.t, c.Start())
	d.t.Cleanup(func() {
		if c.ProcessState == nil {
			_ = c.Process.Kill()
			_ = c.Wait()
		}
	})
}

// quiet finds nothing in the log that a window thread, a crash or the toolkit
// leaves there. One line of the toolkit's is let pass: it watches its own file of
// preferences, on which nothing here rests, and may read it half written.
func (d *desk) quiet() {
	text, err := os.ReadFile(d.log)
	require.NoError(d.t, err)
	for line := range strings.Lines(string(text)) {
		for _, bad := range []string{"Error in Fyne call thread", "Fyne error", "panic:", "SIGSEGV", "DATA RACE"} {
			if strings.Contains(line, bad) && !strings.Contains(line, "Preferences load error") {
				d.t.Errorf("%q in the log:\n%s", bad, text)
			}
		}
	}
}

// tool runs a program of the display and gives what it prints.
func (d *desk) tool(name string, args ...string) (string, error) {
	ctx, cancel := patience(20 * time.Second)
	defer cancel()
	c := exec.CommandContext(ctx, name, args...)
	c.Env = d.env
	var out, fault bytes.Buffer
	c.Stdout, c.Stderr = &out, &fault
	if err := c.Run(); err != nil {
		return "", fmt.Errorf("%s %v: %w: %s", name, args, err, &fault)
	}
	return strings.TrimSpace(out.String()), nil
}

// soon waits for a condition; a slow machine gets its time.
func (d *desk) soon(what string, ready func() error) {
	d.t.Helper()
	var err error
	ctx, cancel := patience(30 * time.Second)
	defer cancel()
	for ; ctx.Err() == nil; time.Sleep(150 * time.Millisecond) {
		if err = ready(); err == nil {
			return
		}
	}
	text, _ := os.ReadFile(d.log)
	d.t.Fatalf("%s: %v\n%s", what, err, text)
}

// window is one start of the program.
type window struct {
	*desk
	program *exec.Cmd
	id      string
}

func (d *desk) start(args ...string) *window {
	d.t.Helper()
	w := &window{desk: d, program: d.background(d.binary, args...)}
	d.soon("the window shows", func() error {
		ids, err := d.windows(w.program)
		if err != nil {
			return err
		}
		w.id = ids[0]
		_, err = d.tool("xdotool", "windowactivate", "--sync", w.id)
		return err
	})
	return w
}

// windows are those of a program that are in view.
func (d *desk) windows(program *exec.Cmd) ([]string, error) {
	ids, err := d.tool("xdotool", "search", "--onlyvisible", "--pid", fmt.Sprint(program.Process.Pid))
	return strings.Fields(ids), err
}

func (w *window) keys(names ...string) {
	w.t.Helper()
	for _, n := range names {
		_, err := w.tool("xdotool", "key", "--clearmodifiers", n)
		require.NoError(w.t, err)
		time.Sleep(120 * time.Millisecond)
	}
}

func (w *window) typed(text string) {
	w.t.Helper()
	_, err := w.tool("xdotool", "type", "--delay", "60", text)
	require.NoError(w.t, err)
}

// close asks the window manager to close the window and waits for a clean end.
func (w *window) close() {
	w.t.Helper()
	_, err := w.tool("wmctrl", "-i", "-c", w.id)
	require.NoError(w.t, err)
	ended := make(chan error, 1)
	go func() { ended <- w.program.Wait() }()
	ctx, cancel := patience(20 * time.Second)
	defer cancel()
	select {
	case err := <-ended:
		require.NoError(w.t, err, "the program ends with status 0")
	case <-ctx.Done():
		_ = w.program.Process.Signal(syscall.SIGQUIT)
		<-ended
		text, _ := os.ReadFile(w.log)
		w.t.Fatalf("the window does not close\n%s", text)
	}
}

// holds waits until the file holds the capacity and the airflow.
func (w *window) holds(file string, capacity units.Capacity, airflow units.Flow) {
	w.t.Helper()
	w.soon("the file holds what was typed", func() error {
		job, err := jobfile.Load(file)
		if err != nil {
			return err
		}
		if job.Equipment.CoolingCapacity != capacity || job.DesignAirflow != airflow {
			return fmt.Errorf("%v and %v are saved", job.Equipment.CoolingCapacity, job.DesignAirflow)
		}
		return nil
	})
}

// settled takes a picture once two in a row are alike.
func (w *window) settled(name string) image.Image {
	w.t.Helper()
	var last image.Image
	w.soon("the window comes to rest", func() error {
		now, err := w.picture(name)
		if err != nil {
			return err
		}
		before := last
		last = now
		if before == nil || difference(before, now) > 0.001 {
			return fmt.Errorf("it still changes")
		}
		return nil
	})
	return last
}

// changed waits until the results differ from an earlier picture.
func (w *window) changed(from image.Image, name string) image.Image {
	w.t.Helper()
	w.soon(name+" differs", func() error {
		now, err := w.picture(name)
		if err != nil {
			return err
		}
		if share := difference(from, now); share < 0.003 {
			return fmt.Errorf("only %.2g of the results changed", share)
		}
		return nil
	})
	return w.settled(name)
}

// picture keeps what the window shows beside the log.
func (w *window) picture(name string) (image.Image, error) {
	file := filepath.Join(w.pictures, name+".png")
	if _, err := w.tool("import", "-window", w.id, file); err != nil {
		return nil, err
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	picture, _, err := image.Decode(f)
	return picture, err
}

// difference is the share of unlike pixels in the right two thirds, where the
// results stand: the fields on the left differ by what was typed alone.
func difference(a, b image.Image) float64 {
	if a.Bounds() != b.Bounds() {
		return 1
	}
	r := a.Bounds()
	unlike, all := 0, 0
	for x := r.Min.X + r.Dx()/3; x < r.Max.X; x++ {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			all++
			if a.At(x, y) != b.At(x, y) {
				unlike++
			}
		}
	}
	return float64(unlike) / float64(all)
}
