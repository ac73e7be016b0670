package assets

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/air"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

func TestFilters(t *testing.T) {
	l, err := Filters()
	require.NoError(t, err)
	assert.Contains(t, l.Source, "invented")
	require.NotEmpty(t, l.Filters)
	seen := map[string]bool{}
	for _, f := range l.Filters {
		assert.False(t, seen[f.Name], "%s twice", f.Name)
		seen[f.Name] = true
		assert.Contains(t, f.Name, "Generic")
		size, near := stock.Nearest(f.Width, f.Height, f.Depth)
		assert.True(t, near)
		assert.InDelta(t, f.Width.SI(), size.Width.SI(), 1e-9, f.Name)
		assert.InDelta(t, f.Height.SI(), size.Height.SI(), 1e-9, f.Name)
		assert.InDelta(t, f.Depth.SI(), size.Depth.SI(), 1e-9, f.Name)
		assert.Positive(t, f.Price.SI(), f.Name)

		law, err := f.Law(f.Width, f.Height, air.Standard())
		require.NoError(t, err, f.Name)
		assert.NotEqual(t, filter.Generic, law.Source, "%s has figures of its own", f.Name)
		assert.True(t, law.Converged, f.Name)
		_, err = f.Loading(law)
		require.NoError(t, err, f.Name)
		drop := law.Drop(300 * units.FPM)
		assert.Greater(t, f.FinalDrop, drop, f.Name)
		if len(f.Rating) > 0 {
			estimate, err := filter.GenericDrop(f.MERV, f.Depth)
			require.NoError(t, err)
			assert.InEpsilon(t, estimate.SI(), drop.SI(), 0.05, "%s keeps to the generic estimate", f.Name)
		}
	}
}

// The same medium, more of it: the pair a class compares.
func TestMorePleatsDropLess(t *testing.T) {
	l, err := Filters()
	require.NoError(t, err)
	drop := map[string]units.Pressure{}
	for _, f := range l.Filters {
		law, err := f.Law(f.Width, f.Height, air.Standard())
		require.NoError(t, err)
		drop[f.Name] = law.Drop(300 * units.FPM)
	}
	require.Contains(t, drop, "Generic 1 in, 15 pleats")
	require.Contains(t, drop, "Generic 1 in, 40 pleats, same medium")
	assert.Less(t, drop["Generic 1 in, 40 pleats, same medium"], 0.7*drop["Generic 1 in, 15 pleats"])
}

// In an ordinary house a filter 1 in. deep lasts one to three months and one 4 or
// 5 in. deep six to twelve (common practice, no source), on any blower: 3 tons,
// 1000 h each of cooling and heating, ordinary dust, the filter in a slot of its
// own size.
func TestLibraryLives_Plausible(t *testing.T) {
	l, err := Filters()
	require.NoError(t, err)
	held := 0
	for _, f := range l.Filters {
		low, high := 1.0, 3.0
		switch {
		case f.MERV < 8 || f.Pleats > 30: // pads, and packs of more media than is usual
			continue
		case f.Depth >= 4*units.Inch:
			low, high = 6, 12
		case f.Depth > units.Inch:
			continue
		}
		for _, motor := range blower.Motors() {
			job := sizing.Job{Schema: sizing.Schema, Filters: []filter.Filter{f}}
			job.Equipment.CoolingCapacity, job.Equipment.Blower.Motor = 3*units.Ton, motor
			job.Slot = sizing.Slot{Width: f.Width, Height: f.Height, Depth: f.Depth, Filter: f.Name}
			study, err := sizing.Solve(job)
			require.NoError(t, err)
			o := study.Today()
			months := o.Life.In(units.Month)
			assert.True(t, months >= low && months <= high, "%s, %s: %.2f months, %s", f.Name, motor, months, o.ReplacedBecause)
			held++
		}
	}
	assert.Greater(t, held, 15)
}

func TestReadLibraryFaults(t *testing.T) {
	_, err := readLibrary([]byte(`{"filters": [{"name": "a", "colour": "red"}]}`))
	assert.ErrorContains(t, err, "colour")
	_, err = readLibrary([]byte(`{"filters": [{"name": "a", "width": "20"}]}`))
	assert.ErrorContains(t, err, "the unit is missing")
}
