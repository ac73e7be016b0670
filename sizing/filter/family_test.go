package filter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// A law of the family is that of a solution of its own, to what a solution is off
// in itself.
func TestFamily_Identity(t *testing.T) {
	for _, f := range []Filter{
		{Name: "thin", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: 11, Pleats: 30, MediaResistance: 60},
		{Name: "deep", Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: 4 * units.Inch, MERV: 13, Pleats: 40, MediaResistance: 90, GridOpenShare: 0.8},
	} {
		family, ok := f.Family(f.Width, f.Height, air.Standard())
		require.True(t, ok)
		for _, k := range []float64{0.7, 0.93, 1, 1.2, 1.6} {
			moved := f
			moved.MediaResistance *= units.MediaResistance(k)
			got, ok := family.Law(moved)
			require.True(t, ok)
			want, err := moved.Law(f.Width, f.Height, air.Standard())
			require.NoError(t, err)
			for _, v := range []float64{0.1, 0.5, 1.5, 3, 6} {
				assert.InEpsilon(t, float64(want.Drop(units.Speed(v))), float64(got.Drop(units.Speed(v))), 3e-5, "%s, %g of its resistance, %g m/s", f.Name, k, v)
			}
			assert.InEpsilon(t, float64(want.Printed), float64(got.Printed), 3e-5)
			assert.InEpsilon(t, want.MediaAreaRatio, got.MediaAreaRatio, 1e-12)
		}
		far := f
		far.MediaResistance *= units.MediaResistance(math.Exp(1.01 * familySpan))
		_, ok = family.Law(far)
		assert.False(t, ok, "outside it solves for itself")
	}
	_, ok := Filter{Name: "no resistance", Depth: units.Inch, MERV: 8, Pleats: 20}.Family(20*units.Inch, 20*units.Inch, air.Standard())
	assert.False(t, ok)
}
