package gui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// settingsOf opens the settings of a window.
func settingsOf(t *testing.T, b *Bench) *settingsView {
	t.Helper()
	job, err := b.userFolder.newJobs()
	require.NoError(t, err)
	v := newSettingsView(b, job)
	b.openSettings(v)
	return v
}

func TestAllSettingsInOnePlace(t *testing.T) {
	b := newBench(t)
	item(t, b, "Settings").Action()
	for _, words := range []string{"Units", "Theme", "Text size", "Paper", "Library", "Your company", "New jobs", "Requirements", "Prices of work, installed", "Accuracy"} {
		require.Contains(t, onTop(b), words)
	}
	b.answerLast()
	require.False(t, b.busy())

	v := settingsOf(t, b)
	v.units.SetSelected(string(unitsChoices[1]))
	v.theme.SetSelected("Dark")
	v.text.SetSelected("125 %")
	v.paper.SetSelected("a4")
	v.touch.SetChecked(true)
	require.True(t, b.busy(), "the settings stay open while they change")
	require.Equal(t, units.SI, b.session.Units())
	kept, err := b.userFolder.settings()
	require.NoError(t, err)
	require.Equal(t, Settings{Units: "si", Theme: look.Dark, TextSize: 1.25, Paper: "a4", Touch: true}, kept)
	b.answerLast()
}

// What new jobs begin with is kept in a file of the project's own and taken by
// each new job, also of the next session; a job that is there keeps its own.
func TestNewJobsBeginWithThePersonsOwn(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	v := settingsOf(t, b)
	gauge := 0.02
	v.jobs.Apply("own", func(j *sizing.Job) {
		j.Limits.MinMERV, j.Prices.Cabinet, j.Uncertainty.Gauge = 11, 650*units.Dollar, &gauge
	})
	b.answerLast()
	require.False(t, b.busy())
	require.Equal(t, example(t, "two-returns"), b.session.Job())
	b.session.MarkSaved(filepath.Join(t.TempDir(), "x.job.json"))
	b.New()
	job := b.session.Peek()
	require.Equal(t, 11, job.Limits.MinMERV)
	require.Equal(t, 650*units.Dollar, job.Prices.Cabinet)
	require.False(t, b.session.Dirty(), "nobody typed anything yet")
	require.True(t, b.session.Blank())

	next, err := New(test.NewApp(), Options{Dir: b.userFolder.dir, Run: session.InStep})
	require.NoError(t, err)
	require.Equal(t, 650*units.Dollar, next.session.Peek().Prices.Cabinet)
	require.False(t, next.session.Dirty())
	data, err := os.ReadFile(filepath.Join(b.userFolder.dir, newJobsFile))
	require.NoError(t, err)
	require.Contains(t, string(data), `"cabinet": "650 $"`)
}

// Only what every house shares is taken from a job.
func TestTakeThoseOfThisJob(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.session.Apply("limits", func(j *sizing.Job) {
		j.Limits.MinMERV, j.Limits.WallWidth, j.Limits.Budget = 13, 20*units.Inch, 900*units.Dollar
	})
	v := settingsOf(t, b)
	v.takeFromJob()
	b.answerLast()
	kept, err := b.userFolder.newJobs()
	require.NoError(t, err)
	require.Equal(t, 13, kept.Limits.MinMERV)
	require.Zero(t, kept.Limits.WallWidth)
	require.Zero(t, kept.Limits.Budget)
	require.Empty(t, kept.Filters)
	require.Empty(t, kept.Name)
}

func TestFaultsOfNewJobsAreNotKept(t *testing.T) {
	b := newBench(t)
	v := settingsOf(t, b)
	v.jobs.Apply("wrong", func(j *sizing.Job) { j.Limits.MinMERV = 40 })
	b.answerLast()
	require.Contains(t, onTop(b), "cannot be kept")
	answerWith(t, b, "Go back to it")
	require.Contains(t, onTop(b), "New jobs")
	v.jobs.Apply("right", func(j *sizing.Job) { j.Limits.MinMERV = 8 })
	b.answerLast()
	require.False(t, b.busy())
	kept, err := b.userFolder.newJobs()
	require.NoError(t, err)
	require.Equal(t, 8, kept.Limits.MinMERV)
}

// A question over the settings leaves Escape to the settings once it is closed.
func TestEscapeGoesBackOneQuestion(t *testing.T) {
	b := newBench(t)
	settingsOf(t, b)
	b.showError("Over it", os.ErrNotExist)
	b.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.True(t, b.busy())
	b.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.False(t, b.busy())
}

func TestSettingsLeadToTheCompany(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	settingsOf(t, b).editCompany()
	require.False(t, b.busy())
	require.Equal(t, pagesPlace, b.at)
}
