package export

import (
	"context"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestComparisonTextIsPlain(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Options: []sizing.Option{
		{Name: "=wide\tslot", Slot: sizing.Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}, Price: 400},
	}}
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	ranges, err := sizing.Sampling{Samples: 20, Seed: 3}.Ranges(context.Background(), job)
	require.NoError(t, err)
	for _, sys := range []units.Locale{units.IP, units.SI} {
		var b strings.Builder
		c := sizing.Compare(study, sizing.View{}, ranges)
		require.NoError(t, ComparisonText(&b, c, sys))
		lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
		require.Len(t, lines, 1+len(c.Rows)+1)
		require.Equal(t, c.Basis().String(), lines[len(lines)-1])
		lines = lines[:len(lines)-1]
		for i, line := range lines {
			cells := strings.Split(line, "\t")
			require.Len(t, cells, 3+1+3+3, line)
			if i == 0 {
				assert.Equal(t, "'=wide slot", cells[4], "neither a formula nor two cells")
				continue
			}
			unit := c.Rows[i-1].Unit(sys)
			if unit != "" {
				assert.True(t, strings.HasSuffix(cells[0], ", "+unit), cells[0])
			}
			if words := c.Rows[i-1].Key; words == "verdict" || words == "payback" {
				continue
			}
			for _, k := range []int{3, 4, 5, 7, 8} {
				if cells[k] != "" {
					_, err := strconv.ParseFloat(cells[k], 64)
					assert.NoError(t, err, "%s: %q", cells[0], cells[k])
				}
			}
		}
		assert.Contains(t, lines[1], "\tmore\t")
		assert.Contains(t, lines[1], "\tbetter\t")
	}
	var b strings.Builder
	require.NoError(t, ComparisonText(&b, sizing.Compare(study, sizing.View{}, nil), units.IP))
	airflow := strings.Split(strings.Split(b.String(), "\n")[1], "\t")
	assert.NotEmpty(t, airflow[5], "the change")
	assert.Empty(t, airflow[6], "no word without samples")
	assert.Contains(t, b.String(), "Without ranges")
}

func TestPastedCells(t *testing.T) {
	for given, want := range map[string]string{"-12.5": "-12.5", "-": "-", "-a": "'-a", "@x": "'@x", "": "", "a\tb": "a b"} {
		assert.Equal(t, want, pasted(given))
	}
}
