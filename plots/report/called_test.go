package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// A field is called as the caller says, and by its path where he says nothing.
func TestCall(t *testing.T) {
	job, s := studied(t, jobNames()[0])
	require.NotEmpty(t, s.Assumptions)
	opts := testOptions(Working, Letter, units.IP)
	require.Contains(t, allText(readPages(t, written(t, job, s, opts))), s.Assumptions[0].Path)
	opts.Call = func(path string) string { return "[" + path[:3] + "]" }
	require.Contains(t, allText(readPages(t, written(t, job, s, opts))), "["+s.Assumptions[0].Path[:3]+"]")
}
