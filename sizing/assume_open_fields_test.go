package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// What is left open follows from what is typed beside it: a wet bulb is 12 F under the dry
// bulb, which is 75 F or no less than the wet bulb; an airflow is so many cfm a ton, a
// capacity the airflow over them, and where both are typed the airflow rules; an end of the
// range of rise is 30 F from the other.
func TestOpenFieldsFollow_Identity(t *testing.T) {
	type got struct{ dry, wet, cfm, tons, perTon, low, high, output float64 }
	fill := func(change func(j *Job)) got {
		j := Job{Schema: Schema}
		change(&j)
		h := solvedHouse(solved(t, j))
		f := func(v units.Temperature) float64 { return float64(int(units.ToFahrenheit(v) + 0.5)) }
		r := func(v float64) float64 { return float64(int(v*100+0.5)) / 100 }
		return got{f(h.Site.IndoorDryBulb), f(h.Site.IndoorWetBulb), r(h.DesignAirflow.In(units.CFM)), r(h.Equipment.CoolingCapacity.In(units.Ton)), r(h.AirflowPerCapacity.In(units.CFMPerTon)),
			r(h.Equipment.RiseLow.In(units.FahrenheitDegree)), r(h.Equipment.RiseHigh.In(units.FahrenheitDegree)), r(h.Equipment.HeatingOutput.In(units.BtuPerHour) / 1000)}
	}
	ton := func(j *Job, tons units.Capacity) { j.Equipment.CoolingCapacity = tons * units.Ton }
	assert.Equal(t, got{75, 63, 1200, 3, 400, 30, 60, 60}, fill(func(j *Job) { ton(j, 3) }))
	assert.Equal(t, got{80, 80, 1200, 3, 400, 30, 60, 60}, fill(func(j *Job) { ton(j, 3); j.Site.IndoorWetBulb = units.Fahrenheit(80) }))
	assert.Equal(t, got{85, 73, 1200, 3, 400, 30, 60, 60}, fill(func(j *Job) { ton(j, 3); j.Site.IndoorDryBulb = units.Fahrenheit(85) }))
	assert.Equal(t, got{75, 63, 700, 2, 350, 30, 60, 40}, fill(func(j *Job) { ton(j, 2); j.AirflowPerCapacity = 350 * units.CFMPerTon }))
	assert.Equal(t, got{75, 63, 900, 3, 300, 30, 60, 60}, fill(func(j *Job) { j.DesignAirflow, j.AirflowPerCapacity = 900*units.CFM, 300*units.CFMPerTon }))
	assert.Equal(t, got{75, 63, 1200, 4, 300, 30, 60, 80}, fill(func(j *Job) {
		ton(j, 4)
		j.DesignAirflow, j.AirflowPerCapacity = 1200*units.CFM, 400*units.CFMPerTon
	}))
	assert.Equal(t, got{75, 63, 1200, 3, 400, 25, 55, 60}, fill(func(j *Job) { ton(j, 3); j.Equipment.RiseLow = 25 * units.FahrenheitDegree }))
	assert.Equal(t, got{75, 63, 1200, 3, 400, 40, 70, 60}, fill(func(j *Job) { ton(j, 3); j.Equipment.RiseHigh = 70 * units.FahrenheitDegree }))
	assert.Equal(t, got{75, 63, 1200, 3, 400, 15, 45, 36}, fill(func(j *Job) { ton(j, 3); j.Equipment.Kind = AirHandler }))
	assert.Equal(t, got{75, 63, 1200, 3, 400, 20, 50, 36}, fill(func(j *Job) {
		ton(j, 3)
		j.Equipment.Kind, j.Equipment.RiseLow = AirHandler, 20*units.FahrenheitDegree
	}))
	assert.Equal(t, got{75, 63, 1200, 3, 400, 0, 0, 0}, fill(func(j *Job) { ton(j, 3); j.Equipment.NoHeating = true }))

	dust := func(change func(s *Site)) float64 {
		j := least()
		change(&j.Site)
		return solvedHouse(solved(t, j)).Site.DustRate.In(units.GramPerDay)
	}
	for preset, want := range map[DustPreset]float64{"low": 0.6, "ordinary": 1.2, "pets": 2.4, "works": 10} {
		assert.InDelta(t, want, dust(func(s *Site) { s.Dust = preset }), 1e-9, preset)
	}
	assert.InDelta(t, 5, dust(func(s *Site) { s.Dust, s.DustRate = "pets", 5*units.GramPerDay }), 1e-9, "a rate typed rules")

	hours := func(none bool, cool, heat, fan float64) [3]float64 {
		j := least()
		j.Equipment.NoHeating = none
		j.Site.CoolingHours, j.Site.HeatingHours, j.Site.FanHours = units.Duration(cool)*units.Hour, units.Duration(heat)*units.Hour, units.Duration(fan)*units.Hour
		s := solvedHouse(solved(t, j)).Site
		return [3]float64{s.CoolingHours.In(units.Hour), s.HeatingHours.In(units.Hour), s.FanHours.In(units.Hour)}
	}
	assert.Equal(t, [3]float64{1000, 1000, 0}, hours(false, 0, 0, 0))
	assert.Equal(t, [3]float64{1000, 0, 0}, hours(true, 0, 0, 0))
	assert.Equal(t, [3]float64{1000, 0, 0}, hours(true, 0, 500, 0))
	assert.Equal(t, [3]float64{0, 500, 0}, hours(false, 0, 500, 0))
	assert.Equal(t, [3]float64{0, 0, 300}, hours(false, 0, 0, 300))
	assert.Equal(t, [3]float64{700, 0, 0}, hours(false, 700, 0, 0))

	// The casing is listed where the room has a limit, any of its three sides.
	for name, l := range map[string]Limits{"width": {CabinetWidth: 1}, "height": {CabinetHeight: 1}, "depth": {CabinetDepth: 1}, "none": {}} {
		j := least()
		j.Limits = l
		s := solved(t, j)
		for _, path := range []string{"limits.casing_face", "limits.casing_depth"} {
			assert.Equal(t, name != "none", s.Assumed(path), "%s, %s", name, path)
		}
		assert.InDelta(t, 1.5, s.Casing.Face.In(units.Inch), 1e-9)
		assert.InDelta(t, 3, s.Casing.Depth.In(units.Inch), 1e-9)
	}
	// A derate and its place: typed at the site, or for low houses, there is none.
	delivered := func(change func(j *Job)) float64 {
		j := pinned()
		j.Site.Altitude = 5000 * units.Foot
		change(&j)
		return solvedHouse(solved(t, j)).Delivered().In(units.BtuPerHour)
	}
	assert.InDelta(t, 48000, delivered(func(*Job) {}), 1e-6, "4 % each 1000 ft")
	assert.InDelta(t, 54000, delivered(func(j *Job) { j.Equipment.AltitudeDerate = 0.02 }), 1e-6)
	assert.InDelta(t, 60000, delivered(func(j *Job) { j.Equipment.HeatingOutputAt = "site" }), 1e-6)
	assert.InDelta(t, 60000, delivered(func(j *Job) { j.Site.Altitude = 2000 * units.Foot }), 1e-6)
	assert.InDelta(t, 60000*(1-0.04*2.001), delivered(func(j *Job) { j.Site.Altitude = 2001 * units.Foot }), 1e-6)
	assert.InDelta(t, 60000, delivered(func(j *Job) { j.Equipment.Kind = AirHandler }), 1e-6)
}

// The least MERV is that of today's filter, in the slot or the grilles, where nobody typed
// one; only one that was typed is held against an option.
func TestLeastMERVOfToday(t *testing.T) {
	merv := func(change func(j *Job)) (int, *Study) {
		j := pinned()
		j.Filters[0].MERV = 11
		j.Filters = append(j.Filters, filter.Filter{Name: "coarse", Depth: units.Inch, MERV: 7})
		j.Options = []Option{{Name: "coarse", Filter: "coarse"}}
		change(&j)
		s := solved(t, j)
		return solvedHouse(s).Limits.MinMERV, s
	}
	n, s := merv(func(*Job) {})
	assert.Equal(t, 11, n)
	assert.NotContains(t, codes(s.Option("coarse").Findings), "merv")
	n, s = merv(func(j *Job) { j.Limits.MinMERV = 9 })
	assert.Equal(t, 9, n)
	assert.Equal(t, "MERV 7 is under the least of MERV 9: choose a finer filter.", said(t, s, "coarse", "merv"))
	assert.NotContains(t, codes(s.Today().Findings), "merv", "what stands there is not held")
	n, _ = merv(func(j *Job) {
		g := inGrilles()
		j.Slot, j.Returns = g.Slot, g.Returns
		j.Returns[0].Filter = ""
	})
	assert.Equal(t, 11, n, "the first in a grille")
}

// A round is held against its own tap: the one named, else the season's.
func TestRoundOnItsTap_Identity(t *testing.T) {
	j := pinned()
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("high", 1250, 600), pinnedTap("low", 800, 200))
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "only", "low"
	j.Options = []Option{{Name: "by tap", Tap: "high"}}
	in := units.InchWater
	j.Readings = []Reading{{BlowerOutlet: 0.2 * in, BlowerInlet: -0.4 * in}, {Tap: "high", BlowerOutlet: 0.2 * in, BlowerInlet: -0.4 * in}, {Mode: Heating, BlowerOutlet: 0.2 * in, BlowerInlet: -0.4 * in},
		{Mode: Heating, Tap: "high", BlowerOutlet: 0.2 * in, BlowerInlet: -0.4 * in}, {Option: "by tap", BlowerOutlet: 0.2 * in, BlowerInlet: -0.4 * in}}
	s := solved(t, j)
	require.Len(t, s.Readings, 5)
	for i, want := range []struct{ read, predicted float64 }{{1000, 1000}, {1250, 1250}, {800, 800}, {1250, 1250}, {1000, 1250}} {
		assert.InDelta(t, want.read, s.Readings[i].Airflow.In(units.CFM), 0.02, "%d", i)
		assert.InDelta(t, want.predicted, s.Readings[i].PredictedAirflow.In(units.CFM), 0.02, "%d", i)
		assert.EqualValues(t, "blower table", s.Readings[i].AirflowBasis)
		assert.Equal(t, i == 0, s.Readings[i].CalibratesStudy)
		assert.Equal(t, i == 4, s.Readings[i].AfterWork)
	}
	// The watts of a rise that nobody read are those of the table.
	rise := func(watts units.Power) float64 {
		j := pinned()
		j.Readings = []Reading{{Mode: Heating, ReturnTemperature: units.Fahrenheit(68), SupplyTemperature: units.Fahrenheit(120), BlowerPower: watts}}
		s := solved(t, j)
		assert.EqualValues(t, "temperature rise", s.Readings[0].AirflowBasis)
		return s.Readings[0].Airflow.In(units.CFM)
	}
	assert.InEpsilon(t, rise(393.415), rise(0), 1e-6)
	assert.InEpsilon(t, rise(0)*(60000+3.412*800)/(60000+3.412*393.4), rise(800), 1e-6)
}

// A solver that is asked of a house again after a make has changed under its name gives
// what a fresh one does.
func TestSolverSeesAChangedMake(t *testing.T) {
	j := pleated()
	keeper := NewSolver()
	for _, resistance := range []units.MediaResistance{60, 90, 60} {
		j.Filters[0].MediaResistance = resistance
		kept, err := keeper.Solve(j)
		require.NoError(t, err)
		assert.Equal(t, solved(t, j).Today().Clean.FilterDrop, kept.Today().Clean.FilterDrop)
	}
}

// A make without a size of its own has a law for each face: in a narrower or a lower
// slot a solver that was asked of another before gives what a fresh one does, and an
// option the same samples whatever the slot of the option before it.
func TestEachFaceHasItsOwnLaw(t *testing.T) {
	j := withFilter(filter.Filter{MERV: 11, Depth: units.Inch, PleatDepth: 0.75 * units.Inch, MediaResistance: 60})
	solver := NewSolver()
	other := Option{Name: "other", Slot: Slot{Width: 18 * units.Inch, Height: 18 * units.Inch, Depth: units.Inch}}
	for _, face := range [][2]units.Length{{16, 25}, {16, 20}, {20, 25}} {
		j.Slot.Width, j.Slot.Height = face[0]*units.Inch, face[1]*units.Inch
		s, err := solver.Solve(j)
		require.NoError(t, err)
		assert.Equal(t, solved(t, j).Today().MediaArea, s.Today().MediaArea, "%v", face)
	}
	j.Options = []Option{other}
	want := ranged(t, j, 10, UsualDeviations())[2].FilterDrop
	for _, beside := range [][2]units.Length{{18, 12}, {12, 18}} {
		j.Options = []Option{{Name: "first", Slot: Slot{Width: beside[0] * units.Inch, Height: beside[1] * units.Inch, Depth: units.Inch}}, other}
		assert.InEpsilon(t, float64(want.Low), float64(ranged(t, j, 10, UsualDeviations())[3].FilterDrop.Low), 1e-9, "%v", beside)
	}
}

// A furnace alone may have a coil of which the drop is typed: at the design airflow, as
// 1200 cfm, with the usual exponent of 1.8, so at 1000 cfm 0.2 (1000/1200)^1.8 = 0.144. A
// heating airflow typed of what does not heat is not looked at.
func TestFieldsBesideTheirKind_Identity(t *testing.T) {
	j := pinned()
	j.Equipment.Kind, j.Coil = Furnace, Part{Drop: 0.2 * units.InchWater}
	d, has := coilDrop(solved(t, j).Today().Clean)
	require.True(t, has)
	assert.InDelta(t, 0.1440, d.In(units.InchWater), 1e-4)
	j = pinned()
	j.Equipment.NoHeating, j.HeatingAirflow = true, 1100*units.CFM
	s := solved(t, j)
	assert.Zero(t, s.HeatingAirflow)
	assert.False(t, s.Heats())
}
