package gui

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// The road goes through all that must be entered, says what each step still
// assumes, and may be left and taken up anywhere.
func TestRoadThroughTheHouse(t *testing.T) {
	b := newBench(t)
	b.session.Apply("Cooling capacity", func(j *sizing.Job) { j.Equipment.CoolingCapacity = 3 * units.Ton })
	next, back := item(t, b, "Next place"), item(t, b, "Previous place")
	for i, key := range roadSteps {
		next.Action()
		require.Equal(t, key, b.at)
		require.Contains(t, b.road.says.Text(), "of 9")
		require.Equal(t, i == 0, b.road.previous.Disabled())
	}
	require.True(t, b.road.next.Disabled())
	back.Action()
	require.Equal(t, "filters", b.at)
	b.enter("findings")
	next.Action()
	require.Equal(t, roadSteps[0], b.at)

	b.enter("blower")
	before := b.assumedIn("blower")
	require.Positive(t, before, "the blower is assumed while no table is typed")
	require.Regexp(t, `In other steps: \d+[.]$`, b.road.says.Text())
	b.put(example(t, "one-inch-slot"), "")
	b.enter("blower")
	require.Less(t, b.assumedIn("blower"), before)
}

// The road goes through the places in the order of the column, so that a group that was
// left is not come back to.
func TestRoadDoesNotComeBackToAGroup(t *testing.T) {
	at := 0
	for _, key := range roadSteps {
		next := slices.IndexFunc(places(), func(p place) bool { return p.key == key })
		if key != "filters" && key != "limits" {
			require.Equal(t, houseGroup, placeOf(key).group, key)
		}
		require.Greater(t, next, at, key)
		at = next
	}
}
