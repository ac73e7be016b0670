package gui

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// The steps go through all that must be entered, show what each step still
// assumes, and may be left and resumed anywhere.
func TestStepsThroughTheHouse(t *testing.T) {
	b := newBench(t)
	b.session.Apply("Cooling capacity", func(j *sizing.Job) { j.Equipment.CoolingCapacity = 3 * units.Ton })
	next, back := item(t, b, "Next place"), item(t, b, "Previous place")
	for i, key := range stepPlaces {
		next.Action()
		require.Equal(t, key, b.at)
		require.Contains(t, b.stepBar.text.Text(), "of 9")
		require.Equal(t, i == 0, b.stepBar.previous.Disabled())
	}
	require.True(t, b.stepBar.next.Disabled())
	back.Action()
	require.Equal(t, "filters", b.at)
	b.enter("findings")
	next.Action()
	require.Equal(t, stepPlaces[0], b.at)

	b.enter("blower")
	before := b.assumedIn("blower")
	require.Positive(t, before, "the blower is assumed while no table is typed")
	require.Regexp(t, `In other steps: \d+[.]$`, b.stepBar.text.Text())
	b.put(example(t, "one-inch-slot"), "")
	b.enter("blower")
	require.Less(t, b.assumedIn("blower"), before)
}

// The steps go through the places in the order of the column, so that the steps of a
// group are consecutive.
func TestStepsOfAGroupAreConsecutive(t *testing.T) {
	at := 0
	for _, key := range stepPlaces {
		next := slices.IndexFunc(places(), func(p place) bool { return p.key == key })
		if key != "filters" && key != "limits" {
			require.Equal(t, houseGroup, placeOf(key).group, key)
		}
		require.Greater(t, next, at, key)
		at = next
	}
}
