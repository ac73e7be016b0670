package table

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Numbers with a decimal comma are numbers all the same, and are rounded as those
// with a point.
func TestCellsWithADecimalComma(t *testing.T) {
	comma := units.Locale{Comma: true}
	lang.Set(comma)
	t.Cleanup(func() { lang.Set(units.IP) })
	assert.Equal(t, "0,52", Spread(0.5234*units.InchWater, comma))
	assert.Equal(t, "0.52", Spread(0.5234*units.InchWater, units.IP))
	assert.Equal(t, "20", Nominal(20*units.Inch, comma))
	assert.Equal(t, "19,5", Nominal(19.5*units.Inch, comma))
	assert.Equal(t, "–", Nominal(0*units.Inch, comma))
	assert.True(t, isNumber("−0,520"))
	assert.False(t, isNumber("0,520 Pa"))
	s, text := verdictOf("STOP off table")
	assert.Equal(t, sizing.Stop, s)
	assert.Equal(t, "STOP off table", text)
}
