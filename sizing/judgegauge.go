package sizing

import (
	"math"
	"slices"

	"returnbench/sizing/units"
)

// judgeReadings looks for rounds that contradict themselves or the prediction.
func (h *house) judgeReadings(s *Study) []Finding {
	out := append(h.judgeReturn(), h.judgeFound(s)...)
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

// judgeReturn holds the return read against the return described: what is read
// beyond it is named as a loss of its own.
func (h *house) judgeReturn() []Finding {
	g := h.gauge
	if g.described == 0 {
		return nil
	}
	read := units.Pressure(h.portsRead(g.round).returnPlenum)
	switch {
	case agrees(read, g.described):
		return nil
	case g.unexplained > 0:
		return []Finding{newFinding(Caution, "unexplained_loss", readingSource,
			"%v not explained by what you described: the return takes %v at %v, and what is described would take %v. Look for it: a crushed flex, a closed damper, a blocked grille. Until it is found it stays in the house, today and with every option, and no duct is judged by it.",
			g.unexplained, read, g.flow, g.described)}
	}
	return []Finding{newFinding(Caution, "return_unlike", readingSource,
		"The return takes %v at %v, %v less than what is described would take: it is not the return in the house. Check the sizes typed. Until then what stays of it goes by the gauge, and what is new is taken as described.",
		read, g.flow, g.described-read)}
}

// judgeFound says how much of the drop read is the filter and how much is dust.
func (h *house) judgeFound(s *Study) []Finding {
	f := s.AsFound
	if f == nil || f.CleanDrop == 0 || f.FilterIsClean {
		return nil
	}
	read := f.CleanDrop * units.Pressure(h.gauge.foundScale)
	source := readingSource + "; the clean drop by " + lawSources[s.Today().LawSource]
	switch {
	case agrees(read, f.CleanDrop):
		return nil
	case read > f.CleanDrop:
		return []Finding{newFinding(Caution, "filter_found", source,
			"The filter as found takes %v at %v: %v is the clean filter and %v is dust. Change it. Today is worked out with a clean one; where the filter was new or of another make, say so.",
			read, f.Condition.Airflow, f.CleanDrop, read-f.CleanDrop)}
	}
	return []Finding{newFinding(Caution, "filter_reads_low", source,
		"The filter as found takes %v at %v, %v less than a clean one of its make: it is another make, air gets round it, or it was misread. Look at the filter; today goes by its make.",
		read, f.Condition.Airflow, f.CleanDrop-read)}
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
	if h.Slot.None {
		p = r.portsWithoutSlot()
	}
	pa := func(v float64) units.Pressure { return units.Pressure(v) }
	if p.hasReturn && p.hasInlet && p.blowerInlet < p.returnPlenum {
		say("ports_swapped", "The blower inlet reads less suction (%v) than the return plenum before the filter (%v): the two ports may be swapped.",
			pa(p.blowerInlet), pa(p.returnPlenum))
	}
	if p.hasOutlet && p.hasSupply && p.supplyPlenum > p.blowerOutlet && !h.coilIsInside() {
		say("ports_swapped", "The supply plenum reads more (%v) than the blower outlet before the coil (%v): the two ports may be swapped.",
			pa(p.supplyPlenum), pa(p.blowerOutlet))
	}
	if h.Equipment.Kind == AirHandler && r.BlowerOutlet != 0 && r.SupplyPlenum != 0 {
		say("inside_handler", "The port after the blower lies inside the air handler, before its coil: its %v is not counted. Read the return and the supply outside of the cabinet.", r.BlowerOutlet)
	}
	if r.ReturnPlenum > 0 != (r.BlowerInlet > 0) && r.ReturnPlenum != 0 && r.BlowerInlet != 0 {
		say("signs_mixed", "The return plenum reads %v and the blower inlet %v: one of them has the wrong sign; both are suction and are taken so.", r.ReturnPlenum, r.BlowerInlet)
	}
	if r.BlowerOutlet < 0 || r.SupplyPlenum < 0 {
		say("signs_mixed", "A port after the blower reads below the room (%v, %v): the hoses may be swapped; it is taken as pressure.", r.BlowerOutlet, r.SupplyPlenum)
	}
	if p.hasFD && r.BlowerInlet != 0 && p.filterDrop > p.blowerInlet { // in a grille too: the plenum holds it
		say("filter_over_return", "The filter's drop (%v) is more than the whole suction at the blower inlet (%v): one of them is misread.", pa(p.filterDrop), pa(p.blowerInlet))
	}
	if p.hasReturn && r.BlowerInlet != 0 && r.FilterDrop != 0 && !h.Slot.None {
		sum := p.returnPlenum + p.filterDrop
		if !agrees(pa(p.blowerInlet), pa(sum)) {
			say("filter_sum", "Return plenum %v and filter drop %v make %v, but the blower inlet reads %v.", pa(p.returnPlenum), pa(p.filterDrop), pa(sum), pa(p.blowerInlet))
		}
	}
	return out
}
