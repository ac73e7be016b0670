package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/judge"
	"returnbench/sizing/units"
)

// Each clause with its figures. 150 fpm ask 1200/150 = 8 ft2, 1152 in2, of a filter 1 in
// deep; 3 tons ask two ducts of 16 and 14 in and 900 in2 of filter grilles; 2 in2 a 1000
// Btu/h of 60000 are 120 in2; 393.4 W over 1000 cfm are 0.39 W/cfm.
func TestSetsInWords_Identity(t *testing.T) {
	hold := func(code, want string, severity Severity, change func(j *Job)) {
		t.Helper()
		j := inGrilles()
		j.Limits.Checks = CheckSets()
		change(&j)
		f := findingOf(t, solved(t, j).Today().Findings, code)
		assert.Equal(t, want, f.In(units.IP), code)
		assert.Equal(t, severity, f.Severity, code)
		assert.True(t, f.BothWays, code)
	}
	as := func(*Job) {}
	hold("title24_merv", "MERV 8 is under the minimum of MERV 13. Choose a finer filter.", Caution, as)
	hold("title24_merv", "MERV 13 meets the minimum of MERV 13.", Good, func(j *Job) { j.Filters[0].MERV = 13 })
	hold("ashrae622_merv", "MERV 8 meets the minimum of MERV 6.", Good, as)
	hold("ashrae622_merv", "MERV 5 is under the minimum of MERV 6. Choose a finer filter.", Caution, func(j *Job) { j.Filters[0].MERV = 5 })
	hold("title24_face", "The face of 900 in2 is under the 1152 in2 asked of a filter 1 in (25 mm) deep.", Caution, as)
	hold("title24_face", "The face of 1200 in2 meets the 1152 in2 asked of a filter 1 in (25 mm) deep.", Good, func(j *Job) {
		j.Returns[0].Grille.Height, j.Returns[1].Grille.Height = 30*units.Inch, 30*units.Inch
	})
	hold("title24_efficacy", "Fan efficacy 0.39 W/cfm is within the limit of 0.45 W/cfm.", Good, as)
	hold("title24_efficacy", "Fan efficacy 0.49 W/cfm is over the limit of 0.45 W/cfm.", Caution, func(j *Job) { j.Equipment.Blower.Taps[0] = pinnedTap("only", 1000, 500) })
	hold("title24_airflow", "Airflow of 333 cfm/ton meets the minimum for alterations, 300 cfm/ton.", Good, as)
	hold("title24_airflow", "Airflow of 250 cfm/ton is under the minimum for alterations, 300 cfm/ton. Raise the airflow.", Caution, func(j *Job) { j.Equipment.CoolingCapacity = 4 * units.Ton })
	large := func(j *Job) { // the tables alone are kept
		j.Equipment.Blower.Taps[0] = pinnedTap("only", 1000, 500)
		for i := range j.Returns {
			j.Returns[i].Runs[0].Diameter, j.Returns[i].Runs[0].Length = 16*units.Inch, units.Length(5+5*i)*units.Foot
		}
	}
	hold("title24_grilles", "Filter grilles of 900 in2 meet the 900 in2 of the table.", Good, large)
	hold("title24_ducts", "Return ducts of 16.00 in and 16.00 in meet the 16.00 in and 14.00 in of the table.", Good, large)
	hold("title24_run", "The longest return run, 10.0 ft, is within the 30.0 ft the table allows.", Good, large)
	hold("title24_bends", "Bends of 0 degrees together are within the 180 the table allows.", Good, large)
	// Three elbows of 90 degrees and one of 45 turn 315; of the other branch 90.
	bent := func(j *Job) {
		large(j)
		j.Returns[0].Fittings = append(j.Returns[0].Fittings, duct.Fitting{Kind: duct.ElbowFiveGore, Count: 3}, duct.Fitting{Kind: duct.ElbowFiveGore, Angle: 45})
		j.Returns[1].Fittings = append(j.Returns[1].Fittings, duct.Fitting{Kind: duct.ElbowFiveGore})
		j.Returns[1].Runs = append(j.Returns[1].Runs, duct.Run{Shape: duct.Round, Diameter: 18 * units.Inch, Length: 25 * units.Foot})
	}
	hold("title24_bends", "Bends of 315 degrees together are over the 180 the table allows.", Caution, bent)
	hold("title24_run", "The longest return run, 35.0 ft, is over the 30.0 ft the table allows.", Caution, bent)
	hold("title24_ducts", "Return ducts of 16.00 in and 12.00 in are under the 16.00 in and 14.00 in of the table.", Caution, func(j *Job) { bent(j); j.Returns[0].Runs[0].Diameter = 12 * units.Inch })
	hold("title24_grilles", "Filter grilles of 500 in2 are under the 900 in2 of the table.", Caution, func(j *Job) { bent(j); j.Returns[0].Filter = "" })
	one := func(diameter units.Length, tons units.Capacity) func(*Job) {
		return func(j *Job) {
			large(j)
			j.Returns, j.Equipment.CoolingCapacity = j.Returns[:1], tons*units.Ton
			j.Returns[0].Runs[0].Diameter = diameter * units.Inch
		}
	}
	hold("title24_ducts", "One return duct of 24.00 in: for 3.0 ton the table asks for two, of 16.00 in and 14.00 in.", Caution, one(24, 3))
	hold("title24_ducts", "The return duct of 16.00 in is under the 18.00 in of the table.", Caution, one(16, 2))
	hold("ifgc_return_area", "Return ducts of 157 in2 meet the 120 in2 asked for the heating output.", Good, as)
	hold("ifgc_return_area", "Return ducts of 157 in2 are under the 160 in2 asked for the heating output.", Caution, func(j *Job) { j.Equipment.HeatingOutput = 80000 * units.BtuPerHour })

	// The drop of a filter 1 in deep at 1200 cfm over 900 in2, 192 fpm.
	j := inGrilles()
	j.Limits.Checks = CheckSets()
	s := solved(t, j)
	assert.Equal(t, "The clean drop at the design airflow, "+s.Today().DesignDrop.Show(units.IP)+", is over the limit of 0.100 in. w.c.", said(t, s, TodayName, "title24_drop"))
	assert.GreaterOrEqual(t, s.Today().DesignDrop, s.Today().Clean.FilterDrop, "no less than it drops now, at less air")
	j.Filters[0].Rating[0].Drop = 0.05 * units.InchWater
	s = solved(t, j)
	assert.Equal(t, "The clean drop at the design airflow, "+s.Today().DesignDrop.Show(units.IP)+", is within the limit of 0.100 in. w.c.", said(t, s, TodayName, "title24_drop"))
	// One place: its own law at 1200 cfm over its 500 in2, 345.6 fpm.
	j = pinned()
	j.Filters[0].Rating = []filter.RatingPoint{{FaceVelocity: 288 * units.FPM, Drop: 0.25 * units.InchWater}, {FaceVelocity: 345.6 * units.FPM, Drop: 0.33 * units.InchWater}}
	assert.InEpsilon(t, 0.33, solved(t, j).Today().DesignDrop.In(units.InchWater), 0.01)
	j.DesignAirflow = 900 * units.CFM // less than is moved: at 259 fpm, less than it drops now
	assert.Less(t, solved(t, j).Today().DesignDrop, solved(t, j).Today().Clean.FilterDrop)
	deep := pinned()
	deep.Limits.Checks = []CheckSet{Title24}
	deep.Slot.Depth, deep.Filters[0].Depth = 2*units.Inch, 2*units.Inch
	found := codes(solved(t, deep).Today().Findings)
	assert.NotContains(t, found, "title24_face", "a filter 2 in deep is sized by its designer")
	assert.NotContains(t, found, "title24_drop")
	assert.NotContains(t, found, "ashrae622_merv")
	none := pinned()
	none.Equipment.NoHeating, none.Limits.Checks = true, []CheckSet{IFGC}
	assert.NotContains(t, codes(solved(t, none).Findings), "ifgc_return_area")
}

// A size of the search is held to the finest rating of the job's limit and its sets.
func TestLeastMERV_Identity(t *testing.T) {
	for _, c := range []struct {
		own    int
		checks []CheckSet
		want   int
	}{{8, nil, 8}, {8, []CheckSet{ASHRAE622}, 8}, {4, []CheckSet{ASHRAE622}, 6}, {8, []CheckSet{Title24}, 13}, {15, CheckSets(), 15}, {4, []CheckSet{IFGC}, 4}} {
		j := pinned()
		j.Limits.MinMERV, j.Limits.Checks = c.own, c.checks
		s := solved(t, j)
		assert.Equal(t, c.want, judge.LeastMERV(solvedHouse(s)), "%v", c)
		for _, z := range s.Sizes {
			assert.GreaterOrEqual(t, z.MERV, c.want)
			if c.want > 8 {
				require.NotEqual(t, "own", z.Filter)
			}
		}
	}
	curve := []FaceDrop{{FaceVelocity: 1, Drop: 10}, {FaceVelocity: 2, Drop: 30}, {FaceVelocity: 4, Drop: 100}}
	for v, want := range map[units.Speed]units.Pressure{0.5: 5, 1: 10, 1.5: 20, 2: 30, 3: 65, 4: 100} {
		got, known := judge.DropAt(curve, v)
		assert.True(t, known)
		assert.InDelta(t, float64(want), float64(got), 1e-9, "between the points at %v", v)
	}
	_, known := judge.DropAt(curve, 4.1)
	assert.False(t, known)
}

// What has no room is reported by how much; a side within a hundredth of a millimeter of its
// opening, or a quarter inch over a bay, goes in.
func TestRoomToTheHair(t *testing.T) {
	breaks := func(w, h, openW, openH, bay units.Length) map[string]Severity {
		j := pinned()
		j.Limits.WallWidth, j.Limits.WallHeight, j.Limits.StudBay = openW*units.Inch, openH*units.Inch, bay*units.Inch
		r := drop10("hall", 2)
		r.Grille = duct.Grille{Width: w * units.Inch, Height: h * units.Inch}
		j.Options = []Option{{Name: "x", Returns: []Return{r}}}
		return codes(solved(t, j).Option("x").Findings)
	}
	for _, c := range []struct {
		w, h, openW, openH, bay units.Length
		code                    string
	}{
		{20, 25, 20, 25, 0, ""}, {20, 25, 25, 20, 0, ""}, {20, 25, 20, 24, 0, "wall"}, {20, 25, 0, 25, 0, ""}, {20, 25, 0, 19, 0, "wall"}, {20, 30, 25, 25, 0, "wall"},
		{14, 25, 14, 25, 14.5, ""}, {14, 25, 25, 14, 14.5, "stud_bay"}, {25, 14, 14, 25, 14.5, ""}, {14.75, 25, 20, 30, 14.5, ""}, {15, 25, 20, 30, 14.5, "stud_bay"},
		{14, 25, 0, 0, 14.5, ""}, {14, 25, 0, 24, 14.5, "stud_bay"}, {14, 25, 14, 0, 14.5, ""}, {14, 25, 13.9, 0, 14.5, "wall"},
	} {
		found := breaks(c.w, c.h, c.openW, c.openH, c.bay)
		for _, code := range []string{"wall", "stud_bay"} {
			_, is := found[code]
			assert.Equal(t, code == c.code, is, "%v: %s", c, code)
		}
	}
}
