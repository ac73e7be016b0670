package sizing

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Only a reading of today's house over its filter says how dirty it is: not one of the
// return alone, nor one over the filter after the work.
func TestCleanFilterIsAssumedUntilRead_Identity(t *testing.T) {
	in := units.InchWater
	for name, c := range map[string]struct {
		reading Reading
		assumed bool
	}{
		"none":             {Reading{}, true},
		"return alone":     {Reading{ReturnPlenum: -0.20 * in, Airflow: 1000 * units.CFM}, true},
		"over the filter":  {Reading{FilterDrop: 0.30 * in, Airflow: 1000 * units.CFM}, false},
		"about the filter": {Reading{ReturnPlenum: -0.20 * in, BlowerInlet: -0.50 * in, Airflow: 1000 * units.CFM}, false},
		"after the work":   {Reading{Option: "new", AfterWork: true, FilterDrop: 0.30 * in, Airflow: 1000 * units.CFM}, true},
	} {
		j := pinned()
		j.Options = []Option{{Name: "new", Filter: "own"}}
		j.Readings = []Reading{c.reading}
		assert.Equal(t, c.assumed, solved(t, j).Assumed("readings"), name)
	}
}

// A round read about a slot with an entry of coefficient 8, 8 (288/4005)^2 0.98354 =
// 0.0407: the filter found in it is 0.30 - 0.0407, and the two are expected to read 0.30
// again, which the round read.
func TestRoundAboutASlotWithEntry_Identity(t *testing.T) {
	j := pinned()
	j.Slot.EntryCoefficient = 8
	j.Readings = []Reading{{ReturnPlenum: -0.1832 * units.InchWater, BlowerInlet: -0.4832 * units.InchWater, Airflow: 1000 * units.CFM}}
	s := solved(t, j)
	require.NotNil(t, s.AsFound)
	for _, row := range s.Readings[0].Parts {
		if row.Name == "filter" {
			assert.InDelta(t, 0.30, row.Measured.In(units.InchWater), 1e-9)
			assert.InDelta(t, 0.30, row.Predicted.In(units.InchWater), 1e-3)
			assert.True(t, row.Agrees)
			return
		}
	}
	t.Error("no row of the filter")
}

// The filter that a blower table was measured with is of the slot usual at the design
// airflow, 16x25 up to 1400 cfm, whatever heating runs at: at 800 it would be 16x20.
func TestTableFilterGoesByTheDesignAirflow_Identity(t *testing.T) {
	j := pinned()
	j.DesignAirflow, j.HeatingAirflow = 1000*units.CFM, 800*units.CFM
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesFilter}
	assert.Contains(t, assumption(t, solved(t, j), "equipment.blower.includes").Text, "16.00 in by 25.00 in")
}

// A grille of 10x10 in without a duct, 60 in2 free, is under the 2 in2 for each 1000 of
// 60000 Btu/h, 120 in2, and a filter in it is told so. Of a filter before ducts that are as small
// the house itself is told; the filter is not to blame.
func TestFilterSetsAskOfGrillesAlone_Identity(t *testing.T) {
	j := pinned()
	j.Limits.Checks = []CheckSet{IFGC}
	h := solvedHouse(solved(t, j))
	grille := Return{Name: "hall", Grille: duct.Grille{Width: 10 * units.Inch, Height: 10 * units.Inch, FreeArea: 0.6}}
	ducted := drop10("hall", 2) // 78.5 in2
	codes := func(returns ...Return) (out []string) {
		for _, f := range judge.FilterSets(h, judge.FilterFacts{Merv: 8}, returns) {
			out = append(out, f.Code)
		}
		return out
	}
	assert.Equal(t, []string{"ifgc_return_area"}, codes(grille))
	assert.Empty(t, codes(ducted))
	assert.Empty(t, codes())
}

// The size proposed is a copy of the one in the list: what is written to its misses
// does not reach the list.
func TestAnswerIsACopy_Identity(t *testing.T) {
	j := pinned()
	j.Limits.MaxFilterDrop = 0.01 * units.InchWater
	s := solved(t, j)
	sizes := 0
	for _, z := range s.Answer.Sizes() {
		require.NotEmpty(t, z.Misses)
		z.Misses[0].Code = "changed"
		sizes++
	}
	require.Positive(t, sizes)
	for _, z := range s.Sizes {
		for _, m := range z.Misses {
			assert.NotEqual(t, "changed", m.Code)
		}
	}
}

// A branch without a name is held to today's of its number: the second keeps its grille of
// 16x16 in a wall that takes no more than 14x14, and the first its 20x20.
func TestSecondUnnamedReturnKeepsItsWall_Identity(t *testing.T) {
	j := pinned()
	for i := range j.Returns {
		side := units.Length(20-4*i) * units.Inch
		j.Returns[i].Name, j.Returns[i].Grille = "", duct.Grille{Width: side, Height: side}
	}
	j.Limits.WallWidth, j.Limits.WallHeight = 14*units.Inch, 14*units.Inch
	kept, swapped := job.CloneReturns(j.Returns), job.CloneReturns(j.Returns)
	kept[1].Runs[0].Diameter = 12 * units.Inch
	swapped[1].Grille = swapped[0].Grille
	j.Options = []Option{{Name: "kept", Returns: kept}, {Name: "swapped", Returns: swapped}}
	s := solved(t, j)
	assert.Nil(t, coded(s.Option("kept").Findings, study.CodeWall))
	assert.NotNil(t, coded(s.Option("swapped").Findings, study.CodeWall), "20x20 is new in the second")
}

// The filter in a grille is a piece of its return: 400 in2 and 500 in2, 2.778 and 3.472
// ft2, each at its own air, and too small where that is faster than the target.
func TestFilterInAGrilleIsAPiece_Identity(t *testing.T) {
	j := inGrilles()
	j.TargetFaceVelocity = 250 * units.FPM
	s := solved(t, j)
	found := 0
	for _, p := range s.Pieces {
		if p.Name != "filter own" {
			continue
		}
		found++
		i := slices.IndexFunc(s.Today().Clean.Branches, func(b BranchFlow) bool { return b.Name == p.Branch })
		b := s.Today().Clean.Branches[i]
		v := b.Airflow.In(units.CFM) / []float64{400, 500}[i] * 144
		assert.InEpsilon(t, v, p.Velocity.In(units.FPM), 1e-6)
		assert.InEpsilon(t, float64(b.FilterDrop), float64(p.Drop), 1e-9)
		assert.Equal(t, v > 250, p.Undersized, "%.0f fpm", v)
	}
	assert.Equal(t, 2, found)
}
