package sizing

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// least is a job that holds only tonnage and airflow.
func least() Job {
	return Job{Schema: Schema, Equipment: Equipment{CoolingCapacity: 3 * units.Ton}, DesignAirflow: 1200 * units.CFM}
}

// solvedHouse is the house that a Study was solved from.
func solvedHouse(s *Study) *house.House { return s.Deferred.(*deferred).house }

func solved(t testing.TB, j Job) *Study {
	t.Helper()
	s, err := Solve(j)
	require.NoError(t, err)
	return s
}

func TestLeastJobIsComplete(t *testing.T) {
	s := solved(t, least())
	require.Len(t, s.Options, 2)
	assert.NotNil(t, s.SuggestedSizes.Grille)
	assert.NotNil(t, s.SuggestedSizes.Slot)
	assert.NotNil(t, s.SuggestedSizes.Cabinet)
	for _, path := range []string{"target_face_velocity", "equipment.blower.taps", "returns", "coil", "supply", "slot.width", "slot.filter"} {
		assert.True(t, s.Assumed(path), path)
	}
	assert.InDelta(t, 1, s.AssumedShare, 1e-12, "nothing of the static was typed")
	checkBalance(t, s)
}

func TestTypingRemovesTheMark(t *testing.T) {
	j := least()
	j.Supply.Drop = 0.15 * units.InchWater
	j.TargetFaceVelocity = 250 * units.FPM
	s := solved(t, j)
	assert.False(t, s.Assumed("supply"))
	assert.False(t, s.Assumed("target_face_velocity"))
	assert.True(t, s.Assumed("coil"))
	assert.Less(t, s.AssumedShare, 0.9)
	assert.Contains(t, coded(s.Findings, "assumed").In(units.IP), fmt.Sprintf("%.0f %%", 100*s.AssumedShare))
}

// The calculation of the design airflow says whether it was typed, or follows from the
// tons.
func TestCalculationSaysWhetherTheAirflowWasTyped(t *testing.T) {
	j := least()
	first := func() string { return solved(t, j).Workings()[0].Steps[0].Text.In(units.IP) }
	assert.Equal(t, "The airflow as it was typed, and what it is per cooling capacity.", first())
	j.DesignAirflow = 0
	assert.Equal(t, "Airflow per cooling capacity times the capacity.", first())
}

// checkBalance holds every operating point of a study to its identities.
func checkBalance(t testing.TB, s *Study) {
	t.Helper()
	for _, o := range s.Options {
		for name, c := range map[string]Condition{"clean": o.Clean, "loaded": o.Loaded} {
			at := o.Name + " " + name
			assert.Less(t, math.Abs(c.Residual), 1e-6, "%s: blower less system", at)
			sum := 0.0
			for _, p := range c.Parts {
				sum += float64(p.Drop)
			}
			assert.InEpsilon(t, float64(c.ExternalStatic), sum, 1e-9, "%s: sum of part drops", at)
			flow := 0.0
			for _, b := range c.Branches {
				flow += float64(b.Airflow)
			}
			if len(c.Branches) > 0 {
				assert.InEpsilon(t, float64(c.Airflow), flow, 1e-9, "%s: branches add up", at)
			}
			for _, v := range []float64{float64(c.Airflow), float64(c.FilterDrop), float64(c.CoilAirLeaving), float64(c.TemperatureRise), float64(c.BlowerPower)} {
				assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), at)
			}
		}
	}
}

// twoReturns is a house with two filter grilles in walls.
func twoReturns() Job {
	j := least()
	j.Equipment.Kind = AirHandler
	j.Returns = []Return{
		{Name: "hall", Grille: duct.Grille{Width: 14 * units.Inch, Height: 24 * units.Inch}, Filter: GenericFilterName,
			Runs: []duct.Run{{Shape: duct.Round, Diameter: 14 * units.Inch, Length: 12 * units.Foot}}},
		{Name: "bedroom", Grille: duct.Grille{Width: 14 * units.Inch, Height: 20 * units.Inch}, Filter: GenericFilterName,
			Runs: []duct.Run{{Shape: duct.Flex, Diameter: 14 * units.Inch, Length: 20 * units.Foot, Compression: 0.04}}},
	}
	j.Filters = append(j.Filters, assume.GenericFilter())
	return j
}

func TestBranchesShareTheFlow(t *testing.T) {
	s := solved(t, twoReturns())
	checkBalance(t, s)
	b := s.Today().Clean.Branches
	require.Len(t, b, 2)
	assert.Equal(t, b[0].Drop, b[1].Drop)
	assert.Greater(t, b[0].Airflow, b[1].Airflow, "the short smooth duct with the larger face takes more")
	for _, f := range b {
		assert.InEpsilon(t, float64(f.Drop), float64(f.GrilleDrop+f.FilterDrop+f.DuctDrop), 1e-9, f.Name)
	}
}

// The gross filter-grille areas that the California Energy Code prints by
// tonnage (title 24 part 6, tables 150.0-B and C, from secondary text) imply 151
// to 176 fpm at 350 cfm/ton; a search at the velocity that the printed area
// implies must come back to that area, within one nominal size an opening.
func TestGrilleSearch_Identity(t *testing.T) {
	rows := []struct{ tons, area float64 }{{1.5, 500}, {2, 600}, {2.5, 800}, {3, 900}, {3.5, 1000}, {4, 1200}, {5, 1500}}
	for _, r := range rows {
		flow := units.Flow(350*r.tons) * units.CFM
		target := units.Speed(float64(flow) / (r.area * float64(units.SquareInch)))
		require.InDelta(t, 163, target.In(units.FPM), 14, "the printed areas imply 151 to 176 fpm")
		j := Job{Schema: Schema, Equipment: Equipment{CoolingCapacity: units.Capacity(r.tons) * units.Ton}, DesignAirflow: flow, TargetFaceVelocity: target}
		s := solved(t, j)
		require.NotNil(t, s.SuggestedSizes.Grille, "%g tons", r.tons)
		g := s.SuggestedSizes.Grille
		area := g.FaceArea.In(units.SquareInch)
		assert.GreaterOrEqual(t, area, r.area-1e-6, "%g tons", r.tons)
		assert.Less(t, area-float64(g.Count)*nextSize(g), r.area, "%g tons", r.tons)
	}
}

// nextSize is the step, in2, from a grille to the next smaller nominal one.
func nextSize(g *Size) float64 {
	own := g.Width.In(units.Inch) * g.Height.In(units.Inch)
	step := math.Inf(1)
	for _, s := range stock.FilterGrilles() {
		if d := own - s.Face().In(units.SquareInch); s.System == units.InchPound && d > 1 && d < step {
			step = d
		}
	}
	return step
}

// At 300 fpm and 400 cfm/ton the face is airflow / velocity by hand.
func TestNeededFace_Identity(t *testing.T) {
	for _, tons := range []float64{1.5, 2, 2.5, 3, 3.5, 4, 5} {
		j := Job{Schema: Schema, Equipment: Equipment{CoolingCapacity: units.Capacity(tons) * units.Ton}, TargetFaceVelocity: 300 * units.FPM}
		j.Limits.MaxFilterDrop = units.InchWater // the face velocity alone is to set the size
		s := solved(t, j)
		assert.InEpsilon(t, tons*400/300*144, s.NeededFace.In(units.SquareInch), 1e-12)
		for _, size := range []*Size{s.SuggestedSizes.Grille, s.SuggestedSizes.Slot, s.SuggestedSizes.Cabinet} {
			require.NotNil(t, size)
			assert.GreaterOrEqual(t, float64(size.FaceArea)*1.0001, float64(s.NeededFace))
			assert.LessOrEqual(t, float64(size.FaceArea), 1.35*float64(s.NeededFace), "%s is needlessly large", size.Label)
		}
	}
}

func TestFaultsComeAtOnce(t *testing.T) {
	j := least()
	j.TargetFaceVelocity = -3 * units.FPM
	j.Slot.Filter = "nothing such"
	j.Site.DiscountRate = 7
	j.Filters = append(j.Filters, assume.GenericFilter())
	j.Filters[0].MERV = 18
	_, err := Solve(j)
	var faults FieldErrors
	require.ErrorAs(t, err, &faults)
	for _, path := range []string{"target_face_velocity", "slot.filter", "site.discount_rate", "filters[0].merv"} {
		assert.NotNil(t, faults.At(path), path)
	}
	assert.Len(t, faults, 4)
}

// What is assumed is reported in the units in use, and a single quantity as such.
func TestAssumptionsFollowTheUnits(t *testing.T) {
	s := solved(t, least())
	values := map[string]units.Quantity{}
	for _, a := range s.Assumptions {
		assert.Equal(t, a.Text.String(), a.In(units.IP), a.Path)
		assert.NotContains(t, a.In(units.SI), " in. w.c.", a.Path)
		assert.NotContains(t, a.In(units.SI), " cfm", a.Path)
		assert.NotContains(t, a.Text.String(), "%!", a.Path)
		values[a.Path] = a.Value
	}
	assert.Equal(t, units.Quantity(300*units.FPM), values["target_face_velocity"])
	assert.Equal(t, units.Quantity(solvedHouse(s).Supply.Drop), values["supply"])
	assert.InDelta(t, float64(units.Fahrenheit(63)), values["site.indoor_wet_bulb"].SI(), 1e-9)
	assert.Equal(t, units.Quantity(60*units.FahrenheitDegree), values["equipment.rise_high"])
	assert.Nil(t, values["equipment.kind"])
}

// Every row of a blower table that is wrong is reported, each at its own field, and
// so is a sensible heat ratio that no coil has.
func TestFaultsAreAtTheirFields(t *testing.T) {
	j := least()
	row := func(static, flow float64) blower.Point {
		return blower.Point{ExternalStatic: units.Pressure(static) * units.InchWater, Airflow: units.Flow(flow) * units.CFM}
	}
	j.Equipment.Blower.Taps = []blower.Tap{{Name: "high", Points: []blower.Point{row(0.1, 1200), row(0.3, 1250), row(0.3, 1100), row(0.5, 1180)}}}
	faults := j.Check()
	for _, path := range []string{"[1].airflow", "[2].external_static", "[3].airflow"} {
		assert.NotNil(t, faults.At("equipment.blower.taps[0].points"+path), path)
	}
	assert.Len(t, faults, 3)
	assert.Equal(t, "1250 cfm", faults.At("equipment.blower.taps[0].points[1].airflow").Given)
	j.Equipment.Blower.Taps[0].Points = j.Equipment.Blower.Taps[0].Points[:1]
	assert.Equal(t, "1 row", j.Check().At("equipment.blower.taps[0].points").Given)

	j = least()
	j.Equipment.SensibleHeatRatio = 0.4
	_, err := Solve(j)
	require.ErrorAs(t, err, &faults)
	fault := faults.At("equipment.sensible_heat_ratio")
	require.NotNil(t, fault)
	assert.Equal(t, "0.4", fault.Given)
	assert.Contains(t, fault.Wanted.String(), "nearest possible")
}

// A rated filter whose pleats do not fit its width is refused by the check, since
// dust loads on their area. 20 in nominal is 19.5 in, 495.3 mm; a pleat of 1 mm
// media with a fold gap of 6 mm needs more than 2 x 1 + 2 x 6 = 14 mm of it, so that
// 35 fit (14.15 mm) and 36 do not (13.76 mm).
func TestPleatsThatDoNotFitAreAFault(t *testing.T) {
	j := least()
	j.Filters = []filter.Filter{{
		Name: "rated", Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: 1 * units.Inch, MERV: 8,
		Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.2 * units.InchWater}},
		Pleats: 36, PleatDepth: 0.7 * units.Inch, MediaThickness: units.Millimetre, FoldGap: 6 * units.Millimetre,
	}}
	j.Options = []Option{{Name: "finer", Filter: "rated"}}
	fault := j.Check().At("filters[0].pleats")
	require.NotNil(t, fault)
	assert.Contains(t, fault.Wanted.String(), "at most 35 ")
	j.Filters[0].Pleats = 35
	require.Empty(t, j.Check())
	_, err := Solve(j)
	require.NoError(t, err)
}

// What is reported a filter does not depend on chance, though the search tries it
// in several depths: 1 in of pleats is taken as 2.3 times its face.
func TestTheMediaOfTodaysDepthIsNamed(t *testing.T) {
	for range 30 {
		s, err := Solve(least())
		require.NoError(t, err)
		var told []string
		for _, a := range s.Assumptions {
			if a.Source == "invented ratio by depth" {
				told = append(told, a.Text.String())
			}
		}
		require.Equal(t, []string{"generic MERV 8: media 2.3 times the face, by its depth"}, told)
	}
}
