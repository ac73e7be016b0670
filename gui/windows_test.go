package gui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

func cool(b *Bench, tons units.Capacity) {
	b.session.Apply("Cooling capacity", func(j *sizing.Job) { j.Equipment.CoolingCapacity = tons * units.Ton })
}

func TestWindowsHaveJobsOfTheirOwn(t *testing.T) {
	a := newBench(t)
	cool(a, 3)
	b := a.NewWindow()
	require.Zero(t, b.session.Job().Equipment.CoolingCapacity)
	cool(b, 4)
	a.Undo()
	require.Zero(t, a.session.Job().Equipment.CoolingCapacity)
	require.Equal(t, 4*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	require.Equal(t, "Cooling capacity", b.session.UndoName())
	require.NotEqual(t, a.recovery.file(), b.recovery.file())
}

func TestWindowsShareSettingsAndRecentFiles(t *testing.T) {
	a := newBench(t)
	b := a.NewWindow()
	b.SetUnits(units.SI)
	b.SetTheme(look.Dark)
	require.Equal(t, units.SI, a.session.Units())
	require.True(t, a.menu.units[units.SI].Checked)
	require.True(t, a.menu.themes[look.Dark].Checked)
	path := filepath.Join(t.TempDir(), "one"+jobSuffix)
	cool(b, 3)
	b.saveTo(path, func() {})
	require.Equal(t, "one"+jobSuffix+"  in "+filepath.Dir(path), a.menu.recent.ChildMenu.Items[0].Label)
}

// A metric job is shown in SI units until the person chooses units by hand.
func TestAMetricJobIsShownInItsOwnUnits(t *testing.T) {
	b := newBench(t)
	b.NewFrom("metric-altitude")
	require.Equal(t, units.SI, b.session.Units())
	require.True(t, b.menu.units[units.SI].Checked)
	b.NewFrom("two-returns")
	require.Equal(t, units.IP, b.session.Units(), "an inch job goes back to the settings")
	b.SetUnits(units.IP)
	b.NewFrom("metric-altitude")
	require.Equal(t, units.IP, b.session.Units(), "the person chose these for the window")
	require.Equal(t, units.IP, b.NewWindow().session.Units())
	w := b.NewWindow()
	w.NewFrom("metric-altitude")
	require.Equal(t, units.SI, w.session.Units(), "nobody chose for this window yet")
}

func TestClosingAWindowAsksForItsOwnJobAlone(t *testing.T) {
	a := newBench(t)
	b := a.NewWindow()
	cool(a, 3)
	closed := map[*Bench]bool{}
	a.window.SetOnClosed(func() { closed[a] = true })
	b.window.SetOnClosed(func() { closed[b] = true })
	b.Close()
	require.True(t, closed[b], "nothing of its own is unsaved")
	require.Equal(t, []*Bench{a}, a.windows)
	a.Close()
	require.True(t, a.busy())
	answerWith(t, a, "Don't save")
	require.True(t, closed[a])
	files, err := filepath.Glob(filepath.Join(a.userFolder.dir, recoveryPrefix+"*"))
	require.NoError(t, err)
	require.Empty(t, files)
}

func TestQuittingAsksInEveryWindowBeforeOneCloses(t *testing.T) {
	a := newBench(t)
	b, c := a.NewWindow(), a.NewWindow()
	cool(a, 3)
	cool(c, 4)
	closed := 0
	for _, w := range a.windows {
		w.window.SetOnClosed(func() { closed++ })
	}
	a.Quit()
	require.True(t, a.busy())
	answerWith(t, a, "Don't save")
	require.False(t, b.busy())
	require.True(t, c.busy())
	answerWith(t, c, "Cancel")
	require.Zero(t, closed, "one window is still needed")
	require.True(t, a.session.Dirty())

	c.Quit()
	answerWith(t, c, "Don't save")
	answerWith(t, a, "Don't save")
	require.Equal(t, 3, closed)
}

func TestAFileIsOpenInOneWindow(t *testing.T) {
	path := filepath.Join(t.TempDir(), "two"+jobSuffix)
	require.NoError(t, jobfile.Save(path, example(t, "two-returns")))
	a := newBench(t)
	require.NoError(t, a.Open(path))
	b := a.NewWindow()
	b.openOrShowError(path)
	require.Empty(t, b.session.Path())
	require.False(t, b.busy())
	b.checkPath(pathQuestion{suffix: jobSuffix}, path, func(string) { require.Fail(t, "written over a job that is open") })
	require.True(t, b.busy())
}

// Copies that two windows left are both offered, and neither takes the other's
// place.
func TestUnsavedWorkOfTwoWindowsIsOffered(t *testing.T) {
	dir := t.TempDir()
	open := func() *Bench {
		b, err := New(test.NewApp(), Options{Dir: dir, Run: session.InStep})
		require.NoError(t, err)
		return b
	}
	a := open()
	b := a.NewWindow()
	cool(a, 3)
	cool(b, 4)
	require.NoError(t, os.Rename(a.recovery.file(), filepath.Join(dir, recoveryPrefix+"1-1"+recoverySuffix)))
	require.NoError(t, os.Rename(b.recovery.file(), filepath.Join(dir, recoveryPrefix+"1-2"+recoverySuffix)))

	again := open()
	again.offerRecovery()
	answerWith(t, again, "Restore")
	answerWith(t, again, "Restore")
	require.False(t, again.busy())
	require.Len(t, again.windows, 2)
	require.Equal(t, 3*units.Ton, again.session.Job().Equipment.CoolingCapacity)
	require.Equal(t, 4*units.Ton, again.windows[1].session.Job().Equipment.CoolingCapacity)
	for i, w := range again.windows {
		w.saveTo(filepath.Join(t.TempDir(), "saved"+jobSuffix), func() {})
		files, err := filepath.Glob(filepath.Join(dir, recoveryPrefix+"*"))
		require.NoError(t, err)
		require.Len(t, files, 2*(1-i), "each saved job takes its two copies along")
	}
}
