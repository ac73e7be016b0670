package sizing

import "returnbench/sizing/units"

// judgeReadings looks for rounds that contradict themselves or the prediction.
func (h *house) judgeReadings(s *Study) []Finding {
	var out []Finding
	for i := range h.Readings {
		out = append(out, contradictions(&h.Readings[i])...)
	}
	for _, r := range s.Readings {
		if r.Airflow == 0 || r.PredictedAirflow == 0 {
			continue
		}
		off := float64(r.PredictedAirflow)/float64(r.Airflow) - 1
		if off > airflowAgreement || off < -airflowAgreement {
			out = append(out, newFinding(Caution, "reading_differs", "10 % agreement: "+commonPractice,
				"%s: the gauge says %v (%s), the study expects %v.", r.Label, r.Airflow, r.AirflowBasis, r.PredictedAirflow))
		}
	}
	return out
}

// airflowAgreement is how far a reading and the study may lie apart.
const airflowAgreement = 0.10

// contradictions finds readings that cannot all be true of one air path.
func contradictions(r *Reading) []Finding {
	var out []Finding
	say := func(code, format string, args ...any) {
		out = append(out, newFinding(Caution, code, "continuity of pressure along the air path", format, args...))
	}
	p := r.ports()
	if p.hasReturn && p.hasInlet && p.blowerInlet < p.returnPlenum {
		say("ports_swapped", "The blower inlet reads less suction (%v) than the return plenum before the filter (%v): the two ports may be swapped.",
			units.Pressure(p.blowerInlet), units.Pressure(p.returnPlenum))
	}
	if p.hasOutlet && p.hasSupply && p.supplyPlenum > p.blowerOutlet {
		say("ports_swapped", "The supply plenum reads more (%v) than the blower outlet before the coil (%v): the two ports may be swapped.",
			units.Pressure(p.supplyPlenum), units.Pressure(p.blowerOutlet))
	}
	if p.hasFD && r.BlowerInlet != 0 && p.filterDrop > p.blowerInlet {
		say("filter_over_return", "The filter's drop (%v) is more than the whole suction at the blower inlet (%v): one of them is misread.",
			units.Pressure(p.filterDrop), units.Pressure(p.blowerInlet))
	}
	if p.hasReturn && r.BlowerInlet != 0 && r.FilterDrop != 0 {
		sum := p.returnPlenum + p.filterDrop
		if diff := p.blowerInlet - sum; diff > 0.2*p.blowerInlet || diff < -0.2*p.blowerInlet {
			say("filter_sum", "Return plenum %v and filter drop %v make %v, but the blower inlet reads %v.",
				units.Pressure(p.returnPlenum), units.Pressure(p.filterDrop), units.Pressure(sum), units.Pressure(p.blowerInlet))
		}
	}
	return out
}
