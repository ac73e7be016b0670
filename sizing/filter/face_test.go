package filter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// In a face of half the area a filter holds half the dust and has half the media; its
// drop at a face velocity stays.
func TestWithFace_Identity(t *testing.T) {
	f := filter.Filter{
		Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Pleats: 24, MediaArea: 8, DustCapacity: 0.026, ActualWidth: 19.5 * units.Inch,
		Rating: []filter.RatingPoint{{Airflow: 1000 * units.CFM, Drop: 60}, {FaceVelocity: 300 * units.FPM, Drop: 70}},
	}
	half := f.WithFace(10*units.Inch, 25*units.Inch)
	require.InDelta(t, 4, float64(half.MediaArea), 1e-12)
	require.InDelta(t, 0.013, float64(half.DustCapacity), 1e-12)
	require.Equal(t, 12, half.Pleats)
	require.InDelta(t, 500, half.Rating[0].Airflow.In(units.CFM), 1e-9)
	require.Equal(t, f.Rating[1], half.Rating[1])
	require.Equal(t, 1000*units.CFM, f.Rating[0].Airflow, "the filter it was made of stays as it is")
	require.Zero(t, half.ActualWidth)
	require.Equal(t, units.Inch, half.Depth)
	back := half.WithFace(f.Width, f.Height)
	back.ActualWidth = f.ActualWidth
	require.Equal(t, f.Pleats, back.Pleats)
	require.InDelta(t, float64(f.DustCapacity), float64(back.DustCapacity), 1e-12)

	require.Equal(t, f, f.WithFace(0, 20*units.Inch), "no size is given")
	bare := filter.Filter{Name: "bare"}.WithFace(16*units.Inch, 25*units.Inch)
	require.Equal(t, 16*units.Inch, bare.Width)
}
