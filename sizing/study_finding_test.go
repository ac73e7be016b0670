package sizing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// A fault can be told in the units that a person types in; every term of it
// follows.
func TestAFaultIsWrittenInOtherUnits(t *testing.T) {
	job := Job{Schema: Schema, DesignAirflow: 1200 * units.CFM}
	job.Equipment.RatedExternalStatic = 1e9 * units.InchWater
	job.Site.IndoorDryBulb, job.Site.IndoorWetBulb = units.Fahrenheit(70), units.Fahrenheit(80)
	job.Equipment.Kind = "boiler"
	faults := job.Check()
	require.Len(t, faults, 3)
	for _, f := range faults {
		given, wanted := f.Say(units.IP, func(q units.Quantity) string { return q.Kind().TextIn(q.SI(), units.IP) })
		require.NotContains(t, given+wanted, "%!", f.Path)
		require.NotContains(t, strings.Fields(given+" "+wanted), "Pa", f.Path)
	}
	given, wanted := faults.At("equipment.rated_external_static").Say(units.IP, func(q units.Quantity) string { return q.Kind().TextIn(q.SI(), units.IP) })
	require.Equal(t, "1000000000 in. w.c.", given)
	require.Equal(t, "0.05 in. w.c. to 3 in. w.c., or nothing to let it be assumed", wanted)
	given, wanted = faults.At("equipment.kind").Say(units.IP, nil) // no quantity in it
	require.Equal(t, `"boiler"`, given)
	require.Contains(t, wanted, "one of ")
}
