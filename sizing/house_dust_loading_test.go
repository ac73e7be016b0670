package sizing

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// withFilter is the least job with a filter of a depth in its 16x25 slot.
func withFilter(f filter.Filter) Job {
	j := least()
	f.Name = "own"
	j.Filters = []filter.Filter{f}
	j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: f.Depth, Filter: "own"}
	return j
}

func months(d units.Duration) float64 { return d.In(units.Month) }

// A generic MERV 11 in an ordinary house: 1 in. one to three months, 4 and 5 in.
// six to twelve (common practice, no source), on any blower.
func TestLifeByDepth_Plausible(t *testing.T) {
	for _, motor := range blower.Motors() {
		last := 0.0
		for _, c := range []struct {
			depth     units.Length
			low, high float64
		}{{units.Inch, 1, 3}, {2 * units.Inch, 2, 6}, {4 * units.Inch, 6, 12}, {5 * units.Inch, 6, 12}} {
			j := withFilter(filter.Filter{MERV: 11, Depth: c.depth})
			j.Equipment.Blower.Motor = motor
			o := solved(t, j).Today()
			got := months(o.Life)
			assert.True(t, got >= c.low && got <= c.high, "%s, %v deep: %.2f months, %s", motor, c.depth, got, o.ReplacedBecause)
			assert.Greater(t, got, last, "deeper lasts longer")
			last = got
			assert.InEpsilon(t, 12/got, o.FiltersPerYear, 1e-3)
			assert.InEpsilon(t, o.FiltersPerYear*9*c.depth.In(units.Inch), float64(o.AnnualFilter), 1e-9, "9 $ an inch")
		}
	}
}

// A rated filter with pleats and a depth: pitch (16 - 0.5) in. / 24 = 16.40 mm,
// slant sqrt(19.05^2 + ((16.40 - 1.6 - 3)/2)^2) = 19.95 mm, so the media are
// 2 x 24 x 19.95 mm x 24.5 in. (0.6223 m) = 0.5958 m2. With neither pleats nor
// area: 2.3 x 0.2581 m2 = 0.5935 m2, assumed and said. A printed area wins.
func TestMediaArea_Identity(t *testing.T) {
	f := filter.Filter{MERV: 11, Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch,
		Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.2 * units.InchWater}, {FaceVelocity: 450 * units.FPM, Drop: 0.33 * units.InchWater}}}
	s := solved(t, withFilter(f))
	assert.InDelta(t, 0.5935, float64(s.Today().MediaArea), 1e-4)
	assert.True(t, s.Today().Places[0].MediaAreaAssumed)
	assert.True(t, s.Assumed("filters[0].media_area"))
	f.Pleats, f.PleatDepth = 24, 0.75*units.Inch
	s = solved(t, withFilter(f))
	assert.InDelta(t, 0.5958, float64(s.Today().MediaArea), 2e-4)
	assert.False(t, s.Assumed("filters[0].media_area"))
	f.MediaArea = 8 * units.SquareFoot
	assert.InEpsilon(t, float64(8*units.SquareFoot), float64(solved(t, withFilter(f)).Today().MediaArea), 1e-12)
	f.MediaArea, f.Pleats = 0, 200
	_, err := Solve(withFilter(f))
	require.ErrorContains(t, err, "filters[0].pleats", "pleats that leave no gap are a fault, not an area of zero")
}

// A make without a size or pleats of its own has the usual pitch of 1 in. across the slot:
// 16 pleats in 15.5 in., 24.61 mm apart, slant sqrt(19.05^2 + ((24.61 - 1.6 - 3)/2)^2) =
// 21.52 mm, along the slot's height: 2 x 16 x 21.52 mm x 24.5 in. (0.6223 m) = 0.4285 m2.
func TestMediaAreaInTheSlot_Identity(t *testing.T) {
	j := withFilter(filter.Filter{MERV: 11, Depth: units.Inch, PleatDepth: 0.75 * units.Inch, MediaResistance: 60})
	assert.InDelta(t, 0.4285, float64(solved(t, j).Today().MediaArea), 2e-4)
}

// A filter known by its MERV alone is as deep as its slot, and is estimated up to 12 in.
// The check of a job refuses a slot of 13 in.; in a house that was not checked the fault
// names that filter, not the sound one before it.
func TestFaultNamesItsFilter(t *testing.T) {
	j := withFilter(filter.Filter{MERV: 11, Depth: units.Inch})
	j.Filters = append(j.Filters, filter.Filter{Name: "by MERV", MERV: 11})
	h, err := house.New(assume.Job(j), nil)
	require.NoError(t, err)
	_, err = h.Arrange(Option{Name: "deep", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 13 * units.Inch, Filter: "by MERV"}}, study.KindOption)
	var faults FieldErrors
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 1)
	assert.Equal(t, "filters[1].depth", faults[0].Path)
}

// On constant air, 1.2 g a day of 2000 h in 8766 h, MERV 11 holding 96 % of it:
// 0.2629 g a day. A capacity of 20 g is full after 76.1 days, 2.50 months; the
// final drop of 2 in. w.c. is never near.
func TestCapacityEndsALife_Identity(t *testing.T) {
	f := filter.Filter{MERV: 11, Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, DustCapacity: 20 * units.Gram}
	j := withFilter(f)
	j.Limits.ChangeAirflowLoss = 0.9
	o := solved(t, j).Today()
	assert.InDelta(t, 2.50, months(o.Life), 0.01)
	assert.Equal(t, EndsAtCapacity, o.Places[0].ReplacedBecause)
	assert.Equal(t, EndsAtCapacity.Words(), o.ReplacedBecause)
	assert.InEpsilon(t, 0.020, float64(o.Places[0].Dust), 1e-6)

	t.Run("double hours, half the months", func(t *testing.T) {
		j := j
		j.Site.CoolingHours, j.Site.HeatingHours, j.Site.FanHours = 2000*units.Hour, 1000*units.Hour, 1000*units.Hour
		assert.InEpsilon(t, float64(o.Life)/2, float64(solved(t, j).Today().Life), 1e-6)
	})
	t.Run("the longest time is of the calendar", func(t *testing.T) {
		j := j
		j.Limits.ChangeMonths = 2 * units.Month
		short := solved(t, j).Today()
		assert.InDelta(t, 2, months(short.Life), 1e-9)
		assert.Equal(t, EndsAtTime, short.Places[0].ReplacedBecause)
	})
}

// Every filter of like make, finer: it never outlasts the coarser, also where its
// printed final drop lies just over its clean one, and holds no more than its
// capacity.
func TestFinerNeverOutlasts(t *testing.T) {
	at := func(merv int, clean float64) *OptionResult {
		f := filter.Filter{MERV: merv, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch,
			FinalDrop: 0.5 * units.InchWater, DustCapacity: 50 * units.Gram,
			Rating: []filter.RatingPoint{{FaceVelocity: 150 * units.FPM, Drop: units.Pressure(clean*0.267) * units.InchWater}, {FaceVelocity: 450 * units.FPM, Drop: units.Pressure(clean) * units.InchWater}}}
		return solved(t, withFilter(f)).Today()
	}
	coarse, fine := at(8, 0.233), at(13, 0.45)
	assert.LessOrEqual(t, fine.Life, coarse.Life)
	for _, o := range []*OptionResult{coarse, fine} {
		p := o.Places[0]
		assert.LessOrEqual(t, float64(p.Dust), float64(p.Capacity))
		// The slot is 16x25 and the 50 g are those of 20x25.
		assert.InEpsilon(t, 0.050*16/20, float64(p.Capacity), 1e-9)
	}
}

// Two grilles and an unfiltered branch: each filter catches the dust of its own
// air alone, and each has its own life; the first change is the option's.
func TestPlacesMarchApart(t *testing.T) {
	j := twoReturns()
	open := j.Returns[1]
	open.Name, open.Filter = "open", ""
	j.Returns = append(j.Returns, open)
	s := solved(t, j)
	o := s.Today()
	require.Len(t, o.Places, 2)
	carried := 0.0
	for i, p := range o.Places {
		assert.Equal(t, InGrille, p.Where)
		assert.Equal(t, 1, p.Count)
		assert.InEpsilon(t, float64(o.Clean.Branches[i].Airflow)/float64(o.Clean.Airflow), p.AirShare, 1e-9)
		carried += p.AirShare
	}
	assert.Less(t, carried, 0.95)
	assert.Equal(t, min(o.Places[0].Life, o.Places[1].Life), o.Life)
	assert.InEpsilon(t, float64(units.Year/o.Places[0].Life+units.Year/o.Places[1].Life), o.FiltersPerYear, 1e-9)
	assert.InEpsilon(t, 1-carried, o.LeakFraction, 1e-9, "what the open branch carries meets no filter")
	// In a quarter of a month, 7.6 days, 1.2 g a day x 2000/8766 x 92 % of MERV 8 x the
	// share of the air, which hardly moves by then.
	j.Limits.ChangeMonths = units.Month / 4
	for _, p := range solved(t, j).Today().Places {
		assert.Equal(t, EndsAtTime, p.ReplacedBecause)
		assert.InEpsilon(t, 1.2*2000/8766*0.92*p.AirShare*365.25/48, 1000*float64(p.Dust), 0.01, p.Return)
	}
}

// Filters in series: the slot's leaks by its own drop alone, and sees the dust
// that passed the grilles: of 1.2 g a day x 2000/8766 = 0.2738 g, MERV 8 lets 8 %
// past, 0.0219 g.
func TestFiltersInSeries(t *testing.T) {
	j := twoReturns()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: GenericFilterName, Gap: 2 * units.Millimetre}
	o := solved(t, j).Today()
	require.Len(t, o.Places, 3)
	slot := o.Places[2]
	require.Equal(t, InSlot, slot.Where)
	crack := filter.FrameCrack(20*units.Inch, 25*units.Inch, units.Inch, 2*units.Millimetre, 0)
	s := solved(t, j)
	own := float64(o.Clean.FilterDrop) - branchDrop(o)
	want := float64(crack.Flow(units.Pressure(own), solvedHouse(s).Air)) / float64(o.Clean.Airflow)
	assert.InEpsilon(t, want, slot.LeakFraction, 2e-3, "by its own drop, its path a little shorter as it bows")
	assert.Zero(t, o.Places[0].LeakFraction)
	assert.Equal(t, EndsAtTime, slot.ReplacedBecause)
	assert.InEpsilon(t, 0.0219*365.25*0.92*(1-slot.LeakFraction), 1000*float64(slot.Dust), 0.02)
	assert.Less(t, o.LeakFraction, 1e-12, "nothing passes both unfiltered")
	assert.Greater(t, o.Efficiency.Installed[11], o.Efficiency.BySize[11], "two filters catch more than one")
}

func branchDrop(o *OptionResult) float64 {
	sum := 0.0
	for _, b := range o.Clean.Branches {
		sum += float64(b.FilterDrop) * float64(b.Airflow) / float64(o.Clean.Airflow)
	}
	return sum
}

// flimsy is a soft wide filter with hardly any cover: its frame buckles out on
// the way.
func flimsy() Job {
	j := withFilter(filter.Filter{MERV: 11, Depth: units.Inch, Bracing: filter.Unbraced})
	j.Equipment.Blower.Motor = blower.ConstantTorque
	j.Slot.Width, j.Slot.Height = 20*units.Inch, 25*units.Inch
	j.Slot.Gap, j.Slot.EdgeCover = 0.3*units.Millimetre, 0.89*units.Millimetre
	return j
}

// The simulation solves bow, seat and leak at every step: what it ends at is the
// loaded house, and more steps do not move it.
func TestMarchConverges(t *testing.T) {
	jobs := map[string]Job{"sealed": withCabinet(), "two grilles": twoReturns(), "flimsy": flimsy()}
	gap := withCabinet()
	gap.Slot.Gap, gap.Slot.GapBends = 4*units.Millimetre, 1
	jobs["gap"] = gap
	series := twoReturns()
	series.Slot = gap.Slot
	series.Slot.Width, series.Slot.Height, series.Slot.Depth = 20*units.Inch, 25*units.Inch, units.Inch
	jobs["series"] = series
	for name, j := range jobs {
		s := solved(t, j)
		for _, o := range s.Options[1:] {
			last := o.LifeCurve[len(o.LifeCurve)-1]
			assert.InEpsilon(t, float64(o.Loaded.Airflow), float64(last.Airflow), 2e-5, name)
			assert.InEpsilon(t, float64(o.Loaded.FilterDrop), float64(last.Drop), 1e-3, name)
			assert.Equal(t, o.Life, last.Time, name)
		}
		var ends []float64
		for _, steps := range []int{house.LifeSteps, 2 * house.LifeSteps, 16 * house.LifeSteps} {
			a, err := solvedHouse(s).Arrange(Option{Name: TodayName}, "today")
			require.NoError(t, err)
			sys, err := solvedHouse(s).System(a)
			require.NoError(t, err)
			_, err = solvedHouse(s).Condition(a, sys)
			require.NoError(t, err)
			m, err := solvedHouse(s).NewDustSimulation(a, sys)
			require.NoError(t, err)
			require.NoError(t, m.Run(steps))
			ends = append(ends, float64(m.First.Flow))
			assert.InEpsilon(t, float64(s.Today().Life), float64(m.Points[len(m.Points)-1].Time), 1e-3, name)
		}
		assert.InEpsilon(t, ends[2], ends[0], 1e-4, name)
		assert.InEpsilon(t, ends[2], ends[1], 1e-4, name)
	}
}

// A frame that buckles says so, leaks suddenly, and not before: draw-in
// (4/3) w^2/508 mm against 0.89 - 0.3 mm of cover left is reached at a bow of
// sqrt(0.75 x 0.59 x 508) = 15.0 mm.
func TestFrameLeavesItsSeat(t *testing.T) {
	o := solved(t, flimsy()).Today()
	require.False(t, o.Clean.LeftSeat)
	assert.Less(t, o.Clean.FrameBow, 15.0*units.Millimetre)
	assert.True(t, o.Places[0].LeavesSeat)
	assert.True(t, o.Loaded.LeftSeat)
	assert.Greater(t, o.Places[0].LoadedLeak, 5*o.Clean.LeakFraction)
	found := false
	for _, f := range o.Findings {
		found = found || f.Code == "frame_leaves_seat"
	}
	assert.True(t, found)
	j := flimsy()
	j.Slot.EdgeCover = 12 * units.Millimetre
	assert.False(t, solved(t, j).Today().Places[0].LeavesSeat)
}

// Life does not rise with dust, hours or MERV of like make, does not fall with
// media area; what changes nothing equals today.
func TestLifeHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		j.Options = []Option{{Name: "same"}}
		before := solveable(t, j)
		today, same := before.Today(), before.Option("same")
		for name, v := range map[string][2]float64{
			"airflow": {float64(today.Clean.Airflow), float64(same.Clean.Airflow)}, "loaded": {float64(today.Loaded.Airflow), float64(same.Loaded.Airflow)},
			"life": {float64(today.Life), float64(same.Life)}, "a year": {float64(today.AnnualCost), float64(same.AnnualCost)}, "ten years": {float64(today.TenYearCost), float64(same.TenYearCost)},
		} {
			if math.Abs(v[0]-v[1]) > 1e-9*math.Abs(v[0]) {
				t.Fatalf("%s: today %g, the same %g", name, v[0], v[1])
			}
		}
		for _, p := range today.Places {
			if p.Dust > p.Capacity {
				t.Fatalf("%s holds %v of %v", p.Filter, p.Dust, p.Capacity)
			}
		}
		// Side by side, a change of one filter moves air, and so dust, to another: MERV
		// and area are held to the filter that all the air crosses.
		alone := len(today.Places) == 1 && today.Places[0].Where != InGrille
		what := rapid.SampledFrom([]string{"dust", "hours", "merv", "area"}).Draw(t, "what")
		more := j.Clone()
		switch what {
		case "dust":
			more.Site.DustRate = solvedHouse(before).Site.DustRate * 1.7
		case "hours":
			more.Site.CoolingHours, more.Site.HeatingHours = 1900*units.Hour, 1300*units.Hour
		case "merv":
			f := &more.Filters[0]
			if !alone || len(f.Rating) > 0 || f.Pleats > 0 || f.MERV == 16 {
				t.SkipNow()
			}
			f.MERV++
		case "area":
			f := &more.Filters[0]
			if !alone || f.Pleats > 0 {
				t.SkipNow()
			}
			small := j.Clone()
			small.Filters[0].MediaArea, f.MediaArea = 0.7*units.SquareMetre, 1.1*units.SquareMetre
			if len(f.Rating) == 0 { // an area alone makes a pack
				t.SkipNow()
			}
			more, j = small, more
			today = solveable(t, j).Today()
		}
		after := solveable(t, more).Today()
		near := 1e-6
		if what == "merv" && j.Slot.Gap > 0 {
			// More air slips round a finer filter, and its dust with it: to fill it takes longer
			// by no more than what passes the coarser one, clean, over what passes the finer, dirty.
			near += (1-today.Places[0].LeakFraction)/(1-after.Places[0].LoadedLeak) - 1
		}
		if after.Life > today.Life*units.Duration(1+near) {
			t.Fatalf("%s: %v, before %v (%s, %s)", what, after.Life, today.Life, after.ReplacedBecause, today.ReplacedBecause)
		}
	})
}

func ExamplePayback() {
	fmt.Println(Payback{Known: true, MERV: 13, TodayMERV: 8})
	fmt.Println(Payback{Known: true, Pays: true, Years: 3 * units.Year, MERV: 8, TodayMERV: 8})
	fmt.Println(Payback{})
	// Output:
	// does not pay back, with a finer filter: MERV 13 as installed, 8 today
	// in 3.0 years
	// not known
}
