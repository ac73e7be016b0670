package sizing_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/processor"
)

// The example houses, alone and as a window solves them: again and again.
func BenchmarkSolveExamples(b *testing.B) {
	files, err := filepath.Glob("../assets/jobs/*.job.json")
	require.NoError(b, err)
	require.NotEmpty(b, files)
	for _, file := range files {
		job, err := jobfile.Load(file)
		require.NoError(b, err)
		name := strings.TrimSuffix(filepath.Base(file), ".job.json")
		solver := sizing.NewSolver()
		for _, c := range []struct {
			name  string
			solve func(sizing.Job) (*sizing.Study, error)
		}{{name, sizing.Solve}, {name + "_again", solver.Solve}} {
			b.Run(c.name, func(b *testing.B) {
				b.ReportAllocs()
				defer processor.Report(b)()
				for b.Loop() {
					if _, err := c.solve(job); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// The largest example with one, ten and as many options as a job may hold: what one
// more costs stays the same.
func BenchmarkOptions(b *testing.B) {
	job, err := jobfile.Load("../assets/jobs/one-inch-slot.job.json")
	require.NoError(b, err)
	some := job.Options
	for _, count := range []int{1, 10, 24} {
		job.Options = nil
		for i := range count {
			o := some[i%len(some)]
			o.Name = fmt.Sprint("option ", i)
			job.Options = append(job.Options, o)
		}
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			solver := sizing.NewSolver()
			b.ReportAllocs()
			defer processor.Report(b)()
			for b.Loop() {
				if _, err := solver.Solve(job); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
