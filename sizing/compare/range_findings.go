package compare

import (
	"returnbench/sizing/message"
	"returnbench/sizing/study"
)

const rangeSource = "sampled uncertainty of gauge, blower table and its reading between rows, ratings, pleat model, ducts and grilles, and assumptions: nine samples in ten"

// RangeFindings are, for each option, the differences from today on which the
// samples agree. An option is said to help only where they agree on that.
func RangeFindings(ranges []OptionRange) []study.Finding {
	var out []study.Finding
	for i := range ranges {
		r := &ranges[i]
		if r.Kind != study.KindOption {
			continue
		}
		severity, code := study.Caution, "upgrade_unsure"
		switch r.AgainstToday {
		case ClaimBetter:
			severity, code = study.Good, "upgrade_helps"
		case ClaimWorse:
			code = "upgrade_hurts"
		case ClaimMixed:
			code = "upgrade_mixed"
		}
		f := study.FindingOf(severity, code, rangeSource, r.describe())
		f.Option = r.Name
		out = append(out, f)
	}
	return out
}

// describe lists the differences from today: the airflow always, the others
// where the samples agree.
func (r *OptionRange) describe() message.Sentences {
	var s message.Sentences
	add := func(text message.ID, name string, low, high any) {
		s = append(s, message.New(text, "option", name, "low", low, "high", high))
	}
	switch r.MoreAir.Claim() {
	case ClaimBetter:
		add("{option} moves {low} to {high} more air than today.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	case ClaimWorse:
		less := r.AirflowGain.negated()
		add("{option} moves {low} to {high} less air than today.", r.Name, less.Low, less.High)
	default:
		add("The airflow of {option} is too close to today's to tell them apart: {low} to {high} more.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	}
	switch r.FewerWatts.Claim() {
	case ClaimBetter:
		add("Its blower draws {low} to {high} less.", r.Name, r.PowerSaved.Low, r.PowerSaved.High)
	case ClaimWorse:
		more := r.PowerSaved.negated()
		add("Its blower draws {low} to {high} more.", r.Name, more.Low, more.High)
	}
	switch r.CheaperAYear.Claim() {
	case ClaimBetter:
		add("Power and filters for the same cooling come to {low} to {high} less a year.", r.Name, r.AnnualSaved.Low, r.AnnualSaved.High)
	case ClaimWorse:
		more := r.AnnualSaved.negated()
		add("Power and filters for the same cooling come to {low} to {high} more a year.", r.Name, more.Low, more.High)
	}
	if r.AgainstToday == ClaimTooClose {
		s = append(s, message.New("Too little is known of the house to say that it helps."))
	}
	return s
}
