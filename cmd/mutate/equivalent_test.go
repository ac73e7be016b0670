package main

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An entry names a fault by its file and its lines, however they are indented.
func TestEquivalents(t *testing.T) {
	module(t)
	list, err := equivalents("# Why.\n\na/a.go\n  No test asks\n  for the share.\n- func   Share(a, b float64) float64 { return a / b }\n+ func Share(a, b float64) float64 { return a * b }\n")
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "No test asks for the share.", list[0].reason)
	all := sampleFaults(t)
	faults, passed := withoutEquivalents(slices.Clone(all), list)
	assert.Equal(t, 1, passed)
	require.Len(t, faults, len(all)-1)
	for _, f := range faults {
		assert.NotEqual(t, "a * b", f.with)
	}
	h := &hunt{suites: packagesOf(t, "./a"), timeout: time.Minute, out: t.Output()}
	got, err := h.all(faults, 10)
	require.NoError(t, err)
	assert.Equal(t, tally{planted: 1, caught: 1}, got)

	other := list[0]
	other.path = "b/b.go"
	_, passed = withoutEquivalents(slices.Clone(all), []equivalent{other})
	assert.Zero(t, passed, "another file")

	for _, incomplete := range []string{"a/a.go\n- x\n+ y\n", "why\n", "a/a.go\nwhy\n"} {
		_, err := equivalents(incomplete)
		assert.ErrorContains(t, err, "want a path, a reason and the lines", incomplete)
	}
}

// Each entry of the list stands in the source as it is, once.
func TestEquivalents_InTheSource(t *testing.T) {
	t.Chdir("../..")
	faults, err := collect([]string{"sizing/*.go", "sizing/*/*.go"})
	require.NoError(t, err)
	list, err := equivalents(equivalentsText)
	require.NoError(t, err)
	for i, e := range list {
		n := 0
		for _, f := range faults {
			if e.is(f) {
				n++
			}
		}
		assert.Positive(t, n, "%s: no such fault: %s", e.path, e.after)
		assert.NotContains(t, list[:i], e)
	}
}
