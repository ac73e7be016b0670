package sizing

// drawnLimit is one limit of an option over the samples.
type drawnLimit struct {
	missed []bool
	worse  []float64 // the figure, more where it is worse
	least  []float64 // change that counts
}

type limitKey struct {
	problem Problem
	state   FilterState
}

// drawnLimits are the limits that every sample holds an option to.
func drawnLimits(n int, at func(sample int) *headline) map[limitKey]*drawnLimit {
	out := map[limitKey]*drawnLimit{}
	for k := range n {
		for i := range at(k).held {
			l := &at(k).held[i]
			key := limitKey{problem: l.problem, state: l.state}
			if k == 0 {
				out[key] = &drawnLimit{}
			}
			d := out[key]
			if d == nil {
				continue
			}
			worse := l.measured.SI()
			if l.least {
				worse = -worse
			}
			d.missed, d.worse, d.least = append(d.missed, l.missed), append(d.worse, worse), append(d.least, leastOf(l.measured))
		}
	}
	return out
}

// sampledPair is one problem in the samples of an option and of today.
type sampledPair struct {
	option, today *OptionRange
	problem       Problem
}

func (p sampledPair) known() bool {
	_, _, ok := p.drawn(WhenClean)
	return ok
}

func (p sampledPair) drawn(state FilterState) (option, today *drawnLimit, ok bool) {
	if p.option == nil || p.today == nil {
		return nil, nil, false
	}
	key := limitKey{problem: p.problem, state: state}
	option, today = p.option.limits[key], p.today.limits[key]
	return option, today, option != nil && today != nil && len(option.worse) > 0 && len(option.worse) == len(today.worse)
}

// agree leaves of a change what the samples agree on: that a problem is removed
// where in Sure of them the option keeps the limit and the figure is better by
// what is noticeable, that it is lessened or worse by the same. What is added
// stays said: to be warned needs no certainty.
func (p sampledPair) agree(c *StateChange, state FilterState) {
	option, today, ok := p.drawn(state)
	if !ok {
		return
	}
	var kept, better, worse, keptBetter float64
	n := float64(len(option.worse))
	for k := range option.worse {
		gain := today.worse[k] - option.worse[k]
		up := gain >= today.least[k]
		switch {
		case up:
			better++
		case gain <= -today.least[k]:
			worse++
		}
		if !option.missed[k] {
			kept++
			if up {
				keptBetter++
			}
		}
	}
	switch c.Effect {
	case Removed:
		if keptBetter/n >= Sure {
			return
		}
	case LimitHigher:
		if kept/n >= Sure {
			return
		}
	case Lessened:
		if better/n >= Sure {
			return
		}
	case Worsened:
		if worse/n >= Sure {
			return
		}
	default:
		return
	}
	if (c.Effect == Removed || c.Effect == LimitHigher) && better/n >= Sure {
		c.Effect = Lessened
		return
	}
	c.Effect, c.gone = Unclear, 0
}

// WithRanges is the study with its claims against today, and its
// recommendation, held to what the samples agree on. ranges are those of the
// study's job.
func (s *Study) WithRanges(ranges []OptionRange) *Study {
	out := *s
	out.Options = append([]OptionResult(nil), s.Options...)
	todays := rangeOf(ranges, s.Today())
	for i := range out.Options {
		o := &out.Options[i]
		o.compare(out.Today(), rangeOf(ranges, o), todays)
	}
	out.Recommendation = out.recommend()
	return &out
}
