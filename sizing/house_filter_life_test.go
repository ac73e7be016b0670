package sizing

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// holding is the pinned house's filter made in its one size, to hold so many grams.
func holding(name string, width, height units.Length, grams float64) filter.Filter {
	f := pinned().Filters[0]
	f.Name, f.Width, f.Height, f.DustCapacity, f.Price = name, width*units.Inch, height*units.Inch, units.Mass(grams)*units.Gram, 10
	return f
}

// An ordinary household's 1.2 g a day of running, 83.33 days a year, of which MERV 8
// holds 0.92: 7.667 g a month. At one airflow a filter of 46 g is full after 6 months,
// in 12 equal steps. The first point of its life is the clean condition, the last the
// loaded one.
func TestLifeByHand_Identity(t *testing.T) {
	j := pinned()
	j.Filters[0] = holding("own", 20, 25, 46)
	j.Limits.ChangeMonths = 100 * units.Month
	j.Site.FanHours, j.Site.CoolingHours, j.Site.HeatingHours = 200*units.Hour, 1000*units.Hour, 800*units.Hour
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("heat", 900, 300), pinnedTap("fan", 500, 100))
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap, j.Equipment.Blower.FanTap = "only", "heat", "fan"
	o := solved(t, j).Today()
	assert.InDelta(t, 6, o.Life.In(units.Month), 2e-3)
	assert.Equal(t, EndsAtCapacity, o.Places[0].ReplacedBecause)
	assert.Equal(t, EndsAtCapacity.Words(), o.ReplacedBecause)
	assert.InDelta(t, 46, o.Places[0].Dust.In(units.Gram), 1e-3)
	assert.InDelta(t, 2, o.Places[0].PerYear, 1e-3)
	assert.InDelta(t, 20, float64(o.AnnualFilter), 1e-2, "two at 10")
	require.Len(t, o.LifeCurve, 13)
	for i, p := range o.LifeCurve {
		assert.InDelta(t, 0.5*float64(i), p.Time.In(units.Month), 2e-3)
		assert.InDelta(t, 46.0/12*float64(i), p.Dust.In(units.Gram), 1e-2)
		assert.InDelta(t, 1000, p.Airflow.In(units.CFM), 0.02)
	}
	for at, c := range map[int]*Condition{0: &o.Clean, 12: &o.Loaded} {
		p := o.LifeCurve[at]
		assert.InEpsilon(t, float64(c.FilterDrop), float64(p.Drop), 1e-6)
		assert.InEpsilon(t, float64(c.BlowerPower), float64(p.Power), 1e-9)
		assert.InEpsilon(t, float64(c.HeatingPower), float64(p.HeatingPower), 1e-9)
		assert.InEpsilon(t, float64(c.FanPower), float64(p.FanPower), 1e-9)
		assert.InEpsilon(t, float64(c.SensibleCapacity), float64(p.SensibleCapacity), 1e-9)
	}
	thin := 0.983538
	for want, got := range map[float64]units.Power{400: o.Clean.BlowerPower, 300: o.Clean.HeatingPower, 100: o.Clean.FanPower} {
		assert.InDelta(t, want*thin, got.In(units.Watt), 0.01)
	}
	assert.InDelta(t, (400+0.8*300+0.2*100)*thin, o.AnnualEnergy.In(units.KilowattHour), 0.02)
	assert.InDelta(t, 900, o.Clean.HeatingAirflow.In(units.CFM), 0.02)

	// Where nothing heats the blower alone still draws its watts, also on the tap that cools.
	cold := j.Clone()
	cold.Equipment.NoHeating, cold.Equipment.Blower.HeatingTap, cold.Equipment.Blower.FanTap = true, "only", "only"
	assert.InDelta(t, 400*thin, solved(t, cold).Today().Clean.FanPower.In(units.Watt), 0.01)

	// At most 5 months: it is changed then, with 5 x 7.667 g in it.
	j.Limits.ChangeMonths = 5 * units.Month
	o = solved(t, j).Today()
	assert.InDelta(t, 5, o.Life.In(units.Month), 1e-9)
	assert.Equal(t, EndsAtTime, o.Places[0].ReplacedBecause)
	assert.InDelta(t, 5*7.667, o.Places[0].Dust.In(units.Gram), 0.02)
}

// Behind grilles of 400 and 500 in2 each filter gets the dust of its own air, together
// all of it: 7.667 g a month. One of 20 g is full long before one of 200; that one goes
// on until the longest time, while the first is changed again and again.
func TestLivesSideBySideByHand_Identity(t *testing.T) {
	j := inGrilles()
	j.Filters = []filter.Filter{holding("a", 20, 20, 20), holding("b", 20, 25, 200)}
	j.Filters[1].Price = 30
	j.Returns[0].Filter, j.Returns[1].Filter = "a", "b"
	j.Limits.ChangeMonths = 13 * units.Month
	s := solved(t, j)
	o := s.Today()
	require.Len(t, o.Places, 2)
	a, b := o.Places[0], o.Places[1]
	assert.Equal(t, []any{EndsAtCapacity, EndsAtTime}, []any{a.ReplacedBecause, b.ReplacedBecause})
	assert.InDelta(t, 20, a.Dust.In(units.Gram), 1e-3)
	assert.InDelta(t, 13, b.Life.In(units.Month), 1e-9)
	assert.Equal(t, a.Life, o.Life)
	last := o.LifeCurve[len(o.LifeCurve)-1]
	assert.InDelta(t, o.Life.In(units.Month), last.Time.In(units.Month), 1e-9)
	assert.InDelta(t, 7.6667*o.Life.In(units.Month), last.Dust.In(units.Gram), 0.02, "of both")
	assert.InDelta(t, 13*7.6667, b.Dust.In(units.Gram)+13/a.Life.In(units.Month)*20, 2, "all that came, nearly: the air shifts as they load")
	for at, c := range map[int]*Condition{0: &o.Clean, len(o.LifeCurve) - 1: &o.Loaded} {
		assert.InEpsilon(t, float64(c.FilterDrop), float64(o.LifeCurve[at].Drop), 1e-6)
	}
	share := o.Clean.Branches[0].Airflow.In(units.CFM) / 1000
	assert.InEpsilon(t, share, a.AirShare, 1e-4)
	assert.InEpsilon(t, 1-share, b.AirShare, 1e-4)
	assert.InDelta(t, 20/(7.6667*share), a.Life.In(units.Month), 0.4, "the air shifts to the other as it loads")
	assert.InDelta(t, 12/a.Life.In(units.Month), a.PerYear, 1e-6)
	assert.InDelta(t, 12.0/13, b.PerYear, 1e-9)
	assert.InDelta(t, a.PerYear+b.PerYear, o.FiltersPerYear, 1e-9)
	assert.InDelta(t, 10*a.PerYear+30*b.PerYear, float64(o.AnnualFilter), 1e-9)
	assert.Equal(t, []string{"hall", "den"}, []string{a.Return.Given, b.Return.Given})
	assert.Equal(t, []units.Money{10, 30}, []units.Money{a.Price, b.Price})
	assert.InDelta(t, 400, a.FaceArea.In(units.SquareInch), 1e-6)
	assert.InDelta(t, 500, b.FaceArea.In(units.SquareInch), 1e-6)
	assert.InDelta(t, 900, o.FaceArea.In(units.SquareInch), 1e-6)
	assert.InDelta(t, float64(a.MediaArea+b.MediaArea), float64(o.MediaArea), 1e-12)
	assert.True(t, s.Option(TodayName).AnnualKnown)
}

// A filter that drops more than its limit when new, 0.40 in. w.c. over 0.15, is
// changed at once and without end, so that no year's cost is known; the other place
// has its life.
func TestOverWhenCleanByHand_Identity(t *testing.T) {
	j := inGrilles()
	over := holding("over", 20, 20, 30)
	over.Rating[0].Drop, over.FinalDrop = 0.9*units.InchWater, 0.15*units.InchWater
	j.Filters = []filter.Filter{holding("fine", 20, 25, 20), over}
	j.Returns[0].Filter, j.Returns[1].Filter = "over", "fine"
	s := solved(t, j)
	p := s.Today().Places
	require.Len(t, p, 2)
	assert.Equal(t, []any{OverWhenClean, EndsAtCapacity}, []any{p[0].ReplacedBecause, p[1].ReplacedBecause})
	assert.Zero(t, p[0].Life)
	assert.Zero(t, p[0].Dust)
	assert.Zero(t, p[0].PerYear)
	assert.Positive(t, p[1].Life)
	assert.Zero(t, s.Today().Life)
	assert.False(t, s.Today().AnnualKnown)
	assert.Zero(t, s.Today().AnnualCost)
	assert.False(t, s.Today().TenYearKnown)
	assert.InEpsilon(t, float64(s.Today().Clean.Airflow), float64(s.Today().Loaded.Airflow), 1e-9, "loaded as at the first change")
	assert.InEpsilon(t, float64(s.Today().Clean.FilterDrop), float64(s.Today().Loaded.FilterDrop), 1e-9)
}

// Where the airflow may fall no further, the filter that has gained the most drop is
// changed: the one in the smaller grille, first or second.
func TestTheHeaviestIsChanged_Identity(t *testing.T) {
	for first, names := range [][2]string{{"a", "b"}, {"b", "a"}} {
		j := inGrilles()
		j.Filters = []filter.Filter{holding("a", 12, 12, 900), holding("b", 20, 25, 900)}
		j.Filters[0].Rating[0].Drop, j.Filters[1].Rating[0].Drop = 0.02*units.InchWater, 0.02*units.InchWater
		j.Equipment.Blower = blower.Generic(blower.PSC, 1000*units.CFM, 0.5*units.InchWater)
		for i, name := range names {
			j.Returns[i] = drop10(j.Returns[i].Name, 8)
			f, _ := j.Filter(name)
			j.Returns[i].Filter, j.Returns[i].Grille.Width, j.Returns[i].Grille.Height = name, f.Width, f.Height
		}
		j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 0.04, 120*units.Month
		o := solved(t, j).Today()
		assert.Equal(t, EndsAtAirflow, o.Places[first].ReplacedBecause, "%v", names)
		assert.Less(t, o.Places[first].Life, o.Places[1-first].Life)
		assert.InEpsilon(t, 0.96, float64(o.Loaded.Airflow/o.Clean.Airflow), 1e-5)
		assert.Equal(t, EndsAtAirflow.Words(), o.ReplacedBecause)
	}
}

// Each filter's gain is that of its own air: the large one has twice the air of the small
// one, a little faster over its face, and is the one that has gained more, whichever is
// listed first.
func TestTheHeaviestByItsOwnAir_Identity(t *testing.T) {
	var lives []units.Duration
	for _, turned := range []bool{false, true} {
		j := inGrilles()
		j.Filters = []filter.Filter{holding("small", 12, 16, 300), holding("large", 16, 22, 550)}
		j.Filters[0].Rating[0].Drop, j.Filters[1].Rating[0].Drop = 0.02*units.InchWater, 0.02*units.InchWater
		j.Equipment.Blower = blower.Generic(blower.PSC, 1000*units.CFM, 0.5*units.InchWater)
		j.Returns = []Return{drop10("small", 32), drop10("large", 8)}
		for i := range j.Returns {
			f := j.Filters[i]
			j.Returns[i].Filter, j.Returns[i].Grille = f.Name, duct.Grille{Width: f.Width, Height: f.Height}
		}
		if turned {
			slices.Reverse(j.Returns)
		}
		j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 0.04, 120*units.Month
		o := solved(t, j).Today()
		large := slices.IndexFunc(o.Places, func(p FilterPlace) bool { return p.Filter == "large" })
		b := o.Clean.Branches
		require.Greater(t, b[large].Airflow, 1.6*b[1-large].Airflow)
		ratio := float64(b[large].FaceVelocity / b[1-large].FaceVelocity)
		require.True(t, ratio > 1.01 && ratio < 1.25, "%g", ratio)
		assert.Equal(t, EndsAtAirflow, o.Places[large].ReplacedBecause)
		assert.Less(t, o.Places[large].Life, o.Places[1-large].Life)
		lives = append(lives, o.Places[large].Life)
	}
	assert.InEpsilon(t, float64(lives[0]), float64(lives[1]), 1e-6)
}

// A soft filter that its clean push draws out of its seat is out from the first day,
// and so is the next one.
func TestOutOfItsSeatWhenClean_Identity(t *testing.T) {
	j := pinned()
	f := &j.Filters[0]
	f.Bracing, f.Rating[0].Drop = filter.Unbraced, 1.2*units.InchWater
	j.Slot.EdgeCover = 2 * units.Millimetre
	j.Limits.ChangeDrop = 3 * units.InchWater
	o := solved(t, j).Today()
	require.True(t, o.Clean.LeftSeat)
	assert.True(t, o.Loaded.LeftSeat)
	assert.True(t, o.Places[0].LeavesSeat)
	assert.Equal(t, "frame_leaves_seat", findingOf(t, o.Findings, "frame_leaves_seat").Code)
	assert.Contains(t, findingOf(t, o.Findings, "frame_leaves_seat").In(units.IP), "The filter bows "+o.Clean.FrameBow.Show(units.IP)+" under a push of "+o.Clean.FramePush.Show(units.IP))
	assert.Positive(t, o.Clean.LeakFraction, "past an edge that has opened")
	assert.InEpsilon(t, o.Clean.LeakFraction, o.Places[0].LeakFraction, 1e-9)
	f.Rating[0].Drop = 0.7 * units.InchWater
	o = solved(t, j).Today()
	assert.False(t, o.Clean.LeftSeat)
	require.True(t, o.Loaded.LeftSeat)
	assert.True(t, o.Places[0].LeavesSeat)
	assert.Contains(t, findingOf(t, o.Findings, "frame_leaves_seat").In(units.IP), "The dirty filter bows "+o.Loaded.FrameBow.Show(units.IP)+" under a push of "+o.Loaded.FramePush.Show(units.IP))
}

// A frame that leaves its seat when clean lets air past, so that the airflow of a blower
// that falls with the static is higher than with an edge that holds the frame: the
// operating point is that of the open edge.
func TestAirflowPastAFrameOutOfItsSeat(t *testing.T) {
	j := pinned()
	j.Equipment.Blower.Taps[0].Points = []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1600 * units.CFM}, {ExternalStatic: 2.6 * units.InchWater, Airflow: 600 * units.CFM}}
	f := &j.Filters[0]
	f.Bracing, f.Rating[0].Drop = filter.Unbraced, 1.2*units.InchWater
	j.Limits.ChangeDrop = 3 * units.InchWater
	j.Slot.EdgeCover = 50 * units.Millimetre
	held := solved(t, j).Today().Clean
	require.False(t, held.LeftSeat)
	j.Slot.EdgeCover = 2 * units.Millimetre
	left := solved(t, j).Today().Clean
	require.True(t, left.LeftSeat)
	assert.Greater(t, left.Airflow.In(units.CFM), held.Airflow.In(units.CFM)+2)
	// 400 cfm an inch of static in the air of the table, of which that of the house has
	// 0.98354 of the density.
	assert.InDelta(t, 1600-400*(left.ExternalStatic.In(units.InchWater)/0.98354-0.1), left.Airflow.In(units.CFM), 0.05)
}

// A table measured with a wet coil leaves the coil out: 0.634 - 0.12 = 0.514 in cooling.
// In heating the coil is dry and takes a fifth less than the table holds: 0.514 -
// 0.2 x 0.12 = 0.490. Without that 0.634 and 0.634 - 0.024 = 0.610. A coil that takes
// as much dry as wet changes nothing.
func TestDryCoilByHand_Identity(t *testing.T) {
	hold := func(cool, heat float64, change func(j *Job)) {
		t.Helper()
		j := pinned()
		change(&j)
		s := solved(t, j)
		c := s.Today().Clean
		assert.InDelta(t, cool, c.ExternalStatic.In(units.InchWater), 1e-3)
		assert.InDelta(t, heat, c.HeatingStatic.In(units.InchWater), 1e-3)
		assert.InDelta(t, cool, s.Taps[0].ExternalStatic.In(units.InchWater), 1e-3)
		sum := 0.0
		for _, p := range c.Parts {
			sum += p.Drop.In(units.InchWater)
		}
		assert.InDelta(t, cool, sum, 1e-3)
	}
	hold(0.634, 0.610, func(*Job) {})
	hold(0.634, 0.598, func(j *Job) { j.Equipment.CoilDryShare = 0.7 })
	hold(0.634, 0.634, func(j *Job) { j.Equipment.CoilDryShare = 1 })
	hold(0.514, 0.490, func(j *Job) { j.Equipment.Blower.Includes = []blower.Included{blower.IncludesWetCoil} })
	hold(0.514, 0.514, func(j *Job) {
		j.Equipment.CoilDryShare, j.Equipment.Blower.Includes = 1, []blower.Included{blower.IncludesWetCoil}
	})
	hold(0.514, 0.514, func(j *Job) { j.Equipment.Kind = AirHandler })
}

// A table measured with a filter in place gives back what a throw-away filter of MERV 4
// takes in a usual slot, here 16x25 in: as much as such a filter takes in such a slot.
func TestTableWithAFilterByHand_Identity(t *testing.T) {
	j := pinned()
	j.Filters[0] = filter.Filter{Name: "own", Depth: units.Inch, MERV: 4}
	j.Slot.Width, j.Slot.Height = 16*units.Inch, 25*units.Inch
	w, h := assume.UsualSlot(j.DesignAirflow)
	require.Equal(t, [2]units.Length{j.Slot.Width, j.Slot.Height}, [2]units.Length{w, h})
	bare := solved(t, j).Today().Clean
	require.Positive(t, bare.FilterDrop)
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesFilter}
	c := solved(t, j).Today().Clean
	assert.InEpsilon(t, float64(bare.ExternalStatic-bare.FilterDrop), float64(c.ExternalStatic), 1e-4)
	p := c.Parts[len(c.Parts)-1]
	assert.Equal(t, "in the blower table", string(p.Name))
	assert.InEpsilon(t, -float64(bare.FilterDrop), float64(p.Drop), 1e-4)
	assert.InEpsilon(t, float64(bare.HeatingStatic-bare.FilterDrop), float64(c.HeatingStatic), 1e-4)
	assert.InDelta(t, 0, float64(c.Residual), 1e-9)
	last := solved(t, j).Today().SystemClean
	for _, q := range last {
		if f := q.Airflow.In(units.CFM) / 1000; f == 0 {
			assert.Zero(t, q.Static)
		}
	}
}

// Each place has its own limit, and the dust of all is counted, whichever comes first:
// a filter of 20 g in the return of the little air is full when twice as much is on the
// other's; one that is changed at 0.2 in. w.c. is, where the other's limit is 2.
func TestLimitsOfEachPlaceByHand_Identity(t *testing.T) {
	j := inGrilles()
	j.Returns[0], j.Returns[1] = drop10("den", 20), drop10("hall", 2)
	for i := range j.Returns {
		j.Returns[i].Filter, j.Returns[i].Grille.Width, j.Returns[i].Grille.Height = []string{"a", "b"}[i], 20*units.Inch, 25*units.Inch
	}
	j.Filters = []filter.Filter{holding("a", 20, 25, 20), holding("b", 20, 25, 400)}
	j.Limits.ChangeMonths = 120 * units.Month
	o := solved(t, j).Today()
	require.Equal(t, EndsAtCapacity, o.Places[0].ReplacedBecause)
	require.Equal(t, o.Life, o.Places[0].Life)
	last := o.LifeCurve[len(o.LifeCurve)-1]
	assert.InDelta(t, 7.6667*o.Life.In(units.Month), last.Dust.In(units.Gram), 0.02, "of both")
	assert.Greater(t, last.Dust.In(units.Gram), 50.0)

	for low := range 2 {
		j.Filters = []filter.Filter{holding("a", 20, 25, 900), holding("b", 20, 25, 900)}
		j.Filters[low].FinalDrop, j.Filters[1-low].FinalDrop = 0.3*units.InchWater, 2*units.InchWater
		o = solved(t, j).Today()
		require.Equal(t, EndsAtDrop, o.Places[low].ReplacedBecause, "%d", low)
		assert.Equal(t, o.Life, o.Places[low].Life)
		assert.InDelta(t, 0.3, o.Loaded.Branches[low].FilterDrop.In(units.InchWater), 1e-5)
		assert.InDelta(t, 0.3, o.Places[low].ChangeDrop.In(units.InchWater), 1e-9)
		assert.InDelta(t, 2, o.Places[1-low].ChangeDrop.In(units.InchWater), 1e-9)
		assert.Less(t, o.Places[low].Life, o.Places[1-low].Life)
	}
}

// Of a stiff filter in a grille and a soft one in the slot the soft one leaves its seat,
// clean under a great push and dirty under a less, and the other stays in its own.
func TestEachFrameInItsSeat_Identity(t *testing.T) {
	seen := map[bool]bool{}
	for _, drop := range []units.Pressure{0.7, 1.2} {
		j := pinned()
		stiff := holding("stiff", 20, 25, 200)
		stiff.Bracing = filter.RigidBox
		j.Filters = append(j.Filters, stiff)
		j.Filters[0].Bracing, j.Filters[0].Rating[0].Drop, j.Slot.EdgeCover = filter.Unbraced, drop*units.InchWater, 2*units.Millimetre
		j.Returns[0].Filter, j.Returns[0].Grille.Width, j.Returns[0].Grille.Height = "stiff", 20*units.Inch, 25*units.Inch
		j.Limits.ChangeDrop, j.Limits.ChangeMonths = 3*units.InchWater, 24*units.Month
		o := solved(t, j).Today()
		require.Len(t, o.Places, 2)
		assert.Equal(t, []bool{false, true}, []bool{o.Places[0].LeavesSeat, o.Places[1].LeavesSeat})
		assert.True(t, o.Loaded.LeftSeat)
		assert.Zero(t, o.Places[0].LoadedLeak)
		assert.Positive(t, o.Places[1].LoadedLeak)
		last := o.LifeCurve[len(o.LifeCurve)-1]
		assert.InEpsilon(t, float64(o.Loaded.FilterDrop), float64(last.Drop), 1e-5)
		seen[o.Clean.LeftSeat] = true
	}
	assert.Len(t, seen, 2)
}

// Past a gap of 6 mm round the frame more of the air slips by as the filter loads. The
// time to its 46 g is the integral of dM over what it catches at a load of M: the dust in
// the air, what such media hold of it, and the share of the air that crosses them.
func TestLifeWithAGapByHand_Identity(t *testing.T) {
	for merv := 8; merv <= 10; merv++ {
		j := pinned()
		j.Filters[0] = holding("own", 20, 25, 46)
		j.Filters[0].MERV, j.Filters[0].Bracing = merv, filter.RigidBox
		j.Slot.Gap = 6 * units.Millimetre
		j.Limits.ChangeDrop, j.Limits.ChangeMonths = 3*units.InchWater, 100*units.Month
		s := solved(t, j)
		h, place := solvedHouse(s), s.Today().Places[0]
		require.Equal(t, EndsAtCapacity, place.ReplacedBecause)
		a, err := h.Arrange(Option{Name: TodayName}, "today")
		require.NoError(t, err)
		f, law := a.Places[0].Filter, a.Places[0].Law
		loading, err := f.Loading(law)
		require.NoError(t, err)
		caught, err := f.DustCaught()
		require.NoError(t, err)
		crack := filter.FrameCrack(20*units.Inch, 25*units.Inch, units.Inch, 6*units.Millimetre, 0)
		const steps = 2000
		seconds := 0.0
		for i := range steps {
			dust := units.Mass((float64(i)+0.5)/steps) * place.Capacity
			b, err := filter.NewBypass(loading.On(law.Curve, dust, place.FaceArea, h.Air), place.FaceArea, crack, s.Today().Clean.Airflow, h.Air)
			require.NoError(t, err)
			seconds += float64(place.Capacity) / steps / (float64(h.Site.DustRate) * h.RunShare() * caught * (1 - b.Share))
		}
		assert.Greater(t, place.LoadedLeak, place.LeakFraction+0.01)
		assert.InEpsilon(t, seconds, float64(place.Life), 4e-4, "MERV %d, but for the bow of a rigid box", merv)
	}
}
