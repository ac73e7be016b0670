package sizing

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// said is the sentence of a code of an option; of the house where option is empty.
func said(t *testing.T, s *Study, option, code string) string {
	t.Helper()
	for _, f := range s.Findings {
		if f.Option == option && f.Code == code {
			return f.In(units.IP)
		}
	}
	require.Failf(t, "not said", "%s of %q, only %v", code, option, codes(s.Findings))
	return ""
}

// The numbers of each sentence, worked out beside it. They are those of the pinned
// house where nothing else is said.
func TestSentencesByHand_Identity(t *testing.T) {
	hold := func(option, code, want string, change func(j *Job)) {
		t.Helper()
		j := pinned()
		change(&j)
		assert.Equal(t, want, said(t, solved(t, j), option, code), code)
	}
	as := func(*Job) {}
	// 1000 cfm of the 1200 for 3 tons; 0.634 - 0.50; 0.251 - 0.10.
	hold(TodayName, "airflow_low", "Airflow is 1000 cfm (333 cfm/ton), 200 cfm short of the 1200 cfm the coil needs. The filter is the biggest restriction, 0.251 in. w.c.: give it more face or more depth.", as)
	hold(TodayName, "static_high", "External static is 0.634 in. w.c., 0.134 in. w.c. over the rated 0.500 in. w.c.: the blower takes 393 W to hold its airflow. The filter is the biggest restriction, 0.251 in. w.c.: give it more face or more depth.", as)
	hold(TodayName, "static_high", "External static is 0.634 in. w.c., 0.134 in. w.c. over the rated 0.500 in. w.c. The filter is the biggest restriction, 0.251 in. w.c.: give it more face or more depth.",
		func(j *Job) { j.Equipment.Blower.Motor = blower.PSC })
	hold(TodayName, "filter_drop", "The clean filter drops 0.251 in. w.c., 0.151 in. w.c. over the 0.100 in. w.c. allowed. Give it more face, more depth or media that resists less.", as)
	hold(TodayName, "filter_drop", "The clean filter drops 0.251 in. w.c., 0.051 in. w.c. over the 0.200 in. w.c. allowed. Give it more face, more depth or media that resists less.",
		func(j *Job) { j.Limits.MaxFilterDrop = 0.2 * units.InchWater })
	hold(TodayName, "static", "External static is 0.634 in. w.c., within the rated 0.900 in. w.c.", func(j *Job) { j.Equipment.RatedExternalStatic = 0.9 * units.InchWater })
	// Dirty at a drop of 0.45: 0.183 + 0.45 + 0.20 = 0.833.
	hold(TodayName, "static_high", "External static rises to 0.833 in. w.c. with a dirty filter, 0.033 in. w.c. over the rated 0.800 in. w.c. The filter is the biggest restriction, 0.450 in. w.c.: give it more face or more depth.",
		func(j *Job) {
			j.Equipment.RatedExternalStatic, j.Limits.ChangeDrop, j.Limits.ChangeMonths = 0.8*units.InchWater, 0.45*units.InchWater, 120*units.Month
			f := &j.Filters[0]
			f.Width, f.Height, f.DustCapacity = 20*units.Inch, 25*units.Inch, 1000*units.Gram
		})
	// Against 995 cfm nothing is short, against 1005 less than a gauge tells, against
	// 1020 it is, though 333 cfm per ton are usual where 340 are asked.
	hold(TodayName, "airflow", "Airflow is 1000 cfm: it meets the design airflow of 995 cfm.", func(j *Job) { j.DesignAirflow = 995 * units.CFM })
	hold(TodayName, "airflow", "Airflow is 1000 cfm: it meets the design airflow of 1005 cfm as near as a gauge can tell.", func(j *Job) { j.DesignAirflow = 1005 * units.CFM })
	hold(TodayName, "airflow_short", "Airflow is 1000 cfm, 20 cfm short of the design airflow of 1020 cfm. The filter is the biggest restriction, 0.251 in. w.c.: give it more face or more depth.",
		func(j *Job) { j.DesignAirflow, j.Equipment.CoolingCapacity = 1020*units.CFM, 2.5*units.Ton })
	// A furnace alone says nothing of tons.
	hold(TodayName, "airflow_short", "Airflow is 1000 cfm, 200 cfm short of the design airflow of 1200 cfm. The filter is the biggest restriction, 0.251 in. w.c.: give it more face or more depth.",
		func(j *Job) { j.Equipment.Kind = Furnace })
	// On 2 tons 500 cfm per ton, 50 over 450.
	hold(TodayName, "airflow_high", "Airflow is 500 cfm/ton, 50 cfm/ton over the usual 450 cfm/ton: the coil takes out less moisture. Choose a slower tap.",
		func(j *Job) { j.Equipment.CoolingCapacity, j.DesignAirflow = 2*units.Ton, 800*units.CFM })
	// 288 fpm over a target of 250: 1000 cfm need 4 ft2, 576 in2; there are 500.
	hold(TodayName, "face_velocity", "Face velocity is 288 fpm, 38 fpm over the 250 fpm for a filter of this depth. At 1000 cfm it needs 576 in2 of face; there is 500 in2.",
		func(j *Job) { j.TargetFaceVelocity = 250 * units.FPM })
	// 20000 Btu/h and 393.4 W into 1000 cfm: 21342/1080 = 19.8 F, in this air 19.7; and
	// 80000: 75.4, in this air 75.0.
	hold(TodayName, "rise_low", "Heating raises the air by 19.7 °F, 10.3 °F under the nameplate's 30.0 °F: flue gas may condense where it must not. Choose a slower heating tap.",
		func(j *Job) { j.Equipment.HeatingOutput = 20000 * units.BtuPerHour })
	hold(TodayName, "rise_high", "Heating raises the air by 75.0 °F, 15.0 °F over the nameplate's 60.0 °F: too little air crosses the heat exchanger. Raise the heating airflow before heating is run.",
		func(j *Job) { j.Equipment.HeatingOutput = 80000 * units.BtuPerHour })
	hold(TodayName, "rise_high", "Heating raises the air by 75.0 °F, 15.0 °F over the nameplate's 60.0 °F: too little air crosses the coil or heating elements. Raise the heating airflow before heating is run.",
		func(j *Job) { j.Equipment.HeatingOutput, j.Equipment.Kind = 80000*units.BtuPerHour, AirHandler })
	hold(TodayName, "supply_cool", "Heating raises the air by 19.7 °F, 10.3 °F under the nameplate's 30.0 °F: the rooms may feel a draft. Run heating on a lower tap.",
		func(j *Job) { j.Equipment.HeatingOutput, j.Equipment.Kind = 20000*units.BtuPerHour, AirHandler })
	// An end of the range that nobody typed is 30 F from the other.
	hold(TodayName, "rise_high_assumed", "Heating would raise the air by 75.0 °F, 15.0 °F over 60.0 °F. Output or range is assumed: type the nameplate's.",
		func(j *Job) { j.Equipment.HeatingOutput, j.Equipment.RiseHigh = 80000*units.BtuPerHour, 0 })
	hold(TodayName, "rise_low_assumed", "Heating would raise the air by 19.7 °F, 10.3 °F under 30.0 °F. Output or range is assumed: type the nameplate's.",
		func(j *Job) { j.Equipment.HeatingOutput, j.Equipment.RiseLow = 20000*units.BtuPerHour, 0 })
	// The table, thinned by the air's 0.98354, ends at 0.590 and at 0.787. Past the first
	// the blower runs clean, past the second dirty alone.
	for last, clean := range map[float64]bool{0.6: true, 0.8: false} {
		j := pinned()
		j.Equipment.Blower.Taps[0].Points = []blower.Point{{ExternalStatic: 0.1 * units.InchWater, Airflow: 1000.001 * units.CFM, Power: 400}, {ExternalStatic: units.Pressure(last) * units.InchWater, Airflow: 1000 * units.CFM, Power: 400}}
		j.Limits.ChangeDrop, j.Limits.ChangeMonths = 0.45*units.InchWater, 120*units.Month
		f := &j.Filters[0]
		f.Width, f.Height, f.DustCapacity = 20*units.Inch, 25*units.Inch, 1000*units.Gram
		s := solved(t, j)
		c := s.Today().Clean
		require.Equal(t, clean, !c.WithinBlowerTable)
		if !clean {
			c = s.Today().Loaded
		}
		assert.Equal(t, "The blower would run at "+c.ExternalStatic.Show(units.IP)+" and "+c.Airflow.Show(units.IP)+", outside its table of 0.098 in. w.c. to "+units.Pressure(last*0.98354*float64(units.InchWater)).Show(units.IP)+": the numbers there are a guess. Type more rows of the table, or bring the static back into it.",
			said(t, s, TodayName, "off_table"))
	}
	// 4 tons on 1000 cfm are 250 cfm per ton.
	hold(TodayName, "frost_risk", "The cooling coil may frost: 1000 cfm is 250 cfm/ton of cooling, under 300 cfm/ton. Raise the airflow.",
		func(j *Job) {
			j.Equipment.CoolingCapacity, j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = 4*units.Ton, units.Fahrenheit(85), units.Fahrenheit(72)
		})
	hold("dear", "over_budget", "The work costs $600, over the budget of $500.", func(j *Job) {
		j.Limits.Budget = 500
		j.Options = []Option{{Name: "dear", Price: 600}, {Name: "cheap", Price: 500}}
	})
	// 10 in round is 0.5454 ft2, 1222 fpm; 14 in is 1.069 ft2, 624 fpm, where 2 of the
	// velocity pressure are 2 x 0.02385 = 0.048.
	hold("", "duct_velocity", "hall: the duct drops 0.183 in. w.c. at 1222 fpm, over the 700 fpm allowed. A round duct of 14 in would drop 0.048 in. w.c. with the branch's 0.10 in and its 2 fittings at that size.", as)
	hold("", "undersized_parts", "Undersized today, worst first: hall, boot straight: 0.091 in. w.c.; hall, discharge into plenum: 0.091 in. w.c.; hall, round duct 10 in: 0.000018 in. w.c.", as)
	// Of the static of the least job all is assumed, and the blower too.
	s := solved(t, least())
	assert.Equal(t, "100 % of the external static is assumed, and so is the blower table. Measure or type what is marked as assumed.", said(t, s, "", "assumed"))
	// Coil 0.30 (1.0) and supply 0.08 typed, returns 0.10 (1000/1200)^2 = 0.0694 and a
	// generic filter that takes more than they: half and more is assumed.
	j := pinned()
	j.Returns, j.Filters, j.Slot.Filter, j.Coil.Drop = nil, nil, "", 0.02*units.InchWater
	s = solved(t, j)
	c := s.Today().Clean
	share := (0.0694 + c.FilterDrop.In(units.InchWater)) / (0.0694 + c.FilterDrop.In(units.InchWater) + 0.10)
	assert.InDelta(t, share, s.AssumedShare, 1e-3)
	assert.Regexp(t, `^\d+ % of the external static is assumed\. Measure`, said(t, s, "", "assumed"))
	j.Supply.Drop = 0.6 * units.InchWater
	assert.NotContains(t, codes(solved(t, j).Findings), "assumed", "less than half")
	assert.False(t, s.BlowerAssumed)
}

// What the gauge finds, in numbers: of the return's 0.30 the 0.183 are described; of
// the filter's 0.30 the 0.251 are the clean one's; less than they, or no more than a
// gauge tells, is said otherwise.
func TestReadingsInWordsByHand_Identity(t *testing.T) {
	read := func(ret, filterDrop float64, change func(*Reading)) *Study {
		j := pinned()
		j.Readings = []Reading{{ReturnPlenum: units.Pressure(-ret) * units.InchWater, BlowerInlet: units.Pressure(-ret-filterDrop) * units.InchWater,
			BlowerOutlet: 0.20 * units.InchWater, SupplyPlenum: 0.08 * units.InchWater, Airflow: 1000 * units.CFM}}
		change(&j.Readings[0])
		return solved(t, j)
	}
	as := func(*Reading) {}
	s := read(0.30, 0.30, as)
	assert.Regexp(t, `^0\.117 in\. w\.c\. of return drop is not explained by what you described: the return reads 0\.300 in\. w\.c\. at 1000 cfm, the parts described add up to 0\.183 in\. w\.c\.`, said(t, s, "", "unexplained_loss"))
	// The loss is looked for before anything is sold; a stop stands beside it.
	next := s.Recommendation.Next.In(units.IP)
	assert.Regexp(t, `^First look for 0\.117 in\. w\.c\. of return drop that nothing described explains: a crushed flex`, next)
	assert.Regexp(t, `^The filter as found drops 0\.300 in\. w\.c\. at 1000 cfm: 0\.251 in\. w\.c\. is the clean filter and 0\.049 in\. w\.c\. is dust\.`, said(t, s, "", "filter_found"))
	s = read(0.10, 0.20, as)
	assert.Regexp(t, `^The return reads 0\.100 in\. w\.c\. at 1000 cfm, 0\.083 in\. w\.c\. less than the parts described\.`, said(t, s, "", "return_unlike"))
	assert.Regexp(t, `^The filter as found drops 0\.200 in\. w\.c\. at 1000 cfm, 0\.051 in\. w\.c\. less than a clean one of its make\.`, said(t, s, "", "filter_reads_low"))
	s = read(0.20, 0.26, as)
	for _, code := range []string{"unexplained_loss", "return_unlike", "filter_found", "filter_reads_low"} {
		assert.NotContains(t, codes(s.Findings), code, "within 0.03 in. w.c.")
	}
	s = read(0.18, 0.40, func(r *Reading) { r.FilterIsClean = true })
	assert.NotContains(t, codes(s.Findings), "filter_found", "a new filter takes what it takes")
	assert.InDelta(t, 0.40, s.Today().Clean.FilterDrop.In(units.InchWater), 1e-3)
	assert.Equal(t, "gauge", s.Today().LawSource)

	// What cannot be true of one air path.
	contrary := func(r Reading) *Study {
		j := pinned()
		r.Airflow = 1000 * units.CFM
		j.Readings = []Reading{r}
		return solved(t, j)
	}
	in := units.InchWater
	s = contrary(Reading{ReturnPlenum: -0.5 * in, BlowerInlet: -0.2 * in})
	assert.Equal(t, "The blower inlet reads less suction (0.200 in. w.c.) than the return plenum before the filter (0.500 in. w.c.). Check whether the two ports are swapped.", said(t, s, "", "ports_swapped"))
	s = contrary(Reading{BlowerOutlet: 0.1 * in, SupplyPlenum: 0.3 * in})
	assert.Equal(t, "The supply plenum reads more (0.300 in. w.c.) than the blower outlet before the coil (0.100 in. w.c.). Check whether the two ports are swapped.", said(t, s, "", "ports_swapped"))
	s = contrary(Reading{ReturnPlenum: 0.2 * in, BlowerInlet: -0.5 * in})
	assert.Equal(t, "The return plenum reads 0.200 in. w.c. and the blower inlet -0.500 in. w.c.: one sign is wrong. Both are taken as suction.", said(t, s, "", "signs_mixed"))
	s = contrary(Reading{BlowerOutlet: 0.3 * in, SupplyPlenum: -0.1 * in})
	assert.Equal(t, "A port after the blower reads suction (0.300 in. w.c., -0.100 in. w.c.). Check the hoses. It is taken as pressure.", said(t, s, "", "signs_mixed"))
	s = contrary(Reading{FilterDrop: 0.4 * in, BlowerInlet: -0.3 * in})
	assert.Equal(t, "The filter drop (0.400 in. w.c.) is more than the suction at the blower inlet (0.300 in. w.c.). Read both again.", said(t, s, "", "filter_over_return"))
	s = contrary(Reading{ReturnPlenum: -0.2 * in, FilterDrop: 0.2 * in, BlowerInlet: -0.5 * in})
	assert.Equal(t, "Return plenum 0.200 in. w.c. and filter drop 0.200 in. w.c. add up to 0.400 in. w.c., but the blower inlet reads 0.500 in. w.c. Read them again.", said(t, s, "", "filter_sum"))
	s = contrary(Reading{ReturnPlenum: -0.2 * in, FilterDrop: 0.25 * in, BlowerInlet: -0.47 * in, BlowerOutlet: 0.3 * in, SupplyPlenum: 0.1 * in})
	for _, code := range []string{"ports_swapped", "signs_mixed", "filter_over_return", "filter_sum", "inside_handler"} {
		assert.NotContains(t, codes(s.Findings), code)
	}
	// A round of which only the static is off.
	j := pinned()
	j.Options = []Option{{Name: "same"}}
	j.Readings = []Reading{{Label: "later", Option: "same", Airflow: 1000 * units.CFM, BlowerInlet: -0.60 * in}}
	assert.Equal(t, "later: the airflow agrees, but the gauge reads -0.600 in. w.c. at the blower inlet, after the filter, expected -0.434 in. w.c. Read it again.", said(t, solved(t, j), "", "reading_port"))
	j.Readings[0].BlowerInlet, j.Readings[0].BlowerPower = 0, 500
	assert.Equal(t, "later: the pressures agree, but the blower power reads 500 W, expected 393 W. Read it again.", said(t, solved(t, j), "", "reading_other"))
	j.Readings[0].BlowerPower, j.Readings[0].SupplyPlenum = 0, 0.15*in
	assert.Equal(t, "later: the supply reads 0.150 in. w.c., expected 0.080 in. w.c. at 1000 cfm. Look there first.", said(t, solved(t, j), "", "reading_part"))
	j.Readings[0].SupplyPlenum = 0.09 * in
	assert.Equal(t, "later: every reading agrees. Airflow is 1000 cfm, expected 1000 cfm.", said(t, solved(t, j), "", "reading_agrees"))
}

// Which tap to take. The three move 800, 1000 and 1250 cfm; 1200 are wanted in
// cooling and, for 45 F of rise, 1229 in heating, of which 1250 is within a hundredth.
// At 1250 cfm the static is 0.634 (1.25)^2, about; the rise is (60000 + 3.412 x 590) /
// (1.08 x 1250) = 45.9, in this air 45.7.
func TestTapsInWordsByHand_Identity(t *testing.T) {
	j := pinned()
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("high", 1250, 600), pinnedTap("low", 800, 200))
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "only", "low"
	j.Equipment.RatedExternalStatic = 1.5 * units.InchWater
	s := solved(t, j)
	assert.Regexp(t, `^Run cooling on tap high: 1250 cfm at 0\.9[12]\d in\. w\.c\. It runs on tap only now\.$`, said(t, s, "", "tap_cooling"))
	assert.Equal(t, "Run heating on tap high: 1250 cfm with a rise of 45.7 °F. It runs on tap low now.", said(t, s, "", "tap_heating"))
	require.Len(t, s.Taps, 3)
	for i, want := range []struct {
		tap       string
		cfm       float64
		rise      float64 // 1 % less than by 1.08
		fit, heat bool
	}{{"only", 1000, 57.1, false, false}, {"high", 1250, 45.9, true, true}, {"low", 800, 70.2, false, false}} {
		tap := s.Taps[i]
		assert.Equal(t, want.tap, tap.Tap)
		assert.InDelta(t, want.cfm, tap.Airflow.In(units.CFM), 0.05)
		assert.InDelta(t, want.cfm/3, tap.AirflowPerCapacity.In(units.CFMPerTon), 0.05)
		assert.InDelta(t, want.cfm, tap.HeatingAirflow.In(units.CFM), 0.05)
		assert.InEpsilon(t, want.rise, tap.TemperatureRise.In(units.FahrenheitDegree), 0.012)
		assert.Equal(t, []bool{want.fit, want.heat}, []bool{tap.ForCooling, tap.ForHeating}, want.tap)
		assert.True(t, tap.WithinBlowerTable && tap.WithinStatic)
	}
	// No tap: the static allowed is 0.8, or the airflow wanted is out of reach, or the
	// range is between 40 and 44 F.
	low := j.Clone()
	low.Equipment.RatedExternalStatic = 0.8 * units.InchWater
	assert.Equal(t, "No tap reaches 1200 cfm in cooling within the rated static of 0.800 in. w.c. Fix the return or the filter first.", said(t, solved(t, low), "", "tap_cooling"))
	hot := j.Clone()
	hot.HeatingAirflow = 1300 * units.CFM
	assert.Equal(t, "No tap reaches the heating airflow of 1300 cfm. Fix the return or the filter first.", said(t, solved(t, hot), "", "tap_heating"))
	hot.HeatingAirflow, hot.Equipment.RiseLow, hot.Equipment.RiseHigh = 1150*units.CFM, 40*units.FahrenheitDegree, 44*units.FahrenheitDegree
	assert.Equal(t, "No tap gives the heating airflow of 1150 cfm with a temperature rise between 40.0 °F and 44.0 °F. Fix the return or the filter first.", said(t, solved(t, hot), "", "tap_heating"))
	// Of a range that nobody typed no tap is asked for, and none where the tap is right.
	open := j.Clone()
	open.Equipment.RiseHigh = 0
	assert.NotContains(t, codes(solved(t, open).Findings), "tap_heating")
	open = j.Clone()
	open.Equipment.RiseLow = 0
	assert.NotContains(t, codes(solved(t, open).Findings), "tap_heating")
	right := j.Clone()
	right.Equipment.Blower.CoolingTap, right.Equipment.Blower.HeatingTap = "high", "high"
	found := codes(solved(t, right).Findings)
	assert.NotContains(t, found, "tap_cooling")
	assert.NotContains(t, found, "tap_heating")
	// The gentler of two that reach it.
	two := j.Clone()
	two.Equipment.Blower.Taps = append(two.Equipment.Blower.Taps, pinnedTap("mid", 1210, 560))
	assert.Contains(t, said(t, solved(t, two), "", "tap_cooling"), "Run cooling on tap mid: 1210 cfm")
	assert.Contains(t, said(t, solved(t, two), "", "tap_heating"), "Run heating on tap high: 1250 cfm", "1210 are 1.5 % short of 1229")
	none := j.Clone()
	none.Equipment.NoHeating = true
	s = solved(t, none)
	assert.NotContains(t, codes(s.Findings), "tap_heating")
	for _, tap := range s.Taps {
		assert.Zero(t, tap.HeatingAirflow)
		assert.False(t, tap.WithinRise || tap.ForHeating)
	}
}

// A wheel at 1.25 times the speed moves 1250 cfm and draws 393.4 x 1.25^3 = 768 W.
func TestSpeedInWordsByHand_Identity(t *testing.T) {
	said1 := func(ratio float64) (*Study, map[string]Severity) {
		j := pinned()
		j.Equipment.Blower.Motor = blower.PSC
		j.Options = []Option{{Name: "fast", SpeedRatio: ratio}}
		s := solved(t, j)
		return s, codes(s.Option("fast").Findings)
	}
	s, found := said1(1.25)
	assert.Equal(t, "The blower speed factor is 1.25: the blower draws 768 W, 393 W today. Check the motor's amps against its nameplate and the wheel's top speed.", said(t, s, "fast", "speed_up"))
	assert.Equal(t, "The blower speed factor is 1.25, far from the table: the motor's efficiency changes too, so the watts are a guess. Measure them.", said(t, s, "fast", "speed_far"))
	assert.Equal(t, Caution, found["speed_up"])
	_, found = said1(1.1)
	assert.Contains(t, found, "speed_up")
	assert.NotContains(t, found, "speed_far")
	_, found = said1(0.75)
	assert.NotContains(t, found, "speed_up")
	assert.Contains(t, found, "speed_far")
	_, found = said1(0)
	assert.NotContains(t, found, "speed_up")
	assert.NotContains(t, found, "speed_far")
}

// The worst come first, in the study as in each option, and what an option is reported
// bears its name.
func TestWorstComeFirst(t *testing.T) {
	for name, j := range unlike() {
		j.Readings = []Reading{{Airflow: 700 * units.CFM, FilterDrop: 0.5 * units.InchWater}}
		s := solved(t, j)
		lists := [][]Finding{s.Findings}
		for i := range s.Options {
			lists = append(lists, s.Options[i].Findings)
			for _, f := range s.Options[i].Findings {
				assert.Equal(t, s.Options[i].Name, f.Option)
			}
		}
		for _, list := range lists {
			assert.True(t, slices.IsSortedFunc(list, func(a, b Finding) int { return b.Severity.Rank() - a.Severity.Rank() }), name)
		}
		for i := range s.Options[1:] {
			o := &s.Options[i+1]
			require.NotEmpty(t, o.Findings)
			assert.Equal(t, o.Findings[0].Severity, o.Verdict)
			assert.Equal(t, o.Findings[0].In(units.IP), o.Why.In(units.IP))
		}
		assert.Equal(t, Caution, s.NoFilter().Verdict)
		assert.Equal(t, "Comparison only: never run the blower without its filter.", s.NoFilter().Why.In(units.IP))
		assert.Empty(t, s.NoFilter().Findings)
	}
	j := pinned()
	j.Readings = []Reading{{BlowerInlet: -2 * units.InchWater, BlowerOutlet: 1 * units.InchWater}}
	s := solved(t, j)
	assert.Equal(t, "The measured external static of 3.000 in. w.c. is outside the blower table. Check the tap, the table and the ports.", said(t, s, "", "reading_off_table"))
	assert.Equal(t, "reading_off_table", s.Findings[0].Code, "a stop of the house before cautions of an option")
}

// Each tap's curve has 40 points in equal steps from the table's first static to its
// last, both in the house's air, with the airflow and watts of the line between.
func TestTapCurveByHand_Identity(t *testing.T) {
	j := twoTaps() // 1250 to 1150 and 1450 to 1350 cfm over 0.05 to 1 in. w.c.
	s := solved(t, j)
	assert.EqualValues(t, "typed table", s.Blower.Source)
	assert.Equal(t, []string{"high", "high"}, []string{s.Blower.CoolingTap, s.Blower.HeatingTap})
	require.Len(t, s.Blower.Taps, 2)
	thin := s.Air.DensityRatio
	for i, tap := range s.Blower.Taps {
		require.Len(t, tap.Curve, 40)
		for k, p := range tap.Curve {
			t39 := float64(k) / 39
			assert.InDelta(t, (0.05+0.95*t39)*thin, p.Static.In(units.InchWater), 1e-9)
			assert.InDelta(t, float64(1250+200*i)-100*t39, p.Airflow.In(units.CFM), 1e-6)
			assert.InDelta(t, float64(300+200*i)*thin, p.Power.In(units.Watt), 1e-6)
		}
	}
	s = solved(t, least())
	assert.EqualValues(t, blower.GenericSource, s.Blower.Source)
	j.Options = []Option{{Name: "fast", SpeedRatio: 1.1}}
	s = solved(t, j)
	require.Len(t, s.Blower.Taps, 3)
	assert.Equal(t, "tap high at 1.10 times the speed", s.Blower.TapAtSpeed(s.Blower.Taps[2].Name, s.Blower.Taps[2].SpeedRatio).In(units.IP))
	assert.InDelta(t, 1450*1.1, s.Blower.Taps[2].Curve[0].Airflow.In(units.CFM), 1e-6)
	assert.InDelta(t, 0.05*1.21*thin, s.Blower.Taps[2].Curve[0].Static.In(units.InchWater), 1e-9)
	assert.InDelta(t, 500*1.331*thin, s.Blower.Taps[2].Curve[0].Power.In(units.Watt), 1e-6)
}

// What a study says of the house itself.
func TestHeadOfAStudy_Identity(t *testing.T) {
	j := pinned()
	j.Name, j.HeatingAirflow, j.TargetFaceVelocity = "a house", 1100*units.CFM, 240*units.FPM
	j.Limits.CasingFace, j.Limits.CasingDepth, j.Site.Altitude = 2*units.Inch, 5*units.Inch, 1000*units.Foot
	s := solved(t, j)
	assert.Equal(t, "a house", s.Name)
	assert.Equal(t, stock.Casing{Face: 2 * units.Inch, Depth: 5 * units.Inch}, s.Casing)
	assert.InDelta(t, 5*144, s.NeededFace.In(units.SquareInch), 1e-6, "1200 cfm at 240 fpm are 5 ft2")
	assert.InDelta(t, 1200, s.DesignAirflow.In(units.CFM), 1e-9)
	assert.InDelta(t, 1100, s.HeatingAirflow.In(units.CFM), 1e-9)
	assert.InDelta(t, 400, s.AirflowPerCapacity.In(units.CFMPerTon), 1e-9)
	assert.InDelta(t, 240, s.TargetFaceVelocity.In(units.FPM), 1e-9)
	assert.InDelta(t, 0.5, s.RatedExternalStatic.In(units.InchWater), 1e-9)
	assert.InDelta(t, 1000, s.Air.Altitude.In(units.Foot), 1e-9)
	assert.InDelta(t, 75, units.ToFahrenheit(s.Air.Temperature), 1e-9)
	assert.InDelta(t, 97716, float64(s.Air.Pressure), 60, "1000 ft in the standard atmosphere, common tables")
	assert.InEpsilon(t, s.Air.DensityRatio, s.Air.Density.SI()/1.2014, 1e-3, "0.075 lb/ft3")
	assert.Equal(t, 0.0, s.AssumedShare)
}

// An openable hole of a grille, all of it free, on no duct, loses its velocity
// pressure: 20x20 in at 500 cfm are 180 fpm. A grille of rating A v + B v^2 drops so.
func TestGrillesByHand_Identity(t *testing.T) {
	j := pinned()
	hole := Return{Name: "a", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, FreeArea: 1}}
	other := hole
	other.Name = "b"
	j.Returns = []Return{hole, other}
	c := solved(t, j).Today().Clean
	assert.InDelta(t, 500, c.Branches[0].Airflow.In(units.CFM), 0.01)
	assert.InEpsilon(t, 180.0*180/4005/4005*0.98354, c.Branches[0].GrilleDrop.In(units.InchWater), 5e-3)
	// Two points, 0.03 at 300 and 0.08 at 600 fpm, make A = 2/30000, B = 1/9e6 an fpm:
	// at 360 fpm, 1000 cfm through 20x20, 0.024 + 0.0144 = 0.0384.
	j.Returns = []Return{{Name: "a", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch,
		Rating: []duct.GrilleRating{{Airflow: 833.3333 * units.CFM, Drop: 0.03 * units.InchWater}, {Airflow: 1666.6667 * units.CFM, Drop: 0.08 * units.InchWater}}}}}
	c = solved(t, j).Today().Clean
	assert.InEpsilon(t, 0.0384, c.Branches[0].GrilleDrop.In(units.InchWater), 0.02)
	assert.True(t, strings.HasPrefix(c.Branches[0].Name.Given, "a"))
}

// What a finding rests on stands with it, whole.
func TestWhatFindingsRestOn(t *testing.T) {
	hold := func(code, want string, change func(j *Job)) {
		t.Helper()
		j := pinned()
		change(&j)
		f := coded(solved(t, j).Findings, code)
		require.NotNil(t, f, code)
		assert.EqualValues(t, want+": common practice, no source", f.Source, code)
	}
	hold("airflow_low", "350 to 450 cfm per ton (47 to 60 L/s per kW)", func(*Job) {})
	hold("airflow_high", "350 to 450 cfm per ton (47 to 60 L/s per kW)", func(j *Job) { j.Equipment.CoolingCapacity, j.DesignAirflow = 2*units.Ton, 800*units.CFM })
	hold("filter_drop", "20 % of the rated external static for the filter", func(*Job) {})
	hold("rise_high_assumed", "assumed output or range", func(j *Job) { j.Equipment.HeatingOutput, j.Equipment.RiseHigh = 80000*units.BtuPerHour, 0 })
	hold("face_velocity", "an assumed target", func(j *Job) { j.Slot.Width = 16 * units.Inch })
	hold("frost_risk", "caution under an apparatus dew point of 40 °F (4.4 °C) or 300 cfm per ton (40 L/s per kW), stop at 36 °F (2.2 °C) or with air leaving under 38 °F (3.3 °C)", func(j *Job) {
		j.Equipment.CoolingCapacity, j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = 4*units.Ton, units.Fahrenheit(85), units.Fahrenheit(72)
	})
	j := pinned()
	j.Options = []Option{{Name: "same"}}
	j.Readings = []Reading{{Label: "later", Option: "same", Airflow: 1000 * units.CFM, BlowerPower: 500}}
	assert.EqualValues(t, "10 % or 0.03 in. w.c. (7.5 Pa): common practice, no source; of a temperature 3 °F (1.7 °C)", coded(solved(t, j).Findings, "reading_other").Source)
}
