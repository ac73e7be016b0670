package sizing_test

import (
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
