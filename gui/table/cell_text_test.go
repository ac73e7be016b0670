package table

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/units"
)

func TestSpread(t *testing.T) {
	for _, c := range []struct {
		q    units.Quantity
		want string
	}{
		{123 * units.CFM, "120"}, {92.4 * units.CFM, "92"}, {996 * units.CFM, "1000"}, {0 * units.CFM, "0"}, {4 * units.CFM, "4"},
		{0.1234 * units.InchWater, "0.12"}, {0.0123 * units.InchWater, "0.012"}, {0.1996 * units.InchWater, "0.2"},
	} {
		assert.Equal(t, c.want, Spread(c.q, units.IP))
	}
}
