package homes

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/published"
)

// TestKeptLists_Identity: lists of the past, which between them have every
// column, are read, and every home of them is solved.
func TestKeptLists_Identity(t *testing.T) {
	for _, name := range []string{"homes.csv", "homes-by-parts.csv"} {
		data, err := os.ReadFile(filepath.Join(published.Dir(), "schema1", name))
		require.NoError(t, err)
		rows := records(t, string(data))
		for i, column := range rows[0] {
			filled := slices.ContainsFunc(rows[1:], func(row []string) bool { return row[i] != "" })
			require.True(t, filled, "%s: no row fills %s", name, column)
		}
		out, summary := screened(t, string(data), Options{Workers: 1})
		require.Equal(t, len(rows)-1, summary.Homes)
		require.Zero(t, summary.Faulty, out)
	}
}
