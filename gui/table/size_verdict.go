package table

import (
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// SizeVerdict reports whether a size fits the limits, and the verdict of the house
// with it in.
func SizeVerdict(study *sizing.Study, z *sizing.Size, sys units.Locale) string {
	fits := message.New("{size} fits the limits.", "size", z.Label)
	if !z.MeetsAll {
		fits = message.New("{size} does not fit the limits: {missed}.", "size", z.Label, "missed", z.Missed(sys))
	}
	with, err := study.With(*z)
	if err != nil {
		return fits.In(sys) + " " + message.Fault(sys, err)
	}
	var why any = with.Why
	if len(with.Findings) > 0 {
		why = with.Findings[0]
	}
	out := message.Sentences{fits, message.New("The house with this size: {verdict}. {why}", "verdict", with.Verdict, "why", why)}
	if emptied := study.EmptiedWords(with); !emptied.Empty() {
		out = append(out, emptied)
	}
	return out.In(sys)
}
