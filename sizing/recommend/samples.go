package recommend

import (
	"returnbench/sizing/compare"
	"returnbench/sizing/study"
)

// sampledPair is one problem in the samples of an option and of today.
type sampledPair struct {
	option, today *compare.OptionRange
	problem       study.Problem
}

func (p sampledPair) known() bool {
	_, _, ok := p.drawn(study.WhenClean)
	return ok
}

func (p sampledPair) drawn(state study.FilterState) (option, today *compare.DrawnLimit, ok bool) {
	if p.option == nil || p.today == nil {
		return nil, nil, false
	}
	key := compare.LimitKey{Problem: p.problem, State: state}
	option, today = p.option.Limits[key], p.today.Limits[key]
	return option, today, option != nil && today != nil && len(option.Worse) > 0 && len(option.Worse) == len(today.Worse)
}

// agree weakens a change that too few samples confirm. A problem counts as removed
// where in compare.SureShare of them the option keeps the limit and the figure is
// better by a noticeable amount, as removed but not surely where the figure is better in as many
// but keeps the limit in fewer, and as lessened or worse where in as many the figure
// moved by that amount. A problem that the option adds is always reported: a warning
// needs no certainty.
func (p sampledPair) agree(c *study.StateChange, state study.FilterState) {
	option, today, ok := p.drawn(state)
	if !ok {
		return
	}
	var kept, better, worse, keptBetter float64
	n := float64(len(option.Worse))
	for k := range option.Worse {
		gain := today.Worse[k] - option.Worse[k]
		up := gain >= today.Least[k]
		switch {
		case up:
			better++
		case gain <= -today.Least[k]:
			worse++
		}
		if !option.Missed[k] {
			kept++
			if up {
				keptBetter++
			}
		}
	}
	switch c.Effect {
	case study.Removed:
		if keptBetter/n >= compare.SureShare {
			return
		}
	case study.LimitHigher:
		if kept/n >= compare.SureShare {
			return
		}
	case study.Lessened:
		if better/n >= compare.SureShare {
			return
		}
	case study.Worsened:
		if worse/n >= compare.SureShare {
			return
		}
	default:
		return
	}
	if better/n >= compare.SureShare {
		switch c.Effect {
		case study.Removed:
			c.Effect = study.RemovedUnsure
			return
		case study.LimitHigher:
			c.Effect = study.Lessened
			return
		}
	}
	c.Effect, c.Gone = study.EffectTooClose, 0
}

// WithRanges is the study with only those claims of improvement on which the
// samples agree, and its recommendation made again from them. ranges are those
// of the study's job.
func WithRanges(s *study.Study, ranges []compare.OptionRange) *study.Study {
	out := *s
	if len(s.Options) == 0 {
		return &out
	}
	out.Options = append([]study.OptionResult(nil), s.Options...)
	todayRange := compare.RangeOf(ranges, s.Today())
	for i := range out.Options {
		o := &out.Options[i]
		o.TenYearTooClose = tenYearTooClose(compare.RangeOf(ranges, o), todayRange)
		CompareWith(o, out.Today(), compare.RangeOf(ranges, o), todayRange)
	}
	out.Recommendation = recommend(&out)
	return &out
}

// tenYearTooClose reports whether the samples leave open which of two costs more over
// ten years.
func tenYearTooClose(option, today *compare.OptionRange) bool {
	for _, m := range compare.Measures() {
		if m.Key == "ten_year_cost" {
			a, known := m.Agreement(option, today)
			return known && a.Claim() == compare.ClaimTooClose
		}
	}
	return false
}
