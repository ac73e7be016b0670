package findings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

func solved(t *testing.T, name string) *sizing.Study {
	t.Helper()
	text, err := assets.Open(name)
	require.NoError(t, err)
	job, err := jobfile.Decode(text)
	require.NoError(t, err)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	return study
}

// Each problem is reported once, the house's own first and worst first; what removes
// it is what the Study says removes it.
func TestEachProblemIsListedOnce(t *testing.T) {
	for _, e := range assets.Examples() {
		study := solved(t, e.Name)
		today, brought := kinds(study)
		seen := map[sizing.Problem]bool{}
		for i, k := range append(today, brought...) {
			require.False(t, seen[k.problem], "%s: %s is told twice", e.Name, k.problem)
			seen[k.problem] = true
			if i > 0 && i < len(today) {
				require.LessOrEqual(t, k.finding.Severity.Rank(), today[i-1].finding.Severity.Rank(), "%s: worst first", e.Name)
			}
			for _, name := range k.removes {
				require.Contains(t, effects(study.Option(name), k.problem), sizing.Removed)
			}
			for _, name := range k.lessens {
				require.NotContains(t, effects(study.Option(name), k.problem), sizing.Removed)
			}
		}
		for _, f := range study.Findings {
			if f.Severity != sizing.Good && f.Option == study.Today().Name {
				require.True(t, seen[problemOf(&f)], "%s: %s is missing", e.Name, f.Code)
			}
		}
		require.Equal(t, len(today), Problems(study))
	}
}

func effects(o *sizing.OptionResult, p sizing.Problem) (out []sizing.Effect) {
	for _, c := range o.Against {
		if c.Problem == p {
			out = append(out, c.Effect)
		}
	}
	return out
}

// The first example's heating runs too hot: the Study says that four options end
// it, and Problems offers the same four.
func TestProblemsOfferWhatRemovesThem(t *testing.T) {
	today, _ := kinds(solved(t, "one-inch-slot"))
	require.Equal(t, sizing.RiseHigh, today[0].problem)
	require.Contains(t, today[0].removes, "cabinet and second return")
	require.Contains(t, fields, today[0].problem)
}
