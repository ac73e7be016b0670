package sizing

const rangeSource = "sampled uncertainty of gauge, blower table and its reading between rows, ratings, pleat model, ducts and grilles, and assumptions: nine samples in ten"

// RangeFindings say of each option what the samples agree on. That it helps is
// said only where they do.
func RangeFindings(ranges []OptionRange) []Finding {
	var out []Finding
	for i := range ranges {
		r := &ranges[i]
		if r.Kind != KindOption {
			continue
		}
		severity, code := Caution, "upgrade_unsure"
		switch r.AgainstToday {
		case StandsBetter:
			severity, code = Good, "upgrade_helps"
		case StandsWorse:
			code = "upgrade_hurts"
		case StandsMixed:
			code = "upgrade_mixed"
		}
		s := r.told()
		f := newFinding(severity, code, rangeSource, s.format, s.args...)
		f.Option = r.Name
		out = append(out, f)
	}
	return out
}

// told are the differences from today: the airflow in any case, the others
// where they are sure.
func (r *OptionRange) told() sentence {
	var s sentence
	switch r.MoreAir.Standing() {
	case StandsBetter:
		s.add("%v moves %v to %v more air than today.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	case StandsWorse:
		less := r.AirflowGain.turned()
		s.add("%v moves %v to %v less air than today.", r.Name, less.Low, less.High)
	default:
		s.add("The airflow of %v is too close to today's to tell them apart: %v to %v more.", r.Name, r.AirflowGain.Low, r.AirflowGain.High)
	}
	switch r.FewerWatts.Standing() {
	case StandsBetter:
		s.add(" Its blower draws %v to %v less.", r.PowerSaved.Low, r.PowerSaved.High)
	case StandsWorse:
		more := r.PowerSaved.turned()
		s.add(" Its blower draws %v to %v more.", more.Low, more.High)
	}
	switch r.CheaperAYear.Standing() {
	case StandsBetter:
		s.add(" Power and filters for the same cooling come to %v to %v less a year.", r.AnnualSaved.Low, r.AnnualSaved.High)
	case StandsWorse:
		more := r.AnnualSaved.turned()
		s.add(" Power and filters for the same cooling come to %v to %v more a year.", more.Low, more.High)
	}
	if r.AgainstToday == StandsTooClose {
		s.add(" Too little is known of the house to say that it helps.")
	}
	return s
}

// sentence grows by parts, each a format with its quantities.
type sentence struct {
	format string
	args   []any
}

func (s *sentence) add(format string, args ...any) {
	s.format += format
	s.args = append(s.args, args...)
}
