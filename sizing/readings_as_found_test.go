package sizing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/airpath"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/readings"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// read is a house of a slot and a round that reads every port.
func read() Job {
	j := least()
	rating := func(drop float64) []filter.RatingPoint {
		return []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: units.Pressure(drop) * units.InchWater},
			{FaceVelocity: 600 * units.FPM, Drop: units.Pressure(2*drop) * units.InchWater}}
	}
	j.Filters = []filter.Filter{{Name: "open", Depth: units.Inch, MERV: 8, Rating: rating(0.10)}, {Name: "dense", Depth: units.Inch, MERV: 13, Rating: rating(0.25)}}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch, Filter: "open"}
	j.Readings = []Reading{{Label: "before", ReturnPlenum: -0.15 * units.InchWater, BlowerInlet: -0.40 * units.InchWater,
		BlowerOutlet: 0.30 * units.InchWater, SupplyPlenum: 0.12 * units.InchWater, Airflow: 1000 * units.CFM}}
	return j
}

func partOf(t *testing.T, c *Condition, name PartName) PartDrop {
	t.Helper()
	p, is := study.First(c.Parts, func(p PartDrop) bool { return p.Name == name })
	require.True(t, is, name)
	return p
}

// 1000 cfm through 20 by 20 in is 360 fpm. The filter is rated 0.10 in. w.c. at
// 300 fpm and twice that at 600, so clean it takes 0.12 there; 0.40 - 0.15 = 0.25
// was read, so 0.13 is dust.
func TestAsFoundSeparatesDustFromFilter(t *testing.T) {
	s := solved(t, read())
	f := s.AsFound
	require.NotNil(t, f)
	assert.InDelta(t, 1000, f.Condition.Airflow.In(units.CFM), 1e-9)
	assert.InDelta(t, 0.70, f.Condition.ExternalStatic.In(units.InchWater), 1e-9)
	assert.True(t, f.StaticRead)
	assert.InDelta(t, 0.25, f.Condition.FilterDrop.In(units.InchWater), 1e-9)
	assert.InDelta(t, 0.12, f.CleanDrop.In(units.InchWater), 0.003, "the rating is for standard air")
	assert.InDelta(t, 0.13, f.DustDrop.In(units.InchWater), 0.003)
	sum := units.Pressure(0)
	for _, p := range f.Condition.Parts {
		sum += p.Drop
	}
	assert.InEpsilon(t, float64(f.Condition.ExternalStatic), float64(sum), 1e-9)

	today := s.Today().Clean
	assert.Equal(t, "rating", s.Today().LawSource)
	assert.InEpsilon(t, 0.10/300*today.FaceVelocity.In(units.FPM), today.FilterDrop.In(units.InchWater), 0.03, "today is clean, by its own law")
	assert.Greater(t, today.Airflow, f.Condition.Airflow)
	found, is := study.First(s.Findings, func(f Finding) bool { return f.Code == "filter_found" })
	require.True(t, is)
	assert.Contains(t, found.In(units.IP), "0.121 in. w.c. is the clean filter and 0.129 in. w.c. is dust")
}

// Return plenum 0.15 and filter drop 0.15 are 0.10 short of the 0.40 in. w.c. at the blower
// inlet. That is said where all three are read, and the filter is in a slot.
func TestFilterSumNeedsThreeReadings(t *testing.T) {
	said := func(change func(j *Job, r *Reading)) bool {
		j := read()
		r := &j.Readings[0]
		r.ReturnPlenum, r.FilterDrop, r.BlowerInlet = 0.15*units.InchWater, 0.15*units.InchWater, 0.40*units.InchWater
		change(&j, r)
		return coded(solved(t, j).Findings, "filter_sum") != nil
	}
	assert.True(t, said(func(*Job, *Reading) {}))
	assert.False(t, said(func(_ *Job, r *Reading) { r.ReturnPlenum = 0 }))
	assert.False(t, said(func(_ *Job, r *Reading) { r.FilterDrop = 0 }))
	assert.False(t, said(func(_ *Job, r *Reading) { r.BlowerInlet = 0 }))
	assert.False(t, said(func(_ *Job, r *Reading) { r.ReturnPlenum, r.FilterDrop = 0, 0 }))
	assert.False(t, said(func(j *Job, _ *Reading) { j.Slot = Slot{None: true} }))
}

// Whatever filter is named afterwards, what the gauge met stays as it was read;
// the airflow by the blower's table too.
func TestAsFoundStaysAsMeasured_Identity(t *testing.T) {
	for name, measured := range map[string]units.Flow{"airflow measured": 1000 * units.CFM, "by the table": 0} {
		j := read()
		j.Readings[0].Airflow = measured
		was := solved(t, j).AsFound.Condition
		for _, named := range []string{"dense", ""} {
			j.Slot.Filter = named
			j.Options = []Option{{Name: "other", Filter: "dense"}}
			is := solved(t, j).AsFound.Condition
			assert.InEpsilon(t, float64(was.Airflow), float64(is.Airflow), 1e-9, name)
			assert.InEpsilon(t, float64(was.ExternalStatic), float64(is.ExternalStatic), 1e-9, name)
			assert.InEpsilon(t, float64(was.FilterDrop), float64(is.FilterDrop), 1e-9, name)
		}
	}
}

// A grille that takes 0.20 in. w.c. at 1000 cfm is all that is described, and the
// gauge reads 0.32 there: 0.12 is not explained. It stays with every option and
// goes with the square of the airflow.
func TestUnexplainedLossIsItsOwnPart(t *testing.T) {
	grille := func(drop float64) Return {
		return Return{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch,
			Rating: []duct.GrilleRating{{Airflow: 1000 * units.CFM, Drop: units.Pressure(drop) * units.InchWater}}}}
	}
	j := read()
	j.Returns = []Return{grille(0.20)}
	j.Readings[0].ReturnPlenum, j.Readings[0].BlowerInlet = -0.32*units.InchWater, -0.50*units.InchWater
	j.Options = []Option{{Name: "larger grille", Returns: []Return{grille(0.05)}}}
	s := solved(t, j)
	assert.InDelta(t, 0.12, s.AsFound.Unexplained.In(units.InchWater), 0.004, "room air is a little lighter than the standard air of the rating")
	for _, o := range []string{TodayName, "larger grille", NoFilterName} {
		c := s.Option(o).Clean
		scale := c.Airflow.In(units.CFM) / 1000
		assert.InDelta(t, 0.12*scale*scale, partOf(t, &c, airpath.PartUnexplained).Drop.In(units.InchWater), 0.004, o)
		want := 0.20
		if o == "larger grille" {
			want = 0.05
		}
		assert.InDelta(t, want*scale*scale, partOf(t, &c, "return").Drop.In(units.InchWater), 0.004, "%s: the described grille as described", o)
		assert.InDelta(t, -(partOf(t, &c, "return").Drop + partOf(t, &c, airpath.PartUnexplained).Drop).In(units.InchWater), readings.Port(&c, PortReturn).In(units.InchWater), 1e-9, "the port before the filter holds both")
	}
	f, is := study.First(s.Findings, func(f Finding) bool { return f.Code == "unexplained_loss" })
	require.True(t, is)
	assert.True(t, strings.HasPrefix(f.In(units.IP), "0.123 in. w.c. of return drop is not explained by what you described"), f.In(units.IP))
	assert.Contains(t, f.In(units.IP), "Look for a crushed flex")
	assert.Contains(t, f.In(units.IP), "in every option")
}

// A described duct is judged as described, whatever the gauge finds beside it.
func TestUnexplainedLossIsOnNoDuct(t *testing.T) {
	j := gauged(t, 2)
	s := solved(t, j)
	for i, b := range s.Today().Clean.Branches {
		described := units.Pressure(0)
		for _, p := range s.ReturnComponents {
			if p.Branch == b.Name && strings.Contains(p.Name.String(), "duct") {
				run := solvedHouse(s).Returns[i].Runs[0]
				assert.InEpsilon(t, float64(run.Drop(b.Airflow, solvedHouse(s).Air)), float64(p.Drop), 1e-9)
				described += p.Drop
			}
		}
		assert.NotZero(t, described)
	}
}

// A round after the work asks which option was installed.
func TestRoundAfterTheWorkAsksForTheOption(t *testing.T) {
	j := read()
	j.Options = []Option{{Name: "open slot", Filter: "open", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch}}}
	after := j.Readings[0]
	after.Label, after.AfterWork, after.FilterIsClean, after.Airflow = "after", true, true, 1150*units.CFM
	after.ReturnPlenum, after.BlowerInlet = -0.20*units.InchWater, -0.30*units.InchWater
	j.Readings = append(j.Readings, after)
	faults := j.Check()
	require.Len(t, faults, 1)
	assert.Equal(t, "readings[1].option", faults[0].Path)
	assert.Contains(t, faults[0].Wanted.String(), "the option that was installed")
	assert.Contains(t, faults[0].Wanted.String(), `"open slot"`)
	_, err := Solve(j)
	require.Error(t, err)

	j.Readings[1].Option = "open slot"
	s := solved(t, j)
	require.Len(t, s.AfterWorkComparisons, 1)
	w := s.AfterWorkComparisons[0]
	assert.Equal(t, "open slot", w.Option)
	assert.True(t, w.BeforeMeasured)
	row := func(name message.ID) AfterWorkRow {
		r, is := study.First(w.Rows, func(r AfterWorkRow) bool { return r.Name == name })
		require.True(t, is, name)
		return r
	}
	option := s.Option("open slot").Clean
	assert.InDelta(t, (1000 * units.CFM).SI(), row("airflow").Before.SI(), 1e-12)
	assert.InEpsilon(t, float64(option.Airflow), row("airflow").Predicted.SI(), 1e-9)
	assert.InDelta(t, (1150 * units.CFM).SI(), row("airflow").After.SI(), 1e-12)
	assert.InDelta(t, 0.70*units.InchWater.SI(), row("external static").Before.SI(), 1e-9)
	assert.InDelta(t, 0.60*units.InchWater.SI(), row("external static").After.SI(), 1e-9)
	assert.InDelta(t, -0.40*units.InchWater.SI(), row(PortInlet).Before.SI(), 1e-9)
	assert.InEpsilon(t, float64(readings.Port(&option, PortInlet)), row(PortInlet).Predicted.SI(), 1e-9)
	assert.InDelta(t, -0.30*units.InchWater.SI(), row(PortInlet).After.SI(), 1e-9)
	assert.Equal(t, "before", s.AsFound.Label, "the round after the work sets nothing")

	j.Readings = j.Readings[1:]
	j.Readings[0].Option = TodayName
	assert.Nil(t, solved(t, j).AsFound, "nor does one that found nothing changed")
}

// An air handler's coil is inside: typed, it is said to be and changes nothing.
func TestAirHandlersCoilIsInside_Identity(t *testing.T) {
	j := least()
	j.Equipment.Kind = AirHandler
	plain := solved(t, j)
	j.Coil = Part{Drop: 0.3 * units.InchWater, Airflow: 1200 * units.CFM}
	s := solved(t, j)
	assert.Equal(t, plain.Today().Clean, s.Today().Clean)
	c := &s.Today().Clean
	assert.Equal(t, readings.Port(c, PortSupply), readings.Port(c, PortOutlet), "no port holds the coil")
	a, is := study.First(s.Assumptions, func(a Assumption) bool { return a.Path == "coil" })
	require.True(t, is)
	assert.Contains(t, a.Text.String(), "inside the air handler")

	// Read on both sides of its coil, the drop of the coil is not counted either.
	j.Readings = []Reading{{BlowerInlet: -0.3 * units.InchWater, BlowerOutlet: 0.5 * units.InchWater, SupplyPlenum: 0.2 * units.InchWater, Airflow: 1100 * units.CFM}}
	s = solved(t, j)
	assert.InDelta(t, 0.5, s.AsFound.Condition.ExternalStatic.In(units.InchWater), 1e-9, "0.3 and 0.2")
	assert.Contains(t, codes(s.Findings), "inside_handler")
}

// Two equal grilles share 1000 cfm: 500 through 20 by 20 in is 180 fpm, where the
// filter rated 0.10 in. w.c. at 300 fpm takes 0.06 clean. 0.15 was read over it, so
// 0.09 is dust; the plenum holds the filters, so nothing is counted twice.
func TestGrilleFiltersAsFound(t *testing.T) {
	j := read()
	j.Slot = Slot{}
	for _, name := range []string{"hall", "den"} {
		j.Returns = append(j.Returns, Return{Name: name, Filter: "open", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}})
	}
	j.Readings[0].ReturnPlenum, j.Readings[0].BlowerInlet, j.Readings[0].FilterDrop = -0.25*units.InchWater, 0, 0.15*units.InchWater
	s := solved(t, j)
	f := s.AsFound
	assert.InDelta(t, 0.06, f.CleanDrop.In(units.InchWater), 0.002, "the rating is for standard air")
	assert.InDelta(t, 0.09, f.DustDrop.In(units.InchWater), 0.002)
	assert.InDelta(t, 0.25+0.30, f.Condition.ExternalStatic.In(units.InchWater), 1e-9)
	assert.InDelta(t, -0.25, f.Condition.ReturnStatic.In(units.InchWater), 1e-9)
	assert.Equal(t, Caution, codes(s.Findings)["filter_found"])
	assert.Equal(t, "rating", s.Today().LawSource)
}

// What no gauge read is not called measured: a port that was left out, and a drop that
// follows from two ports.
func TestWhatWasNotReadIsMarked(t *testing.T) {
	in := func(v float64) units.Pressure { return units.Pressure(v) * units.InchWater }
	j := least()
	j.Options = []Option{{Name: "wide", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}
	j.Readings = []Reading{
		{Label: "before", ReturnPlenum: in(0.1), BlowerInlet: in(0.3), BlowerOutlet: in(0.3)},
		{Label: "after", Option: "wide", AfterWork: true, ReturnPlenum: in(0.1), FilterDrop: in(0.1), BlowerOutlet: in(0.3), SupplyPlenum: in(0.1)},
	}
	s, err := Solve(j)
	require.NoError(t, err)
	worked := func(rows []ReadingRow) (out []string) {
		for _, r := range rows {
			if r.WorkedOut {
				out = append(out, string(r.Name))
			}
		}
		return out
	}
	assert.Equal(t, []string{"filter drop"}, worked(s.Readings[0].Rows))
	assert.Equal(t, []string{"filter"}, worked(s.Readings[0].Parts))
	assert.Equal(t, []string{"blower inlet, after the filter"}, worked(s.Readings[1].Rows))
	assert.Equal(t, []string{"coil"}, worked(s.Readings[1].Parts), "the difference of two ports")
	require.Len(t, s.AfterWorkComparisons, 1)
	var before, after []string
	for _, r := range s.AfterWorkComparisons[0].Rows {
		if r.BeforeWorkedOut {
			before = append(before, string(r.Name))
		}
		if r.AfterWorkedOut {
			after = append(after, string(r.Name))
		}
	}
	assert.Equal(t, []string{"filter drop", "supply plenum, after the coil"}, before)
	assert.Equal(t, []string{"blower inlet, after the filter"}, after)
}
