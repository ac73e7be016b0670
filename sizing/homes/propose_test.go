package homes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
)

// TestProposed_Identity: a home over its limits that names no upgrade is
// studied with the sizes that its own study found; one that names some, or
// needs none, is not.
func TestProposed_Identity(t *testing.T) {
	read := func(cells ...string) *sizing.Study {
		h, err := readHeading([]string{"cooling_capacity", "slot", "min_merv", "option_merv", "rated_external_static", "motor", "equipment_kind", "heating_output"})
		require.NoError(t, err)
		home, faults := h.read(cells)
		require.Empty(t, faults)
		study, err := home.solve()
		require.NoError(t, err)
		return study
	}
	poor := read("3 ton", "16x20x1", "11", "", "", "", "", "60000 Btu/h")
	require.NotEqual(t, sizing.Good, poor.Today().Verdict)
	require.Equal(t, 4, len(poor.Options))
	for i, size := range []*sizing.Size{poor.SuggestedSizes.Slot, poor.SuggestedSizes.Cabinet} {
		o := poor.Options[2+i]
		assert.Equal(t, []string{LargerSlot, DeeperCabinet}[i], o.Name)
		assert.InDelta(t, size.FaceArea.SI(), o.FaceArea.SI(), 1e-9)
		assert.Equal(t, 11, o.Efficiency.MERV)
		assert.InEpsilon(t, size.Airflow.SI(), o.Clean.Airflow.SI(), 0.01, "the size and the option are one house")
	}
	own := read("4 ton", "16x20x1", "", "13", "", "", "", "")
	require.Equal(t, 3, len(own.Options))
	assert.Equal(t, "MERV 13", own.Options[2].Name)
}
