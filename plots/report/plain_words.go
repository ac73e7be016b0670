package report

import (
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// plainWords are findings in words for someone who has never seen a gauge.
// Other findings are plain enough.
var plainWords = map[string]message.ID{
	"off_table":         "The blower would run outside the figures its maker gives, so the numbers here are a guess there.",
	"frost":             "So little air crosses the cooling coil that it will freeze over, and ice stops the air altogether.",
	"frost_risk":        "So little air crosses the cooling coil that it may freeze over.",
	"rise_high":         "In heating too little air crosses the equipment: the air leaves it hotter than its nameplate allows.",
	"supply_cool":       "In heating the air leaves the equipment cooler than its nameplate asks for, and may feel like a draft.",
	"rise_low":          "In heating the air leaves the furnace cooler than its nameplate asks for, and moisture from the flue gas may attack it.",
	"rise_high_assumed": "In heating the air may leave the equipment too hot. Its nameplate has to be read to know.",
	"rise_low_assumed":  "In heating the air may leave the equipment too cool. Its nameplate has to be read to know.",
	"airflow_low":       "The blower moves less air than the cooling needs, so it cools less than it could.",
	"airflow_short":     "The blower moves less air than it is meant to.",
	"airflow_high":      "The blower moves more air than is usual for this cooling, which takes less moisture out of it.",
	"static_high":       "The blower pushes against more resistance than the equipment is rated for.",
	"face_velocity":     "The filter's face is small for this much air: the air rushes through it.",
	"filter_drop":       "Even a new filter holds the air back more than it should.",

	"wall":     "A new grille is larger than the wall has room for.",
	"stud_bay": "A new grille does not go between the studs of its wall.",
	"room":     "The new filter place is larger than the room at the equipment.",
	"depth":    "The new filter place is deeper than the room at the equipment.",
	"merv":     "The filter is coarser than was asked for.",

	"title24_face":       "The filter is smaller than the energy code of California asks of a filter this thin.",
	"title24_drop":       "A new filter holds the air back more than the energy code of California allows.",
	"title24_merv":       "The filter is coarser than the energy code of California asks.",
	"title24_grilles":    "The filter grilles are smaller than the energy code of California asks for this much cooling.",
	"title24_airflow":    "The blower moves less air than the energy code of California asks of changed systems.",
	"title24_efficacy":   "The blower draws more electricity for its air than the energy code of California allows.",
	"title24_unmeasured": "Whether the energy code of California is kept is not known until airflow and electricity are measured.",
	"title24_ducts":      "The return ducts are smaller than the energy code of California asks for this much cooling.",
	"title24_run":        "A return duct is longer than the tables of the energy code of California allow.",
	"title24_bends":      "A return duct has more bends than the tables of the energy code of California allow.",
	"title24_table_drop": "A new filter holds the air back more than the tables of the energy code of California allow.",
	"ashrae622_merv":     "The filter is coarser than the ventilation standard ASHRAE 62.2 asks.",
	"ifgc_return_area":   "The return ducts are smaller than the fuel gas code asks for this much heat.",
}

// mostFound is how many findings an owner is shown, worst first.
const mostFound = 8

// problems are an option's stops and cautions, worst first.
func problems(o *sizing.OptionResult) []sizing.Finding {
	return slices.DeleteFunc(slices.Clone(o.Findings), func(f sizing.Finding) bool { return f.Severity == sizing.Good })
}

// effectWords head the troubles by what the proposal does about them.
var effectWords = map[sizing.Effect]message.ID{
	sizing.Removed:        "The work removes this:",
	sizing.RemovedUnsure:  "By our numbers the work removes this, but not by enough to be sure:",
	sizing.RemovedClean:   "The work removes this while the filter is clean. It comes back when the filter is dirty:",
	sizing.LimitHigher:    "This stays, but the deeper filter is made for it:",
	sizing.Lessened:       "The work makes this smaller, but does not remove it:",
	sizing.LessenedClean:  "The work makes this smaller while the filter is clean, but does not remove it:",
	sizing.Left:           "The work leaves this as it is:",
	sizing.EffectTooClose: "Whether the work helps here is too close to tell:",
	sizing.Worsened:       "The work makes this worse:",
	sizing.NotHeld:        "We cannot say how the work changes this:",
}

// against is what the proposal does to a problem.
func (p *plan) against(problem sizing.Problem) (sizing.ProblemChange, bool) {
	for _, c := range p.option.Against {
		if c.Problem == problem {
			return c, true
		}
	}
	return sizing.ProblemChange{}, false
}

// found are today's worst troubles in plain words, grouped by what the proposal
// does about them; more is true where some are left out.
func (p *plan) found(sys units.Locale, most int) (groups []problemGroup, more bool) {
	list := problems(p.today)
	for _, f := range list[:min(len(list), most)] {
		effect := ""
		if c, ok := p.against(f.Problem); ok {
			effect = message.Text(sys, effectWords[c.Effect])
		}
		i := slices.IndexFunc(groups, func(g problemGroup) bool { return g.effect == effect })
		if i < 0 {
			i = len(groups)
			groups = append(groups, problemGroup{effect: effect})
		}
		groups[i].problems = append(groups[i].problems, plainFinding(f, p.today, sys))
	}
	return groups, len(list) > most
}

// problemGroup is the problems that the proposal affects alike.
type problemGroup struct {
	effect   string
	problems []string
}

// added are the proposal's troubles that are not today's.
func (p *plan) added(sys units.Locale) []string {
	fresh := slices.DeleteFunc(problems(p.option), func(f sizing.Finding) bool {
		c, ok := p.against(f.Problem)
		return !ok || c.Effect != sizing.Added
	})
	return plainly(sys, fresh, mostFound, func(f sizing.Finding) string { return plainFinding(f, p.option, sys) })
}

func plainly(sys units.Locale, list []sizing.Finding, most int, say func(sizing.Finding) string) []string {
	var out []string
	for _, f := range list[:min(len(list), most)] {
		out = append(out, say(f))
	}
	if len(list) > most {
		out = append(out, message.Text(sys, "Smaller points are in the calculations, which you may ask for."))
	}
	return out
}

func plainFinding(f sizing.Finding, o *sizing.OptionResult, sys units.Locale) string {
	switch f.Code {
	case "leak":
		return message.Text(sys, "About {share} of the air slips past the filter uncleaned.", "share", share(o.LeakFraction, sys))
	case "filter_drop":
		if v, ok := filterShare(&o.Clean); ok {
			return message.Text(sys, "A new filter alone uses up about {share} of the pressure that the equipment is rated for.", "share", share(v, sys))
		}
	}
	if id, ok := plainWords[f.Code]; ok {
		return message.Text(sys, id)
	}
	return message.Text(sys, "{finding} (held against: {source})", "finding", f.In(sys), "source", f.Source)
}

// filterShare is the filter's drop as a share of the rated pressure.
func filterShare(c *sizing.Condition) (float64, bool) {
	for _, p := range c.Parts {
		if p.Name == sizing.PartFilter {
			return p.Share, true
		}
	}
	return 0, false
}
