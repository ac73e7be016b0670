package report

import (
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

const mostChanges = 5

// measuredWords are the gauge readings of the house as it is.
func (d *document) measuredWords() []string {
	var out []string
	for i, r := range d.study.Readings {
		if r.Option != "" && r.Option != sizing.TodayName || r.Airflow == 0 {
			continue
		}
		when := strings.TrimSpace(r.Label)
		if i < len(d.job.Readings) && d.job.Readings[i].Date != "" {
			when = strings.Trim(when+", "+shortDate(d.job.Readings[i].Date, d.System), ", ")
		}
		id := message.ID("By the pressures that a gauge read, the blower moved about {airflow}, with the filter that was in it.")
		switch measured := r.AirflowBasis == "measured"; {
		case measured && when != "":
			id = "Measured ({when}), the blower moved about {airflow}, with the filter that was in it."
		case measured:
			id = "Measured, the blower moved about {airflow}, with the filter that was in it."
		case when != "":
			id = "By the pressures that a gauge read ({when}), the blower moved about {airflow}, with the filter that was in it."
		}
		out = append(out, d.say(id, "when", when, "airflow", about(r.Airflow, d.System)))
	}
	return out[:min(len(out), 2)]
}

// reasonWords explain to an owner why a change is proposed; other reasons need
// no explanation.
var reasonWords = map[sizing.Reason]message.ID{
	sizing.OnlyOne:       "Of the changes that we compared it is the only one that helps.",
	sizing.FewestStops:   "Of the changes that we compared it leaves the fewest faults that have to be put right.",
	sizing.MostRemoved:   "Of the changes that we compared it removes the most of what is wrong, with a new filter and with a dirty one.",
	sizing.KeepsFineness: "Of the changes that help as much it does not clean the air less than today's filter.",
}

// todayWords explain why nothing is proposed.
func (d *document) todayWords() string {
	switch r := d.study.Recommendation; r.Reason {
	case sizing.NoneNeeded, sizing.NoneImproves, sizing.ReasonTooClose:
		return r.Why.Lead(d.System) + " " + d.answerWords()
	case sizing.NoOptions, "":
		return d.say("No change is laid out for comparison yet.") + " " + d.answerWords()
	}
	return d.say("This page shows the house as it is.")
}

// answerWords name the smallest sizes that meet the job's target.
func (d *document) answerWords() string {
	if words := d.study.SuggestedSizes.In(d.System); words != "" {
		return words
	}
	var out []any
	a := d.study.SuggestedSizes
	for _, c := range []struct {
		what message.ID
		size *sizing.Size
	}{{"a return grille of {size}", a.Grille}, {"a filter slot of {size}", a.Slot}, {"a deeper filter cabinet of {size}", a.Cabinet}} {
		if c.size != nil && c.size.MeetsAll {
			out = append(out, message.New(c.what, "size", c.size.Label))
		}
	}
	switch len(out) {
	case 3:
		return d.say("The smallest usual sizes that would meet the target: {first}, or {second}, or {third}.", "first", out[0], "second", out[1], "third", out[2])
	case 2:
		return d.say("The smallest usual sizes that would meet the target: {first}, or {second}.", "first", out[0], "second", out[1])
	}
	return d.say("The smallest usual sizes that would meet the target: {sizes}.", "sizes", message.Rows{Items: out})
}
