package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// wordsOf is all text of a job's pages for an option, each run of blanks one.
func wordsOf(t *testing.T, job sizing.Job, who Audience, option string) string {
	t.Helper()
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	opts := testOptions(who, Letter, units.IP)
	opts.Proposed = option
	return strings.Join(strings.Fields(allText(readPages(t, written(t, job, s, opts)))), " ")
}

// Two filters of 20 x 24 x 4 are ordered as two: one cabinet whose outside is
// 2 x 20 + 1 1/2 by 24 + 1 1/2 by 4 + 3 in, and two filters.
func TestTwoFiltersAreOrderedAsTwo(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1900 * units.CFM}
	job.Filters = []filter.Filter{{Name: "deep", Width: 20 * units.Inch, Height: 24 * units.Inch, Depth: 4 * units.Inch, MERV: 8}}
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	for _, z := range s.Sizes {
		if z.Label != "2 x 20x24x4" {
			continue
		}
		name := sizing.AddSize(&job, z)
		text := wordsOf(t, job, WorkOrder, name)
		assert.Contains(t, text, "A filter cabinet for 2 filters of 20x24x4, side by side")
		assert.Contains(t, text, "1 filter cabinet, with its door and gasket, its filters side 2 x 20x24x4, takes about 41 1/2 x 25 1/2 x 7 in")
		assert.Contains(t, text, "2 filter, deep (MERV 8) 20x24x4")
		assert.Contains(t, text, "Nominal face 40 x 24 in together, for 2 filters 20x24x4 side by side")
		assert.NotContains(t, text, "40x24x4", "no such filter is sold")
		return
	}
	t.Fatal("the size is on the list")
}

// A grille that would cut a stud is a STOP that stands before all else on the work
// order.
func TestStopStandsFirst(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	wide := sizing.Return{Name: "living room", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Flex, Diameter: 14 * units.Inch, Length: 10 * units.Foot}}}
	returns := append([]sizing.Return{}, job.Returns...)
	job.Options = append(job.Options, sizing.Option{Name: "cut a stud", Returns: append(returns, wide)})
	text := wordsOf(t, job, WorkOrder, "cut a stud")
	stop := strings.Index(text, "STOP: not to be built as laid out")
	require.Positive(t, stop)
	assert.Less(t, stop, strings.Index(text, "First: make it safe"))
	assert.Contains(t, text, "the grille is 20 in. wide between studs 14 1/2 in. apart: 5 1/2 in. too wide")
	assert.NotContains(t, wordsOf(t, job, WorkOrder, "second hall return"), "STOP")
}

// Where nothing fits the pages say so, with what each of the nearest misses.
func TestNothingFitsOnPaper(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.Limits = sizing.Limits{CabinetWidth: 18 * units.Inch, CabinetHeight: 22 * units.Inch, WallWidth: 12 * units.Inch, WallHeight: 12 * units.Inch}
	text := wordsOf(t, job, WorkOrder, "")
	assert.Contains(t, text, "Nothing fits; nearest: ")
	assert.Contains(t, text, "cabinet 16x20x5 (face velocity 540 fpm is over the target 300 fpm")
}

// The tenth return without a name is the tenth.
func TestUnnamedReturnsKeepTheirNumber(t *testing.T) {
	p := &plan{}
	for range 10 {
		p.job.Returns = append(p.job.Returns, sizing.Return{})
	}
	p.branches()
	assert.Equal(t, "return 10", p.returns[9].name)
}
