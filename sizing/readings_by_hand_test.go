package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// pinnedTap moves one airflow at any static, to a hundredth of a cfm.
func pinnedTap(name string, cfm units.Flow, watts units.Power) blower.Tap {
	return blower.Tap{Name: name, Points: []blower.Point{
		{ExternalStatic: 0.01 * units.InchWater, Airflow: (cfm + 0.01) * units.CFM, Power: watts},
		{ExternalStatic: 2 * units.InchWater, Airflow: (cfm - 0.01) * units.CFM, Power: watts}}}
}

// pinned is a house of 3 tons whose blower moves 1000 cfm at any static, so that
// each drop can be worked out by itself:
//
//   - two returns of 10 in round, 0.5454 ft2, with nothing but their coefficients
//     2 and 8, so that air splits as 1/sqrt(2) to 1/sqrt(8), two to one: 666.7 and
//     333.3 cfm, 1222 and 611 fpm. The air is 0.98354 of the standard, so that
//     both drop 2 (1222/4005)^2 0.98354 = 0.183 in. w.c. by the 4005 rule;
//   - a filter of 20x25 in, 3.472 ft2, at 288 fpm, rated 0.25 there, of which warm
//     air makes 0.251;
//   - a coil of 0.12 and a supply of 0.08: 0.634 together, over the rated 0.50;
//   - 60000 Btu/h, and 400 W in the standard air of the table, 393.4 in this.
func pinned() Job {
	j := least()
	j.Equipment.Kind, j.Equipment.RatedExternalStatic = FurnaceWithCoil, 0.5*units.InchWater
	j.Equipment.HeatingOutput, j.Equipment.RiseLow, j.Equipment.RiseHigh = 60000*units.BtuPerHour, 30*units.FahrenheitDegree, 60*units.FahrenheitDegree
	j.Equipment.Blower = blower.Table{Motor: blower.ConstantAirflow, Taps: []blower.Tap{pinnedTap("only", 1000, 400)}}
	j.Coil = Part{Drop: 0.12 * units.InchWater, Airflow: 1000 * units.CFM}
	j.Supply = Part{Drop: 0.08 * units.InchWater, Airflow: 1000 * units.CFM}
	j.Filters = []filter.Filter{{Name: "own", Depth: units.Inch, MERV: 8, Rating: []filter.RatingPoint{{FaceVelocity: 288 * units.FPM, Drop: 0.25 * units.InchWater}}}}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}
	j.Returns = []Return{drop10("hall", 2), drop10("den", 8)}
	return j
}

// drop10 is a return of 10 in round whose only loss is the coefficient.
func drop10(name string, coefficient float64) Return {
	return Return{
		Name: name, Runs: []duct.Run{{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 0.1 * units.Inch}},
		Fittings: []duct.Fitting{{Kind: duct.BootStraight, Coefficient: coefficient / 2}, {Kind: duct.DischargeIntoPlenum, Coefficient: coefficient / 2}},
	}
}

// inGrilles is the pinned house with its filters behind unlike grilles of 20x20 and
// 20x25 in.
func inGrilles() Job {
	j := pinned()
	j.Slot = Slot{None: true}
	for i := range j.Returns {
		j.Returns[i].Filter = "own"
		j.Returns[i].Grille = duct.Grille{Width: 20 * units.Inch, Height: units.Length(20+5*i) * units.Inch}
	}
	return j
}

type part struct {
	name  string
	drop  float64 // in. w.c.
	over  bool
	basis string
}

// holdParts holds drops, their shares of the rated 0.50, and whether each is over its
// fifth, or two fifths of the coil.
func holdParts(t *testing.T, at string, c *Condition, want ...part) {
	t.Helper()
	require.Len(t, c.Parts, len(want), at)
	for i, w := range want {
		p := c.Parts[i]
		assert.Equal(t, w.name, string(p.Name), at)
		assert.InDelta(t, w.drop, p.Drop.In(units.InchWater), 7e-4, "%s, %s", at, p.Name)
		assert.InDelta(t, p.Drop.In(units.InchWater)/0.5, p.Share, 1e-9, "%s, %s", at, p.Name)
		assert.Equal(t, w.over, p.Over, "%s, %s", at, p.Name)
		assert.EqualValues(t, w.basis, p.Basis, "%s, %s", at, p.Name)
		budget := map[string]float64{"return": 0.1, "filter": 0.1, "coil": 0.2, "supply": 0.1}[string(p.Name)]
		assert.InDelta(t, budget, p.Budget.In(units.InchWater), 1e-9, "%s, %s", at, p.Name)
	}
}

func holdPorts(t *testing.T, at string, c *Condition, returns, inlet, outlet, supply float64) {
	t.Helper()
	require.Len(t, c.Ports, 4, at)
	for i, want := range []float64{returns, inlet, outlet, supply} {
		assert.InDelta(t, want, c.Ports[i].Static.In(units.InchWater), 1.2e-3, "%s, %s", at, c.Ports[i].Name)
	}
	assert.InDelta(t, inlet, c.ReturnStatic.In(units.InchWater), 1.2e-3, at)
}

// What the pinned house is made of, part by part and port by port. An entry of
// coefficient 2 takes 2 (288/4005)^2 0.98354 = 0.0102 more behind the filter. In the
// grilles it is 300 cfm an inch of height or so through the filters, which count
// apart from the rest of their branches. Filters behind grilles that are not
// described stand before the plenum.
func TestPartsAndPortsByHand_Identity(t *testing.T) {
	returns, filters, coil, supply := part{"return", 0.1832, true, "geometry"}, part{"filter", 0.2507, true, "typed"}, part{"coil", 0.12, false, "typed"}, part{"supply", 0.08, false, "typed"}
	c := solved(t, pinned()).Today().Clean
	holdParts(t, "plain", &c, returns, filters, coil, supply)
	holdPorts(t, "plain", &c, -0.1832, -0.4339, 0.20, 0.08)
	assert.InDelta(t, 0.634, c.ExternalStatic.In(units.InchWater), 7e-4)
	assert.InDelta(t, 666.7, c.Branches[0].Airflow.In(units.CFM), 0.1)
	assert.InDelta(t, 1222.3, c.Branches[0].DuctVelocity.In(units.FPM), 0.2)
	assert.InDelta(t, 288, c.FaceVelocity.In(units.FPM), 0.01)
	assert.InDelta(t, 1000.0/3, c.AirflowPerCapacity.In(units.CFMPerTon), 0.01)
	assert.InDelta(t, 0.3934, c.FanEfficacy.In(units.WattPerCFM), 1e-4)

	j := pinned()
	j.Slot.EntryCoefficient = 2
	c = solved(t, j).Today().Clean
	holdParts(t, "entry", &c, returns, filters, part{"slot entry", 0.0102, false, "typed"}, coil, supply)
	holdPorts(t, "entry", &c, -0.1832, -0.4441, 0.20, 0.08)

	j = pinned()
	j.Returns, j.Slot.AtGrilles = nil, true
	j.Equipment.RatedExternalStatic = 0.5 * units.InchWater // its fifth at the design 1200 cfm is 0.10 (1000/1200)^2 = 0.0694 here
	c = solved(t, j).Today().Clean
	holdParts(t, "at grilles", &c, part{"return", 0.0694, false, "assumed"}, filters, coil, supply)
	holdPorts(t, "at grilles", &c, -0.3202, -0.3202, 0.20, 0.08)

	c = solved(t, inGrilles()).Today().Clean
	through, drop, rest := 0.0, 0.0, 0.0
	for i, b := range c.Branches {
		square := float64(20*(20+5*i)) / 144 // ft2
		assert.InEpsilon(t, b.Airflow.In(units.CFM)/square, b.FaceVelocity.In(units.FPM), 1e-9, b.Name)
		through += b.Airflow.In(units.CFM) / (500 + 400) * 144
		drop += b.FilterDrop.In(units.InchWater) * b.Airflow.In(units.CFM) / 1000
		rest += (b.Drop - b.FilterDrop).In(units.InchWater) * b.Airflow.In(units.CFM) / 1000
		assert.InEpsilon(t, float64(b.Drop), float64(b.GrilleDrop+b.FilterDrop+b.DuctDrop), 1e-9, b.Name)
	}
	assert.InEpsilon(t, through, c.FaceVelocity.In(units.FPM), 1e-4, "1000 cfm over 900 in2")
	media := 2.3 // times the face, by the depth of 1 in
	assert.InEpsilon(t, through/media, c.MediaVelocity.In(units.FPM), 1e-3)
	holdParts(t, "in grilles", &c, part{"return", rest, true, "geometry"}, part{"filter", drop, true, "typed"}, coil, supply)
	holdPorts(t, "in grilles", &c, -rest-drop, -rest-drop, 0.20, 0.08)
	noFilter := solved(t, inGrilles()).NoFilter().Clean
	require.Len(t, noFilter.Parts, 3)
	assert.InDelta(t, 0.1832, (noFilter.Branches[0].DuctDrop).In(units.InchWater), 0.03)
}

// The same house read: 0.117 in. w.c. of the return's 0.30 has no name, the coil
// takes 0.25 - 0.09 and the supply 0.09, while the filter of today is a clean one.
// The gauge's static, 0.60 + 0.25, is what was found, and each part as it was read.
func TestPartsAsFoundByHand_Identity(t *testing.T) {
	j := pinned()
	j.Readings = []Reading{{Label: "first", Date: "in May", ReturnPlenum: -0.30 * units.InchWater, BlowerInlet: -0.60 * units.InchWater,
		BlowerOutlet: 0.25 * units.InchWater, SupplyPlenum: 0.09 * units.InchWater, Airflow: 1000 * units.CFM}}
	s := solved(t, j)
	c := s.Today().Clean
	holdParts(t, "read", &c, part{"return", 0.1832, true, "gauge"}, part{"unexplained loss", 0.1168, false, "gauge"}, part{"filter", 0.2507, true, "typed"},
		part{"coil", 0.16, false, "gauge"}, part{"supply", 0.09, false, "gauge"})
	holdPorts(t, "read", &c, -0.30, -0.5507, 0.25, 0.09)

	f := s.AsFound
	require.NotNil(t, f)
	found := []part{{"return", 0.1832, false, "gauge"}, {"unexplained loss", 0.1168, false, "gauge"}, {"filter", 0.30, false, "gauge"}, {"coil", 0.16, false, "gauge"}, {"supply", 0.09, false, "gauge"}}
	holdParts(t, "found", &f.Condition, found...)
	holdPorts(t, "found", &f.Condition, -0.30, -0.60, 0.25, 0.09)
	assert.Equal(t, []any{"first", "in May", Cooling, "only", message.ID("measured"), true, false}, []any{f.Label, f.Date, f.Mode, f.Tap, f.AirflowBasis, f.StaticRead, f.FilterIsClean})
	assert.InDelta(t, 0.85, f.Condition.ExternalStatic.In(units.InchWater), 1e-9)
	assert.InDelta(t, 0.30, f.Condition.FilterDrop.In(units.InchWater), 1e-9)
	assert.InDelta(t, 0.1168, f.Unexplained.In(units.InchWater), 7e-4)
	assert.InDelta(t, 0.2507, f.CleanDrop.In(units.InchWater), 7e-4)
	assert.InDelta(t, 0.0493, f.DustDrop.In(units.InchWater), 7e-4)
	assert.InDelta(t, 393.4, f.Condition.BlowerPower.In(units.Watt), 0.1)
	assert.InDelta(t, 288, f.Condition.FaceVelocity.In(units.FPM), 0.01)
	assert.InDelta(t, 1000.0/3, f.Condition.AirflowPerCapacity.In(units.CFMPerTon), 0.01)
	assert.Positive(t, f.Condition.SensibleCapacity)
	assert.Zero(t, f.Condition.TemperatureRise)
	assert.True(t, f.Condition.WithinBlowerTable)

	// What has no name is still the return's: it is expected to read what it read.
	require.Len(t, s.Readings[0].Parts, 4)
	for i, want := range []float64{0.30, 0.30, 0.16, 0.09} {
		assert.InDelta(t, want, s.Readings[0].Parts[i].Predicted.In(units.InchWater), 7e-4, s.Readings[0].Parts[i].Name)
		assert.True(t, s.Readings[0].Parts[i].Agrees)
	}

	// In heating, at 900 cfm and 380 W: the coil's 0.16 are dry, of 0.20 wet, which at
	// 1000 cfm are 0.20 (1000/900)^1.8 = 0.2418; the supply's 0.09 there are 0.1111. The
	// rise is (60000 + 3.412 x 380) / (1.08 x 900) = 63.1 F, within 1 % for moist air.
	r := &j.Readings[0]
	r.Mode, r.Airflow, r.BlowerPower = Heating, 900*units.CFM, 380
	s = solved(t, j)
	c = s.Today().Clean
	holdParts(t, "read in heating", &c, part{"return", 0.1832, true, "gauge"}, part{"unexplained loss", 0.1870, false, "gauge"}, part{"filter", 0.2507, true, "typed"},
		part{"coil", 0.2418, true, "gauge"}, part{"supply", 0.1111, true, "gauge"})
	f = s.AsFound
	found[0].drop, found[1].drop = 0.1484, 0.1516 // 0.1832 x 0.81, and the rest of 0.30
	holdParts(t, "found in heating", &f.Condition, found...)
	assert.Equal(t, Heating, f.Mode)
	assert.InEpsilon(t, 63.1, f.Condition.TemperatureRise.In(units.FahrenheitDegree), 0.01)
	assert.InDelta(t, 900, f.Condition.HeatingAirflow.In(units.CFM), 1e-9)
	assert.InDelta(t, 380, f.Condition.HeatingPower.In(units.Watt), 1e-9)
	assert.InDelta(t, 380.0/900, f.Condition.FanEfficacy.In(units.WattPerCFM), 1e-9)
	assert.InDelta(t, 0.85, f.Condition.HeatingStatic.In(units.InchWater), 1e-9)
	assert.Zero(t, f.Condition.SensibleCapacity)
}

// Ports that were not read go by the laws of their parts: read over the filter
// alone, the return of 0.1832, the coil of 0.12 and the supply of 0.08 stand as
// described, and the static is made up of them. Of return and filter read as one
// no more is reported.
func TestPartsNotReadByHand_Identity(t *testing.T) {
	found := func(r Reading, change func(j *Job)) *AsFound {
		j := pinned()
		r.Airflow = 1000 * units.CFM
		j.Readings = []Reading{r}
		change(&j)
		f := solved(t, j).AsFound
		require.NotNil(t, f)
		return f
	}
	as := func(*Job) {}
	f := found(Reading{FilterDrop: 0.40 * units.InchWater}, as)
	holdParts(t, "filter alone", &f.Condition, part{"return", 0.1832, false, "geometry"}, part{"filter", 0.40, false, "gauge"}, part{"coil", 0.12, false, "typed"}, part{"supply", 0.08, false, "typed"})
	holdPorts(t, "filter alone", &f.Condition, -0.1832, -0.5832, 0.20, 0.08)
	assert.InDelta(t, 0.7832, f.Condition.ExternalStatic.In(units.InchWater), 7e-4)
	assert.False(t, f.StaticRead)

	f = found(Reading{BlowerInlet: -0.70 * units.InchWater, FilterDrop: 0.40 * units.InchWater}, as)
	holdParts(t, "return by its ends", &f.Condition, part{"return", 0.1832, false, "gauge"}, part{"unexplained loss", 0.30 - 0.1832, false, "gauge"}, part{"filter", 0.40, false, "gauge"},
		part{"coil", 0.12, false, "typed"}, part{"supply", 0.08, false, "typed"})
	holdPorts(t, "return by its ends", &f.Condition, -0.30, -0.70, 0.20, 0.08)

	f = found(Reading{BlowerInlet: -0.50 * units.InchWater}, as)
	holdParts(t, "inlet alone", &f.Condition, part{"return and filter", 0.50, false, "gauge"}, part{"coil", 0.12, false, "typed"}, part{"supply", 0.08, false, "typed"})
	holdPorts(t, "inlet alone", &f.Condition, -0.1832, -0.50, 0.20, 0.08)
	assert.Zero(t, f.DustDrop)

	f = found(Reading{SupplyPlenum: 0.10 * units.InchWater, ReturnPlenum: -0.15 * units.InchWater}, as)
	holdParts(t, "no filter", &f.Condition, part{"return", 0.15, false, "gauge"}, part{"filter", 0.2507, false, "typed"}, part{"coil", 0.12, false, "typed"}, part{"supply", 0.10, false, "gauge"})
	holdPorts(t, "no filter", &f.Condition, -0.15, -0.4007, 0.22, 0.10)

	f = found(Reading{FilterDrop: 0.40 * units.InchWater}, func(j *Job) {
		*j = inGrilles()
		j.Readings = []Reading{{FilterDrop: 0.40 * units.InchWater, Airflow: 1000 * units.CFM}}
	})
	assert.InDelta(t, 0.40, f.Condition.FilterDrop.In(units.InchWater), 1e-9)
	assert.Zero(t, f.Condition.FaceVelocity, "the grilles' faces share the air unevenly")
	require.Len(t, f.Condition.Parts, 3, "return, with the filters in it, coil and supply")
	assert.Greater(t, f.DustDrop.In(units.InchWater), 0.2)

	// Two ports about a slot of coefficient 8 read its 8 (288/4005)^2 0.98354 = 0.0407 too.
	entry := func(j *Job) { j.Slot.EntryCoefficient = 8 }
	f = found(Reading{ReturnPlenum: -0.20 * units.InchWater, BlowerInlet: -0.60 * units.InchWater}, entry)
	assert.InDelta(t, 0.40-0.0407-0.2507, f.DustDrop.In(units.InchWater), 1e-3)
	f = found(Reading{ReturnPlenum: -0.20 * units.InchWater, FilterDrop: 0.40 * units.InchWater}, entry)
	assert.InDelta(t, 0.40-0.2507, f.DustDrop.In(units.InchWater), 1e-3, "over the filter itself they do not")
	f = found(Reading{ReturnPlenum: -0.20 * units.InchWater}, entry)
	holdParts(t, "entry not read", &f.Condition, part{"return", 0.1832, false, "gauge"}, part{"unexplained loss", 0.0168, false, "gauge"}, part{"filter", 0.2507 + 0.0407, false, "typed"}, part{"coil", 0.12, false, "typed"}, part{"supply", 0.08, false, "typed"})
}

// Each port read beside what it is expected to read: today as found, so with a
// filter of 0.30, and each part at the airflow of the round. In heating the rise
// and the airflow that it makes, 60000 Btu/h and 380 W over 52 F, 1086 cfm by 1.08
// (1.3 % less in air of this moisture), stand beside what is expected.
func TestRoundRowByRow_Identity(t *testing.T) {
	j := pinned()
	j.Readings = []Reading{
		{ReturnPlenum: -0.1832 * units.InchWater, BlowerInlet: -0.4832 * units.InchWater, BlowerOutlet: 0.20 * units.InchWater, SupplyPlenum: 0.08 * units.InchWater, Airflow: 1000 * units.CFM},
		{Mode: Heating, ReturnPlenum: -0.19 * units.InchWater, BlowerInlet: -0.58 * units.InchWater, BlowerOutlet: 0.25 * units.InchWater, SupplyPlenum: 0.07 * units.InchWater, Airflow: 900 * units.CFM,
			ReturnTemperature: units.Fahrenheit(68), SupplyTemperature: units.Fahrenheit(120), BlowerPower: 380},
	}
	s := solved(t, j)
	require.Len(t, s.Readings, 2)
	r := s.Readings[1]
	assert.Equal(t, "round 2", r.Label)
	type row struct {
		name             message.ID
		measured, expect float64
		agrees           bool
	}
	hold := func(at string, rows []ReadingRow, want []row) {
		require.Len(t, rows, len(want), at)
		for i, w := range want {
			assert.Equal(t, w.name, rows[i].Name, at)
			assert.InDelta(t, w.measured, rows[i].Measured.In(units.InchWater), 1e-9, "%s, %s", at, w.name)
			assert.InDelta(t, w.expect, rows[i].Predicted.In(units.InchWater), 1.2e-3, "%s, %s", at, w.name)
			assert.Equal(t, w.agrees, rows[i].Agrees, "%s, %s", at, w.name)
		}
	}
	// The coil dry drops 0.8 x 0.12 = 0.096; a reading may lie 0.03 or a tenth off.
	hold("ports", r.Rows, []row{
		{PortReturn, -0.19, -0.1832, true}, {PortInlet, -0.58, -0.4832, false}, {PortOutlet, 0.25, 0.176, false}, {PortSupply, 0.07, 0.08, true},
		{"filter drop", 0.39, 0.30, false}, {"external static", 0.83, 0.6592, false}})
	// At 900 cfm: the return 0.1832 x 0.81, the filter 0.30 x 0.881 as its rating has
	// it, the coil 0.096 x 0.9^1.8 and the supply 0.08 x 0.81.
	hold("parts", r.Parts, []row{{"return", 0.19, 0.1484, false}, {"filter", 0.39, 0.264, false}, {"coil", 0.18, 0.0794, false}, {"supply", 0.07, 0.0648, true}})
	assert.Equal(t, "filter", string(r.Suspect), "0.126 off")
	assert.Equal(t, Caution, r.Verdict)
	assert.InDelta(t, 1000, r.PredictedAirflow.In(units.CFM), 0.1)
	assert.InDelta(t, 900, r.Airflow.In(units.CFM), 1e-9)
	require.Len(t, r.OtherQuantities, 3)
	rise, air, power := r.OtherQuantities[0], r.OtherQuantities[1], r.OtherQuantities[2]
	assert.InDelta(t, 52, rise.Measured.(units.TemperatureDifference).In(units.FahrenheitDegree), 1e-6)
	assert.InEpsilon(t, (60000+3.412*393.4)/1080, rise.Predicted.(units.TemperatureDifference).In(units.FahrenheitDegree), 0.01)
	assert.True(t, rise.Agrees)
	assert.InEpsilon(t, (60000+3.412*380)/(1.08*52), air.Measured.(units.Flow).In(units.CFM), 0.015)
	assert.InDelta(t, 1000, air.Predicted.(units.Flow).In(units.CFM), 0.1)
	assert.InDelta(t, 380, power.Measured.(units.Power).In(units.Watt), 1e-9)
	assert.InDelta(t, 393.4, power.Predicted.(units.Power).In(units.Watt), 0.1)
	assert.True(t, air.Agrees && power.Agrees)
}

// A round read after the work stands beside what was predicted for the option, row by
// row, and beside the house before: as the gauge found it in the same season, else as
// worked out in cooling, and in heating beside nothing. The option's filter is rated 0.10.
func TestWorkRowByRow_Identity(t *testing.T) {
	in := units.InchWater
	work := func(change func(j *Job)) AfterWorkComparison {
		j := pinned()
		f := j.Filters[0]
		f.Name, f.Rating = "better", []filter.RatingPoint{{FaceVelocity: 288 * units.FPM, Drop: 0.10 * in}}
		j.Filters = append(j.Filters, f)
		j.Options = []Option{{Name: "other"}, {Name: "new", Filter: "better"}}
		j.Readings = []Reading{{Label: "after", Date: "in June", Option: "new", AfterWork: true, Airflow: 1050 * units.CFM, FilterDrop: 0.2 * in, SupplyPlenum: 0.09 * in}}
		change(&j)
		s := solved(t, j)
		require.Len(t, s.AfterWorkComparisons, 1)
		assert.Equal(t, "after", s.AfterWorkComparisons[0].Label)
		assert.Equal(t, "in June", s.AfterWorkComparisons[0].Date)
		assert.Equal(t, "new", s.AfterWorkComparisons[0].Option)
		assert.Equal(t, len(j.Readings)-1, s.AfterWorkComparisons[0].Reading)
		return s.AfterWorkComparisons[0]
	}
	type row struct {
		name                     message.ID
		before, predicted, after float64 // cfm or in. w.c.; 0: not known, not read
		agrees                   bool
	}
	hold := func(at string, w AfterWorkComparison, want []row) {
		t.Helper()
		require.Len(t, w.Rows, len(want), at)
		for i, r := range want {
			got := w.Rows[i]
			assert.Equal(t, r.name, got.Name, at)
			scale, within := float64(in), 2e-3
			if i == 0 {
				scale, within = float64(units.CFM), 0.1
			}
			number := func(q units.Quantity) float64 {
				if q == nil {
					return 0
				}
				return q.SI() / scale
			}
			assert.InDelta(t, r.before, number(got.Before), within, "%s, %s before", at, r.name)
			assert.InDelta(t, r.predicted, number(got.Predicted), within, "%s, %s predicted", at, r.name)
			assert.InDelta(t, r.after, number(got.After), within, "%s, %s after", at, r.name)
			assert.Equal(t, r.agrees, got.Agrees, "%s, %s", at, r.name)
		}
	}
	w := work(func(*Job) {})
	assert.False(t, w.BeforeMeasured)
	hold("worked out", w, []row{{"airflow", 1000, 1000, 1050, true}, {"external static", 0.634, 0.4835, 0, false}, {"filter drop", 0.2507, 0.1003, 0.2, false},
		{PortReturn, -0.1832, -0.1832, 0, false}, {PortInlet, -0.4339, -0.2835, 0, false}, {PortOutlet, 0.2, 0.2, 0, false}, {PortSupply, 0.08, 0.08, 0.09, true}})
	w = work(func(j *Job) {
		j.Readings = append([]Reading{{ReturnPlenum: -0.1832 * in, BlowerInlet: -0.5832 * in, BlowerOutlet: 0.20 * in, SupplyPlenum: 0.08 * in, Airflow: 950 * units.CFM}}, j.Readings...)
	})
	assert.True(t, w.BeforeMeasured)
	assert.InDelta(t, 950, w.Rows[0].Before.SI()/float64(units.CFM), 1e-6)
	assert.InDelta(t, 0.40, w.Rows[2].Before.SI()/float64(in), 1e-6)
	w = work(func(j *Job) { j.Readings[0].Mode = Heating })
	assert.False(t, w.BeforeMeasured)
	for _, r := range w.Rows {
		assert.Nil(t, r.Before, r.Name)
	}
	assert.InDelta(t, 0.4835-0.024, w.Rows[1].Predicted.SI()/float64(in), 2e-3, "the coil is dry")
	w = work(func(j *Job) { j.Readings[0].Airflow = 1100.5 * units.CFM })
	assert.False(t, w.Rows[0].Agrees, "more than a tenth off")
	w = work(func(j *Job) { j.Readings[0].Airflow = 0 })
	assert.Equal(t, message.ID("airflow"), w.Rows[0].Name)
	assert.InDelta(t, 1000, w.Rows[0].Predicted.SI()/float64(units.CFM), 0.1)
	assert.Nil(t, w.Rows[0].After)
	assert.False(t, w.Rows[0].Agrees)
}

// A drop read over the filter itself holds nothing of the slot's entry, 8 (288/4005)^2
// 0.98354 = 0.0407; two ports about the slot read both.
func TestFilterRowHoldsTheEntryOnlyBetweenPorts_Identity(t *testing.T) {
	for _, row := range []struct {
		name      string
		reading   Reading
		predicted float64
	}{
		{"over the filter", Reading{ReturnPlenum: -0.1832 * units.InchWater, FilterDrop: 0.2507 * units.InchWater}, 0.2507},
		{"between the ports", Reading{ReturnPlenum: -0.1832 * units.InchWater, BlowerInlet: -(0.1832 + 0.2507 + 0.0407) * units.InchWater}, 0.2914},
	} {
		j := pinned()
		j.Slot.EntryCoefficient = 8
		row.reading.Airflow = 1000 * units.CFM
		j.Readings = []Reading{row.reading}
		read := solved(t, j).Readings[0]
		whole, is := study.First(read.Rows, func(r ReadingRow) bool { return r.Name == "filter drop" })
		require.True(t, is, row.name)
		assert.InDelta(t, row.predicted, whole.Predicted.In(units.InchWater), 1.2e-3, "%s, of the ports", row.name)
		assert.True(t, whole.Agrees, row.name)
		j.Readings[0].AfterWork, j.Readings[0].Option = true, TodayName
		after := solved(t, j).AfterWorkComparisons[0].Rows
		drop, is := study.First(after, func(r AfterWorkRow) bool { return r.Name == "filter drop" })
		require.True(t, is, row.name)
		assert.InDelta(t, row.predicted, drop.Predicted.(units.Pressure).In(units.InchWater), 1.2e-3, "%s, after the work", row.name)
		parts := read.Parts
		require.Len(t, parts, 2, row.name)
		assert.EqualValues(t, "filter", parts[1].Name, row.name)
		assert.InDelta(t, row.predicted, parts[1].Predicted.In(units.InchWater), 1.2e-3, row.name)
		assert.True(t, parts[1].Agrees, row.name)
	}
}
