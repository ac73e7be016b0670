package table

import (
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// SizeVerdict tells whether a size fits the limits, and the verdict of the house
// with it in.
func SizeVerdict(study *sizing.Study, z *sizing.Size, sys units.Locale) string {
	words := z.Label + " fits the limits."
	if !z.Meets {
		words = z.Label + " does not fit the limits: " + z.Missed(sys) + "."
	}
	with, err := study.With(*z)
	if err != nil {
		return words + " " + err.Error()
	}
	return words + " With it in, " + string(with.Verdict) + ": " + with.Why.In(sys)
}
