package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// A part brought down to what Reach asks moves just the airflow asked for.
func TestReach_Identity(t *testing.T) {
	j := least()
	j.Supply.Drop, j.Supply.Airflow, j.Supply.Exponent = 0.1*units.InchWater, 1200*units.CFM, 2
	target := 1180 * units.CFM
	levers, available, off, err := Reach(j, target)
	require.NoError(t, err)
	require.False(t, off)
	assert.Positive(t, float64(available))
	for _, l := range levers {
		if l.Part != "supply" {
			continue
		}
		require.True(t, l.Possible)
		j.Supply.Drop, j.Supply.Airflow = l.Needed, target
		assert.InEpsilon(t, float64(target), float64(solved(t, j).Today().Clean.Airflow), 1e-8)
	}
}

func TestReachNamesAFilterThatDoes(t *testing.T) {
	j := least()
	levers, _, _, err := Reach(j, 1180*units.CFM)
	require.NoError(t, err)
	for _, l := range levers {
		if l.Part == "filter" {
			assert.Greater(t, l.Face, solved(t, j).Today().FaceArea)
			assert.NotEmpty(t, l.Size)
		}
	}
	levers, _, _, err = Reach(j, 1420*units.CFM)
	require.NoError(t, err)
	for _, l := range levers {
		assert.False(t, l.Possible, "no one part gives so much: %s", l.Part)
	}
}

// Past some count more pleats choke their own channels, so an optimum exists,
// and deeper packs have theirs at a lower drop.
func TestSweepHasAnOptimum(t *testing.T) {
	f := filter.Filter{Name: "f", Width: 20 * units.Inch, Height: 20 * units.Inch, MERV: 11, MediaResistance: 60}
	sweeps, err := SweepPleats(f, 300*units.FPM, 0, []units.Length{1 * units.Inch, 2 * units.Inch, 4 * units.Inch})
	require.NoError(t, err)
	require.Len(t, sweeps, 3)
	for i, s := range sweeps {
		assert.Greater(t, s.Best, 0)
		assert.Less(t, s.Best, len(s.Points)-1, "the drop rises again at %v", s.Depth)
		if i > 0 {
			assert.Less(t, s.Points[s.Best].Drop, sweeps[i-1].Points[sweeps[i-1].Best].Drop)
		}
		for k := 1; k < len(s.Points); k++ {
			assert.Greater(t, s.Points[k].MediaArea, s.Points[k-1].MediaArea)
		}
	}
}
