package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/processor"
	"returnbench/sizing/search"
)

// Every nominal size, depth and number of openings of a house.
func BenchmarkFindSizes(b *testing.B) {
	h, err := house.New(assume.Job(twoReturns()), nil)
	require.NoError(b, err)
	defer processor.Report(b)()
	for b.Loop() {
		if _, _, err := search.FindSizes(h); err != nil {
			b.Fatal(err)
		}
	}
}
