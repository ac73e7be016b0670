package gui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// The walk goes through the house in its order, says what each step still
// assumes, and may be left and taken up anywhere.
func TestWalkThroughTheHouse(t *testing.T) {
	b := newBench(t)
	b.session.Apply("Cooling capacity", func(j *sizing.Job) { j.Equipment.CoolingCapacity = 3 * units.Ton })
	next, back := item(t, b, "Walk on through the house"), item(t, b, "Walk back a step")
	for i, key := range wizardSteps {
		next.Action()
		require.Equal(t, key, b.at)
		require.Contains(t, b.wizard.says.Text, "of 6")
		require.Equal(t, i == 0, b.wizard.back.Disabled())
	}
	require.True(t, b.wizard.next.Disabled())
	back.Action()
	require.Equal(t, "parts", b.at)
	b.enter("findings")
	next.Action()
	require.Equal(t, wizardSteps[0], b.at)

	b.enter("returns")
	before := b.assumedIn("returns")
	require.Positive(t, before, "the returns are assumed while none is typed")
	require.Contains(t, b.wizard.says.Text, "assumed")
	b.put(example(t, "one-inch-slot"), "")
	b.enter("returns")
	require.Less(t, b.assumedIn("returns"), before)
}
