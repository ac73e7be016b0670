package study_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// A side that has no limit is left out, and the others are named: "24 x any" takes two
// readings.
func TestSidesWithoutALimit_Identity(t *testing.T) {
	in := units.Inch
	assert.Equal(t, "24 x 30 in.", study.Sides{24 * in, 30 * in}.Show(units.IP))
	assert.Equal(t, "24 in. of width", study.Sides{24 * in, 0}.Show(units.IP))
	assert.Equal(t, "30 in. of height, 7 in. of depth", study.Sides{0, 30 * in, 7 * in}.Show(units.IP))
	assert.Equal(t, "610 mm de ancho", study.Sides{24 * in, 0}.Show(units.Locale{System: units.Metric, Language: "es"}))
	assert.Equal(t, "0 in.", study.Sides{0}.Show(units.IP))
}
