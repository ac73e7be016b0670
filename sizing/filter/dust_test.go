package filter

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/units"
)

func TestLoaded_Identity(t *testing.T) {
	t.Run("the capacity brings the clean drop to the final one", func(t *testing.T) {
		f := rated()
		f.FinalDrop, f.DustCapacity, f.MediaArea = units.InchWater, 60*units.Gram, 8*units.SquareFoot
		law, err := f.Law(f.Width, f.Height, RatingAir())
		require.NoError(t, err)
		full, err := f.Loaded(law, f.DustCapacity, f.face(), RatingAir())
		require.NoError(t, err)
		assert.InEpsilon(t, 1, full.Drop(law.Fit.High).In(units.InchWater), 1e-12)
		// Twice the face holds twice the dust at the same drop.
		twice, err := f.Loaded(law, 2*f.DustCapacity, 2*f.face(), RatingAir())
		require.NoError(t, err)
		assert.InEpsilon(t, float64(full.Drop(1)), float64(twice.Drop(1)), 1e-12)
	})
	t.Run("without a capacity the generic one doubles the clean drop", func(t *testing.T) {
		law, err := made().Law(20*units.Inch, 20*units.Inch, RatingAir())
		require.NoError(t, err)
		face := made().face()
		dust := units.Mass(GenericCapacity * law.MediaAreaRatio * float64(face))
		full, err := made().Loaded(law, dust, face, RatingAir())
		require.NoError(t, err)
		assert.InEpsilon(t, 2*float64(law.Drop(RatedFace)), float64(full.Drop(RatedFace)), 1e-12)
		l, err := made().Loading(law)
		require.NoError(t, err)
		assert.True(t, l.Assumed)
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

func TestChangeLimit_Identity(t *testing.T) {
	f := guessed()
	law, err := f.Law(f.Width, f.Height, RatingAir())
	require.NoError(t, err)
	limit, source := f.ChangeLimit(law, RatedFace)
	assert.InEpsilon(t, 0.28, limit.In(units.InchWater), 1e-12)
	assert.Contains(t, source, "common practice")
	limit, source = f.ChangeLimit(law, 3)
	assert.InEpsilon(t, 0.6, limit.In(units.InchWater), 1e-12)
	assert.Contains(t, source, "52.2")
	f.FinalDrop = 125
	limit, source = f.ChangeLimit(law, 3)
	assert.Equal(t, units.Pressure(125), limit)
	assert.Equal(t, "the filter's final drop", source)
}

// steadyMarch loads a linear law at constant airflow: dp = (A + k m) v, so that
// the time to any limit is known in closed form.
func steadyMarch() MarchInput {
	return MarchInput{
		Loaded:   func(m units.Mass) (Curve, error) { return Curve{A: 40 + 1000*float64(m)}, nil },
		Airflow:  func(Curve) (units.Flow, error) { return 0.5, nil },
		Face:     0.25,
		DustRate: units.GramPerDay, RunShare: 0.5, Caught: 0.8,
		Longest: 10 * units.Year,
	}
}

func TestMarch_Identity(t *testing.T) {
	t.Run("drop limit", func(t *testing.T) {
		in := steadyMarch()
		in.DropLimit = 2 * (40 + 100) // at v = 2 m/s: 0.1 kg held
		out := March(in)
		require.NoError(t, out.Err)
		assert.Equal(t, AtDropLimit, out.End)
		assert.InDelta(t, 250, float64(out.Life/units.Day), 0.2, "0.1 kg at 0.4 g a day")
		last := out.Points[len(out.Points)-1]
		assert.Equal(t, out.Life, last.Time)
		assert.InEpsilon(t, 280, float64(last.Drop), 1e-3)
		assert.Zero(t, out.Points[0].Time)
	})
	t.Run("airflow limit", func(t *testing.T) {
		in := steadyMarch()
		in.Airflow = func(c Curve) (units.Flow, error) { return units.Flow(20 / c.A), nil }
		in.AirflowLimit = 0.2 // 40/(40 + 1000 m) = 0.8: m = 0.01 kg
		out := March(in)
		assert.Equal(t, AtAirflowLimit, out.End)
		assert.InDelta(t, 25, float64(out.Life/units.Day), 0.2)
	})
	t.Run("time limit", func(t *testing.T) {
		in := steadyMarch()
		in.Longest = 2.5 * units.Month
		out := March(in)
		assert.Equal(t, AtTimeLimit, out.End)
		assert.Equal(t, in.Longest, out.Life)
		assert.Len(t, out.Points, 4)
	})
	t.Run("past its limit when clean", func(t *testing.T) {
		in := steadyMarch()
		in.DropLimit = 1
		out := March(in)
		assert.Equal(t, AtDropLimit, out.End)
		assert.Zero(t, out.Life)
		assert.Len(t, out.Points, 1)
	})
	t.Run("what a callback says comes back", func(t *testing.T) {
		in := steadyMarch()
		no := errors.New("off the table")
		in.Airflow = func(c Curve) (units.Flow, error) {
			if c.A > 60 {
				return 0, no
			}
			return 0.5, nil
		}
		out := March(in)
		assert.Equal(t, AtError, out.End)
		require.ErrorIs(t, out.Err, no)
		assert.NotEmpty(t, out.Points)
		in.Caught = 2
		require.ErrorContains(t, March(in).Err, "caught share")
	})
}

func TestMarch_OrderOfLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFilter(t)
		law, err := f.Law(f.Width, f.Height, standard)
		require.NoError(t, err)
		in := MarchInput{
			Loaded: func(m units.Mass) (Curve, error) { return f.Loaded(law, m, f.face(), standard) },
			Airflow: func(c Curve) (units.Flow, error) {
				// A blower whose airflow falls in proportion to the drop.
				return units.Flow(0.4 / (1 + float64(c.Drop(1.5))/400)), nil
			},
			Face: f.face(), DustRate: units.MassRate(rapid.Float64Range(0.1, 20).Draw(t, "g/day")) * units.GramPerDay,
			Caught: rapid.Float64Range(0.1, 1).Draw(t, "caught"), AirflowLimit: 0.1, Longest: units.Year,
		}
		in.DropLimit, _ = f.ChangeLimit(law, 1.5)
		out := March(in)
		require.NoError(t, out.Err)
		for i := 1; i < len(out.Points); i++ {
			a, b := out.Points[i-1], out.Points[i]
			assert.Less(t, a.Time, b.Time)
			assert.LessOrEqual(t, b.Airflow, a.Airflow)
		}
		in.DustRate *= 2
		assert.LessOrEqual(t, March(in).Life, out.Life, "more dust, no longer life")
	})
}

func BenchmarkMarch(b *testing.B) {
	f := rated()
	law, err := f.Law(f.Width, f.Height, standard)
	require.NoError(b, err)
	in := MarchInput{
		Loaded:   func(m units.Mass) (Curve, error) { return f.Loaded(law, m, f.face(), standard) },
		Airflow:  func(Curve) (units.Flow, error) { return 0.4, nil },
		Face:     f.face(),
		DustRate: units.GramPerDay, Caught: 0.9, DropLimit: 200,
	}
	for b.Loop() {
		if out := March(in); out.Err != nil {
			b.Fatal(out.Err)
		}
	}
}
