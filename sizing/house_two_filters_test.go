package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/units"
)

// The MERV of two unlike coarse filters as installed, behind equal grilles of equal
// returns, so that each has half of the air. Typical of MERV 1 is an arrestance of 0.60,
// of MERV 4 one of 0.78, and neither reaches 20 % of the coarsest dust: together they
// hold 0.69, over the 0.65 of MERV 2 and under the 0.70 of MERV 3. MERV 13 and MERV 1
// hold half of about 0.94 and of 0.05 of the coarsest, 0.49: over the 0.35 of MERV 6 and
// under the 0.50 of MERV 7.
func TestUnlikeFiltersSideBySide_Identity(t *testing.T) {
	for _, c := range []struct {
		first, second, want int
	}{{1, 4, 2}, {4, 1, 2}, {1, 13, 6}, {13, 1, 6}} {
		j := inGrilles()
		j.Filters = nil
		for i, merv := range []int{c.first, c.second} {
			f := pinned().Filters[0]
			f.Name, f.MERV = []string{"a", "b"}[i], merv
			j.Filters = append(j.Filters, f)
			j.Returns[i] = drop10(j.Returns[i].Name, 4)
			j.Returns[i].Filter, j.Returns[i].Grille.Width, j.Returns[i].Grille.Height = f.Name, 20*units.Inch, 25*units.Inch
		}
		e := solved(t, j).Today().Efficiency
		own, err := filter.TypicalEfficiency(c.first)
		require.NoError(t, err)
		other, err := filter.TypicalEfficiency(c.second)
		require.NoError(t, err)
		assert.Equal(t, c.first, e.MERV, "that of the first")
		assert.Equal(t, own, e.BySize)
		for i := range e.Installed {
			assert.InDelta(t, (own[i]+other[i])/2, e.Installed[i], 1e-6)
		}
		assert.Equal(t, c.want, e.InstalledMERV, "%d and %d", c.first, c.second)
	}
}

// One of two equal returns has a filter of MERV 4, with an arrestance of 0.78, so that
// half of the air loses that and 0.61 of the dust reaches the slot. There air slips
// past a filter of MERV 3, of 0.72, with the share of the gap L: it passes
// 0.61 (1 - 0.72 (1 - L)), and with L about a tenth 0.61 x 0.352 = 0.215. The two hold
// 0.785 by weight, MERV 4: the finer, though the slot's air slips past. Of each size
// likewise.
func TestGapBehindAFilter_Identity(t *testing.T) {
	j := inGrilles()
	j.Filters = nil
	for i, merv := range []int{4, 3} {
		f := pinned().Filters[0]
		f.Name, f.MERV = []string{"a", "b"}[i], merv
		j.Filters = append(j.Filters, f)
		j.Returns[i] = drop10(j.Returns[i].Name, 4)
	}
	j.Filters[0].Rating[0].Drop = 0.001 * units.InchWater // it hardly moves air to the other
	j.Returns[0].Filter, j.Returns[0].Grille.Width, j.Returns[0].Grille.Height = "a", 20*units.Inch, 25*units.Inch
	j.Returns[1].Grille = j.Returns[0].Grille
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "b", Gap: 2.5 * units.Millimetre}
	o := solved(t, j).Today()
	require.Len(t, o.Places, 2)
	leak := o.Places[1].LeakFraction
	require.InDelta(t, 0.10, leak, 0.05)
	half := o.Places[0].AirShare
	require.InDelta(t, 0.5, half, 2e-3)
	coarse, err := filter.TypicalEfficiency(3)
	require.NoError(t, err)
	e := o.Efficiency
	for i := range e.Installed {
		assert.InDelta(t, 1-(1-half*e.BySize[i])*(1-(1-leak)*coarse[i]), e.Installed[i], 1e-9)
	}
	assert.InDelta(t, (1-half)*leak, o.LeakFraction, 1e-9, "half is filtered before")
	assert.Equal(t, 4, e.InstalledMERV, "0.785 by weight")
}

// A filter printed as MERV 8 whose efficiencies are those of MERV 13 counts as what is
// printed, in a frame without a gap too.
func TestInstalledIsNoFinerThanPrinted(t *testing.T) {
	j := pinned()
	curve, err := filter.TypicalEfficiency(13)
	require.NoError(t, err)
	j.Filters[0].MERV, j.Filters[0].Efficiency = 8, curve[:]
	e := solved(t, j).Today().Efficiency
	assert.Equal(t, []int{8, 8}, []int{e.MERV, e.InstalledMERV})
	j.Filters[0].MERV = 0
	e = solved(t, j).Today().Efficiency
	assert.Equal(t, []int{13, 13}, []int{e.MERV, e.InstalledMERV}, "nothing printed: by its efficiencies")
}

// The second of two filters drops more than its limit when new: 0.9 rated, changed at
// 0.15. It is changed at once; the first lasts until it is full.
func TestSecondIsOverWhenClean_Identity(t *testing.T) {
	j := inGrilles()
	over := holding("over", 20, 25, 30)
	over.Rating[0].Drop, over.FinalDrop = 0.9*units.InchWater, 0.15*units.InchWater
	j.Filters = []filter.Filter{holding("fine", 20, 20, 20), over}
	j.Returns[0].Filter, j.Returns[1].Filter = "fine", "over"
	o := solved(t, j).Today()
	require.Len(t, o.Places, 2)
	fine, worn := o.Places[0], o.Places[1]
	assert.Equal(t, []any{EndsAtCapacity, OverWhenClean}, []any{fine.ReplacedBecause, worn.ReplacedBecause})
	assert.Zero(t, worn.Life)
	assert.Zero(t, worn.Dust)
	assert.InDelta(t, 20, fine.Dust.In(units.Gram), 1e-3)
	// Of 7.667 g a month it gets the share of its air; the other takes air as it loads.
	assert.InDelta(t, 20/(7.6667*fine.AirShare), fine.Life.In(units.Month), 0.4)
	assert.Zero(t, o.Life)
	assert.Equal(t, OverWhenClean.Words(), o.ReplacedBecause)
	assert.InEpsilon(t, float64(o.Clean.Airflow), float64(o.Loaded.Airflow), 1e-9, "loaded as at the first change")
}

// A soft filter in the slot leaves its seat as it loads; the new one sits in it again
// while a filter in a grille goes on for the months after.
func TestNewFilterIsInItsSeat(t *testing.T) {
	j := inGrilles()
	soft := holding("soft", 20, 25, 40)
	soft.Bracing, soft.Rating[0].Drop = filter.Unbraced, 0.7*units.InchWater
	coarse := holding("coarse", 20, 20, 5000)
	coarse.MERV, coarse.Rating[0].Drop = 1, 0.02*units.InchWater
	j.Filters = []filter.Filter{coarse, soft}
	j.Returns[0].Filter, j.Returns[1].Filter = "coarse", ""
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "soft", EdgeCover: 2 * units.Millimetre}
	j.Limits.ChangeDrop, j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 3*units.InchWater, 0.9, 60*units.Month
	s := solved(t, j)
	o := s.Today()
	require.Len(t, o.Places, 2)
	require.False(t, o.Clean.LeftSeat)
	require.True(t, o.Places[1].LeavesSeat)
	require.True(t, o.Loaded.LeftSeat)
	require.Equal(t, o.Places[1].Life, o.Life, "the slot's is the first")

	// A twentieth of its life later the next one has hardly loaded.
	j.Limits.ChangeMonths = o.Life * 1.05
	h := solvedHouse(solved(t, j))
	a, err := h.Arrange(Option{Name: TodayName}, "today")
	require.NoError(t, err)
	sys, err := h.System(a)
	require.NoError(t, err)
	_, err = h.Condition(a, sys)
	require.NoError(t, err)
	m, err := h.NewDustSimulation(a, sys)
	require.NoError(t, err)
	require.NoError(t, m.Run(house.LifeSteps))
	after, err := h.Condition(a, sys)
	require.NoError(t, err)
	assert.False(t, after.LeftSeat)
}

// The filter in the grille has been changed before the soft one in the slot leaves its
// seat: it is the slot's first filter that leaves it all the same.
func TestLeavesItsSeatAfterAnotherIsChanged(t *testing.T) {
	j := inGrilles()
	soft, brief := holding("soft", 20, 25, 40), holding("brief", 20, 20, 2)
	soft.Bracing, soft.Rating[0].Drop = filter.Unbraced, 0.7*units.InchWater
	brief.MERV, brief.Rating[0].Drop = 1, 0.005*units.InchWater
	j.Filters = []filter.Filter{brief, soft}
	j.Returns[0].Filter, j.Returns[1].Filter = "brief", ""
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "soft", EdgeCover: 2 * units.Millimetre}
	j.Limits.ChangeDrop, j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 3*units.InchWater, 0.9, 60*units.Month
	o := solved(t, j).Today()
	require.Len(t, o.Places, 2)
	require.False(t, o.Clean.LeftSeat)
	require.False(t, o.Loaded.LeftSeat, "at the first change, of the grille's")
	assert.False(t, o.Places[0].LeavesSeat)
	assert.True(t, o.Places[1].LeavesSeat)
}

// Behind one filter in a grille two stand side by side in the slot, each with half of
// the air: the curve of their life begins and ends with the drop that the conditions have.
func TestTwoInTheSlotBehindAGrille_Identity(t *testing.T) {
	j := inGrilles()
	j.Returns[1].Filter = ""
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own", Count: 2}
	o := solved(t, j).Today()
	require.Len(t, o.Places, 2)
	require.Equal(t, []int{1, 2}, []int{o.Places[0].Count, o.Places[1].Count})
	grille := o.Clean.Branches[0]
	// At 1000 cfm over 6.944 ft2, 144 fpm, where 288 drop 0.251; the grille's drop is of its own air.
	slot := o.Clean.FilterDrop.In(units.InchWater) - grille.FilterDrop.In(units.InchWater)*grille.Airflow.In(units.CFM)/1000
	assert.True(t, slot > 0.251/4 && slot < 0.251/2, "between the square and the straight: %.3f", slot)
	last := o.LifeCurve[len(o.LifeCurve)-1]
	assert.InEpsilon(t, float64(o.Clean.FilterDrop), float64(o.LifeCurve[0].Drop), 1e-6)
	assert.InEpsilon(t, float64(o.Loaded.FilterDrop), float64(last.Drop), 1e-3)
}

// A soft filter in the slot leaves its seat as it loads. More air then comes to the coarse
// one in the grille, which loads hardly at all but whose limit lies between its drop before
// and after: it is changed at that very moment. The last point of the life is then the
// loaded condition, with the soft filter out of its seat.
func TestChangedAsAnotherLeavesItsSeat_Identity(t *testing.T) {
	j := inGrilles()
	soft, coarse := holding("soft", 20, 25, 40), holding("coarse", 20, 25, 5000)
	soft.Bracing, soft.Rating[0].Drop, soft.FinalDrop = filter.Unbraced, 0.7*units.InchWater, 3*units.InchWater
	coarse.MERV, coarse.Rating[0].Drop, coarse.FinalDrop = 1, 1.5*units.InchWater, 3*units.InchWater
	j.Filters = []filter.Filter{soft, coarse}
	j.Returns = j.Returns[:1]
	j.Returns[0].Filter, j.Returns[0].Grille.Height = "coarse", 25*units.Inch
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "soft", EdgeCover: 2 * units.Millimetre}
	j.Equipment.Blower.Taps = []blower.Tap{{Name: "only", Points: []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1200 * units.CFM, Power: 400}, {ExternalStatic: 5 * units.InchWater, Airflow: 700 * units.CFM, Power: 400}}}}
	j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 0.9, 60*units.Month
	o := solved(t, j).Today()
	require.False(t, o.Clean.LeftSeat)
	require.True(t, o.Places[1].LeavesSeat)
	after := units.Flow(0)
	for _, p := range o.LifeCurve {
		after = max(after, p.Airflow)
	}
	require.Greater(t, after, o.Clean.Airflow*1.04, "out of its seat it drops less than clean")

	j.Limits.ChangeDrop = o.Clean.Branches[0].FilterDrop * units.Pressure(1+after/o.Clean.Airflow) / 2
	o = solved(t, j).Today()
	require.Equal(t, EndsAtDrop, o.Places[0].ReplacedBecause)
	require.Equal(t, o.Places[0].Life, o.Life)
	require.True(t, o.Loaded.LeftSeat)
	last := o.LifeCurve[len(o.LifeCurve)-1]
	assert.Equal(t, o.Life, last.Time)
	assert.InEpsilon(t, float64(o.Loaded.Airflow), float64(last.Airflow), 1e-6)
	assert.InEpsilon(t, float64(o.Loaded.FilterDrop), float64(last.Drop), 1e-6)
	for i := range o.LifeCurve[1:] {
		assert.Greater(t, o.LifeCurve[i+1].Time, o.LifeCurve[i].Time, "one point at a time")
	}
}

// A filter of 1 g behind a grille with little air is changed forty times, and then kept
// clean. The one in the slot takes the airflow as it loads, and is changed for that; the
// coarse one, which drops next to nothing, stays in for the longest time.
func TestTheHeaviestIsChangedAmongThree(t *testing.T) {
	j := inGrilles()
	brief, coarse, fine := holding("brief", 20, 20, 1), holding("coarse", 20, 20, 5000), holding("fine", 20, 25, 200)
	brief.Rating[0].Drop, coarse.Rating[0].Drop, coarse.MERV = 0.005*units.InchWater, 0.005*units.InchWater, 1
	j.Filters = []filter.Filter{brief, coarse, fine}
	j.Returns[0] = drop10("hall", 100)
	for i := range j.Returns {
		j.Returns[i].Filter, j.Returns[i].Grille = j.Filters[i].Name, duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}
	}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "fine"}
	j.Equipment.Blower = blower.Generic(blower.PSC, 1000*units.CFM, 0.5*units.InchWater)
	j.Limits.ChangeDrop, j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 3*units.InchWater, 0.05, 120*units.Month
	o := solved(t, j).Today()
	require.Len(t, o.Places, 3)
	assert.Equal(t, []any{EndsAtCapacity, EndsAtTime, EndsAtAirflow}, []any{o.Places[0].ReplacedBecause, o.Places[1].ReplacedBecause, o.Places[2].ReplacedBecause})
	assert.Greater(t, o.Places[2].Life, 45*o.Places[0].Life, "the first is kept clean by then")
}

// The filter in the hall's grille is full, and is changed: more air comes to the slot's
// behind it, which dropped just under its limit when new and holds some dust by then. It is
// changed at the same moment, at its drop. The coarse one in the den goes on for the longest
// time.
func TestAChangeBringsAnotherAtOnce(t *testing.T) {
	j := inGrilles()
	full, coarse, slot := holding("full", 20, 20, 20), holding("coarse", 20, 20, 5000), holding("slot", 20, 25, 5000)
	full.Rating[0].Drop, coarse.Rating[0].Drop, coarse.MERV = 0.3*units.InchWater, 0.005*units.InchWater, 1
	j.Filters = []filter.Filter{full, coarse, slot}
	j.Returns[1] = drop10("den", 100)
	for i := range j.Returns {
		j.Returns[i].Filter, j.Returns[i].Grille = j.Filters[i].Name, duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}
	}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "slot"}
	j.Equipment.Blower = blower.Generic(blower.PSC, 1000*units.CFM, 0.5*units.InchWater)
	j.Limits.ChangeDrop, j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 3*units.InchWater, 0.9, 120*units.Month
	o := solved(t, j).Today()
	clean := o.Clean.FilterDrop - units.Pressure(branchDrop(o))
	j.Filters[2].FinalDrop = clean * (1 + 1e-5)
	o = solved(t, j).Today()
	assert.Equal(t, []any{EndsAtCapacity, EndsAtTime, EndsAtDrop}, []any{o.Places[0].ReplacedBecause, o.Places[1].ReplacedBecause, o.Places[2].ReplacedBecause})
	assert.Equal(t, o.Places[0].Life, o.Places[2].Life)
}

// The slot's filter of 20x25 in, 3.472 ft2, is crossed by all 1000 cfm, at 288 fpm, also
// where one grille of 30x30 in has a filter of its own: the two lie one after the other
// and share no air. Without the slot's the face is that of the grilles together: 20x20
// and 20x25 in, 6.25 ft2, at 160 fpm.
func TestFaceOfFiltersInSeries(t *testing.T) {
	j := pinned()
	other := j.Filters[0]
	other.Name, other.MERV = "coarse", 2
	j.Filters = append(j.Filters, other)
	j.Returns[0].Filter, j.Returns[0].Grille = "coarse", duct.Grille{Width: 30 * units.Inch, Height: 30 * units.Inch}
	o := solved(t, j).Today()
	require.Len(t, o.Places, 2)
	assert.InDelta(t, 500, o.FaceArea.In(units.SquareInch), 1e-6)
	assert.InDelta(t, 288, o.Clean.FaceVelocity.In(units.FPM), 0.1)
	assert.InDelta(t, float64(o.Clean.Airflow)/float64(o.MediaArea), float64(o.Clean.MediaVelocity), 1e-9)
	assert.Equal(t, "own", o.Filter)
	assert.Equal(t, units.Inch, o.FilterDepth)

	j = inGrilles()
	o = solved(t, j).Today()
	assert.InDelta(t, 900, o.FaceArea.In(units.SquareInch), 1e-6)
	assert.InDelta(t, 160, o.Clean.FaceVelocity.In(units.FPM), 0.1)
}
