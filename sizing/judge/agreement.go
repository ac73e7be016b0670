package judge

import (
	"math"

	"returnbench/sizing/assume"
	"returnbench/sizing/units"
)

// How much a reading and the prediction may differ and still agree: a tenth, or
// a gauge's last digits, whichever is more (common practice, no source).
const (
	ReadingShare  = 0.10
	readingLeast  = 0.03 * units.InchWater
	readingSource = "10 % or 0.03 in. w.c. (7.5 Pa): " + assume.CommonPractice
)

// ReadingMargin is the largest difference between a measured and a predicted
// pressure that counts as agreement: 10 % or 0.03 in. w.c., whichever is more
// (common practice, no source).
func ReadingMargin(predicted units.Pressure) units.Pressure {
	return max(readingLeast, ReadingShare*max(predicted, -predicted))
}

// Agrees reports whether a measured pressure is within ReadingMargin of the
// predicted one.
func Agrees(measured, predicted units.Pressure) bool {
	return math.Abs(float64(measured-predicted)) <= float64(ReadingMargin(predicted))
}
