package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// A wet bulb above the dry bulb is refused, and so is one that even dry air does not
// reach. Dry air at 75 F holds 18.0 Btu/lb, and saturated air at 45 F 17.65 and at
// 46 F 18.1 (ASHRAE Handbook of Fundamentals, psychrometrics, from memory), so that
// it reads between 45 F and 46 F.
func TestWetBulb_Check_Plausible(t *testing.T) {
	for _, row := range []struct {
		name             string
		dryBulb, wetBulb units.Temperature
		path, given      string // no path: accepted
		wanted           string
	}{
		{"usual air", units.Fahrenheit(75), units.Fahrenheit(63), "", "", ""},
		{"saturated", units.Fahrenheit(75), units.Fahrenheit(75), "", "", ""},
		{"nearly dry", units.Fahrenheit(75), units.Fahrenheit(46.5), "", "", ""},
		{"above the dry bulb", units.Fahrenheit(75), units.Fahrenheit(80), "site.indoor_wet_bulb", "80 F", "at most the dry bulb, 75 F"},
		{"below dry air", units.Fahrenheit(75), units.Fahrenheit(44.5), "site.indoor_wet_bulb", "44.5 F", "dry air"},
		{"alone, above the usual dry bulb", 0, units.Fahrenheit(78), "", "", ""},
		{"alone, below dry air", 0, units.Fahrenheit(44.5), "site.indoor_wet_bulb", "44.5 F", "dry air"},
		{"the usual depression fits", units.Fahrenheit(68), 0, "", "", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			j := least()
			j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = row.dryBulb, row.wetBulb
			faults := j.Check()
			if row.path == "" {
				require.Empty(t, faults)
				_, err := Solve(j)
				require.NoError(t, err)
				return
			}
			fault := faults.At(row.path)
			require.NotNil(t, fault, "%v", faults)
			assert.Equal(t, row.given, fault.Given)
			assert.Contains(t, fault.Wanted.Writing(message.Exact).String(), row.wanted)
			assert.Len(t, faults, 1)
		})
	}
}
