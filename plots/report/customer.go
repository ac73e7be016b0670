package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
)

const mostChanges = 5

// measuredWords tell what a gauge said about the house as it is.
func (d *document) measuredWords() []string {
	var out []string
	for i, r := range d.study.Readings {
		if r.Option != "" && r.Option != sizing.TodayName || r.Airflow == 0 {
			continue
		}
		when := strings.TrimSpace(r.Label)
		if i < len(d.job.Readings) && d.job.Readings[i].Date != "" {
			when = strings.Trim(when+", "+d.job.Readings[i].Date, ", ")
		}
		how := "By the pressures that a gauge read"
		if r.AirflowBasis == "measured" {
			how = "Measured"
		}
		if when != "" {
			how += " (" + when + ")"
		}
		out = append(out, fmt.Sprintf("%s, the blower moved about %s.", how, about(r.Airflow, d.System)))
	}
	return out[:min(len(out), 2)]
}

// reasonWords tell an owner why a change is proposed; a reason that is not here
// speaks for itself.
var reasonWords = map[sizing.Reason]string{
	sizing.OnlyOne:       "Of the changes that we compared it is the only one that helps.",
	sizing.FewestStops:   "Of the changes that we compared it leaves the fewest faults that have to be put right.",
	sizing.MostRemoved:   "Of the changes that we compared it removes the most of what is wrong, with a new filter and with a dirty one.",
	sizing.KeepsFineness: "Of the changes that help as much it does not clean the air less than today's filter.",
}

// todayWords say why nothing is proposed.
func (d *document) todayWords() string {
	switch r := d.study.Recommendation; r.Reason {
	case sizing.NoneNeeded, sizing.NoneImproves, sizing.TooCloseToSay:
		return r.Why.Lead(d.System) + " " + d.answerWords()
	case sizing.NoOptions, "":
		return "No change is laid out for comparison yet. " + d.answerWords()
	}
	return "This page shows the house as it is."
}

// answerWords name the smallest sizes that meet the job's target.
func (d *document) answerWords() string {
	var out []string
	a := d.study.Answer
	for _, c := range []struct {
		what string
		size *sizing.Size
	}{{"a return grille", a.Grille}, {"a filter slot", a.Slot}, {"a deeper filter cabinet", a.Cabinet}} {
		if c.size != nil && c.size.Meets {
			out = append(out, c.what+" of "+c.size.Label)
		}
	}
	if words := d.study.Answer.In(d.System); words != "" {
		return words
	}
	return "The smallest usual sizes that would meet the target: " + strings.Join(out, ", or ") + "."
}
