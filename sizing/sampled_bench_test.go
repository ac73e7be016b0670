package sizing_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// The ranges of the largest example with as many samples as a report may ask for.
func BenchmarkThousandSamples(b *testing.B) {
	job, err := jobfile.Load("../assets/jobs/one-inch-slot.job.json")
	require.NoError(b, err)
	for b.Loop() {
		s := sizing.Sampling{Samples: 1000, Seed: sizing.UsualSeed, Workers: 2}
		if _, err := s.Ranges(context.Background(), job); err != nil {
			b.Fatal(err)
		}
	}
}
