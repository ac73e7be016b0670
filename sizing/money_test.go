package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/air"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/money"
	"returnbench/sizing/units"
)

// TestCoolingTime_Identity: a house runs as long as itself, shorter with more
// cooling from the same watts, longer with more watts for the same cooling, and
// not at all where nothing cools.
func TestCoolingTime_Identity(t *testing.T) {
	s := solved(t, withCabinet())
	share, known := money.CoolingTime(s, s.Today())
	require.True(t, known)
	assert.Equal(t, 1.0, share)

	o := *s.Today()
	share, _ = money.CoolingTime(s, &o)
	assert.Equal(t, 1.0, share, "the same capacity takes the same hours")

	// Over the time, not over the points: sensible capacity less the blower's watts
	// is 8000 W new, 7000 W after a month, 3000 W after four: ((8000 + 7000)/2 x 1 +
	// (7000 + 3000)/2 x 3)/4 = 5625 W, against a steady 6000 W today.
	now, then := OptionResult{Name: TodayName}, OptionResult{}
	for _, p := range []LifePoint{
		{SensibleCapacity: 8500, Power: 500}, {Time: units.Month, SensibleCapacity: 7450, Power: 450},
		{Time: 4 * units.Month, SensibleCapacity: 3400, Power: 400},
	} {
		then.LifeCurve = append(then.LifeCurve, p)
		p.SensibleCapacity, p.Power = 6400, 400
		now.LifeCurve = append(now.LifeCurve, p)
	}
	share, known = money.CoolingTime(&Study{Options: []OptionResult{{}, now}}, &then)
	require.True(t, known)
	assert.InEpsilon(t, 6000.0/5625, share, 1e-12)
	then.LifeCurve[2].SensibleCapacity = 0
	_, known = money.CoolingTime(&Study{Options: []OptionResult{{}, now}}, &then)
	assert.False(t, known, "nothing cools at the end")

	j := withCabinet()
	j.Equipment.Kind = Furnace
	s = solved(t, j)
	_, known = money.CoolingTime(s, &s.Options[2])
	assert.False(t, known)
	j.Site.CoolingHours = 1000 * units.Hour
	j.Equipment.Kind = FurnaceWithCoil
	s = solved(t, j)
	w := s.Working("options[2].annual_cost")
	require.NotNil(t, w)
	assert.Contains(t, w.Steps[0].Numbers, "h_today = 1000 h")
	assert.Equal(t, s.Options[2].AnnualCost.Show(units.IP), w.Result(units.IP))
}

// overLife is the time mean of a figure by straight lines between the points of
// an option's life.
func overLife(o *OptionResult, of func(p LifePoint) float64) float64 {
	sum := 0.0
	for i, p := range o.LifeCurve[1:] {
		sum += (of(p) + of(o.LifeCurve[i])) / 2 * float64(p.Time-o.LifeCurve[i].Time)
	}
	return sum / float64(o.LifeCurve[len(o.LifeCurve)-1].Time)
}

// A year's cost at equal cooling, by hand from the points of each option's life:
// the hours scale with today's net sensible capacity over the option's, and the
// outdoor unit draws 36000 Btu/h / EER 12 = 3000 W x EIR(f), f the airflow over 1200
// cfm, both by mass of dry air. Heating watts are a mean over the same time.
func TestEqualCooling_Identity(t *testing.T) {
	j := withCabinet()
	j.Equipment.EER = 12
	j.Site.CoolingHours, j.Site.HeatingHours, j.Site.FanHours = 1000*units.Hour, 500*units.Hour, 300*units.Hour
	j.Site.PowerPrice = 0.20 * units.MoneyPerKilowattHour
	s := solved(t, j)
	assert.False(t, s.Assumed("equipment.eer"))
	rated, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	require.NoError(t, err)
	here, err := air.FromWetBulb(0, units.Fahrenheit(75), units.Fahrenheit(63))
	require.NoError(t, err)
	net := func(p LifePoint) float64 { return p.SensibleCapacity.SI() - p.Power.SI() }
	eir := func(p LifePoint) float64 {
		f := p.Airflow.In(units.CFM) / 1200 * rated.SpecificVolume() / here.SpecificVolume()
		return 1.1552 - 0.1808*f + 0.0256*f*f
	}
	for i := range s.Options[1:] {
		o := &s.Options[1+i]
		hours := 1000 * overLife(s.Today(), net) / overLife(o, net)
		assert.InEpsilon(t, hours, o.CoolingHours.In(units.Hour), 1e-9, o.Name)
		assert.InEpsilon(t, 3*hours*overLife(o, eir)*0.20, float64(o.AnnualOutdoor), 1e-6, o.Name)
		power := hours*overLife(o, func(p LifePoint) float64 { return p.Power.SI() }) +
			500*overLife(o, func(p LifePoint) float64 { return p.HeatingPower.SI() }) + 300*overLife(o, func(p LifePoint) float64 { return p.FanPower.SI() })
		assert.InEpsilon(t, power/1000*0.20, float64(o.AnnualPower), 1e-9, o.Name)
		first, last := o.LifeCurve[0], o.LifeCurve[len(o.LifeCurve)-1]
		assert.InEpsilon(t, float64(o.Clean.HeatingPower), float64(first.HeatingPower), 1e-6)
		assert.InEpsilon(t, float64(o.Loaded.HeatingPower), float64(last.HeatingPower), 1e-6)
		assert.InEpsilon(t, float64(o.Loaded.SensibleCapacity), float64(last.SensibleCapacity), 1e-6)
		require.True(t, o.AnnualKnown)
		assert.InEpsilon(t, float64(o.AnnualPower+o.AnnualOutdoor+o.AnnualFilter), float64(o.AnnualCost), 1e-12)
	}
	deep := s.Option("cabinet")
	assert.Less(t, deep.CoolingHours, s.Today().CoolingHours, "more air, shorter running")
	j.Equipment.EER = 0
	assert.True(t, solved(t, j).Assumed("equipment.eer"))
}

// The fan alone on a low tap draws the low tap's watts: the blower's energy of
// 300 h falls by the difference.
func TestFanTap_Identity(t *testing.T) {
	j := least()
	j.Equipment.Blower.Taps = []blower.Tap{
		{Name: "high", Points: []blower.Point{{ExternalStatic: 0.1 * units.InchWater, Airflow: 1400 * units.CFM, Power: 500}, {ExternalStatic: 0.9 * units.InchWater, Airflow: 900 * units.CFM, Power: 500}}},
		{Name: "low", Points: []blower.Point{{ExternalStatic: 0.05 * units.InchWater, Airflow: 800 * units.CFM, Power: 200}, {ExternalStatic: 0.9 * units.InchWater, Airflow: 500 * units.CFM, Power: 200}}},
	}
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "high", "high"
	j.Site.CoolingHours, j.Site.HeatingHours, j.Site.FanHours = 1000*units.Hour, 500*units.Hour, 300*units.Hour
	s := solved(t, j)
	assert.True(t, s.Assumed("equipment.blower.fan_tap"))
	// Watts are in proportion to the air's density.
	thin := s.Air.DensityRatio
	assert.InEpsilon(t, 1800*0.5*thin, s.Today().AnnualEnergy.In(units.KilowattHour), 1e-9, "500 W on every hour")
	j.Equipment.Blower.FanTap = "low"
	s = solved(t, j)
	assert.False(t, s.Assumed("equipment.blower.fan_tap"))
	assert.InEpsilon(t, (1500*0.5+300*0.2)*thin, s.Today().AnnualEnergy.In(units.KilowattHour), 1e-9)
	j.Equipment.Blower.FanTap = "none such"
	require.ErrorContains(t, j.Check(), "fan_tap")
}

// Work that nobody priced: ten years and pay-back are not known, a year is. A
// filter in the slot that is there needs no work.
func TestUnknownPriceIsNotZero(t *testing.T) {
	j := withCabinet()
	j.Options = append(j.Options, Option{Name: "swap", Filter: "finer"})
	j.Filters = append(j.Filters, filter.Filter{Name: "finer", MERV: 11, Depth: units.Inch})
	s := solved(t, j)
	cabinet, swap := s.Option("cabinet"), s.Option("swap")
	assert.True(t, cabinet.AnnualKnown)
	assert.False(t, cabinet.UpgradeKnown)
	assert.False(t, cabinet.TenYearKnown)
	assert.Zero(t, cabinet.TenYearCost)
	assert.False(t, cabinet.Payback.Known)
	assert.Equal(t, "not known", cabinet.Payback.String())
	assert.True(t, swap.UpgradeKnown)
	assert.True(t, swap.TenYearKnown)
	assert.Equal(t, Payback{}, swap.Payback, "nothing to pay back")
	j.Options[0].Price = 600
	s = solved(t, j)
	cabinet = s.Option("cabinet")
	assert.True(t, cabinet.TenYearKnown)
	assert.True(t, cabinet.Payback.Known)
	assert.InEpsilon(t, float64(600+cabinet.TenYearPower+cabinet.TenYearOutdoor+cabinet.TenYearFilter), float64(cabinet.TenYearCost), 1e-12)
}

// What an option saves a year pays its price back: 250 kWh less of the blower at 0.20 are
// 50 a year and, with the outdoor unit's hours as they were, 200 are back in
// -ln(1 - 0.03 x 200/S)/ln(1.03) years for what it saves in all, S.
func TestPaybackByHand_Identity(t *testing.T) {
	j := pinned()
	j.Site.PowerPrice = 0.2 * units.MoneyPerKilowattHour
	j.Site.CoolingHours, j.Site.HeatingHours = 1000*units.Hour, 1000*units.Hour
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("lean", 1000, 150))
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "only", "only"
	j.Options = []Option{{Name: "lean", Tap: "lean", Price: 200}, {Name: "dear", Tap: "lean", Price: 20000}}
	s := solved(t, j)
	now, then := s.Today(), s.Option("lean")
	saved := float64(now.AnnualCost - then.AnnualCost)
	assert.Greater(t, saved, 50*0.98)
	assert.InDelta(t, 250*0.98354*0.2, float64(now.AnnualPower-then.AnnualPower), 4, "and a little less for the shorter hours")
	require.True(t, then.Payback.Known && then.Payback.Pays)
	assert.InEpsilon(t, -math.Log(1-0.03*200/saved)/math.Log(1.03), then.Payback.Years.In(units.Year), 1e-6)
	assert.Equal(t, []int{then.Efficiency.InstalledMERV, now.Efficiency.InstalledMERV}, []int{then.Payback.MERV, then.Payback.TodayMERV})
	dear := s.Option("dear").Payback
	assert.True(t, dear.Known)
	assert.False(t, dear.Pays)
	assert.Zero(t, dear.Years)
	assert.Zero(t, now.Payback)
	// The hours scale with what the coil gives, less the blower's watts.
	net := func(o *OptionResult) float64 {
		return o.Clean.SensibleCapacity.SI() - o.Clean.BlowerPower.SI() // W
	}
	assert.InEpsilon(t, 1000*net(now)/net(then), then.CoolingHours.In(units.Hour), 1e-5)
	assert.InDelta(t, 1000, now.CoolingHours.In(units.Hour), 1e-9)
	// Known costs order options whose work is not priced.
	assert.InEpsilon(t, float64(then.Upgrade+then.TenYearPower+then.TenYearOutdoor+then.TenYearFilter), float64(money.TenYearsOfKnown(then)), 1e-12)
	assert.InEpsilon(t, float64(then.TenYearCost), float64(money.TenYearsOfKnown(then)), 1e-9)
}
