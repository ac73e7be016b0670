package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/airpath"
)

// One return is solved as it is. Two and more without filters are one table, in front of
// all else; with a filter in one of them each is solved as it is.
func TestWhichReturnsAreTabulated(t *testing.T) {
	systems := func(j Job) (exact, tabulated airpath.System) {
		h := solvedHouse(solved(t, j))
		a, err := h.Arrange(Option{Name: TodayName}, "today")
		require.NoError(t, err)
		exact, err = h.System(a)
		require.NoError(t, err)
		tabulated, err = h.TabulatedSystem(a, exact)
		require.NoError(t, err)
		return exact, tabulated
	}
	j := pinned()
	for n := 1; n <= 3; n++ {
		j.Returns = []Return{drop10("hall", 2), drop10("den", 8), drop10("bedroom", 4)}[:n]
		exact, tabulated := systems(j)
		require.Len(t, exact.Branches, n)
		if n == 1 {
			assert.Len(t, tabulated.Branches, 1)
			assert.Len(t, tabulated.Series, len(exact.Series))
			continue
		}
		assert.Empty(t, tabulated.Branches, "%d returns", n)
		require.Len(t, tabulated.Series, len(exact.Series)+1, "%d returns", n)
		flow := 0.4
		want, err := exact.Split(flow, make([]float64, n))
		require.NoError(t, err)
		assert.InEpsilon(t, want, tabulated.Series[0].Law(flow), 1e-4)
	}
	exact, tabulated := systems(inGrilles())
	assert.Len(t, tabulated.Branches, 2)
	assert.Len(t, tabulated.Series, len(exact.Series))
}
