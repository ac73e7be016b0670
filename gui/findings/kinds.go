package findings

import (
	"slices"

	"returnbench/gui/notices"
	"returnbench/sizing"
)

// kind is one problem of the house or of its options, shown once.
type kind struct {
	problem sizing.Problem
	finding sizing.Finding // today's, or the worst of an option
	today   bool
	with    []string // options that have it
	removes []string // options with which it goes away
	unsure  []string // options with which it goes away, but not surely
	lessens []string // options that take some of it away
}

func problemOf(f *sizing.Finding) sizing.Problem {
	if f.Problem != "" {
		return f.Problem
	}
	return sizing.Problem(f.Code)
}

// kinds are the problems of a Study: those of today's house first, worst first,
// then those that an option brings.
func kinds(study *sizing.Study) (today, brought []*kind) {
	options := map[string]bool{}
	for i := range study.Options {
		if o := &study.Options[i]; o.Kind == sizing.KindOption {
			options[o.Name] = true
		}
	}
	byProblem := map[sizing.Problem]*kind{}
	find := func(f *sizing.Finding, now bool) *kind {
		p := problemOf(f)
		k := byProblem[p]
		if k == nil {
			k = &kind{problem: p, finding: *f, today: now}
			byProblem[p] = k
			if now {
				today = append(today, k)
			} else {
				brought = append(brought, k)
			}
		}
		return k
	}
	for i := range study.Findings {
		if f := &study.Findings[i]; f.Severity != sizing.Good && (f.Option == "" || f.Option == study.Today().Name) {
			find(f, true)
		}
	}
	for i := range study.Findings {
		f := &study.Findings[i]
		if f.Severity == sizing.Good || !options[f.Option] {
			continue
		}
		if k := find(f, false); !slices.Contains(k.with, f.Option) {
			k.with = append(k.with, f.Option)
		}
	}
	for i := range study.Options {
		noteEffects(&study.Options[i], byProblem)
	}
	return today, brought
}

// noteEffects notes what an option does to each problem.
func noteEffects(o *sizing.OptionResult, byProblem map[sizing.Problem]*kind) {
	for _, c := range o.Against {
		k := byProblem[c.Problem]
		if k == nil {
			continue
		}
		switch c.Effect {
		case sizing.Removed:
			k.removes = append(k.removes, o.Name)
		case sizing.RemovedUnsure:
			k.unsure = append(k.unsure, o.Name)
		case sizing.RemovedClean, sizing.Lessened, sizing.LessenedClean, sizing.LimitHigher:
			k.lessens = append(k.lessens, o.Name)
		}
	}
}

// Problems is how many problems today's house has.
func Problems(study *sizing.Study) int {
	today, _ := kinds(study)
	return len(today)
}

// Worst names the worst of them; empty where there is none.
func Worst(study *sizing.Study) string {
	today, _ := kinds(study)
	if len(today) == 0 {
		return ""
	}
	return notices.Title(today[0].problem)
}

// fields are where a person looks first to put a problem right.
var fields = map[sizing.Problem]string{
	sizing.OffTable:     "equipment.blower.taps",
	sizing.Frost:        "equipment.blower.cooling_tap",
	sizing.FrostRisk:    "equipment.blower.cooling_tap",
	sizing.RiseHigh:     "equipment.blower.heating_tap",
	sizing.RiseLow:      "equipment.blower.heating_tap",
	sizing.AirflowShort: "design_airflow",
	sizing.AirflowHigh:  "equipment.blower.cooling_tap",
	sizing.StaticHigh:   "equipment.rated_external_static",
	sizing.FaceVelocity: "target_face_velocity",
	sizing.FilterDrop:   "limits.max_filter_drop",
	sizing.FilterLeak:   "slot.gap",
	"merv":              "limits.min_merv",
	"over_budget":       "limits.budget",
	"assumed":           "returns",
}
