package sizing_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/processor"
)

// The ranges of the largest example with as many samples as a report may ask for,
// and how long a cancelled run takes to end.
func BenchmarkThousandSamples(b *testing.B) {
	job, err := jobfile.Load("../assets/jobs/one-inch-slot.job.json")
	require.NoError(b, err)
	b.Run("whole", func(b *testing.B) {
		defer processor.Report(b)()
		for b.Loop() {
			s := sizing.Sampling{Samples: 1000, Seed: sizing.UsualSeed, Workers: 2}
			if _, err := s.Ranges(context.Background(), job); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("cancelled", func(b *testing.B) {
		var ending time.Duration
		for b.Loop() {
			ctx, cancel := context.WithCancel(context.Background())
			var at time.Time
			s := sizing.Sampling{Samples: 1000, Seed: sizing.UsualSeed, Workers: 2, Done: func(n int) {
				if n == 5 {
					at = time.Now()
					cancel()
				}
			}}
			_, err := s.Ranges(ctx, job)
			require.ErrorIs(b, err, context.Canceled)
			ending += time.Since(at)
		}
		b.ReportMetric(float64(ending.Nanoseconds())/float64(b.N), "ending-ns/op")
	})
}
