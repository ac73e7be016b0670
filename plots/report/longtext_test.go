package report

import (
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// TestLongText: texts as long as a job may hold are laid out in a time
// that grows no faster than they do, whether they are words or one word.
func TestLongText(t *testing.T) {
	for _, unit := range []string{"x", "word ", "\u05d0"} {
		job, _ := studied(t, "one-inch-slot")
		job.Notes = strings.Repeat(unit, 10_000)[:sizing.MostLetters("notes")/len(unit)*len(unit)]
		job.Name = strings.Repeat(unit, 200)[:200/len(unit)*len(unit)]
		study, err := sizing.Solve(job)
		require.NoError(t, err)
		for _, a := range []Audience{Customer, WorkOrder, Working} {
			began := time.Now()
			pages, err := New(job, study, testOptions(a, Letter, units.IP))
			require.NoError(t, err)
			require.NoError(t, pages.Write(io.Discard))
			t.Logf("%q for %s: %v", unit, a, time.Since(began))
			// Several times what it takes on a slow and busy machine.
			require.Less(t, time.Since(began), 10*time.Second)
		}
	}
}

// TestTitle: the description of the file has a name in the order in
// which it is typed, and nothing that steers.
func TestTitle(t *testing.T) {
	require.Equal(t, "Work order: \u05d0\u05d1\u05d2 house", inLine("Work order: \u05d0\u05d1\u05d2\n\u202e house\x1b"))
}
