package sizing

const rangeSource = "sampled uncertainty of gauge, blower table, ratings and assumptions: nine samples in ten"

// RangeFindings say of each option what the samples agree on. That it helps is
// said only where they do.
func RangeFindings(ranges []OptionRange) []Finding {
	var out []Finding
	for i := range ranges {
		r := &ranges[i]
		if r.Kind != "option" {
			continue
		}
		var s sentence
		severity, code := Caution, "upgrade_unsure"
		switch r.AgainstToday {
		case StandsBetter:
			severity, code = Good, "upgrade_helps"
			s.add("%v is better than today", r.Name)
		case StandsWorse:
			code = "upgrade_hurts"
			s.add("%v is worse than today", r.Name)
		case StandsMixed:
			code = "upgrade_mixed"
			s.add("%v moves less air than today for fewer watts", r.Name)
		default:
			s.add("%v against today is too close to tell: what is known of the house is too uncertain to say that it helps", r.Name)
		}
		r.tell(&s)
		f := newFinding(severity, code, rangeSource, s.format, s.args...)
		f.Option = r.Name
		out = append(out, f)
	}
	return out
}

// tell adds the differences: those that are sure with their sense, the airflow
// in any case.
func (r *OptionRange) tell(s *sentence) {
	switch r.MoreAir.Standing() {
	case StandsBetter:
		s.add(": it moves %v to %v more air.", r.AirflowGain.Low, r.AirflowGain.High)
	case StandsWorse:
		less := r.AirflowGain.turned()
		s.add(": it moves %v to %v less air.", less.Low, less.High)
	default:
		s.add(": its airflow differs by %v to %v.", r.AirflowGain.Low, r.AirflowGain.High)
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
		s.add(" Power and filters come to %v to %v less a year.", r.AnnualSaved.Low, r.AnnualSaved.High)
	case StandsWorse:
		more := r.AnnualSaved.turned()
		s.add(" Power and filters come to %v to %v more a year.", more.Low, more.High)
	}
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
