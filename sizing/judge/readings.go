package judge

import (
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// JudgeReadings looks for rounds that contradict themselves or the prediction.
func JudgeReadings(h *house.House, s *study.Study) []study.Finding {
	out := append(judgeReturn(h, s), judgeFound(h, s)...)
	for _, r := range s.Readings {
		out = append(out, r.Findings...)
	}
	return out
}

// RoundFindings are the contradictions of a round, in itself or with the
// prediction, or else that it agrees. For the round by which the study is
// calibrated, agreement is no finding.
func RoundFindings(h *house.House, r *job.Reading, result study.ReadingResult) []study.Finding {
	out := contradictions(h, r)
	if result.Airflow == 0 {
		return out
	}
	if f := JudgeResult(result); f.Severity != study.Good || !result.CalibratesStudy {
		out = append(out, f)
	}
	return out
}

// judgeReturn compares the drop of the return that was read with that of its
// description: the excess is reported as a loss of its own.
func judgeReturn(h *house.House, s *study.Study) []study.Finding {
	g := h.Gauge
	if g.Described == 0 {
		return nil
	}
	read := units.Pressure(h.PortsRead(g.Round).ReturnPlenum)
	switch {
	case Agrees(read, g.Described):
		return nil
	case g.Unexplained > 0:
		return []study.Finding{study.NewFinding(study.Caution, study.CodeUnexplained, readingSource,
			"{loss} of return drop is not explained by what you described: the return reads {read} at {airflow}, the parts described add up to {described}. Look for a crushed flex, a closed damper or a blocked grille. Until you find it, it stays in today and in every option, and no duct is judged by it.",
			"loss", g.Unexplained, "read", read, "airflow", g.Flow, "described", g.Described).Then(sameLoss, sameLossNow(s)...)}
	}
	return []study.Finding{study.NewFinding(study.Caution, "return_unlike", readingSource,
		"The return reads {read} at {airflow}, {less} less than the parts described. Check the sizes typed. Until then the gauge counts for what stays, and new parts count as described.",
		"read", read, "airflow", g.Flow, "less", g.Described-read)}
}

// sameLoss is the unexplained loss as parts, charts and calculations show it: it grows
// with the airflow, which is not that of the reading once the filter is clean.
const sameLoss message.ID = "Today, with a clean filter, it is {loss} at {airflow}."

func sameLossNow(s *study.Study) []any {
	c := &s.Today().Clean
	part, _ := study.First(c.Parts, func(p study.PartDrop) bool { return p.Name == airpath.PartUnexplained })
	return []any{"loss", part.Drop, "airflow", c.Airflow}
}

// foundSources are readingSource with the basis of the clean drop.
var foundSources = map[string]message.ID{
	"rating":  readingSource + "; the clean drop by " + study.LawByRating,
	"make":    readingSource + "; the clean drop by " + study.LawByMake,
	"generic": readingSource + "; the clean drop by " + study.LawGeneric,
	"gauge":   readingSource + "; the clean drop by " + study.LawByGauge,
}

// judgeFound reports how much of the filter drop read is the clean filter and
// how much is dust.
func judgeFound(h *house.House, s *study.Study) []study.Finding {
	f := s.AsFound
	if f == nil || f.CleanDrop == 0 || f.FilterIsClean {
		return nil
	}
	read := f.CleanDrop * units.Pressure(h.Gauge.FoundScale)
	source := foundSources[s.Today().LawSource]
	switch {
	case Agrees(read, f.CleanDrop):
		return nil
	case read > f.CleanDrop:
		return []study.Finding{study.NewFinding(study.Caution, "filter_found", source,
			"The filter as found drops {drop} at {airflow}: {clean} is the clean filter and {dust} is dust. Change it. Today is solved with a clean one. If the filter was new or another make, say so in the readings.",
			"drop", read, "airflow", f.Condition.Airflow, "clean", f.CleanDrop, "dust", read-f.CleanDrop)}
	}
	return []study.Finding{study.NewFinding(study.Caution, "filter_reads_low", source,
		"The filter as found drops {drop} at {airflow}, {less} less than a clean one of its make. Check its make, its seal and the reading. Today goes by its make.",
		"drop", read, "airflow", f.Condition.Airflow, "less", f.CleanDrop-read)}
}

// JudgeResult reports whether a round agrees with the study, and what to look at
// first where it does not.
func JudgeResult(r study.ReadingResult) study.Finding {
	off := float64(r.Airflow)/float64(r.PredictedAirflow) - 1
	if p, is := study.First(r.Parts, func(p study.ReadingRow) bool { return p.Name == message.ID(r.Suspect) }); is {
		return study.NewFinding(study.Caution, "reading_part", readingSource, "{reading}: the {part} reads {read}, expected {expected} at {airflow}. Look there first.",
			"reading", r.Label, "part", p.Name, "read", p.Measured, "expected", p.Predicted, "airflow", r.Airflow)
	}
	if math.Abs(off) >= ReadingShare {
		return study.NewFinding(study.Caution, "reading_airflow", readingSource, "{reading}: airflow is {airflow} ({basis}), expected {expected}.",
			"reading", r.Label, "airflow", r.Airflow, "basis", r.AirflowBasis, "expected", r.PredictedAirflow).Then(doubt(&r))
	}
	if p, is := study.First(r.Rows, func(p study.ReadingRow) bool { return !p.Agrees }); is {
		return study.NewFinding(study.Caution, "reading_port", readingSource, "{reading}: the airflow agrees, but the gauge reads {read} at the {port}, expected {expected}. Read it again.",
			"reading", r.Label, "read", p.Measured, "port", p.Name, "expected", p.Predicted)
	}
	if m, is := study.First(r.OtherQuantities, func(m study.ReadingMatch) bool { return !m.Agrees }); is {
		return study.NewFinding(study.Caution, "reading_other", readingSource+"; of a temperature 3 °F (1.7 °C)", "{reading}: the pressures agree, but the {figure} reads {read}, expected {expected}. Read it again.",
			"reading", r.Label, "figure", m.Name, "read", m.Measured, "expected", m.Predicted)
	}
	return study.NewFinding(study.Good, "reading_agrees", readingSource, "{reading}: every reading agrees. Airflow is {airflow}, expected {expected}.",
		"reading", r.Label, "airflow", r.Airflow, "expected", r.PredictedAirflow)
}

// doubt is what to check where the airflow differs and no part does, by the
// basis of the airflow.
func doubt(r *study.ReadingResult) message.ID {
	switch {
	case r.AirflowBasis == house.ByTable:
		return "The parts read agree: read the others and check the tap."
	case r.AirflowBasis == house.ByRise:
		return "Check the heating output and the two temperatures."
	case len(r.Parts) == 0:
		return "Read the ports to see which part differs."
	}
	return "The parts read agree: check tap, speed and table."
}

// contradictions finds readings that cannot all be true of one air path.
func contradictions(h *house.House, r *job.Reading) []study.Finding {
	var out []study.Finding
	raise := func(code string, text message.ID, args ...any) {
		out = append(out, study.NewFinding(study.Caution, code, "continuity of pressure along the air path", text, args...))
	}
	p := r.Ports()
	if h.Slot.None {
		p = house.PortsWithoutSlot(r)
	}
	pa := func(v float64) units.Pressure { return units.Pressure(v) }
	if p.HasReturn && p.HasInlet && p.BlowerInlet < p.ReturnPlenum {
		raise("ports_swapped", "The blower inlet reads less suction ({inlet}) than the return plenum before the filter ({plenum}). Check whether the two ports are swapped.",
			"inlet", pa(p.BlowerInlet), "plenum", pa(p.ReturnPlenum))
	}
	if p.HasOutlet && p.HasSupply && p.SupplyPlenum > p.BlowerOutlet && !h.CoilIsInside() {
		raise("ports_swapped", "The supply plenum reads more ({plenum}) than the blower outlet before the coil ({outlet}). Check whether the two ports are swapped.",
			"plenum", pa(p.SupplyPlenum), "outlet", pa(p.BlowerOutlet))
	}
	if h.Equipment.Kind == job.AirHandler && r.BlowerOutlet != 0 && r.SupplyPlenum != 0 {
		raise("inside_handler", "The port after the blower is inside the air handler, before its coil: its {read} is not counted. Read the return and the supply outside the cabinet.", "read", r.BlowerOutlet)
	}
	if r.ReturnPlenum > 0 != (r.BlowerInlet > 0) && r.ReturnPlenum != 0 && r.BlowerInlet != 0 {
		raise("signs_mixed", "The return plenum reads {plenum} and the blower inlet {inlet}: one sign is wrong. Both are taken as suction.", "plenum", r.ReturnPlenum, "inlet", r.BlowerInlet)
	}
	if r.BlowerOutlet < 0 || r.SupplyPlenum < 0 {
		raise("signs_mixed", "A port after the blower reads suction ({outlet}, {plenum}). Check the hoses. It is taken as pressure.", "outlet", r.BlowerOutlet, "plenum", r.SupplyPlenum)
	}
	if p.HasFD && r.BlowerInlet != 0 && p.FilterDrop > p.BlowerInlet { // also of a filter in a grille: the plenum's static contains its drop
		raise("filter_over_return", "The filter drop ({drop}) is more than the suction at the blower inlet ({inlet}). Read both again.", "drop", pa(p.FilterDrop), "inlet", pa(p.BlowerInlet))
	}
	if p.HasReturn && r.BlowerInlet != 0 && r.FilterDrop != 0 && !h.Slot.None {
		sum := p.ReturnPlenum + p.FilterDrop
		if !Agrees(pa(p.BlowerInlet), pa(sum)) {
			raise("filter_sum", "Return plenum {plenum} and filter drop {drop} add up to {sum}, but the blower inlet reads {inlet}. Read them again.",
				"plenum", pa(p.ReturnPlenum), "drop", pa(p.FilterDrop), "sum", pa(sum), "inlet", pa(p.BlowerInlet))
		}
	}
	return out
}
