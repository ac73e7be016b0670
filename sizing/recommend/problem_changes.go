package recommend

import (
	"slices"

	"returnbench/sizing/compare"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// CompareWith fills in what the option does to today's problems. The ranges of both
// may be nil: the claims are then based on the numbers alone.
func CompareWith(o *study.OptionResult, today *study.OptionResult, optionRange, todayRange *compare.OptionRange) {
	o.Counts = study.Counts{}
	for _, f := range o.Findings {
		switch f.Severity {
		case study.Stop:
			o.Counts.Stops++
		case study.Caution:
			o.Counts.Cautions++
		}
	}
	if o.Kind != study.KindOption {
		return
	}
	o.Against = compareProblems(o, today, optionRange, todayRange)
	for _, c := range o.Against {
		switch c.Effect {
		case study.Removed:
			o.Counts.Removed++
		case study.Lessened, study.LessenedClean, study.RemovedClean, study.RemovedUnsure, study.LimitHigher:
			o.Counts.Lessened++
		case study.Added:
			o.Counts.Added++
		default:
			o.Counts.Left++
		}
	}
	o.Versus = versus(o)
}

// problems are the stops and cautions of an option, worst first.
func problems(o *study.OptionResult) []study.Finding {
	return slices.DeleteFunc(slices.Clone(o.Findings), func(f study.Finding) bool { return f.Severity == study.Good })
}

// compareProblems compares problem by problem: those of today in the order of its
// findings, then those that are new.
func compareProblems(o *study.OptionResult, today *study.OptionResult, optionRange, todayRange *compare.OptionRange) []study.ProblemChange {
	var out []study.ProblemChange
	for _, f := range append(problems(today), problems(o)...) {
		at := slices.IndexFunc(out, func(c study.ProblemChange) bool { return c.Problem == f.Problem })
		if at >= 0 {
			if f.Severity.Rank() > out[at].Severity.Rank() {
				out[at].Severity = f.Severity
			}
			continue
		}
		c := study.ProblemChange{Problem: f.Problem, Severity: f.Severity, Basis: study.ByNumbers}
		if o.LimitFor(f.Problem, study.WhenClean) == nil || today.LimitFor(f.Problem, study.WhenClean) == nil {
			c.Clean = unmeasured(o, f.Problem, today)
		} else {
			pair := sampledPair{optionRange, todayRange, f.Problem}
			if pair.known() {
				c.Basis = study.BySamples
			}
			c.Clean, c.Loaded = inState(o, today, pair, study.WhenClean), inState(o, today, pair, study.WhenLoaded)
		}
		if c.Clean == nil && c.Loaded == nil {
			continue
		}
		c.Effect = bothStates(c.Clean, c.Loaded)
		out = append(out, c)
	}
	return out
}

// unmeasured compares a problem without a figure, or without one in one of the two,
// such as the face velocity of a house without a filter: the option has the problem
// or not.
func unmeasured(o *study.OptionResult, p study.Problem, today *study.OptionResult) *study.StateChange {
	of := func(r *study.OptionResult) (f study.Finding, found bool) {
		return study.First(r.Findings, func(f study.Finding) bool { return f.Problem == p })
	}
	then, foundThen := of(o)
	now, foundNow := of(today)
	wasThere, isThere := foundNow && now.Severity != study.Good, foundThen && then.Severity != study.Good
	switch {
	case wasThere && isThere:
		return &study.StateChange{Effect: study.Left}
	case isThere:
		return &study.StateChange{Effect: study.Added, Gone: -1}
	case now.BothWays && !foundThen:
		return &study.StateChange{Effect: study.NotHeld}
	}
	return &study.StateChange{Effect: study.Removed, Gone: 1}
}

// inState compares a problem in one state of the filter; nil where neither has it.
func inState(o *study.OptionResult, today *study.OptionResult, pair sampledPair, state study.FilterState) *study.StateChange {
	now, then := today.LimitFor(pair.problem, state), o.LimitFor(pair.problem, state)
	if now == nil || then == nil || !now.Missed && !then.Missed {
		return nil
	}
	c := &study.StateChange{Before: now.Measured, After: then.Measured, LimitBefore: now.Limit, LimitAfter: then.Limit, By: difference(then.Measured, now.Measured)}
	excess := now.Over(now.Measured)
	better := betterBy(now, then)
	if now.Least {
		c.By = difference(now.Measured, then.Measured)
	}
	share := func(left float64) float64 {
		if excess <= 0 {
			return 0
		}
		return 1 - left/excess
	}
	switch {
	case !now.Missed:
		c.Effect, c.Gone = study.Added, -1
	case !then.Missed && now.Problem == study.FaceVelocity && study.Exceeds(then.Measured.SI(), now.Limit.SI()):
		// A deeper filter has a higher limit: the velocity itself is still over
		// today's.
		c.Effect, c.Gone = study.LimitHigher, max(0, share(now.Over(then.Measured)))
	case !then.Missed && better < compare.LeastOf(now.Measured):
		c.Effect = study.EffectTooClose
	case !then.Missed:
		c.Effect, c.Gone = study.Removed, 1
	case better >= compare.LeastOf(now.Measured):
		c.Effect, c.Gone = study.Lessened, max(0, share(then.Over(then.Measured)))
	case better <= -compare.LeastOf(now.Measured):
		c.Effect, c.Gone = study.Worsened, -min(1, -share(then.Over(then.Measured)))
	default:
		c.Effect = study.Left
	}
	pair.agree(c, state)
	return c
}

// betterBy is the improvement of a figure, in SI; negative where it is worse.
func betterBy(now, then *study.HeldLimit) float64 {
	if now.Least {
		return then.Measured.SI() - now.Measured.SI()
	}
	return now.Measured.SI() - then.Measured.SI()
}

// difference is b - a; of two temperatures it is a temperature difference.
func difference(a, b study.Amount) study.Amount {
	d := b.SI() - a.SI()
	switch a.(type) {
	case units.Flow:
		return units.Flow(d)
	case units.Pressure:
		return units.Pressure(d)
	case units.Speed:
		return units.Speed(d)
	case units.FlowPerCapacity:
		return units.FlowPerCapacity(d)
	case units.TemperatureDifference, units.Temperature:
		return units.TemperatureDifference(d)
	}
	return study.Share(d)
}

// bothStates is the effect in both states: removed only where the problem is gone
// in each, and surely.
func bothStates(clean, loaded *study.StateChange) study.Effect {
	gone := func(c *study.StateChange) bool { return c.Effect == study.Removed || c.Effect == study.RemovedUnsure }
	switch {
	case loaded == nil:
		return clean.Effect
	case clean == nil:
		return loaded.Effect
	case clean.Effect == loaded.Effect:
		return clean.Effect
	case gone(clean) && gone(loaded):
		return study.RemovedUnsure
	case clean.Effect == study.Removed || clean.Effect == study.LimitHigher:
		return study.RemovedClean
	case (clean.Effect == study.Lessened || clean.Effect == study.RemovedUnsure) && loaded.Effect == study.Left:
		return study.LessenedClean
	}
	// The least favorable of the two.
	for _, e := range []study.Effect{study.Added, study.Worsened, study.EffectTooClose, study.Left} {
		if clean.Effect == e || loaded.Effect == e {
			if e == study.Added {
				return study.Worsened // today has it in the other state
			}
			return e
		}
	}
	return study.Lessened
}

// versus describes what the option does to today's problems.
func versus(o *study.OptionResult) study.Finding {
	var s message.Sentences
	for _, group := range []struct {
		effect  study.Effect
		text    message.ID
		amounts bool
	}{
		{study.Removed, "Removes: {problems}.", false},
		{study.RemovedClean, "Removes with a clean filter only: {problems}.", false},
		{study.RemovedUnsure, "Removes, but not surely: {problems}.", true},
		{study.Lessened, "Lessens: {problems}.", true},
		{study.LessenedClean, "Lessens with a clean filter only: {problems}.", true},
		{study.LimitHigher, "Allowed by a higher limit: {problems}.", true},
		{study.Left, "Leaves: {problems}.", false},
		{study.EffectTooClose, "Too close to tell: {problems}.", false},
		{study.NotHeld, "Not judged any more: {problems}.", false},
		{study.Worsened, "Makes worse: {problems}.", true},
		{study.Added, "Adds: {problems}.", false},
	} {
		problems := message.Rows{Mark: ", "}
		for _, c := range o.Against {
			switch {
			case c.Effect != group.effect:
			case group.amounts:
				problems.Items = append(problems.Items, withAmounts(c))
			default:
				problems.Items = append(problems.Items, c.Problem)
			}
		}
		if len(problems.Items) > 0 {
			s = append(s, message.New(group.text, "problems", problems))
		}
	}
	if s == nil {
		s = append(s, message.New("It has no problem to remove and adds none."))
	}
	return study.FindingOf(o.Verdict, "versus", "the findings of today and of the option", s)
}

// withAmounts is a problem with before and after of the first state that has them.
func withAmounts(c study.ProblemChange) any {
	for state := range c.States() {
		switch {
		case state.Before == nil:
		case state.Effect == study.LimitHigher:
			return message.New("{problem} ({before} to {after}; the limit is {limit} instead of {old})",
				"problem", c.Problem, "before", state.Before, "after", state.After, "limit", state.LimitAfter, "old", state.LimitBefore)
		default:
			return message.New("{problem} ({before} to {after})", "problem", c.Problem, "before", state.Before, "after", state.After)
		}
	}
	return c.Problem
}
