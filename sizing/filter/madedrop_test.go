package filter

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// One velocity alone agrees with the law's curve within what Curve promises.
func TestMadeDrop_Identity(t *testing.T) {
	a := air.Standard()
	for _, f := range []Filter{
		{Name: "one inch", Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Pleats: 24, MediaResistance: 60},
		{Name: "cabinet", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Pleats: 28, MediaResistance: 55, GridOpenShare: 0.7},
		{Name: "by MERV", Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: 2 * units.Inch, Pleats: 18, MERV: 11},
	} {
		law, err := f.Law(20*units.Inch, 25*units.Inch, a)
		require.NoError(t, err)
		for _, v := range []units.Speed{150 * units.FPM, 300 * units.FPM, 500 * units.FPM} {
			drop, ratio, err := f.MadeDrop(20*units.Inch, 25*units.Inch, v, a)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(law.Drop(v)), float64(drop), 0.002, "%s at %v", f.Name, v)
			assert.InEpsilon(t, law.MediaAreaRatio, ratio, 1e-12)
		}
	}
	_, _, err := Filter{Width: units.Inch, Height: units.Inch, Depth: units.Inch, Pleats: 4, MERV: 8}.MadeDrop(units.Inch/4, units.Inch/4, 1, a)
	assert.Error(t, err)
}
