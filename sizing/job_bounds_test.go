package sizing

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// fullest is a house with every list at its bound.
func fullest() Job {
	branch := func() Return {
		r := Return{Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}}
		for range MostItems(reflect.TypeFor[duct.Run]()) {
			r.Runs = append(r.Runs, duct.Run{Shape: duct.Flex, Diameter: 14 * units.Inch, Length: 1 * units.Foot})
		}
		for range MostItems(reflect.TypeFor[duct.Fitting]()) {
			r.Fittings = append(r.Fittings, duct.Fitting{Kind: duct.ElbowSmooth})
		}
		return r
	}
	j := Job{Schema: Schema, DesignAirflow: 1200 * units.CFM}
	for range MostItems(reflect.TypeFor[Return]()) {
		j.Returns = append(j.Returns, branch())
	}
	for i := range MostItems(reflect.TypeFor[filter.Filter]()) {
		j.Filters = append(j.Filters, filter.Filter{Name: fmt.Sprint("filter ", i), MERV: 8, Depth: units.Inch})
	}
	for i := range MostItems(reflect.TypeFor[Option]()) {
		j.Options = append(j.Options, Option{Name: fmt.Sprint("option ", i), Filter: j.Filters[i].Name, Returns: j.Returns})
	}
	for range MostItems(reflect.TypeFor[Reading]()) {
		j.Readings = append(j.Readings, Reading{ReturnPlenum: -0.1 * units.InchWater, SupplyPlenum: 0.2 * units.InchWater})
	}
	return j
}

// TestBounds: a house at every bound is solved in time, and one beyond
// any of them is refused at that list.
func TestBounds(t *testing.T) {
	j := fullest()
	require.Empty(t, j.Check())
	began := time.Now()
	_, err := Solve(j)
	require.NoError(t, err)
	t.Logf("solved in %v", time.Since(began))
	require.Less(t, time.Since(began), 20*time.Second, "several times what a slow and busy machine takes")

	more := j.Clone()
	more.Options[3].Returns[2].Runs = append(more.Options[3].Returns[2].Runs, more.Returns[0].Runs[0])
	more.Readings = append(more.Readings, Reading{})
	faults := more.Check()
	require.Len(t, faults, 2)
	require.Equal(t, "31 items", faults.At("options[3].returns[2].runs").Given)
	require.Equal(t, "at most 60", faults.At("readings").Wanted.String())

	more = j.Clone()
	more.Slot.Filter = "filtre 7"
	fault := more.Check().At("slot.filter")
	require.Contains(t, fault.Wanted.String(), "filter 7")
	require.Contains(t, fault.Wanted.String(), "and 55 more", "the nearest few are named")
}
