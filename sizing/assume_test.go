package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/published"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

func assumption(t *testing.T, s *Study, path string) Assumption {
	t.Helper()
	a, is := study.First(s.Assumptions, func(a Assumption) bool { return a.Path == path })
	require.True(t, is, "%s is not listed", path)
	assert.NotEmpty(t, a.Source, path)
	return a
}

// 1800 m is 5906 ft, so 60000 Btu/h typed for sea level are
// 60000 (1 - 0.04 x 5.906) = 45827 there.
func TestAltitudeDerate_Published(t *testing.T) {
	j := warm()
	j.Site.Altitude = 1800 * units.Metre
	j.HeatingAirflow = 1000 * units.CFM
	s := solved(t, j)
	c := s.Today().Clean
	watts := 3.412 * c.HeatingPower.In(units.Watt)
	assert.Contains(t, assumption(t, s, "equipment.altitude_derate").Text.String(), "45827 Btu/h")
	assert.Contains(t, assumption(t, s, "equipment.heating_output_at").Source, "fuel gas code")

	at := func(change func(*Equipment)) float64 {
		j := j.Clone()
		change(&j.Equipment)
		return solved(t, j).Today().Clean.TemperatureRise.In(units.FahrenheitDegree)
	}
	whole := at(func(e *Equipment) { e.HeatingOutputAt = OutputAtSite })
	published.Check(t, published.Row{Name: "4 % for each 1000 ft", Source: "fuel gas code, from secondary texts; the products by hand",
		Got: c.TemperatureRise.In(units.FahrenheitDegree) / whole, Want: (45827 + watts) / (60000 + watts), Tolerance: 1e-4, Relative: true, Why: "five printed digits"})
	half := at(func(e *Equipment) { e.AltitudeDerate = 0.02 }) // 60000 (1 - 0.02 x 5.906) = 52913
	assert.InEpsilon(t, (52913+watts)/(60000+watts), half/whole, 1e-4, "a share that was typed, by hand to five digits")

	j.Equipment.Kind = AirHandler
	assert.False(t, solved(t, j).Assumed("equipment.altitude_derate"), "no flame")
	j.Equipment.Kind, j.Site.Altitude = FurnaceWithCoil, 1999*units.Foot
	assert.False(t, solved(t, j).Assumed("equipment.altitude_derate"), "under 2000 ft")
}

// What is assumed about each return of an option is listed under the option and that
// return's own name.
func TestAssumptionsNameTheOptionsReturn(t *testing.T) {
	j := pinned()
	j.Options = []Option{{Name: "one return", Returns: j.Returns[:1]}, {Name: "flexes", Returns: []Return{
		{Name: "hall", Runs: []duct.Run{{Shape: duct.Flex, Diameter: 12 * units.Inch, Length: 10 * units.Foot}}},
		{Name: "den", Runs: []duct.Run{{Shape: duct.Flex, Diameter: 10 * units.Inch, Length: 10 * units.Foot}}},
	}}}
	s := solved(t, j)
	for path, name := range map[string]string{"options[1].returns[0].runs[0].compression": "flexes, hall: ", "options[1].returns[1].runs[0].compression": "flexes, den: "} {
		assert.Contains(t, assumption(t, s, path).Text.String(), name)
	}
}

// 60000 Btu/h and 40 to 70 F: 55 F is the middle, and 60000 / (1.08 x 55) = 1010 cfm.
func TestHeatingAirflow_Plausible(t *testing.T) {
	j := warm()
	j.Equipment.RiseLow = 40 * units.FahrenheitDegree
	j.Site.HeatingIndoor = units.Fahrenheit(70)
	s := solved(t, j)
	published.Check(t, published.Row{Name: "60,000 Btu/h, 40 to 70 °F", Source: "cfm = Btu/h / (1.08 dT), the sensible heat rule of thumb for standard air (common practice, no source)",
		Got: s.HeatingAirflow.In(units.CFM), Want: 60000 / (1.08 * 55), Tolerance: 0.015, Relative: true, Why: "1.08 is for standard air with cp 0.24; moist 70 °F air lies 1 % off"})
	assert.Contains(t, assumption(t, s, "heating_airflow").Text.String(), "55.0 °F, the middle of the range")
}

// 500 W are 1706 Btu/h; in 1000 cfm they warm by 1706 / (1.08 x 1000) = 1.58 F.
func TestBlowerHeat_Plausible(t *testing.T) {
	j := warm()
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "only", Points: []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1001 * units.CFM, Power: 500}, {ExternalStatic: 2 * units.InchWater, Airflow: 999 * units.CFM, Power: 500}}}}}
	c := solved(t, j).Today().Clean
	published.Check(t, published.Row{Name: "500 W in 1000 cfm", Source: "q = 1.08 cfm dT, 3.412 Btu/h a watt: ASHRAE Handbook Fundamentals, from memory",
		Got: float64(c.SupplyAir-c.CoilAirLeaving) * 1.8, Want: 500 * 3.412 / (1.08 * 1000), Tolerance: 0.02, Relative: true, Why: "1.08 is for standard air; the house's is warmer and moist"})
	// (60000 + 1706) / (1.08 x 1000) = 57.1 F
	assert.InDelta(t, 57.1, c.TemperatureRise.In(units.FahrenheitDegree), 0.7)
	for _, tap := range solved(t, j).Taps {
		assert.InDelta(t, 57.1, tap.TemperatureRise.In(units.FahrenheitDegree), 0.7)
	}
}

// A duct has a beginning and an end: a box (0.5) and a discharge (1.0) take 1.5
// velocity pressures more than the run alone.
func TestDuctEnds_Plausible(t *testing.T) {
	j := least()
	j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 25 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Round, Diameter: 14 * units.Inch, Length: 20 * units.Foot}}}}
	j.Options = []Option{{Name: "second", Returns: append(job.CloneReturns(j.Returns), job.CloneReturns(j.Returns)...)}}
	s := solved(t, j)
	for _, o := range []string{TodayName, "second"} {
		b := s.Option(o).Clean.Branches[0]
		run := solvedHouse(s).Returns[0].Runs[0]
		// 14 in round is 1.069 ft2.
		v := b.Airflow.In(units.CFM) / 1.069
		ends := 1.5 * (v / 4005) * (v / 4005)
		published.Check(t, published.Row{Name: o, Source: "sharp flush entry 0.5 (Idelchik, from memory) and a whole velocity pressure at a discharge (Borda-Carnot), (V/4005)^2 in. w.c.",
			Got: (b.DuctDrop - run.Drop(b.Airflow, solvedHouse(s).Air)).In(units.InchWater), Want: ends, Tolerance: 0.02, Relative: true, Why: "room air is a little lighter than standard"})
	}
	text := assumption(t, s, "returns[0].ends").Text.String()
	assert.Contains(t, text, "box behind a grille")
	assert.Contains(t, text, "emptying into a plenum")
	assumption(t, s, "options[0].returns[1].ends")

	j.Returns[0].Ends = NoEnds
	b := solved(t, j).Today().Clean.Branches[0]
	assert.InEpsilon(t, float64(solvedHouse(s).Returns[0].Runs[0].Drop(b.Airflow, solvedHouse(s).Air)), float64(b.DuctDrop), 1e-12)
	j.Returns[0].Ends = ""
	j.Returns[0].Fittings = []duct.Fitting{{Kind: duct.BootSide}, {Kind: duct.CabinetTurn}}
	assert.False(t, solved(t, j).Assumed("returns[0].ends"), "those described are the ends")
}

// At 14 in (355.6 mm) a flex 4 % short takes 1 + 0.58 x 4 exp(-0.00496 x 355.6) =
// 1.398 of the stretched one, and one 0.1 % short 1.010.
func TestExistingFlexIsSlackLikeANewOne(t *testing.T) {
	j := least()
	j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 25 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Flex, Diameter: 14 * units.Inch, Length: 20 * units.Foot}}}}
	friction := func(s *Study) float64 {
		q := s.Today().Clean.Branches[0].Airflow.SI()
		return float64(s.Ducts[0].PresentFriction) / (q * q)
	}
	s := solved(t, j)
	assert.Contains(t, assumption(t, s, "returns[0].runs[0].compression").Text.String(), "4 % shorter")
	j.Returns[0].Runs[0].Compression = 0.001
	straight := solved(t, j)
	assert.False(t, straight.Assumed("returns[0].runs[0].compression"))
	assert.InEpsilon(t, 1.398/1.010, friction(s)/friction(straight), 0.01, "friction goes nearly with the square of the airflow")
}

// What flatters a house is listed.
func TestFlatteringDefaultsAreListed(t *testing.T) {
	j := least()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch}
	j.Options = []Option{{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}
	s := solved(t, j)
	assert.Contains(t, assumption(t, s, "slot.gap").Text.String(), "sealed")
	assert.Contains(t, assumption(t, s, "options[0].slot.gap").Text.String(), "cabinet")
	assert.Contains(t, assumption(t, s, "readings").Text.String(), "clean")
	for _, path := range []string{"slot.edge_cover", "slot.entry_coefficient", "site.altitude"} {
		assumption(t, s, path)
	}
	j.Slot.Gap, j.Slot.EdgeCover, j.Slot.EntryCoefficient, j.Site.Altitude = units.Millimetre, units.Inch, 0.5, 100*units.Foot
	j.Readings = []Reading{{FilterDrop: 0.2 * units.InchWater, Airflow: 1000 * units.CFM}}
	s = solved(t, j)
	for _, path := range []string{"slot.gap", "slot.edge_cover", "slot.entry_coefficient", "site.altitude", "readings"} {
		assert.False(t, s.Assumed(path), path)
	}
}
