package sizing

import (
	"math"
	"slices"

	"returnbench/sizing/units"
)

// Clauses of the sets of published limits. The figures of the energy code are
// from secondary text and from memory except the fan efficacy; each finding
// says to check the official text.
const (
	title24          = "California Energy Code, Title 24 part 6, 150.0(m); check the official text"
	title24Efficacy  = "California Energy Code 2019, Residential Compliance Manual 4.1.2; check the official text"
	title24LowAir    = 300 * units.CFMPerTon
	title24Thin      = 150 * units.FPM // face area of a 1 in filter at least airflow / 150
	title24CleanDrop = 0.1 * units.InchWater
	title24MERV      = 13
	efficacyFurnace  = 0.45 * units.WattPerCFM
	efficacyOther    = 0.58 * units.WattPerCFM
)

// checkSets holds an option against the sets of limits that the job names.
// They are never a permit.
func (h *house) checkSets(o *OptionResult) []Finding {
	if !slices.Contains(h.Limits.Checks, Title24) {
		return nil
	}
	var out []Finding
	hold := func(ok bool, code, source, passed, failed string, args ...any) {
		if ok {
			out = append(out, newFinding(Good, code, source, passed, args...))
		} else {
			out = append(out, newFinding(Caution, code, source, failed, args...))
		}
	}
	limit := efficacyOther
	if h.Equipment.Kind != AirHandler {
		limit = efficacyFurnace
	}
	if o.Clean.BlowerPower > 0 {
		hold(o.Clean.FanEfficacy <= limit, "title24_efficacy", title24Efficacy,
			"Fan efficacy %v keeps the limit of %v.", "Fan efficacy %v is over the limit of %v.", o.Clean.FanEfficacy, limit)
	}
	hold(o.Clean.AirflowPerCapacity >= title24LowAir, "title24_airflow", title24,
		"%v keeps the least airflow for alterations, %v.", "%v is under the least airflow for alterations, %v.", o.Clean.AirflowPerCapacity, title24LowAir)
	hold(o.Efficiency.MERV >= title24MERV, "title24_merv", title24,
		"MERV %v keeps the least rating, MERV %v.", "MERV %v is under the least rating, MERV %v.", o.Efficiency.MERV, title24MERV)
	return append(out, h.title24Filter(o)...)
}

// title24Filter is the rule for filters: 2 in deep or more and sized by the
// designer, or 1 in deep with enough face; and a low clean drop.
func (h *house) title24Filter(o *OptionResult) []Finding {
	if o.FaceArea == 0 {
		return nil
	}
	var out []Finding
	if o.filterDepth > 0 && o.filterDepth < 1.9*units.Inch {
		need := units.Area(float64(h.DesignAirflow) / float64(title24Thin))
		if o.FaceArea*1.0001 < need {
			out = append(out, newFinding(Caution, "title24_face", title24,
				"A filter 1 in deep wants %v of face for %v; there is %v.", need, h.DesignAirflow, o.FaceArea))
		} else {
			out = append(out, newFinding(Good, "title24_face", title24, "The face of %v keeps the %v asked of a filter 1 in deep.", o.FaceArea, need))
		}
		at := dropAt(o.FilterCurve, units.Speed(float64(h.DesignAirflow)/float64(o.FaceArea)))
		if at > title24CleanDrop {
			out = append(out, newFinding(Caution, "title24_drop", title24, "The clean drop at the design airflow is %v, over %v.", at, title24CleanDrop))
		}
	}
	return out
}

// dropAt reads a filter curve between its points.
func dropAt(curve []FaceDrop, v units.Speed) units.Pressure {
	before := FaceDrop{}
	for _, p := range curve {
		if p.FaceVelocity >= v {
			t := float64(v-before.FaceVelocity) / float64(p.FaceVelocity-before.FaceVelocity)
			return before.Drop + units.Pressure(t)*(p.Drop-before.Drop)
		}
		before = p
	}
	return units.Pressure(math.Inf(1))
}
