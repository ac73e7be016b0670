package judge

import (
	"returnbench/sizing/house"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
)

// judgeWatts reports watts that the blower's table does not tell, and the options whose
// cost then cannot be held beside today's.
func judgeWatts(h *house.House, s *study.Study) []study.Finding {
	if !s.WattsAssumed {
		return nil
	}
	out := []study.Finding{*study.Raise(study.Caution, "watts_assumed", study.UsualWatts,
		"The blower's table does not tell all watts. Ten-year cost, pay-back and blower heat count with usual watts, good to about {share} %.",
		"share", message.Fixed(100*h.Uncertainty.Deviations().Assumed, 0)).Advise("Type the watts, or measure them.")}
	today := s.Today().WattsAssumed
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind != study.KindOption || o.WattsAssumed == today {
			continue
		}
		f := study.Raise(study.Caution, "watts_unlike", study.UsualWatts,
			"Its watts and today's have different sources: one is the table's, the other is a usual value. Do not compare their costs.").Advise("Type the watts, or measure them.")
		f.Option = o.Name
		out = append(out, *f)
	}
	return out
}
