package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

func finding(t *testing.T, fs []Finding, code string) Finding {
	t.Helper()
	for _, f := range fs {
		if f.Code == code {
			return f
		}
	}
	require.Failf(t, "no such finding", "%s among %v", code, codes(fs))
	return Finding{}
}

// What a job leaves open is filled with the usual values (common practice, no
// source): 12 F of wet-bulb depression, 400 cfm a ton, 20, 40 and 20 % of the
// rated 0.50 in. w.c. for return, coil and supply.
func TestUsualValues_Identity(t *testing.T) {
	j := least()
	j.DesignAirflow = 0
	h := solvedHouse(solved(t, j))
	for name, c := range map[string]struct{ got, want float64 }{
		"dry bulb, F":             {units.ToFahrenheit(h.Site.IndoorDryBulb), 75},
		"wet bulb, F":             {units.ToFahrenheit(h.Site.IndoorWetBulb), 63},
		"heating indoor, F":       {units.ToFahrenheit(h.Site.HeatingIndoor), 68},
		"power price":             {float64(h.Site.PowerPrice / units.MoneyPerKilowattHour), 0.17},
		"cooling, h":              {h.Site.CoolingHours.In(units.Hour), 1000},
		"heating, h":              {h.Site.HeatingHours.In(units.Hour), 1000},
		"fan alone, h":            {h.Site.FanHours.In(units.Hour), 0},
		"discount":                {h.Site.DiscountRate, 0.03},
		"dust, g a day":           {h.Site.DustRate.In(units.GramPerDay), 1.2},
		"run share of the year":   {h.RunShare(), 2000.0 / 8760},
		"airflow, cfm":            {h.DesignAirflow.In(units.CFM), 1200},
		"face velocity, fpm":      {h.TargetFaceVelocity.In(units.FPM), 300},
		"return, in. w.c.":        {h.ReturnPart.Drop.In(units.InchWater), 0.10},
		"coil, in. w.c.":          {h.Coil.Drop.In(units.InchWater), 0.20},
		"supply, in. w.c.":        {h.Supply.Drop.In(units.InchWater), 0.10},
		"exponent of the return":  {h.ReturnPart.Exponent, 2},
		"exponent of the coil":    {h.Coil.Exponent, 1.8},
		"exponent of the supply":  {h.Supply.Exponent, 2},
		"dry coil over wet":       {h.Equipment.CoilDryShare, 0.8},
		"openings":                {float64(h.Limits.MaxOpenings), 3},
		"duct velocity, fpm":      {h.Limits.DuctVelocity.In(units.FPM), 700},
		"duct friction":           {h.Limits.DuctFriction.In(units.InchWaterPer100Feet), 0.08},
		"slack of a flex":         {h.Limits.FlexCompression, 0.04},
		"change, months":          {h.Limits.ChangeMonths.In(units.Month), 12},
		"airflow lost at change":  {h.Limits.ChangeAirflowLoss, 0.10},
		"MERV of today's filter":  {float64(h.Limits.MinMERV), 8},
		"slot width, in":          {h.Slot.Width.In(units.Inch), 16},
		"slot height, in":         {h.Slot.Height.In(units.Inch), 25},
		"slot depth, in":          {h.Slot.Depth.In(units.Inch), 1},
		"airflow of the supply's": {h.Supply.Airflow.In(units.CFM), 1200},
	} {
		assert.InDelta(t, c.want, c.got, 1e-3*c.want+1e-12, name)
	}
	j = Job{Schema: Schema, DesignAirflow: 1200 * units.CFM}
	assert.InDelta(t, 3, solvedHouse(solved(t, j)).Equipment.CoolingCapacity.In(units.Ton), 1e-9, "1200 cfm at 400 cfm a ton")
	for cfm, want := range map[units.Flow][2]units.Length{900: {16, 20}, 901: {16, 25}, 1400: {16, 25}, 1401: {20, 25}} {
		w, hh := assume.UsualSlot(cfm * units.CFM)
		assert.InDelta(t, float64(want[0]), w.In(units.Inch), 1e-9, "%g cfm", float64(cfm))
		assert.InDelta(t, float64(want[1]), hh.In(units.Inch), 1e-9, "%g cfm", float64(cfm))
	}
}

// The coil of an air handler is inside: what is typed of it is not counted.
func TestCoilInsideIsNotCounted(t *testing.T) {
	j := least()
	j.Equipment.Kind = AirHandler
	bare := solved(t, j).Today().Clean.Airflow
	j.Coil = Part{Drop: 0.3 * units.InchWater, Airflow: 1200 * units.CFM}
	s := solved(t, j)
	assert.Equal(t, bare, s.Today().Clean.Airflow)
	assert.True(t, s.Assumed("coil"))
	_, has := coilDrop(s.Today().Clean)
	assert.False(t, has)
	j.Equipment.Kind = FurnaceWithCoil
	_, has = coilDrop(solved(t, j).Today().Clean)
	assert.True(t, has)
}

// twoTaps has two straight lines of equal slope, 200 cfm apart.
func twoTaps() Job {
	j := least()
	line := func(cfm units.Flow, watts units.Power) []blower.Point {
		return []blower.Point{{ExternalStatic: 0.05 * units.InchWater, Airflow: (cfm + 50) * units.CFM, Power: watts}, {ExternalStatic: units.InchWater, Airflow: (cfm - 50) * units.CFM, Power: watts}}
	}
	j.Equipment.Blower.Taps = []blower.Tap{{Name: "low", Points: line(1200, 300)}, {Name: "high", Points: line(1400, 500)}}
	j.Equipment.RatedExternalStatic = 0.9 * units.InchWater
	return j
}

// The strongest tap cools, heats and ventilates where none is named.
func TestTapsOfNoName(t *testing.T) {
	b := solvedHouse(solved(t, twoTaps())).Equipment.Blower
	assert.Equal(t, []string{"high", "high", "high"}, []string{b.CoolingTap, b.HeatingTap, b.FanTap})
	j := twoTaps()
	j.Equipment.Blower.CoolingTap = "low"
	b = solvedHouse(solved(t, j)).Equipment.Blower
	assert.Equal(t, []string{"low", "low", "low"}, []string{b.CoolingTap, b.HeatingTap, b.FanTap})
}

// The tap nearest to the design airflow among those that reach it: both reach
// 1100 cfm, the low one is nearer; only the high one reaches 1300; none 1500.
func TestTapForCooling_Identity(t *testing.T) {
	said := func(cfm units.Flow) (texts []string) {
		j := twoTaps()
		j.DesignAirflow = cfm * units.CFM
		j.Supply, j.Coil = Part{Drop: 0.1 * units.InchWater, Airflow: 1200 * units.CFM}, Part{Drop: 0.1 * units.InchWater, Airflow: 1200 * units.CFM}
		j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 30 * units.Inch, Height: 30 * units.Inch}}}
		j.Slot.None = true
		for _, f := range solved(t, j).Findings {
			if f.Code == "tap_cooling" {
				texts = append(texts, f.In(units.IP))
			}
		}
		return texts
	}
	require.Len(t, said(1100), 1)
	assert.Contains(t, said(1100)[0], "Run cooling on tap low")
	assert.Empty(t, said(1300), "the high tap cools already")
	require.Len(t, said(1500), 1)
	assert.Contains(t, said(1500)[0], "No tap reaches 1500 cfm")
}

// A rise between clean and dirty over the nameplate is reported with the dirty
// filter and by how much; one over it when clean, of the clean one.
func TestRiseIsHeldToTheNameplate(t *testing.T) {
	j := warm()
	j.Equipment.RiseHigh = 150 * units.FahrenheitDegree
	o := solved(t, j).Today()
	clean, dirty := o.Clean.TemperatureRise, o.Loaded.TemperatureRise
	require.Greater(t, dirty, clean*1.02)
	assert.NotContains(t, codes(o.Findings), "rise_high")

	high := func(limit units.TemperatureDifference) Finding {
		j.Equipment.RiseHigh = limit
		return finding(t, solved(t, j).Today().Findings, "rise_high")
	}
	between := (clean + dirty) / 2
	f := high(between)
	assert.Equal(t, Stop, f.Severity)
	assert.Contains(t, f.In(units.IP), "by "+dirty.Show(units.IP)+" with a dirty filter, "+(dirty-between).Show(units.IP)+" over")
	under := clean - 3*units.FahrenheitDegree
	f = high(under)
	assert.NotContains(t, f.In(units.IP), "dirty")
	assert.Contains(t, f.In(units.IP), "by "+clean.Show(units.IP)+", 3.0 °F over")

	j.Equipment.RiseLow, j.Equipment.RiseHigh = clean+2*units.FahrenheitDegree, 150*units.FahrenheitDegree
	f = finding(t, solved(t, j).Today().Findings, "rise_low")
	assert.Contains(t, f.In(units.IP), "2.0 °F under")
	j.Equipment.Kind = AirHandler
	assert.Contains(t, codes(solved(t, j).Today().Findings), "supply_cool")
}

// 2 in2 of return for each 1000 Btu/h, 6 for a heat pump (IFGC 618, from memory):
// a branch of 14 and 12 in round has the 113.1 in2 of the 12 in one, so 56000
// Btu/h are kept and 57000 not; a branch of a grille alone has its free area.
func TestReturnAreaByOutput_Identity(t *testing.T) {
	said := func(kind EquipmentKind, output float64, returns ...Return) Severity {
		j := least()
		j.Equipment.Kind, j.Equipment.HeatingOutput = kind, units.HeatRate(output)*units.BtuPerHour
		j.Returns, j.Limits.Checks = returns, []CheckSet{IFGC}
		return finding(t, solved(t, j).Findings, "ifgc_return_area").Severity
	}
	round := func(d units.Length) duct.Run {
		return duct.Run{Shape: duct.Round, Diameter: d * units.Inch, Length: 5 * units.Foot}
	}
	ducted := Return{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 30 * units.Inch}, Runs: []duct.Run{round(14), round(12)}}
	assert.Equal(t, Good, said(FurnaceWithCoil, 56000, ducted))
	assert.Equal(t, Caution, said(FurnaceWithCoil, 57000, ducted))
	assert.Equal(t, Good, said(AirHandler, 18800, ducted))
	assert.Equal(t, Caution, said(AirHandler, 19000, ducted))
	second := ducted
	second.Name = "den"
	assert.Equal(t, Good, said(FurnaceWithCoil, 113000, ducted, second))
	assert.Equal(t, Caution, said(FurnaceWithCoil, 114000, ducted, second))
	open := Return{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, FreeArea: 0.6}} // 240 in2 free
	assert.Equal(t, Good, said(FurnaceWithCoil, 119000, open))
	assert.Equal(t, Caution, said(FurnaceWithCoil, 121000, open))
}

// Every range of an option lies about the number of the study.
func TestEveryRangeIsFilled(t *testing.T) {
	j := withCabinet()
	j.Options[0].Price = 600
	s := solved(t, j)
	today, o := s.Today(), s.Option("cabinet")
	r := ranged(t, j, 60, UsualDeviations())[2]
	about := func(name string, low, high, is float64) {
		assert.Less(t, low, high, name)
		assert.LessOrEqual(t, low, is, name)
		assert.GreaterOrEqual(t, high, is, name)
	}
	about("airflow", float64(r.Airflow.Low), float64(r.Airflow.High), float64(o.Clean.Airflow))
	about("loaded airflow", float64(r.LoadedAirflow.Low), float64(r.LoadedAirflow.High), float64(o.Loaded.Airflow))
	about("static", float64(r.ExternalStatic.Low), float64(r.ExternalStatic.High), float64(o.Clean.ExternalStatic))
	about("filter", float64(r.FilterDrop.Low), float64(r.FilterDrop.High), float64(o.Clean.FilterDrop))
	about("watts", float64(r.BlowerPower.Low), float64(r.BlowerPower.High), float64(o.Clean.BlowerPower))
	about("rise", float64(r.TemperatureRise.Low), float64(r.TemperatureRise.High), float64(o.Clean.TemperatureRise))
	about("cost", float64(r.AnnualCost.Low), float64(r.AnnualCost.High), float64(o.AnnualCost))
	about("ten years", float64(r.TenYearCost.Low), float64(r.TenYearCost.High), float64(o.TenYearCost))
	about("gain", float64(r.AirflowGain.Low), float64(r.AirflowGain.High), float64(o.Clean.Airflow-today.Clean.Airflow))
	about("watts saved", float64(r.PowerSaved.Low), float64(r.PowerSaved.High), float64(today.Clean.BlowerPower-o.Clean.BlowerPower))
	about("money saved", float64(r.AnnualSaved.Low), float64(r.AnnualSaved.High), float64(today.AnnualCost-o.AnnualCost))
	// The deep filter is full after one time in all samples, but for rounding.
	assert.LessOrEqual(t, float64(r.Life.Low), float64(o.Life)*(1+1e-12))
	assert.GreaterOrEqual(t, float64(r.Life.High), float64(o.Life)*(1-1e-12))
}

// The first round sets the parts; in the second the coil is 0.05 in. w.c. over
// what it was and the supply 0.10, in the third 0.15 and 0.05: the part that is
// off the most is looked at first. The rows are what the gauge read.
func TestSuspectIsTheFurthestOff_Identity(t *testing.T) {
	round := func(outlet, supply float64) Reading {
		return Reading{ReturnPlenum: -0.15 * units.InchWater, BlowerInlet: -0.40 * units.InchWater, BlowerOutlet: units.Pressure(outlet) * units.InchWater,
			SupplyPlenum: units.Pressure(supply) * units.InchWater, Airflow: 1000 * units.CFM, FilterIsClean: true}
	}
	j := least()
	j.Readings = []Reading{round(0.30, 0.12), round(0.45, 0.22), round(0.50, 0.17)}
	s := solved(t, j)
	assert.Empty(t, s.Readings[0].Suspect)
	assert.Equal(t, PartSupply, s.Readings[1].Suspect)
	assert.Equal(t, PartCoil, s.Readings[2].Suspect)
	for i, want := range []float64{-0.15, -0.40, 0.45, 0.22, 0.25, 0.85} {
		require.Len(t, s.Readings[1].Rows, 6)
		row := s.Readings[1].Rows[i]
		assert.InDelta(t, want, row.Measured.In(units.InchWater), 1e-9, row.Name)
	}
	for i, want := range []float64{-0.15, -0.40, 0.30, 0.12, 0.25, 0.70} {
		row := s.Readings[1].Rows[i]
		assert.InDelta(t, want, row.Predicted.In(units.InchWater), 0.03, row.Name)
	}
	parts := map[message.ID]float64{"return": 0.15, "filter": 0.25, "coil": 0.23, "supply": 0.22}
	for _, row := range s.Readings[1].Parts {
		assert.InDelta(t, parts[row.Name], row.Measured.In(units.InchWater), 1e-9, row.Name)
		delete(parts, row.Name)
	}
	assert.NotContains(t, parts, "coil")
	assert.NotContains(t, parts, "supply")
}

// A grille of 20 by 25 in an opening of 18 by 30 is 2 in too large; one of 25 by
// 14 lies in 30 by 20 but between studs 14 1/2 in apart it stands 25 high, 5 in
// too high; one of 20 by 16 is 1 1/2 in too wide for the studs. A cabinet 4 in
// deep takes 7 in with its casing, 1 in more than 6.
func TestTooLargeByHowMuch_Identity(t *testing.T) {
	said := func(code string, change func(*Job)) string {
		j := least()
		j.Options = []Option{{Name: "x"}}
		change(&j)
		return finding(t, solved(t, j).Option("x").Findings, code).In(units.IP)
	}
	grille := func(w, h, openW, openH, bay units.Length) func(*Job) {
		return func(j *Job) {
			j.Options[0].Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: w * units.Inch, Height: h * units.Inch}}}
			j.Limits.WallWidth, j.Limits.WallHeight, j.Limits.StudBay = openW*units.Inch, openH*units.Inch, bay*units.Inch
		}
	}
	assert.Contains(t, said("wall", grille(20, 25, 18, 30, 0)), ": 2 in. too large")
	assert.Contains(t, said("stud_bay", grille(25, 14, 30, 20, 14.5)), ": 5 in. too high")
	assert.Contains(t, said("stud_bay", grille(20, 16, 30, 30, 14.5)), ": 1 1/2 in. too wide")
	assert.Contains(t, said("depth", func(j *Job) {
		j.Limits.CabinetDepth = 6 * units.Inch
		j.Options[0].Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}
	}), ": 1 in. too deep")
}

// The curve of the system runs in 24 equal steps to half over the larger of
// airflow and design airflow.
func TestSystemCurveSteps_Identity(t *testing.T) {
	o := solved(t, least()).Today()
	top := 1.5 * max(o.Clean.Airflow.In(units.CFM), 1200)
	require.Len(t, o.SystemClean, 25)
	for i, p := range o.SystemClean {
		assert.InDelta(t, top*float64(i)/24, p.Airflow.In(units.CFM), 1e-6)
	}
	assert.Zero(t, o.SystemClean[0].Static)
}

// A filter is changed at the lesser of its own final drop and the job's.
func TestChangeDropIsTheLesser_Identity(t *testing.T) {
	at := func(own, set units.Pressure) float64 {
		j := least()
		j.Filters = []filter.Filter{{Name: "f", MERV: 8, Depth: units.Inch, FinalDrop: own * units.InchWater,
			Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.1 * units.InchWater}}}}
		j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "f"}
		j.Limits.ChangeDrop = set * units.InchWater
		return solved(t, j).Today().Places[0].ChangeDrop.In(units.InchWater)
	}
	assert.InDelta(t, 0.40, at(0.40, 0.60), 1e-9)
	assert.InDelta(t, 0.40, at(0.60, 0.40), 1e-9)
	assert.InDelta(t, 0.40, at(0.40, 0), 1e-9)
	assert.InDelta(t, 0.40, at(0, 0.40), 1e-9)
}
