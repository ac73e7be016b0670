package judge

import (
	"math"

	"returnbench/sizing/assume"
	"returnbench/sizing/units"
)

// How far a reading and the prediction may lie apart and still agree: a tenth,
// or a gauge's last digits, whichever is more (common practice, no source).
const (
	ReadingShare  = 0.10
	readingLeast  = 0.03 * units.InchWater
	readingSource = "10 % or 0.03 in. w.c. (7.5 Pa): " + assume.CommonPractice
)

// ReadingMargin is how far a pressure read may lie from the one predicted.
func ReadingMargin(predicted units.Pressure) units.Pressure {
	return max(readingLeast, ReadingShare*max(predicted, -predicted))
}

func Agrees(measured, predicted units.Pressure) bool {
	return math.Abs(float64(measured-predicted)) <= float64(ReadingMargin(predicted))
}
