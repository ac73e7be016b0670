package sizing

import (
	"math"
	"slices"

	"returnbench/sizing/units"
)

// judgeReadings looks for rounds that contradict themselves or the prediction.
func (h *house) judgeReadings(s *Study) []Finding {
	out := append(h.judgeReturn(), h.judgeFound()...)
	for _, r := range s.Readings {
		out = append(out, r.Findings...)
	}
	return out
}

// judgeRound is what a round contradicts, itself or the prediction, or that it
// agrees. That the round which sets the study agrees with it is no finding.
func (h *house) judgeRound(r *Reading, result ReadingResult) []Finding {
	out := h.contradictions(r)
	if result.Airflow == 0 {
		return out
	}
	if f := judgeResult(result); f.Severity != Good || !result.Sets {
		out = append(out, f)
	}
	return out
}

// unlikeDescribed is how far the return read may lie from the return described
// before the description is doubted (common practice, no source).
const unlikeDescribed = 0.25

// judgeReturn doubts a described return that the gauge does not find.
func (h *house) judgeReturn() []Finding {
	k := h.gauge.returnScale
	if k == 0 || math.Abs(k-1) <= unlikeDescribed {
		return nil
	}
	read := units.Pressure(h.portsRead(h.gauge.round).returnPlenum)
	described := read / units.Pressure(k)
	if agrees(read, described) {
		return nil
	}
	return []Finding{newFinding(Caution, "return_unlike", "25 %: "+commonPractice,
		"The return takes %v at %v, where what is described would take %v: it is not the return in the house. Look for what was missed; until then what stays of it keeps the difference, and what is new is taken as described.",
		read, h.gauge.flow, described)}
}

// judgeFound says that today is reckoned with a clean filter where the gauge met
// a dirty one: a make whose clean drop is known keeps it, and the round alone is
// held against the filter as it was found.
func (h *house) judgeFound() []Finding {
	k := h.gauge.foundScale
	if k <= 1 {
		return nil
	}
	read := units.Pressure(h.portsRead(h.gauge.round).filterDrop)
	clean := read / units.Pressure(k)
	if agrees(read, clean) {
		return nil
	}
	return []Finding{newFinding(Caution, "filter_found", readingSource,
		"The filter as found takes %v at %v, where a clean one of its make takes %v: it is dirty, or not that make. Today is reckoned with it clean; where it was new, say so in the round.",
		read, h.gauge.flow, clean)}
}

// judgeResult says whether a round agrees with the study, and what to look at
// first where it does not.
func judgeResult(r ReadingResult) Finding {
	off := float64(r.Airflow)/float64(r.PredictedAirflow) - 1
	if p, is := first(r.Parts, func(p ReadingRow) bool { return p.Name == r.Suspect }); is {
		return newFinding(Caution, "reading_part", readingSource, "%s: look at the %s first: it reads %v where %v is expected at %v.",
			r.Label, p.Name, p.Measured, p.Predicted, r.Airflow)
	}
	if math.Abs(off) >= ReadingShare {
		return newFinding(Caution, "reading_airflow", readingSource, "%s: the gauge says %v (%s), the study expects %v; "+r.doubt()+".",
			r.Label, r.Airflow, r.AirflowBasis, r.PredictedAirflow)
	}
	if p, is := first(r.Rows, func(p ReadingRow) bool { return !p.Agrees }); is {
		return newFinding(Caution, "reading_port", readingSource, "%s: the airflow agrees, but the gauge reads %v for the %s where %v is expected: read it again.",
			r.Label, p.Measured, p.Name, p.Predicted)
	}
	if m, is := first(r.Others, func(m ReadingMatch) bool { return !m.Agrees }); is {
		return newFinding(Caution, "reading_other", readingSource+"; of a temperature 3 F", "%s: the pressures agree, but the %s reads %v where %v is expected.",
			r.Label, m.Name, m.Measured, m.Predicted)
	}
	return newFinding(Good, "reading_agrees", readingSource, "%s: every reading agrees with the study; airflow %v, expected %v.", r.Label, r.Airflow, r.PredictedAirflow)
}

func first[T any](list []T, is func(T) bool) (found T, any bool) {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i], true
	}
	return found, false
}

// doubt is what to look at where the airflow differs and no part that was read
// does: by what the airflow rests on.
func (r *ReadingResult) doubt() string {
	switch {
	case r.AirflowBasis == byTable:
		return "the parts that were read agree, so read the others, and look at the tap"
	case r.AirflowBasis == byRise:
		return "so look at the heating output and the two temperatures"
	case len(r.Parts) == 0:
		return "read the ports to see which part differs"
	}
	return "the parts that were read agree, so look at tap, speed and table"
}

// contradictions finds readings that cannot all be true of one air path.
func (h *house) contradictions(r *Reading) []Finding {
	var out []Finding
	say := func(code, format string, args ...any) {
		out = append(out, newFinding(Caution, code, "continuity of pressure along the air path", format, args...))
	}
	p := r.ports()
	pa := func(v float64) units.Pressure { return units.Pressure(v) }
	if p.hasReturn && p.hasInlet && p.blowerInlet < p.returnPlenum {
		say("ports_swapped", "The blower inlet reads less suction (%v) than the return plenum before the filter (%v): the two ports may be swapped.",
			pa(p.blowerInlet), pa(p.returnPlenum))
	}
	if p.hasOutlet && p.hasSupply && p.supplyPlenum > p.blowerOutlet && !h.coilIsInside() {
		say("ports_swapped", "The supply plenum reads more (%v) than the blower outlet before the coil (%v): the two ports may be swapped.",
			pa(p.supplyPlenum), pa(p.blowerOutlet))
	}
	if r.ReturnPlenum > 0 != (r.BlowerInlet > 0) && r.ReturnPlenum != 0 && r.BlowerInlet != 0 {
		say("signs_mixed", "The return plenum reads %v and the blower inlet %v: one of them has the wrong sign; both are suction and are taken so.", r.ReturnPlenum, r.BlowerInlet)
	}
	if r.BlowerOutlet < 0 || r.SupplyPlenum < 0 {
		say("signs_mixed", "A port after the blower reads below the room (%v, %v): the hoses may be swapped; it is taken as pressure.", r.BlowerOutlet, r.SupplyPlenum)
	}
	if p.hasFD && r.BlowerInlet != 0 && p.filterDrop > p.blowerInlet {
		say("filter_over_return", "The filter's drop (%v) is more than the whole suction at the blower inlet (%v): one of them is misread.", pa(p.filterDrop), pa(p.blowerInlet))
	}
	if p.hasReturn && r.BlowerInlet != 0 && r.FilterDrop != 0 {
		sum := p.returnPlenum + p.filterDrop
		if !agrees(pa(p.blowerInlet), pa(sum)) {
			say("filter_sum", "Return plenum %v and filter drop %v make %v, but the blower inlet reads %v.", pa(p.returnPlenum), pa(p.filterDrop), pa(sum), pa(p.blowerInlet))
		}
	}
	return out
}
