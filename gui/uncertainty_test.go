package gui

import (
	"returnbench/gui/fields"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// Of how well a thing is known, an empty field is the usual and 0 % is exactly.
func TestZeroUncertaintyIsExactlyKnown(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("house")
	entry := b.screens["house"].(formFields).Field("uncertainty.gauge").(*fields.Percent).Entry()
	require.Empty(t, entry.Text)
	b.showPath("uncertainty.gauge")
	typeText(t, b, "0 %")
	test.FocusNext(b.window.Canvas())
	require.Equal(t, "0", entry.Text)
	require.Empty(t, b.session.Errors())
	require.Equal(t, new(0.0), b.session.Job().Uncertainty.Gauge)
	b.window.Canvas().Focus(entry)
	press(t, b, fyne.KeyBackspace)
	test.FocusNext(b.window.Canvas())
	require.Nil(t, b.session.Job().Uncertainty.Gauge)
	b.Undo()
	require.Equal(t, new(0.0), b.session.Job().Uncertainty.Gauge, "leaving the field ended the step")
	b.Undo()
	require.Equal(t, example(t, "one-inch-slot"), b.session.Job())
}
