package sizing

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// The energy code asks 1200/150 ft2 = 1152 in2 of a filter 1 in deep, whatever
// its media; deeper ones are sized by the designer.
func TestSizesKeepTheCodesFace_Identity(t *testing.T) {
	j := least()
	j.Limits.Checks = []CheckSet{Title24}
	j.Limits.MinMERV = 13
	asked, free := 0, 0
	for _, openings := range []int{1, 2, 3} {
		j.Limits.MaxOpenings = openings
		for _, z := range solved(t, j).Sizes {
			_, missed := codes(z.Misses)["title24_face"]
			small := z.Depth < 1.9*units.Inch && z.FaceArea.In(units.SquareInch) < 1152-1e-6
			assert.Equal(t, small, missed, "%s, %.0f in2, %v deep", z.Label, z.FaceArea.In(units.SquareInch), z.Depth)
			if small {
				asked++
			} else {
				free++
			}
			assert.InEpsilon(t, 1200*144/z.FaceArea.In(units.SquareInch), z.DesignFaceVelocity.In(units.FPM), 1e-9, z.Label)
		}
	}
	assert.Positive(t, asked)
	assert.Positive(t, free)
}

// Each place is changed at the limit of its own filter, and holds what its own
// does.
func TestEachPlaceHasItsOwnLimit_Identity(t *testing.T) {
	j := twoReturns()
	for i, name := range []string{"early", "late"} {
		j.Filters = append(j.Filters, filter.Filter{Name: name, MERV: 8, Depth: units.Inch, FinalDrop: units.Pressure(0.25+0.25*float64(i)) * units.InchWater,
			Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.08 * units.InchWater}}})
		j.Returns[i].Filter = name
	}
	p := solved(t, j).Today().Places
	require.Len(t, p, 2)
	assert.InDelta(t, 0.25, p[0].ChangeDrop.In(units.InchWater), 1e-9)
	assert.InDelta(t, 0.50, p[1].ChangeDrop.In(units.InchWater), 1e-9)
	assert.Equal(t, []string{"early", "late"}, []string{p[0].Filter, p[1].Filter})
	j.Limits.ChangeDrop, j.Limits.ChangeMonths, j.Limits.ChangeAirflowLoss = 0.12*units.InchWater, 120*units.Month, 0.9
	for _, place := range solved(t, j).Today().Places {
		assert.Equal(t, EndsAtDrop, place.ReplacedBecause, place.Return)
	}
	j.Limits.ChangeDrop = 0
	j.Returns[0].Filter, j.Returns[1].Filter = "late", "early"
	p = solved(t, j).Today().Places
	assert.InDelta(t, 0.50, p[0].ChangeDrop.In(units.InchWater), 1e-9)
	assert.InDelta(t, 0.25, p[1].ChangeDrop.In(units.InchWater), 1e-9)
}

// A round whose airflow is 20 % over the study's, measured, with no part read:
// what it reads and what was expected are both told.
func TestRoundShowsBothAirflows_Identity(t *testing.T) {
	j := least()
	expected := solved(t, j).Today().Clean.Airflow
	j.Options = []Option{{Name: "same"}}
	j.Readings = []Reading{{Label: "after", Option: "same", Airflow: expected * 1.2}}
	s := solved(t, j)
	f := finding(t, s.Readings[0].Findings, "reading_airflow")
	assert.Contains(t, f.In(units.IP), "airflow is "+(expected*1.2).Show(units.IP)+" (measured), expected "+expected.Show(units.IP))
	j.Readings[0].Airflow = expected * 1.09
	assert.Contains(t, codes(solved(t, j).Readings[0].Findings), "reading_agrees")
}

// 2000 h of heating on a low tap at 200 W
// and 1000 h of cooling at 500 W are 400 and 500 kWh.
func TestEachSeasonHasItsWatts_Identity(t *testing.T) {
	j := least()
	line := func(cfm units.Flow, watts units.Power) []blower.Point {
		return []blower.Point{{ExternalStatic: 0.01 * units.InchWater, Airflow: (cfm + 1) * units.CFM, Power: watts}, {ExternalStatic: 2 * units.InchWater, Airflow: (cfm - 1) * units.CFM, Power: watts}}
	}
	j.Equipment.Blower.Taps = []blower.Tap{{Name: "low", Points: line(900, 200)}, {Name: "high", Points: line(1200, 500)}}
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "high", "low"
	j.Site.CoolingHours, j.Site.HeatingHours = 1000*units.Hour, 2000*units.Hour
	s := solved(t, j)
	thin := s.Air.DensityRatio
	o := s.Today()
	assert.InEpsilon(t, (500+400)*thin, o.AnnualEnergy.In(units.KilowattHour), 1e-6)
	assert.InDelta(t, 900, o.Clean.HeatingAirflow.In(units.CFM), 1)
	assert.InDelta(t, 1200, o.Clean.Airflow.In(units.CFM), 1)
	assert.InEpsilon(t, 200*thin, o.Clean.HeatingPower.In(units.Watt), 1e-6)
	assert.InEpsilon(t, 500*thin/1200, o.Clean.FanEfficacy.In(units.WattPerCFM), 2e-3)
}

// The gauge reads 0.30 in. w.c. in the return at 1000 cfm. A return described as
// more than that takes it at that airflow, scaled as a whole; each part keeps
// its share.
func TestReturnReadUnderItsDescription_Identity(t *testing.T) {
	j := least()
	j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 12 * units.Inch, Height: 12 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 40 * units.Foot}}}}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch}
	described := solved(t, j).Today().Clean.Branches[0]
	j.Readings = []Reading{{ReturnPlenum: -0.30 * units.InchWater, Airflow: 1000 * units.CFM}}
	s := solved(t, j)
	c := s.Today().Clean
	b := c.Branches[0]
	scale := c.Airflow.In(units.CFM) / 1000
	assert.InEpsilon(t, 0.30*scale*scale, b.Drop.In(units.InchWater), 0.02, "nearly with the square of the airflow")
	assert.InEpsilon(t, float64(described.GrilleDrop/described.Drop), float64(b.GrilleDrop/b.Drop), 0.02)
}

// The upgrade finder's face for today's make: at the drop asked the make carries
// the target over just that face.
func TestFaceForADrop_Identity(t *testing.T) {
	j := least()
	j.Filters = []filter.Filter{{Name: "f", MERV: 8, Depth: units.Inch, Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.12 * units.InchWater}, {FaceVelocity: 600 * units.FPM, Drop: 0.30 * units.InchWater}}}}
	j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "f"}
	target := solved(t, j).Today().Clean.Airflow * 1.01
	r, err := FindUpgrades(context.Background(), j, target, nil)
	require.NoError(t, err)
	for _, l := range r.RequiredDrops {
		if l.Part != "filter" {
			continue
		}
		require.True(t, l.Possible)
		// Two points make A v + B v^2: 0.12 at 300 and 0.30 at 600 fpm are A = 3e-4, B = 1/3e6.
		v := target.In(units.CFM) / l.Face.In(units.SquareFoot)
		assert.InEpsilon(t, l.Needed.In(units.InchWater), 3e-4*v+v*v/3e6, 0.02)
		assert.Contains(t, l.Size, "x1", "of today's depth")
		return
	}
	t.Error("the filter is among the parts")
}
