package sizing_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

func examples(t testing.TB) map[string]sizing.Job {
	t.Helper()
	files, err := filepath.Glob("../assets/jobs/*.job.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string]sizing.Job{}
	for _, file := range files {
		if out[filepath.Base(file)], err = jobfile.Load(file); err != nil {
			require.NoError(t, err)
		}
	}
	return out
}

// What is said of a size is what is said of the house once the size is taken.
func TestSizesAreJudgedAsTaken_Identity(t *testing.T) {
	jobs := examples(t)
	jobs["least"] = sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	for name, job := range jobs {
		s, err := sizing.Solve(job)
		require.NoError(t, err)
		for _, z := range s.Sizes {
			taken := job.Clone()
			option := sizing.AddSize(&taken, z)
			after, err := sizing.Solve(taken)
			require.NoError(t, err)
			want := after.Option(option)
			got, err := s.With(z)
			require.NoError(t, err)
			at := name + " " + option
			assert.Equal(t, want.Verdict, got.Verdict, at)
			assert.Equal(t, want.Why.In(units.IP), got.Why.In(units.IP), at)
			assert.InEpsilon(t, float64(want.Clean.Airflow), float64(got.Clean.Airflow), 1e-6, at)
			assert.InEpsilon(t, float64(want.Clean.Airflow), float64(z.Airflow), 1e-9, at)
			assert.InEpsilon(t, float64(want.Clean.ExternalStatic), float64(z.ExternalStatic), 1e-9, at)
		}
	}
}

// A filter that fits takes no more than Findings lets it.
func TestSizesFitTheDropThatFindingsHold(t *testing.T) {
	for name, job := range examples(t) {
		s, err := sizing.Solve(job)
		require.NoError(t, err)
		for _, z := range s.Sizes {
			with, err := s.With(z)
			require.NoError(t, err)
			for _, f := range with.Findings {
				if f.Code == "filter_drop" && z.MeetsAll {
					t.Errorf("%s %s fits, but: %s", name, z.Label, f.In(units.IP))
				}
			}
		}
	}
}

// Where nothing fits the limits, the answer names the nearest, and what it misses.
func TestAnswerNamesTheNearest(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.Limits.MaxFilterDrop = 0.01 * units.InchWater
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	for _, z := range []*sizing.Size{s.SuggestedSizes.Grille, s.SuggestedSizes.Slot, s.SuggestedSizes.Cabinet} {
		require.NotNil(t, z)
		assert.False(t, z.MeetsAll)
		require.Len(t, z.Misses, 1, z.Label)
		assert.Equal(t, "filter_drop", z.Misses[0].Code)
		assert.NotEmpty(t, z.Misses[0].In(units.IP))
		with, err := s.With(*z)
		require.NoError(t, err)
		assert.Equal(t, sizing.Caution, with.Verdict)
	}
	job.Limits.CabinetWidth, job.Limits.CabinetHeight = 5*units.Inch, 5*units.Inch
	s, err = sizing.Solve(job)
	require.NoError(t, err)
	assert.Nil(t, s.SuggestedSizes.Slot, "nothing goes in there")
}

func BenchmarkSizesJudged(b *testing.B) {
	for name, job := range examples(b) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				s, err := sizing.Solve(job)
				require.NoError(b, err)
				for _, z := range s.Sizes {
					_, err := s.With(z)
					require.NoError(b, err)
				}
			}
		})
	}
}
