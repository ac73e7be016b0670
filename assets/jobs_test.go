package assets

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// TestExamples: every ready job is listed, reads without a fault, says
// that it is invented, and can be solved.
func TestExamples(t *testing.T) {
	files, err := fs.Glob(jobs, "jobs/*")
	require.NoError(t, err)
	require.Len(t, Examples(), len(files), "every file is listed")
	require.Equal(t, "one-inch-slot", Examples()[0].Name)
	for _, e := range Examples() {
		t.Run(e.Name, func(t *testing.T) {
			require.NotEmpty(t, e.Title)
			require.Regexp(t, `\?$`, e.Question)
			data, err := Open(e.Name)
			require.NoError(t, err)
			byFile, err := Open(e.File)
			require.NoError(t, err)
			require.Equal(t, data, byFile)
			job, err := jobfile.Read(data)
			require.NoError(t, err)
			require.Contains(t, job.Notes, "invented")
			_, err = sizing.Solve(job)
			require.NoError(t, err)
		})
	}
	_, err = Open("nothing")
	require.ErrorContains(t, err, "one-inch-slot")
}

// TestExampleReadings_Identity: in the first example the gauge's own sums hold:
// inlet to outlet is the external static, and the filter lies between plenum
// and inlet.
func TestExampleReadings_Identity(t *testing.T) {
	data, err := Open("one-inch-slot")
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	r := job.Readings[0]
	require.InDelta(t, float64(r.FilterDrop), float64(r.ReturnPlenum-r.BlowerInlet), 1e-9)
	static := float64(r.BlowerOutlet - r.BlowerInlet)
	require.InDelta(t, 0.9*249.08891, static, 0.05*249.08891)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	require.InEpsilon(t, static, float64(study.Today().Clean.ExternalStatic), 0.01)
}
