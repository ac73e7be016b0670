package filter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// openPack has the least media resistance and fold gap that the check of a job
// lets pass.
func openPack(pleats int) Pack {
	return Pack{Width: 0.8, Pleats: pleats, Depth: 0.036, FoldGap: 0.05 * units.Millimetre, Resistance: 0.1}
}

const openFace = 1000 * units.FPM

// fineDrop solves on one fine grid, without a limit of work, going from thick media to the
// pack's own in steps that the last answer carries over.
func fineDrop(t *testing.T, p Pack, face units.Speed, a air.Properties, cells int) float64 {
	layout, err := p.geometry()
	require.NoError(t, err)
	s := newPleatSolver(layout, p.Equations, a)
	s.limit = math.MaxInt
	flow, stretch := float64(face)*layout.pitch, layout.slant/layout.depth
	g := s.newGrid(cells)
	g.startLinear()
	good := append([]float64(nil), g.u...)
	for own, r, ratio := layout.resistance, 200.0, 2.0; r > own; {
		next := max(own, r/ratio)
		for i := range g.cells {
			g.cells[i].media = next / (2 * stretch * g.cells[i].width)
		}
		if s.newton(g, flow, 1) {
			r, ratio = next, min(ratio*ratio, 4)
			copy(good, g.u)
			continue
		}
		copy(g.u, good)
		ratio = math.Sqrt(ratio)
		require.Greater(t, ratio, 1.001, "%d pleats: the fine grid has no answer under %g Pa s/m", p.Pleats, r)
	}
	return s.drop(g, flow)
}

func TestDropOfOpenMedia_FinerGrid(t *testing.T) {
	unconverged := 0
	for _, n := range []int{40, 60} {
		p := openPack(n)
		got, ok := p.dropOfOpenMedia(openFace, standard)
		require.True(t, ok)
		want := fineDrop(t, p, openFace, standard, 2*finestGrid)
		assert.InEpsilon(t, want, fineDrop(t, p, openFace, standard, finestGrid), 0.01, "the fine grid is fine enough")
		assert.InEpsilon(t, want, float64(got), 0.1, "%d pleats", n)
		r, err := p.Solve(openFace, standard)
		require.NoError(t, err)
		if !r.Converged {
			unconverged++
		}
		back, ok := p.dropOfOpenMedia(-openFace, standard)
		require.True(t, ok)
		assert.Equal(t, got, -back)
	}
	assert.Positive(t, unconverged, "packs for which the estimate is made")
}

// Where the pack's own media converges too, the estimate can do without it.
func TestDropOfOpenMedia_Identity(t *testing.T) {
	for _, p := range []Pack{demoPack, {Width: 0.508, Pleats: 40, Depth: 0.09, Resistance: 5}} {
		r, err := p.Solve(1.5, standard)
		require.NoError(t, err)
		require.True(t, r.Converged)
		got, ok := p.dropOfOpenMedia(1.5, standard)
		require.True(t, ok)
		assert.InEpsilon(t, float64(r.Drop), float64(got), 0.01)
	}
	for _, power := range []float64{0.1, 0.5, 1} {
		at := func(x float64) float64 { return 3 + 2*math.Pow(x, power) }
		assert.InEpsilon(t, at(0.03), throughDoublings([3]float64{at(1), at(2), at(4)}, 0.03), 1e-12)
	}
	assert.InEpsilon(t, 1.2, throughDoublings([3]float64{2, 3, 6}, 0.2), 1e-12, "no steeper than a straight line")
}

// A solve ends with its limit of work, whatever it is given.
func TestPackSolve_Bounded(t *testing.T) {
	for n := 6; n <= 400; n += 7 {
		g, err := openPack(n).geometry()
		require.NoError(t, err)
		s := newPleatSolver(g, Equations{}, standard)
		r := s.solve(float64(openFace))
		require.False(t, math.IsNaN(float64(r.Drop)) || math.IsInf(float64(r.Drop), 0))
		// What begins within the limit is one assembly on each of a few starts.
		assert.Less(t, s.work, mostWork+4*finestGrid, "%d pleats", n)
	}
}
