package compare

import "returnbench/sizing/study"

const rangeSource = "sampled uncertainty of gauge, blower table and its reading between rows, ratings, pleat model, ducts and grilles, and assumptions: nine samples in ten"

// RangeFindings say of each option what the samples agree on. That it helps is
// said only where they do.
func RangeFindings(ranges []OptionRange) []study.Finding {
	var out []study.Finding
	for i := range ranges {
		r := &ranges[i]
		if r.Kind != study.KindOption {
			continue
		}
		severity, code := study.Caution, "upgrade_unsure"
		switch r.AgainstToday {
		case StandsBetter:
			severity, code = study.Good, "upgrade_helps"
		case StandsWorse:
			code = "upgrade_hurts"
		case StandsMixed:
			code = "upgrade_mixed"
		}
		s := r.describe()
		f := study.NewFinding(severity, code, rangeSource, s.Format, s.Args...)
		f.Option = r.Name
		out = append(out, f)
	}
	return out
}

// describe are the differences from today: the airflow in any case, the others
// where they are sure.
func (r *OptionRange) describe() study.Sentence {
	var s study.Sentence
	switch r.MoreAir.Standing() {
	case StandsBetter:
		s.Add("%v moves %v to %v more air than today.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	case StandsWorse:
		less := r.AirflowGain.turned()
		s.Add("%v moves %v to %v less air than today.", r.Name, less.Low, less.High)
	default:
		s.Add("The airflow of %v is too close to today's to tell them apart: %v to %v more.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	}
	switch r.FewerWatts.Standing() {
	case StandsBetter:
		s.Add(" Its blower draws %v to %v less.", r.PowerSaved.Low, r.PowerSaved.High)
	case StandsWorse:
		more := r.PowerSaved.turned()
		s.Add(" Its blower draws %v to %v more.", more.Low, more.High)
	}
	switch r.CheaperAYear.Standing() {
	case StandsBetter:
		s.Add(" Power and filters for the same cooling come to %v to %v less a year.", r.AnnualSaved.Low, r.AnnualSaved.High)
	case StandsWorse:
		more := r.AnnualSaved.turned()
		s.Add(" Power and filters for the same cooling come to %v to %v more a year.", more.Low, more.High)
	}
	if r.AgainstToday == StandsTooClose {
		s.Add(" Too little is known of the house to say that it helps.")
	}
	return s
}
