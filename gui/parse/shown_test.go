package parse

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/units"
)

// Converted values are rounded to sense; what was given in the unit stays.
func TestConvertedValuesMakeSense(t *testing.T) {
	for _, c := range []struct {
		q    units.Quantity
		unit string
		want string
	}{
		{600 * units.Foot, "m", "183"}, {600 * units.Foot, "ft", "600"}, {units.Fahrenheit(76), "C", "24.4"}, {units.Fahrenheit(76), "F", "76"},
		{1200 * units.CFM, "L/s", "566"}, {0.5 * units.InchWater, "Pa", "125"}, {125 * units.Pascal, "in. w.c.", "0.502"}, {125 * units.Pascal, "Pa", "125"},
		{20 * units.Inch, "mm", "508"}, {0.625 * units.InchWater, "in. w.c.", "0.625"}, {1234.5 * units.CFM, "cfm", "1234.5"}, {183.25 * units.Metre, "m", "183.25"},
		{0.16 * units.MoneyPerKilowattHour, "$/kWh", "0.16"}, {0 * units.Metre, "m", "0"},
	} {
		k := c.q.Kind()
		assert.Equal(t, c.want, ShownText(units.IP, k, c.q.SI(), k.Unit(c.unit)), "in %s", c.unit)
	}
}
