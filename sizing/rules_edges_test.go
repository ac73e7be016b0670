package sizing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/compare"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/recommend"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Only a reading of today's house over its filter says how dirty it is: not one of the
// return alone, nor one over the filter after the work.
func TestCleanFilterIsAssumedUntilRead(t *testing.T) {
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
	assert.Contains(t, assumption(t, solved(t, j), "equipment.blower.includes").Text.String(), "16.00 in by 25.00 in")
}

// A grille of 10x10 in without a duct, 60 in2 free, is under the 2 in2 for each 1000 of
// 60000 Btu/h, 120 in2, and a filter in it is reported so. Of a filter before ducts that are as small
// the house itself is reported; the filter is not to blame.
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
func TestAnswerIsACopy(t *testing.T) {
	j := pinned()
	j.Limits.MaxFilterDrop = 0.01 * units.InchWater
	s := solved(t, j)
	sizes := 0
	for _, z := range s.SuggestedSizes.Sizes() {
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

// A grille of 16x20 that stays is not held to a wall that takes 14x14; turned to 20x16, or
// made square, it is a new one.
func TestAGrilleThatStaysIsAsItWas_Identity(t *testing.T) {
	j := pinned()
	j.Returns = j.Returns[:1]
	j.Limits.WallWidth, j.Limits.WallHeight = 14*units.Inch, 14*units.Inch
	for name, sides := range map[string][2]units.Length{"kept": {16, 20}, "turned": {20, 16}, "wide": {20, 20}, "low": {16, 16}} {
		grille := duct.Grille{Width: sides[0] * units.Inch, Height: sides[1] * units.Inch}
		if name == "kept" {
			j.Returns[0].Grille = grille
		}
		returns := job.CloneReturns(j.Returns)
		returns[0].Grille, returns[0].Runs[0].Diameter = grille, 12*units.Inch
		j.Options = append(j.Options, Option{Name: name, Returns: returns})
	}
	s := solved(t, j)
	for _, o := range j.Options {
		assert.Equal(t, o.Name != "kept", coded(s.Option(o.Name).Findings, study.CodeWall) != nil, o.Name)
	}
}

// Of two returns the first alone has a name: the second is still held to today's second,
// and keeps its grille of 16x16 in a wall that takes no more than 14x14. One without a name
// in the place of the hall is not the hall, and its grille is new.
func TestUnnamedReturnBesideANamedKeepsItsWall_Identity(t *testing.T) {
	j := pinned()
	for i := range j.Returns {
		j.Returns[i].Grille = duct.Grille{Width: 16 * units.Inch, Height: 16 * units.Inch}
	}
	j.Returns[1].Name = ""
	j.Limits.WallWidth, j.Limits.WallHeight = 14*units.Inch, 14*units.Inch
	kept := job.CloneReturns(j.Returns)
	kept[1].Runs[0].Diameter = 12 * units.Inch
	other := job.CloneReturns(j.Returns)
	other[0].Name = ""
	j.Options = []Option{{Name: "kept", Returns: kept}, {Name: "other", Returns: other}}
	s := solved(t, j)
	assert.Nil(t, coded(s.Option("kept").Findings, study.CodeWall))
	assert.NotNil(t, coded(s.Option("other").Findings, study.CodeWall))
}

// The filter in a grille is a piece of its return: 400 in2 and 500 in2, 2.778 and 3.472
// ft2, each at its own air, and too small where that is faster than the target.
func TestFilterInAGrilleIsAPiece_Identity(t *testing.T) {
	j := inGrilles()
	j.TargetFaceVelocity = 250 * units.FPM
	s := solved(t, j)
	found := 0
	for _, p := range s.ReturnComponents {
		if p.Name.String() != "filter own" {
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

// Samples of a number without a bottom, as of a saving that is never made up for: from
// there any number is better, and falling there is worse than any; both there, or one
// not known, is neither. Of 100, 100.5 cannot be told.
func TestSamplesWithoutABottom_Identity(t *testing.T) {
	never := math.Inf(-1)
	pairs := [][2]float64{{5, never}, {-5, never}, {never, 5}, {never, never}, {math.NaN(), 5}, {100.5, 100}, {102, 100}, {98, 100}}
	got := compare.Agree(len(pairs), func(i int) (option, base float64) { return pairs[i][0], pairs[i][1] })
	assert.Equal(t, Agreement{Better: 3.0 / 8, Worse: 2.0 / 8}, got)
}

// On its lowest tap a house of 960 cfm wants 984: either faster tap is enough by itself,
// and is not told again with anything beside it. A filter grille and one more return,
// 970 each, are enough only together, within the hundredth that is not short.
func TestEnoughIsNotListedWithMore_Identity(t *testing.T) {
	j := choked()
	j.Equipment.Blower = blower.Generic(blower.PSC, 1200*units.CFM, 0.5*units.InchWater)
	j.Equipment.Blower.CoolingTap = "low"
	r, err := FindUpgrades(t.Context(), j, 984*units.CFM, nil)
	require.NoError(t, err)
	names := map[string]int{}
	for _, w := range r.Upgrades {
		names[w.Name()] = len(w.Changes)
	}
	assert.Equal(t, map[string]int{"tap high": 1, "tap medium": 1, "filter grille 2 x 24x24x1 + one more return": 2}, names)
}

// At the airflow that the house has, each part would have to come down to the drop that
// blower and other parts leave it: with filters in the grilles, of the filter as of the
// return without it, what they drop there now is what the study tells.
func TestRequiredDropsOfGrilleFilters_Identity(t *testing.T) {
	j := inGrilles()
	c := solved(t, j).Today().Clean
	r, err := FindUpgrades(t.Context(), j, 1000*units.CFM, nil)
	require.NoError(t, err)
	now := map[PartName]float64{}
	for _, l := range r.RequiredDrops {
		now[l.Part] = l.Now.In(units.InchWater)
	}
	require.Len(t, now, len(c.Parts))
	for _, p := range c.Parts {
		assert.InDelta(t, p.Drop.In(units.InchWater), now[p.Name], 1e-4, p.Name)
	}
	assert.Greater(t, now["filter"], 0.1)
}

// The energy code asks 600 in2 of filter grilles for 2 tons and nothing of the face of a
// cabinet 4 in deep: at 700 cfm one of 400 in2 sees 252 fpm, under the target of 300, and
// is looked at. A grille of 24x24 in has 576: at 500 cfm that is 125 fpm, under the 150
// that a thin filter may see, but the table wants two.
func TestSizesOfGrillesGoByTheirTable_Identity(t *testing.T) {
	j := Job{Schema: Schema, DesignAirflow: 700 * units.CFM, Equipment: Equipment{CoolingCapacity: 2 * units.Ton}}
	j.Limits.Checks = []CheckSet{Title24}
	assert.True(t, slices.ContainsFunc(solved(t, j).Sizes, func(z Size) bool {
		return z.Place == InCabinet && z.Depth > 3*units.Inch && z.FaceArea < 401*units.SquareInch
	}))
	j.DesignAirflow = 500 * units.CFM
	s := solved(t, j)
	one, two := sizeOf(t, s, InGrille, "24x24x1"), sizeOf(t, s, InGrille, "2 x 24x24x1")
	assert.False(t, one.MeetsAll)
	assert.True(t, two.MeetsAll)
}

// Of a return with two ducts in a row the tighter counts, first or last: 2 tons ask for
// one of 18 in (the code's table), and 20 in with 16 in is under it.
func TestTighterDuctOfAReturnCounts_Identity(t *testing.T) {
	for _, c := range []struct {
		first, second units.Length
		want          Severity
	}{{20, 16, Caution}, {16, 20, Caution}, {20, 17, Caution}, {20, 18, Good}} {
		j := ducted(2, float64(c.first))
		second := j.Returns[0].Runs[0]
		second.Diameter = c.second * units.Inch
		j.Returns[0].Runs = append(j.Returns[0].Runs, second)
		assert.Equal(t, c.want, findingOf(t, solved(t, j).Findings, "title24_ducts").Severity, "%v then %v in", c.first, c.second)
	}
}

// The fan's watts per cfm are reported with a clean filter: 393.4 W for 1000 cfm. Where dust
// takes air and watts away they are others.
func TestFanEfficacyIsOfTheCleanFilter_Identity(t *testing.T) {
	j := pinned()
	j.Limits.Checks = []CheckSet{Title24}
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "only", Points: []blower.Point{
		{ExternalStatic: 0.2 * units.InchWater, Airflow: 1200 * units.CFM, Power: 450},
		{ExternalStatic: 0.6 * units.InchWater, Airflow: 1000 * units.CFM, Power: 400},
		{ExternalStatic: 1.2 * units.InchWater, Airflow: 500 * units.CFM, Power: 350}}}}}
	s := solved(t, j)
	clean, dirty := s.Today().Clean.FanEfficacy.Show(units.IP), s.Today().Loaded.FanEfficacy.Show(units.IP)
	require.NotEqual(t, clean, dirty)
	assert.Contains(t, said(t, s, TodayName, "title24_efficacy"), clean)
}

// What to put in where no option helps: of the sizes that keep every limit the one that
// moves the most, wherever it stands.
func TestSizeToPutIn(t *testing.T) {
	s := chosen()
	next := func(grille, slot, cabinet units.Flow, meets ...PlaceKind) string {
		size := func(place PlaceKind, q units.Flow) *Size {
			return &Size{Place: place, Label: string(place), Width: units.Length(q), Airflow: q * units.CFM, MeetsAll: slices.Contains(meets, place)}
		}
		s.SuggestedSizes = SuggestedSizes{Grille: size(InGrille, grille), Slot: size(InSlot, slot), Cabinet: size(InCabinet, cabinet)}
		return recommend.WithRanges(s, nil).Recommendation.Next.In(units.IP)
	}
	assert.Contains(t, next(1100, 1200, 1150, InGrille, InSlot, InCabinet), "1200 cfm with a clean filter")
	assert.Contains(t, next(1100, 1200, 1300, InGrille, InSlot), "1200 cfm with a clean filter", "the cabinet misses a limit")
	assert.Contains(t, next(1100, 1200, 1300, InGrille), "1100 cfm with a clean filter")
	assert.NotContains(t, next(1100, 1200, 1300), "Put in")

	// The largest cabinet moves the most: what its filter drops less than in the smallest is
	// said where it does.
	for drop, says := range map[units.Pressure]bool{30: true, 20: false, 10: false} {
		small := Size{Place: InCabinet, Label: "small", Width: 1, Airflow: 1200 * units.CFM, MeetsAll: true, FilterDrop: drop}
		s.SuggestedSizes = SuggestedSizes{Cabinet: &small, Largest: &Size{Place: InCabinet, Label: "large", Width: 2, Airflow: 1250 * units.CFM, MeetsAll: true, FilterDrop: 20}}
		words := recommend.WithRanges(s, nil).Recommendation.Next.In(units.IP)
		assert.Contains(t, words, "Put in a cabinet of large: 1250 cfm")
		assert.Equal(t, says, strings.Contains(words, "less pressure than one of small"), "%v", drop)
	}
}

// A size is held to the energy code's clean drop at the design airflow, 900 cfm, as the
// option with it is, though the blower moves 1000.
func TestSizesAreHeldToTheDesignDrop_Identity(t *testing.T) {
	j := pinned()
	j.DesignAirflow, j.Filters[0].MERV, j.Filters[0].Rating[0].Drop = 900*units.CFM, 13, 0.5*units.InchWater
	j.Limits.Checks, j.Limits.MaxFilterDrop = []CheckSet{Title24}, 2*units.InchWater
	s := solved(t, j)
	missed := map[bool]int{}
	for _, z := range s.Sizes {
		with, err := s.With(z)
		require.NoError(t, err)
		f := coded(with.Findings, "title24_drop")
		misses := coded(z.Misses, "title24_drop") != nil
		assert.Equal(t, f != nil && f.Severity != Good, misses, z.Label)
		assert.InEpsilon(t, float64(with.MediaArea), float64(z.MediaArea), 1e-9, z.Label)
		missed[misses]++
	}
	assert.Len(t, missed, 2, "some do, some do not")
}

// Each size is listed once. The largest cabinet is looked at for its own sake only where
// it sees more than 1.45 times the target: at 1200 cfm 24x30 in, 5 ft2, sees 240 fpm and is
// among the others.
func TestEachSizeIsListedOnce_Identity(t *testing.T) {
	j := pinned()
	j.DesignAirflow, j.TargetFaceVelocity = 1200*units.CFM, 300*units.FPM
	seen := map[string]int{}
	for _, z := range solved(t, j).Sizes {
		seen[string(z.Place)+" "+z.Label]++
	}
	for label, n := range seen {
		assert.Equal(t, 1, n, label)
	}
	assert.Contains(t, seen, string(InCabinet)+" 24x30x4")
}

// A size of the search is held to MERV 6 by ASHRAE 62.2 as the option is, where the set is
// ticked.
func TestFilterSetsAskASHRAE622_Identity(t *testing.T) {
	j := pinned()
	codes := func(merv int, sets ...CheckSet) (out []string) {
		j.Limits.Checks = sets
		for _, f := range judge.FilterSets(solvedHouse(solved(t, j)), judge.FilterFacts{Merv: merv}, nil) {
			out = append(out, f.Code)
		}
		return out
	}
	assert.Equal(t, []string{"ashrae622_merv"}, codes(5, ASHRAE622))
	assert.Empty(t, codes(6, ASHRAE622))
	assert.Empty(t, codes(5))
	assert.Contains(t, codes(12, Title24), "title24_merv", "the energy code asks MERV 13")
	assert.NotContains(t, codes(13, Title24), "title24_merv")
}

// The one return of 1000 cfm has turns of 12 together: in a round of 18 in, at 566 fpm,
// they alone drop 12 (566/4005)^2 = 0.24 in. w.c., over the fifth of 0.50, which is said
// with the duct that is too small.
func TestTurnsKeepADuctOverItsShare_Identity(t *testing.T) {
	j := ducts()
	j.Returns = j.Returns[:1]
	j.Returns[0].Fittings[0].Coefficient = 6 // of two
	j.Limits.DuctVelocity = 700 * units.FPM
	s := solved(t, j)
	require.True(t, s.Ducts[0].Round.OverBudget && s.Ducts[0].Undersized)
	texts := ""
	for _, f := range s.Findings {
		if f.Code == "duct_velocity" || f.Code == "duct_friction" {
			texts += f.In(units.IP) + "\n"
		}
	}
	assert.Contains(t, texts, "still over the usual 0.100 in. w.c. of a return: take out turns or split it between two.")
}

// A system's curve goes from no airflow to half as much again as the larger of the design
// airflow, 1200 cfm, and its own, in 25 equal steps.
func TestSystemCurveGoesFarEnough_Identity(t *testing.T) {
	j := pinned()
	for own, most := range map[units.Flow]float64{1000: 1800, 1600: 2400} {
		j.Equipment.Blower.Taps = []blower.Tap{pinnedTap("only", own, 400)}
		curve := solved(t, j).Today().SystemClean
		require.Len(t, curve, 25)
		for i, p := range curve {
			assert.InDelta(t, most*float64(i)/24, p.Airflow.In(units.CFM), 0.05)
		}
	}
}

// One opening that is over the target by however little is not enough: 18x30 in, 540 in2, of
// the 576 that 1200 cfm want at 300 fpm, is looked at two at a time too.
func TestASecondOpeningIsLookedAt_Identity(t *testing.T) {
	j := least()
	j.TargetFaceVelocity = 300 * units.FPM
	assert.True(t, sizeOf(t, solved(t, j), InGrille, "2 x 18x30x1").MeetsAll)
}

// Two ducts in a row drop one after the other: a rectangle of 8x12 in and a flex of 9 in,
// each by its own friction, and a fitting of 0.5 in the flex's 0.4418 ft2.
func TestDuctsInARowAddUp_Identity(t *testing.T) {
	j := ducts()
	s := solved(t, j)
	den, air := s.Today().Clean.Branches[1], solvedHouse(s).Air
	v := den.Airflow.In(units.CFM) / 0.44179
	want := 0.5 * (v / 4005) * (v / 4005) * 0.98354
	for _, run := range j.Returns[1].Runs {
		drop := run.Drop(den.Airflow, air).In(units.InchWater)
		require.Greater(t, drop, 0.005)
		want += drop
	}
	assert.InEpsilon(t, want, den.DuctDrop.In(units.InchWater), 2e-3)
}

// A reading agrees within a tenth of what is expected, of suctions as of pressures, and
// within 0.03 in. w.c. where that is more.
func TestAReadingAgreesWithinATenth_Identity(t *testing.T) {
	in := units.InchWater
	for _, sign := range []units.Pressure{1, -1} {
		assert.True(t, judge.Agrees(sign*2.19*in, sign*2*in))
		assert.False(t, judge.Agrees(sign*2.21*in, sign*2*in))
		assert.True(t, judge.Agrees(sign*0.129*in, sign*0.1*in))
		assert.False(t, judge.Agrees(sign*0.131*in, sign*0.1*in))
	}
}

// Filters in unlike grilles take unlike air: what a gauge reads over them is compared with
// the mean of their clean drops, each by its own air.
func TestDustOnGrilleFilters_Identity(t *testing.T) {
	j := inGrilles()
	clean := solved(t, j).Today().Clean
	require.Greater(t, max(clean.Branches[0].FilterDrop, clean.Branches[1].FilterDrop), 1.2*min(clean.Branches[0].FilterDrop, clean.Branches[1].FilterDrop))
	j.Readings = []Reading{{FilterDrop: 0.5 * units.InchWater, Airflow: 1000 * units.CFM}}
	found := solved(t, j).AsFound
	assert.InEpsilon(t, float64(clean.FilterDrop), float64(found.CleanDrop), 1e-3)
	assert.InEpsilon(t, float64(0.5*units.InchWater-clean.FilterDrop), float64(found.DustDrop), 1e-3)
}
