package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/pleats"
	"returnbench/sizing/units"
)

func TestPleatsOfAMadeFilter(t *testing.T) {
	s := solved(t, pleated())
	p, err := s.Pleats(TodayName)
	require.NoError(t, err)
	assert.Equal(t, "own", p.Filter)
	assert.False(t, p.MediaAssumed)
	assert.Equal(t, s.TargetFaceVelocity, p.FaceVelocity)
	var depths []float64
	for _, d := range p.Depths {
		depths = append(depths, d.Depth.In(units.Inch))
		best := d.Points[d.Best]
		assert.Greater(t, d.Best, 0)
		assert.Equal(t, best.Pleats-1, d.Points[d.Best-1].Pleats, "the optimum is found to the pleat at %v", d.Depth)
		assert.Equal(t, best.Pleats+1, d.Points[d.Best+1].Pleats)
		for i, q := range d.Points {
			assert.GreaterOrEqual(t, q.Drop, best.Drop)
			if i > 0 {
				assert.Greater(t, q.Pleats, d.Points[i-1].Pleats)
				assert.Greater(t, q.MediaArea, d.Points[i-1].MediaArea)
			}
		}
	}
	assert.InDeltaSlice(t, []float64{1, 2, 4, 5}, depths, 1e-9)
	// The filter as made lies on the curve of its own depth.
	require.NotNil(t, p.Own)
	assert.Equal(t, 24, p.Own.Pleats)
	for _, q := range p.Depths[0].Points {
		if q.Pleats == p.Own.Pleats {
			assert.InEpsilon(t, float64(q.Drop), float64(p.Own.Drop), 1e-9)
		}
	}
	// At the target velocity it is what the option's own law gives.
	law, err := filterOf(t, s, "own").Law(16*units.Inch, 25*units.Inch, mustAir(t, s.Air.Altitude))
	require.NoError(t, err)
	assert.InEpsilon(t, float64(law.Drop(s.TargetFaceVelocity)), float64(p.Own.Drop), 0.002)

	again, err := s.Pleats("no such option")
	require.NoError(t, err)
	assert.Same(t, p, again, "worked out once; today stands in for an unknown option")
}

func filterOf(t *testing.T, s *Study, name string) filter.Filter {
	f, ok := solvedHouse(s).Filter(name)
	require.True(t, ok)
	return f
}

func TestPleatsWithoutAMakeAreTypical(t *testing.T) {
	p, err := solved(t, least()).Pleats("")
	require.NoError(t, err)
	assert.True(t, p.MediaAssumed)
	assert.Equal(t, 8, p.MERV)
	assert.Nil(t, p.Own)
	_, err = (&Study{}).Pleats("")
	assert.ErrorIs(t, err, ErrUnsolved)
}

func TestPleatsGoToTheFirstMake(t *testing.T) {
	j := pleated()
	j.Slot.Filter = "" // the generic one
	j.Options = []Option{{Name: "upgrade", Filter: "own"}}
	p, err := solved(t, j).Pleats(TodayName)
	require.NoError(t, err)
	assert.Equal(t, "own", p.Filter)
}

// A Solver does not sweep again what an edit elsewhere left alone.
func TestASolverKeepsItsSweeps(t *testing.T) {
	solver := NewSolver()
	j := pleated()
	a, err := solver.Solve(j)
	require.NoError(t, err)
	j.Supply.Drop, j.Supply.Airflow = 0.2*units.InchWater, j.DesignAirflow
	b, err := solver.Solve(j)
	require.NoError(t, err)
	first, err := a.Pleats("")
	require.NoError(t, err)
	second, err := b.Pleats("")
	require.NoError(t, err)
	assert.Same(t, first, second)
	j.TargetFaceVelocity = 250 * units.FPM
	c, err := solver.Solve(j)
	require.NoError(t, err)
	third, err := c.Pleats("")
	require.NoError(t, err)
	assert.NotSame(t, first, third)
}

// What a person waits for when the pleat chart is first asked for.
func BenchmarkPleats(b *testing.B) {
	s, err := Solve(pleated())
	require.NoError(b, err)
	for b.Loop() {
		s.Deferred.(*deferred).sweeps = &pleats.Studies{}
		_, err := s.Pleats("")
		require.NoError(b, err)
	}
}

func mustAir(t *testing.T, altitude units.Length) air.Properties {
	a, err := pleats.SweepAir(altitude)
	require.NoError(t, err)
	return a
}

// The sweep has the depths that the job's supplier has too: 3 in lies between the listed
// ones, 4.1 in is 4 in again, 8 in is no filter of a house, and a grille has no depth. A
// Solver that swept the house before learns of them.
func TestPleatsSweepDepthsInStock_Identity(t *testing.T) {
	solver := NewSolver()
	swept := func(j Job) (*PleatStudy, []float64) {
		s, err := solver.Solve(j)
		require.NoError(t, err)
		p, err := s.Pleats(TodayName)
		require.NoError(t, err)
		var depths []float64
		for _, d := range p.Depths {
			depths = append(depths, d.Depth.In(units.Inch))
		}
		return p, depths
	}
	j := pleated()
	before, depths := swept(j)
	assert.InDeltaSlice(t, []float64{1, 2, 4, 5}, depths, 1e-9)
	for _, inches := range []units.Length{3, 4.125, 8} {
		j.StockSizes = append(j.StockSizes, StockSize{Of: FilterSize, Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: inches * units.Inch})
	}
	j.StockSizes = append(j.StockSizes, StockSize{Of: GrilleSize, Width: 16 * units.Inch, Height: 25 * units.Inch})
	after, depths := swept(j)
	assert.InDeltaSlice(t, []float64{1, 2, 3, 4, 5}, depths, 1e-9)
	assert.Equal(t, before.Depths[1], after.Depths[1])
	assert.Equal(t, before.Depths[2], after.Depths[3])
	f := j.Filters[len(j.Filters)-1]
	alone, err := pleats.SweepPleats(f, after.FaceVelocity, solved(t, j).Air.Altitude, []units.Length{3 * units.Inch})
	require.NoError(t, err)
	assert.Equal(t, alone[0], after.Depths[2])
}
