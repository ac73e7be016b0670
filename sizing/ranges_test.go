package sizing

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

func TestRangesRepeat(t *testing.T) {
	j := least()
	j.Options = []Option{{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}
	a, err := Ranges(context.Background(), j, 60, 7, nil)
	require.NoError(t, err)
	b, err := Ranges(context.Background(), j, 60, 7, nil)
	require.NoError(t, err)
	assert.Equal(t, a, b, "the same seed gives the same ranges")
	s := solved(t, j)
	for i, r := range a {
		assert.LessOrEqual(t, r.Airflow.Low, s.Options[i].Clean.Airflow)
		assert.GreaterOrEqual(t, r.Airflow.High, s.Options[i].Clean.Airflow)
	}
	assert.True(t, a[2].MoreAir.Holds(), "a deeper filter moves more air in every sample of a PSC house")
	assert.Equal(t, "upgrade_helps", RangeFindings(a)[0].Code)
}

func TestRangesNarrowWithKnowledge(t *testing.T) {
	j := least()
	rough, err := Ranges(context.Background(), j, 80, 1, nil)
	require.NoError(t, err)
	j.Uncertainty = Uncertainty{Assumed: 0.02}
	fine, err := Ranges(context.Background(), j, 80, 1, nil)
	require.NoError(t, err)
	width := func(r OptionRange) float64 { return float64(r.Airflow.High - r.Airflow.Low) }
	assert.Less(t, width(fine[1]), 0.5*width(rough[1]))
}

func TestRangesCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	_, err := Ranges(ctx, least(), 50, 1, func(n int) {
		if n == 3 {
			cancel()
		}
	})
	assert.ErrorIs(t, err, context.Canceled)
}
