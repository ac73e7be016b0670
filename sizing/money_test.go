package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// TestCoolingTime_Identity: a house runs as long as itself, shorter with more
// cooling from the same watts, longer with more watts for the same cooling, and
// not at all where nothing cools.
func TestCoolingTime_Identity(t *testing.T) {
	s := solved(t, withCabinet())
	share, known := s.CoolingTime(s.Today())
	require.True(t, known)
	assert.Equal(t, 1.0, share)

	o := *s.Today()
	share, _ = s.CoolingTime(&o)
	assert.Equal(t, 1.0, share, "the same capacity takes the same hours")
	net := func(o OptionResult) float64 {
		return o.Clean.SensibleCapacity.SI() + o.Loaded.SensibleCapacity.SI() - o.Clean.BlowerPower.SI() - o.Loaded.BlowerPower.SI()
	}
	cooler := *s.Today()
	cooler.Clean.SensibleCapacity *= 1.1
	share, _ = s.CoolingTime(&cooler)
	assert.InEpsilon(t, net(o)/net(cooler), share, 1e-12)
	assert.Less(t, share, 1.0)
	hotter := *s.Today()
	hotter.Loaded.BlowerPower += 100
	share, _ = s.CoolingTime(&hotter)
	assert.InEpsilon(t, net(o)/(net(o)-100), share, 1e-12)

	j := withCabinet()
	j.Equipment.Kind = Furnace
	s = solved(t, j)
	_, known = s.CoolingTime(&s.Options[2])
	assert.False(t, known)
	j.Site.CoolingHours = 1000 * units.Hour
	j.Equipment.Kind = FurnaceWithCoil
	s = solved(t, j)
	w := s.Working("options[2].annual_cost")
	require.NotNil(t, w)
	assert.Contains(t, w.Steps[len(w.Steps)-1].Numbers, "1000 h x 0.")
	assert.Equal(t, s.Options[2].AnnualCost.Show(units.IP), w.Result(units.IP))
}
