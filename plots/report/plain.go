package report

import (
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// plainWords tell a finding to someone who has never seen a gauge. A finding
// that is not here speaks for itself.
var plainWords = map[string]string{
	"off_table":     "The blower would run outside the figures its maker gives, so the numbers here are a guess there.",
	"frost":         "So little air crosses the cooling coil that it can freeze over, and ice stops the air altogether.",
	"rise_high":     "In heating too little air crosses the furnace: the air leaves it hotter than its nameplate allows.",
	"rise_low":      "In heating the air leaves the furnace cooler than its nameplate asks for, and moisture from the flue gas may attack it.",
	"airflow_low":   "The blower moves less air than the cooling needs, so it cools less than it could.",
	"airflow_short": "The blower moves less air than it is meant to.",
	"airflow_high":  "The blower moves more air than is usual for this cooling, which takes less moisture out of it.",
	"static_high":   "The blower pushes against more resistance than the equipment is rated for.",
	"face_velocity": "The filter's face is small for this much air: the air rushes through it.",
	"filter_drop":   "Even a new filter holds the air back more than it should.",

	"title24_face":     "The filter is smaller than the energy code of California asks of a filter this thin.",
	"title24_drop":     "A new filter holds the air back more than the energy code of California allows.",
	"title24_merv":     "The filter is coarser than the energy code of California asks.",
	"title24_grilles":  "The filter grilles are smaller than the energy code of California asks for this much cooling.",
	"title24_airflow":  "The blower moves less air than the energy code of California asks of changed systems.",
	"title24_efficacy": "The blower draws more electricity for its air than the energy code of California allows.",
	"ashrae622_merv":   "The filter is coarser than the ventilation standard ASHRAE 62.2 asks.",
	"ifgc_return_area": "The return ducts are smaller than the fuel gas code asks for this furnace's heat.",
}

// plainFindings are an option's cautions and stops in plain words, gravest
// first, at most n.
func plainFindings(o *sizing.OptionResult, sys units.System, n int) []string {
	var out []string
	for _, f := range o.Findings {
		if f.Severity == sizing.Good {
			continue
		}
		out = append(out, plainFinding(f, o, sys))
	}
	if len(out) > n {
		left := len(out) - n + 1
		out = append(out[:n-1:n-1], fmt.Sprintf("And %d more, which the pages of working list.", left))
	}
	return out
}

func plainFinding(f sizing.Finding, o *sizing.OptionResult, sys units.System) string {
	switch f.Code {
	case "leak":
		return fmt.Sprintf("About %s of the air slips past the filter uncleaned.", share(o.LeakFraction))
	case "filter_drop":
		if v, ok := filterShare(&o.Clean); ok {
			return fmt.Sprintf("A new filter alone uses up about %s of the pressure that the equipment is rated for.", share(v))
		}
	}
	if text, ok := plainWords[f.Code]; ok {
		return text
	}
	return fmt.Sprintf("%s (held against: %s)", f.In(sys), f.Source)
}

// filterShare is what the filter takes of the rated pressure.
func filterShare(c *sizing.Condition) (float64, bool) {
	for _, p := range c.Parts {
		if p.Name == "filter" {
			return p.Share, true
		}
	}
	return 0, false
}
