package pleats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/processor"
	"returnbench/sizing/units"
)

// openFilter has the least media resistance and fold gap that the check of a job
// lets pass: next to nothing but the gaps resists the air.
var openFilter = filter.Filter{
	Name: "open", Width: 42 * units.Inch, Height: 23 * units.Inch, Depth: 1.7 * units.Inch,
	FoldGap: 0.05 * units.Millimetre, MediaResistance: 0.1,
}

const openFace = 1000 * units.FPM

var openDepths = sweptDepths(openFilter.Depth, &house.House{CompleteJob: &assume.CompleteJob{}})

func TestSweepPleats_OpenMedia(t *testing.T) {
	thin, err := SweepPleats(openFilter, openFace, 0, openDepths)
	require.NoError(t, err)
	require.Len(t, thin, len(openDepths))
	thick := openFilter
	thick.MediaResistance = 15
	a, err := SweepAir(0)
	require.NoError(t, err)
	for _, s := range thin {
		thick.Depth = s.Depth
		for i, p := range s.Points {
			require.False(t, math.IsNaN(float64(p.Drop)) || math.IsInf(float64(p.Drop), 0))
			require.Positive(t, p.Drop, "%d pleats, %v deep", p.Pleats, s.Depth)
			if i > 0 {
				assert.InEpsilon(t, float64(s.Points[i-1].Drop), float64(p.Drop), 0.35, "no leap at %d pleats, %v deep", p.Pleats, s.Depth)
			}
			thicker, err := sweepPoint(thick, p.Pleats, openFace, a)
			require.NoError(t, err)
			assert.Less(t, p.Drop, thicker.Drop, "thinner media takes less at %d pleats, %v deep", p.Pleats, s.Depth)
		}
	}
}

func BenchmarkSweepPleats(b *testing.B) {
	usual := filter.Filter{Name: "usual", Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Pleats: 24, MediaResistance: 60}
	for _, c := range []struct {
		name string
		f    filter.Filter
		face units.Speed
	}{{"usual media", usual, 300 * units.FPM}, {"open media", openFilter, openFace}} {
		b.Run(c.name, func(b *testing.B) {
			defer processor.Report(b)()
			for b.Loop() {
				if _, err := SweepPleats(c.f, c.face, 0, openDepths); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
