package filter

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

func TestLoaded_Identity(t *testing.T) {
	t.Run("the capacity brings the clean drop to the final one", func(t *testing.T) {
		f := rated()
		f.FinalDrop, f.DustCapacity, f.MediaArea = units.InchWater, 60*units.Gram, 8*units.SquareFoot
		law, err := f.Law(f.Width, f.Height, air.Standard())
		require.NoError(t, err)
		full, err := f.Loaded(law, f.DustCapacity, f.face(), air.Standard())
		require.NoError(t, err)
		assert.InEpsilon(t, 1, full.Drop(law.Fit.High).In(units.InchWater), 1e-12)
		// Twice the face holds twice the dust at the same drop.
		twice, err := f.Loaded(law, 2*f.DustCapacity, 2*f.face(), air.Standard())
		require.NoError(t, err)
		assert.InEpsilon(t, float64(full.Drop(1)), float64(twice.Drop(1)), 1e-12)
	})
	t.Run("without a capacity the generic one doubles the clean drop", func(t *testing.T) {
		law, err := made().Law(20*units.Inch, 20*units.Inch, air.Standard())
		require.NoError(t, err)
		face := made().face()
		dust := units.Mass(GenericCapacity * law.MediaAreaRatio * float64(face))
		full, err := made().Loaded(law, dust, face, air.Standard())
		require.NoError(t, err)
		assert.InEpsilon(t, 2*float64(law.Drop(RatedFace)), float64(full.Drop(RatedFace)), 1e-4, "within the error of the curve")
		l, err := made().Loading(law)
		require.NoError(t, err)
		assert.True(t, l.Assumed)
		assert.InEpsilon(t, float64(dust), float64(l.Holds(face)), 1e-12, "and is the most it holds")
	})
	t.Run("a final drop near the clean one is a change limit alone", func(t *testing.T) {
		f := rated()
		f.MediaArea, f.DustCapacity = 8*units.SquareFoot, 60*units.Gram
		law, err := f.Law(f.Width, f.Height, air.Standard())
		require.NoError(t, err)
		clean := law.Drop(law.Fit.High)
		f.FinalDrop = 1.11 * clean
		l, err := f.Loading(law)
		require.NoError(t, err)
		// 60 g on 8 ft2 (0.743 m2) are 80.7 g/m2: GenericCapacity comes first and doubles the drop.
		dust := units.Mass(GenericCapacity * float64(f.MediaArea))
		assert.InEpsilon(t, 2*float64(clean), float64(l.On(law.Curve, dust, f.face(), air.Standard()).Drop(law.Fit.High)), 1e-12)
		assert.InEpsilon(t, 0.060, float64(l.Holds(f.face())), 1e-12, "the printed capacity holds")
	})
	t.Run("what dust adds is read off figures for standard air at any altitude", func(t *testing.T) {
		// 1 in. w.c. of final drop less the clean one at the same airflow and the same
		// dust, in air of viscosity 1.7e-5 for that of standard air.
		thin := air.Properties{Density: 0.9, Viscosity: 1.7e-5}
		for _, f := range []Filter{rated(), made()} {
			f.DustCapacity, f.FinalDrop, f.MediaArea = 60*units.Gram, units.InchWater, 0
			f.Width, f.Height = 20*units.Inch, 20*units.Inch
			law, err := f.Law(f.Width, f.Height, thin)
			require.NoError(t, err)
			standard, err := f.Law(f.Width, f.Height, air.Standard())
			require.NoError(t, err)
			full, err := f.Loaded(law, f.DustCapacity, f.face(), thin)
			require.NoError(t, err)
			v := law.PrintedAt
			want := float64(units.InchWater-standard.Drop(v)) * 1.7e-5 / air.Standard().Viscosity
			assert.InEpsilon(t, want, float64(full.Drop(v)-law.Drop(v)), 1e-4, f.Name)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		f := anyFilter(t)
		law, err := f.Law(f.Width, f.Height, standard)
		require.NoError(t, err)
		clean, err := f.Loaded(law, 0, f.face(), standard)
		require.NoError(t, err)
		assert.Equal(t, law.Curve, clean)
		dust := units.Mass(rapid.Float64Range(1e-4, 1).Draw(t, "dust"))
		v := units.Speed(rapid.Float64Range(0.1, 5).Draw(t, "v"))
		some, err := f.Loaded(law, dust, f.face(), standard)
		require.NoError(t, err)
		more, err := f.Loaded(law, 2*dust, f.face(), standard)
		require.NoError(t, err)
		assert.Greater(t, some.Drop(v), law.Drop(v))
		assert.Greater(t, more.Drop(v), some.Drop(v))
	})
}

func TestLoaded_Faults(t *testing.T) {
	law, err := made().Law(0.5, 0.5, standard)
	require.NoError(t, err)
	_, err = made().Loaded(law, -1, 0.25, standard)
	require.ErrorContains(t, err, "dust")
	_, err = made().Loaded(law, 1, 0, standard)
	require.ErrorContains(t, err, "face")
	f := made()
	f.Width, f.DustCapacity = 0, 1
	_, err = f.Loaded(law, 1, 0.25, standard)
	require.ErrorContains(t, err, "dust_capacity")
}
