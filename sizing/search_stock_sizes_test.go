package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// stockHouse moves 1200 cfm and has 27 x 27 x 10 in for one cabinet: its casing takes
// 1 1/2 in across and 3 in along the air, so that 25 1/2 x 25 1/2 in of filters fit,
// 7 in deep.
func stockHouse() sizing.Job {
	return sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Limits: sizing.Limits{
		CabinetWidth: 27 * units.Inch, CabinetHeight: 27 * units.Inch, CabinetDepth: 10 * units.Inch}}
}

func sizeLabeled(s *sizing.Study, label string) *sizing.Size {
	for i := range s.Sizes {
		if s.Sizes[i].Label == label {
			return &s.Sizes[i]
		}
	}
	return nil
}

// A size that only the job's supplier has is found, and taken before the listed ones
// where it is the better: 25 1/2 x 25 1/2 in is 650.25 in2 = 4.516 ft2, which 1200 cfm
// cross at 265.7 fpm, slower than any listed cabinet that has room.
func TestStockSizeIsFound_Identity(t *testing.T) {
	listed, err := sizing.Solve(stockHouse())
	require.NoError(t, err)
	job := stockHouse()
	job.StockSizes = []sizing.StockSize{{Of: sizing.FilterSize, Width: 25.5 * units.Inch, Height: 25.5 * units.Inch, Depth: 5 * units.Inch}}
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	const name = "25.5x25.5x5"
	assert.Nil(t, sizeLabeled(listed, name))
	z := sizeLabeled(s, name)
	require.NotNil(t, z)
	assert.True(t, z.Stocked)
	assert.Equal(t, sizing.InCabinet, z.Place)
	assert.InDelta(t, 1200/(25.5*25.5/144), z.DesignFaceVelocity.In(units.FPM), 1e-9)
	assert.Equal(t, name, s.SuggestedSizes.Largest.Label)
	assert.Greater(t, float64(z.FaceArea), float64(listed.SuggestedSizes.Largest.FaceArea))
	for i := range s.Sizes {
		if o := &s.Sizes[i]; o.Label != name {
			assert.False(t, o.Stocked, o.Label)
			if o.Place == z.Place && o.Count == 1 && sizeLabeled(listed, o.Label) != nil {
				assert.Equal(t, sizeLabeled(listed, o.Label).Airflow, o.Airflow, "the listed sizes stay as they were")
			}
		}
	}
	taken := job.Clone()
	option := sizing.AddSize(&taken, *z)
	after, err := sizing.Solve(taken)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(z.Airflow), float64(after.Option(option).Clean.Airflow), 1e-9)
}

// A grille is one with a filter in it, a thin filter one of a slot; a size that is
// listed anyway is not told to be in stock alone, upright or turned.
func TestStockSizesByPlace(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.StockSizes = []sizing.StockSize{
		{Of: sizing.GrilleSize, Width: 22 * units.Inch, Height: 27 * units.Inch},
		{Of: sizing.FilterSize, Width: 23 * units.Inch, Height: 26 * units.Inch, Depth: 2 * units.Inch},
		{Of: sizing.FilterSize, Width: 25 * units.Inch, Height: 20 * units.Inch, Depth: 4 * units.Inch},
	}
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	places := map[string]sizing.PlaceKind{}
	for _, z := range s.Sizes {
		if z.Stocked {
			places[z.Label] = z.Place
		}
	}
	assert.Equal(t, map[string]sizing.PlaceKind{"22x27x1": sizing.InGrille, "23x26x2": sizing.InSlot}, places)
}

// A supplier's size that is given twice, upright and turned, is one size of the list.
func TestStockSizeGivenTwice(t *testing.T) {
	job := stockHouse()
	job.StockSizes = []sizing.StockSize{
		{Of: sizing.FilterSize, Width: 23 * units.Inch, Height: 26 * units.Inch, Depth: 5 * units.Inch},
		{Of: sizing.FilterSize, Width: 26 * units.Inch, Height: 23 * units.Inch, Depth: 5 * units.Inch},
	}
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	assert.NotNil(t, sizeLabeled(s, "23x26x5"))
	assert.Nil(t, sizeLabeled(s, "26x23x5"))
}

// Each bound of a stock size is reported by its field.
func TestStockSizeFaults(t *testing.T) {
	good := sizing.StockSize{Of: sizing.FilterSize, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}
	for field, spoil := range map[string]func(*sizing.StockSize){
		"of":     func(s *sizing.StockSize) { s.Of = "" },
		"width":  func(s *sizing.StockSize) { s.Width = 73 * units.Inch },
		"height": func(s *sizing.StockSize) { s.Height = 0 },
		"depth":  func(s *sizing.StockSize) { s.Depth = 0 },
	} {
		job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, StockSizes: []sizing.StockSize{good, good}}
		require.Empty(t, job.Check())
		spoil(&job.StockSizes[1])
		faults := job.Check()
		require.Len(t, faults, 1, field)
		assert.Equal(t, "stock_sizes[1]."+field, faults[0].Path)
	}
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.StockSizes = []sizing.StockSize{{Of: sizing.GrilleSize, Width: 97 * units.Inch, Height: 3 * units.Inch, Depth: units.Inch}}
	faults := job.Check()
	require.Len(t, faults, 2)
	assert.Equal(t, "stock_sizes[0].width", faults[0].Path)
	assert.Equal(t, "stock_sizes[0].depth", faults[1].Path)
}
