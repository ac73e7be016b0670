package airpath

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// counted is a law that counts how often it is asked.
func counted(l Law, n *int) Law {
	return func(q float64) float64 {
		*n++
		return l(q)
	}
}

// mixed is two unlike branches and a series, each asking a count of its own.
func mixed(counts *[4]int) System {
	return System{
		Branches: []Branch{
			{Name: "a", Parts: []Part{{Law: counted(quadratic(200), &counts[0])}}},
			{Name: "b", Parts: []Part{{Law: counted(Power(60, 0.3, 1.2), &counts[1])}}},
		},
		Series: []Part{{Name: "coil", Law: counted(Power(40, 0.5, 1.8), &counts[2])}, {Name: "supply", Law: counted(quadratic(80), &counts[3])}},
	}
}

// The search by straight lines settles in few rounds, as a method of its order does: to
// 1e-13 from nothing in ten, next to a like point in six, and of a law that has not moved
// at once. A split of a flow to the drop of its branches takes eight.
func TestRoundsAreFew(t *testing.T) {
	fan := func(static float64) float64 { return math.Max(0, 0.75-static/900) }
	for _, offset := range []Law{nil, Power(20, 0.5, 1.5)} {
		var n [4]int
		s := mixed(&n)
		p, err := s.Solve(fan, offset)
		require.NoError(t, err)
		for i := range n {
			assert.LessOrEqual(t, n[i], 8, "part %d", i)
		}
		again := n
		same, err := s.SolveNear(fan, offset, p, &Memory{})
		require.NoError(t, err)
		assert.InEpsilon(t, p.Flow, same.Flow, 1e-12)
		for i := range n {
			assert.LessOrEqual(t, n[i]-again[i], 3, "part %d, from the point itself", i)
		}
		again = n
		_, err = s.SolveNear(func(static float64) float64 { return fan(static) * 1.02 }, offset, p, &Memory{})
		require.NoError(t, err)
		for i := range n {
			assert.LessOrEqual(t, n[i]-again[i], 6, "part %d, from a like point", i)
		}
		want, err := s.solveBracketed(fan, offset, &Memory{})
		require.NoError(t, err)
		assert.InEpsilon(t, want.Flow, p.Flow, 1e-12)
		assert.InEpsilon(t, want.Return, p.Return, 1e-11)
		for i := range p.Branches {
			assert.InEpsilon(t, want.Branches[i], p.Branches[i], 1e-11)
		}
		for i := range p.Series {
			assert.InEpsilon(t, want.Series[i], p.Series[i], 1e-11)
		}
		assert.InDelta(t, 0, p.Residual, 1e-12)
		assert.InDelta(t, 0, want.Residual, 1e-12)
	}
	var n [4]int
	s := mixed(&n)
	flows := make([]float64, 2)
	_, err := s.Split(0.5, flows)
	require.NoError(t, err)
	assert.LessOrEqual(t, n[0], 8)
	before := n
	_, err = s.Split(0.5, flows)
	require.NoError(t, err)
	assert.LessOrEqual(t, n[0]-before[0], 3, "from the flows themselves")
}

// The certain way finds the flows whatever it is given to start from, and each branch its
// flow at a drop from guesses far to either side.
func TestBracketedSplitFromAnywhere(t *testing.T) {
	var n [4]int
	s := mixed(&n)
	want := []float64{0, 0}
	drop, err := s.Split(0.5, want)
	require.NoError(t, err)
	for _, start := range [][]float64{{0, 0}, {0.25, 0.25}, {1e-6, 1}, {1, 1e-6}, {1e-4, 1e-3}} {
		flows := append([]float64(nil), start...)
		p, err := s.splitBracketed(0.5, flows)
		require.NoError(t, err, "%v", start)
		assert.InEpsilon(t, drop, p, 1e-9, "%v", start)
		for i := range flows {
			assert.InEpsilon(t, want[i], flows[i], 1e-9, "%v", start)
		}
	}
	for i := range s.Branches {
		for _, guess := range []float64{want[i] / 1000, want[i], want[i] * 1000} {
			q, ok := s.inverse(i, drop, guess)
			require.True(t, ok, "branch %d from %g", i, guess)
			assert.InEpsilon(t, want[i], q, 1e-9)
		}
	}
}

// Branches whose drop no number tells leave nothing to share: it is an error.
func TestNoSplitIsAnError(t *testing.T) {
	wall := func(float64) float64 { return math.NaN() }
	s := System{Branches: []Branch{{Parts: []Part{{Law: wall}}}, {Parts: []Part{{Law: wall}}}}}
	_, err := s.Split(0.5, make([]float64, 2))
	assert.ErrorIs(t, err, ErrSplit)
	_, err = s.Static(0.5)
	assert.ErrorIs(t, err, ErrSplit)
	_, err = s.Table(0.5, 10)
	assert.ErrorIs(t, err, ErrSplit)
	_, err = s.solveBracketed(func(float64) float64 { return 0.5 }, nil, &Memory{})
	assert.Error(t, err)
}

// Two branches that each drop 10/3 Pa from 0.1 to 0.5 m3/s have no one way to share 0.5:
// bracketing finds 0.2 or 1.0 of it, and says so.
func TestASplitThatDoesNotAddUpIsAnError(t *testing.T) {
	flat := func(q float64) float64 { return 100.0 / 3 * (min(q, 0.1) + max(q-0.5, 0)) }
	s := System{Branches: []Branch{{Parts: []Part{{Law: flat}}}, {Parts: []Part{{Law: flat}}}}}
	_, err := s.splitBracketed(0.5, []float64{0.05, 0.45})
	assert.ErrorIs(t, err, ErrSplit)
}

// Branches all of one power are one power together, a straight line in logarithms, which
// a table holds throughout. Of unlike ones it holds the very split at its ends, a tenth of
// its flow and ten times it, and past them; air that goes backward meets as much.
func TestTableAtItsEnds_Identity(t *testing.T) {
	s := System{Branches: []Branch{{Parts: []Part{{Law: quadratic(100)}}}, {Parts: []Part{{Law: quadratic(400)}}}}}
	law, err := s.Table(0.5, 10)
	require.NoError(t, err)
	for _, q := range []float64{0.05, 0.0666, 0.1, 0.5, 1, 3, 4.99, 5, 6, 0.04} {
		assert.InEpsilon(t, 400.0/9*q*q, law(q), 1e-9, "1/sqrt(100) + 1/sqrt(400) = 3/20")
		assert.InEpsilon(t, -400.0/9*q*q, law(-q), 1e-9)
	}
	var n [4]int
	unlike := mixed(&n)
	unlike.Series = nil
	law, err = unlike.Table(0.5, 10)
	require.NoError(t, err)
	for _, q := range []float64{0.001, 0.01, 0.049, 0.05 * (1 + 1e-12), 5 * (1 - 1e-12), 5.1, 20, 100} {
		want, err := unlike.Static(q)
		require.NoError(t, err)
		assert.InEpsilon(t, want, law(q), 1e-9, "at %g", q)
	}
	n = [4]int{}
	for _, q := range []float64{0.051, 0.3, 0.5, 2, 4.9} {
		law(q)
	}
	assert.Zero(t, n, "within it no branch is asked")
	none, err := System{}.Table(0.5, 10)
	require.NoError(t, err)
	assert.Zero(t, none(3))
}

// A power law of its drop at its flow: of exponent 1.5 four times the flow makes eight
// times the drop; of 2, sixteen. It is odd, and no flow makes no drop.
func TestPower_Identity(t *testing.T) {
	for exponent, want := range map[float64]float64{1.5: 80, 2: 160, 1: 40} {
		law := Power(10, 0.5, exponent)
		assert.InEpsilon(t, want, law(2), 1e-12)
		assert.InEpsilon(t, -want, law(-2), 1e-12)
		assert.InEpsilon(t, 10.0, law(0.5), 1e-12)
		assert.Zero(t, law(0))
		assert.InEpsilon(t, 3*want, law.Scale(3)(2), 1e-12)
	}
	assert.Zero(t, Power(10, 0, 2)(3))
	assert.Zero(t, Power(10, -1, 1.5)(3))
	s := System{Series: []Part{{Name: "b"}}}.After(Part{Name: "a"})
	assert.Equal(t, []PartName{"a", "b"}, []PartName{s.Series[0].Name, s.Series[1].Name})
}

// Lines p = d + m (q - f): at a drop each takes f + (p - d)/m; together their flows add,
// in series their drops. 10 + 5 (q - 2) and 20 + 10 (q - 1) are at p = 30 at 6 and 2.
func TestLinesTogether_Identity(t *testing.T) {
	a, b := line{flow: 2, drop: 10, slope: 5}, line{flow: 1, drop: 20, slope: 10}
	assert.InDelta(t, 20, a.at(4), 1e-12)
	both := inParallel([]line{a, b})
	assert.InDelta(t, 30, both.at(8), 1e-12)
	flows := []float64{0, 0}
	share([]line{a, b}, 30, flows)
	assert.InDeltaSlice(t, []float64{6, 2}, flows, 1e-12)
	share([]line{a, b}, -1000, flows)
	assert.InDeltaSlice(t, []float64{0.25, 0.125}, flows, 1e-12, "an eighth at the least")
	one, c := line{flow: 3, drop: 10, slope: 5}, line{flow: 3, drop: 20, slope: 10}
	drop, slope := inSeries([]line{one, c}, false)
	assert.Equal(t, [2]float64{30, 15}, [2]float64{drop, slope})
	drop, slope = inSeries([]line{one, c}, true)
	assert.Equal(t, [2]float64{-10, -5}, [2]float64{drop, slope})
	assert.Equal(t, line{}, inParallel(nil))
	assert.InDelta(t, 1.0/3, worstImbalance([]line{{drop: 40}, {drop: 25}}, 30), 1e-12)
	assert.InDelta(t, 7.0/3, worstImbalance([]line{{drop: 40}, {drop: 25}}, -30), 1e-12, "no less where the lines meet below zero")
	assert.Zero(t, worstImbalance([]line{{drop: 0}}, 0))

	// A line moved from one point of k q^2 to the next has its exponent but for the third
	// order of the step: between 1 and 1.1, (0.21/2.21)/(0.1/2.1) = 4.41/2.21 is 1.995.
	var l line
	require.True(t, l.move(1, 1))
	assert.InDelta(t, 1.9, l.slope, 1e-12, "with nothing to go by")
	require.True(t, l.move(1.1, 1.21))
	assert.InDelta(t, 4.41/2.21, l.exponent, 1e-9)
	assert.InDelta(t, 1.1*4.41/2.21, l.slope, 1e-9)
	var near line
	require.True(t, near.move(1, 1) && near.move(1.001, math.Pow(1.001, 1.7)))
	assert.InDelta(t, 1.7, near.exponent, 1e-6)
	require.True(t, l.move(1.1*(1+1e-9), 1.21), "no step to go by leaves the exponent")
	assert.InDelta(t, 4.41/2.21, l.exponent, 1e-9)
	require.True(t, l.move(2, 1.22), "a slope that no part has leaves it too")
	assert.InDelta(t, 4.41/2.21, l.exponent, 1e-9)
	require.True(t, l.move(2.1, 3), "nor one that is too steep")
	assert.InDelta(t, 4.41/2.21, l.exponent, 1e-9)
	for _, wrong := range [][2]float64{{0, 1}, {-1, 1}, {1, -1}, {1, math.Inf(1)}, {1, math.NaN()}} {
		assert.False(t, l.move(wrong[0], wrong[1]), "%v", wrong)
	}
	require.True(t, l.move(2, 0))
	assert.Equal(t, line{flow: 2}, l)
}

// Bracketing widens to either side until the sign changes, from 0 to 150 Pa.
func TestBracket_Identity(t *testing.T) {
	for _, root := range []float64{-5000, -40, 30, 149, 151, 700, 1e5} {
		low, atLow, high, atHigh := bracket(func(static float64) float64 { return root - static })
		assert.LessOrEqual(t, low, root)
		assert.GreaterOrEqual(t, high, root)
		assert.InDelta(t, root-low, atLow, 1e-9)
		assert.InDelta(t, root-high, atHigh, 1e-9)
	}
	low, _, high, _ := bracket(func(static float64) float64 { return 30 - static })
	assert.Equal(t, [2]float64{0, 150}, [2]float64{low, high})
	low, _, high, _ = bracket(func(static float64) float64 { return 700 - static })
	assert.Equal(t, [2]float64{600, 1200}, [2]float64{low, high})
	low, _, high, _ = bracket(func(static float64) float64 { return -40 - static })
	assert.Equal(t, [2]float64{-50, 150}, [2]float64{low, high})
}
