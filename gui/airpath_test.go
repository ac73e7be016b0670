package gui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/gui/airpath"
	"returnbench/gui/outcome"
	"returnbench/sizing"
)

// In Compare the drawing is of the option under edit, and a part leads to where
// the option changes it, or else to today's house.
func TestTheAirpathFollowsTheOption(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("returns")
	require.Empty(t, b.pane.Option(), "today")
	b.enter("compare")
	b.pane.Show(outcome.AirpathKey)
	options := b.session.Job().Options
	for i, o := range options {
		b.showPath("options[" + string(rune('0'+i)) + "].name")
		require.Equal(t, o.Name, b.pane.Option())
	}
	last := options[len(options)-1]
	require.NotEmpty(t, last.Returns, "the example's last option has returns of its own")
	for part, path := range map[string]string{
		airpath.PartFilter: "options[3].filter", airpath.PartBlower: "options[3].tap",
		airpath.PartReturn: "options[3].returns[0].name", airpath.BranchPart(1): "options[3].returns[1].name",
		airpath.PartCoil: "coil.drop", airpath.PartSupply: "supply.drop",
	} {
		b.enter("compare")
		b.showPath("options[3].name")
		b.showPart(part)
		require.Same(t, b.screens[b.at].(formFields).Field(path).Focusable(), b.window.Canvas().Focused(), "%s leads to %s", part, path)
	}
	b.enter("returns")
	require.Empty(t, b.pane.Option(), "today's house again, where it is edited")
	b.showPart(airpath.BranchPart(1))
	require.Same(t, b.screens["returns"].(formFields).Field("returns[1].name").Focusable(), b.window.Canvas().Focused())
}

// Filters behind grilles are edited where they are.
func TestAFilterAtAGrilleIsItsBranchs(t *testing.T) {
	b := newBench(t)
	job := example(t, "two-returns")
	job.Slot = sizing.Slot{None: true}
	b.put(job, "")
	b.enter("returns")
	b.showPart(airpath.PartFilter)
	require.Equal(t, "returns", b.at)
	require.Same(t, b.screens["returns"].(formFields).Field("returns[0].filter").Focusable(), b.window.Canvas().Focused())
}

// How options are compared stays while the job does, through another theme,
// and begins again with another job.
func TestAViewIsOfOneJob(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("compare")
	b.view.Baseline, b.view.By = b.session.Job().Options[0].Name, "airflow"
	b.SetTheme("dark")
	require.NotEmpty(t, b.view.Baseline)
	b.put(example(t, "two-returns"), "")
	require.Equal(t, sizing.View{}, b.view)
}

// A size of the list and an answer to what it takes become options with one
// key each.
func TestOneKeyPutsAnAnswerBesideToday(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	n := len(b.session.Job().Options)
	b.enter("target")
	s := b.screens["target"].(interface {
		Choose(int)
		Add()
	})
	s.Choose(0)
	s.Add()
	require.Equal(t, "compare", b.at)
	require.Empty(t, b.session.Errors())
	options := b.session.Job().Options
	require.Len(t, options, n+1)
	require.Equal(t, options[n].Name, b.pane.Option(), "the new option is under edit")
	b.Undo()
	require.Len(t, b.session.Job().Options, n)
}
