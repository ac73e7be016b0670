package sizing

import (
	"math"
	"slices"

	"returnbench/sizing/units"
)

// Effect is what an option does to a problem.
type Effect string

const (
	Removed       Effect = "removed"
	RemovedClean  Effect = "removed_clean" // gone with a clean filter, back with a dirty one
	LimitHigher   Effect = "limit_higher"  // the figure is over today's limit still; the option's own limit is higher
	Lessened      Effect = "lessened"
	LessenedClean Effect = "lessened_clean" // with a clean filter; as today with a dirty one
	Left          Effect = "left"
	Worsened      Effect = "worse"
	Added         Effect = "added"
	Unclear       Effect = "unsure"     // the samples do not agree on it
	NotHeld       Effect = "not_judged" // the check says nothing of the house so changed
)

// Basis is what a claim rests on.
type Basis string

const (
	ByNumbers Basis = "numbers" // as solved, with no regard to how well they are known
	BySamples Basis = "samples" // at least Sure of the samples agree
)

// StateChange is what an option does to a problem in one state of the filter.
type StateChange struct {
	Effect Effect `json:"effect"`
	Before Amount `json:"before,omitempty"`
	After  Amount `json:"after,omitempty"`
	// By is how far the figure moved to the better, in the unit of its kind.
	By          Amount `json:"by,omitempty"`
	LimitBefore Amount `json:"limit_before,omitempty"`
	LimitAfter  Amount `json:"limit_after,omitempty"`

	gone float64 // share of today's excess that is gone: 1 all of it, below 0 it grew
}

// ProblemChange is what an option does to one problem of today, or one that it
// adds. A state in which neither has the problem is left out.
type ProblemChange struct {
	Problem  Problem      `json:"problem"`
	Severity Severity     `json:"severity"` // the graver of both
	Effect   Effect       `json:"effect"`   // in both states together
	Clean    *StateChange `json:"clean,omitempty"`
	Loaded   *StateChange `json:"loaded,omitempty"`
	Basis    Basis        `json:"basis"`
}

// states are those in which there is something to say.
func (c *ProblemChange) states() []*StateChange {
	return slices.DeleteFunc([]*StateChange{c.Clean, c.Loaded}, func(s *StateChange) bool { return s == nil })
}

// Counts sum up an option: its stops and cautions, and what it does to today's
// problems.
type Counts struct {
	Stops    int `json:"stops"`
	Cautions int `json:"cautions"`

	Removed  int `json:"removed"`  // clean and dirty
	Lessened int `json:"lessened"` // in part: also those gone with a clean filter alone, or allowed by a higher limit
	Left     int `json:"left"`     // unsure, worse and not judged too
	Added    int `json:"added"`
}

// compare fills in what the option does to today's problems. The ranges of both
// may be nil: the claims then rest on the numbers alone.
func (o *OptionResult) compare(today *OptionResult, mine, todays *OptionRange) {
	o.Counts = Counts{}
	for _, f := range o.Findings {
		switch f.Severity {
		case Stop:
			o.Counts.Stops++
		case Caution:
			o.Counts.Cautions++
		}
	}
	if o.Kind != KindOption {
		return
	}
	o.Against = o.against(today, mine, todays)
	for _, c := range o.Against {
		switch c.Effect {
		case Removed:
			o.Counts.Removed++
		case Lessened, LessenedClean, RemovedClean, LimitHigher:
			o.Counts.Lessened++
		case Added:
			o.Counts.Added++
		default:
			o.Counts.Left++
		}
	}
	o.Versus = o.versus()
}

// troubles are the stops and cautions of an option, gravest first.
func (o *OptionResult) troubles() []Finding {
	return slices.DeleteFunc(slices.Clone(o.Findings), func(f Finding) bool { return f.Severity == Good })
}

// against compares problem by problem: those of today in the order of its
// findings, then those that are new.
func (o *OptionResult) against(today *OptionResult, mine, todays *OptionRange) []ProblemChange {
	var out []ProblemChange
	for _, f := range append(today.troubles(), o.troubles()...) {
		at := slices.IndexFunc(out, func(c ProblemChange) bool { return c.Problem == f.Problem })
		if at >= 0 {
			if f.Severity.Rank() > out[at].Severity.Rank() {
				out[at].Severity = f.Severity
			}
			continue
		}
		c := ProblemChange{Problem: f.Problem, Severity: f.Severity, Basis: ByNumbers}
		if o.heldTo(f.Problem, WhenClean) == nil {
			c.Clean = o.unmeasured(f.Problem, today)
		} else {
			pair := sampledPair{mine, todays, f.Problem}
			if pair.known() {
				c.Basis = BySamples
			}
			c.Clean, c.Loaded = o.inState(today, pair, WhenClean), o.inState(today, pair, WhenLoaded)
		}
		if len(c.states()) == 0 {
			continue
		}
		c.Effect = together(c.Clean, c.Loaded)
		out = append(out, c)
	}
	return out
}

// unmeasured compares a problem that has no figure: it is there or not.
func (o *OptionResult) unmeasured(p Problem, today *OptionResult) *StateChange {
	of := func(r *OptionResult) (f Finding, told bool) {
		return first(r.Findings, func(f Finding) bool { return f.Problem == p })
	}
	then, toldThen := of(o)
	now, toldNow := of(today)
	wasThere, isThere := toldNow && now.Severity != Good, toldThen && then.Severity != Good
	switch {
	case wasThere && isThere:
		return &StateChange{Effect: Left}
	case isThere:
		return &StateChange{Effect: Added, gone: -1}
	case now.bothWays && !toldThen:
		return &StateChange{Effect: NotHeld}
	}
	return &StateChange{Effect: Removed, gone: 1}
}

// inState compares a problem in one state of the filter; nil where neither has it.
func (o *OptionResult) inState(today *OptionResult, pair sampledPair, state FilterState) *StateChange {
	now, then := today.heldTo(pair.problem, state), o.heldTo(pair.problem, state)
	if now == nil || then == nil || !now.missed && !then.missed {
		return nil
	}
	c := &StateChange{Before: now.measured, After: then.measured, LimitBefore: now.limit, LimitAfter: then.limit, By: difference(then.measured, now.measured)}
	excess := now.over(now.measured)
	better := betterBy(now, then)
	if now.least {
		c.By = difference(now.measured, then.measured)
	}
	share := func(left float64) float64 {
		if excess <= 0 {
			return 0
		}
		return 1 - left/excess
	}
	switch {
	case !now.missed:
		c.Effect, c.gone = Added, -1
	case !then.missed && now.problem == FaceVelocity && exceeds(then.measured.SI(), now.limit.SI()):
		// A deeper filter may see more: the speed itself is still over today's limit.
		c.Effect, c.gone = LimitHigher, max(0, share(now.over(then.measured)))
	case !then.missed && better < leastOf(now.measured):
		c.Effect = Unclear
	case !then.missed:
		c.Effect, c.gone = Removed, 1
	case better >= leastOf(now.measured):
		c.Effect, c.gone = Lessened, max(0, share(then.over(then.measured)))
	case better <= -leastOf(now.measured):
		c.Effect, c.gone = Worsened, -min(1, -share(then.over(then.measured)))
	default:
		c.Effect = Left
	}
	pair.agree(c, state)
	return c
}

// betterBy is how far a figure moved to the better, in SI.
func betterBy(now, then *held) float64 {
	if now.least {
		return then.measured.SI() - now.measured.SI()
	}
	return now.measured.SI() - then.measured.SI()
}

// leastOf is the least change of a figure that counts as one. A thermometer
// tells 1 F, common practice, no source: the zero of its scale lies far off.
func leastOf(v Amount) float64 {
	if _, is := v.(units.Temperature); is {
		return float64(units.FahrenheitDegree)
	}
	return noticeable * math.Abs(v.SI())
}

// difference is b - a, of temperatures a difference.
func difference(a, b Amount) Amount {
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
	return Share(d)
}

// together is the effect in both states: removed only where no state has the
// problem left.
func together(clean, loaded *StateChange) Effect {
	switch {
	case loaded == nil:
		return clean.Effect
	case clean == nil:
		return loaded.Effect
	case clean.Effect == loaded.Effect:
		return clean.Effect
	case clean.Effect == Removed || clean.Effect == LimitHigher:
		return RemovedClean
	case clean.Effect == Lessened && loaded.Effect == Left:
		return LessenedClean
	}
	// The one that says the least for the option.
	for _, e := range []Effect{Added, Worsened, Unclear, Left} {
		if clean.Effect == e || loaded.Effect == e {
			if e == Added {
				return Worsened // today has it in the other state
			}
			return e
		}
	}
	return Lessened
}

// versus says in words what the option does to today's problems.
func (o *OptionResult) versus() Finding {
	var s sentence
	for _, group := range []struct {
		effects []Effect
		words   string
		amounts bool
	}{
		{[]Effect{Removed}, "Removes", false},
		{[]Effect{RemovedClean}, "Removes with a clean filter only", false},
		{[]Effect{Lessened}, "Lessens", true},
		{[]Effect{LessenedClean}, "Lessens with a clean filter only", true},
		{[]Effect{LimitHigher}, "Allowed by a higher limit", true},
		{[]Effect{Left}, "Leaves", false},
		{[]Effect{Unclear}, "Too close to tell", false},
		{[]Effect{NotHeld}, "Not judged any more", false},
		{[]Effect{Worsened}, "Makes worse", true},
		{[]Effect{Added}, "Adds", false},
	} {
		s.addGroup(o.Against, group.effects, group.words, group.amounts)
	}
	if s.format == "" {
		s.add("It has no problem to remove and adds none.")
	}
	return newFinding(o.Verdict, "versus", "the findings of today and of the option", s.format, s.args...)
}

// addGroup lists the problems of some effects, with how far each moved.
func (s *sentence) addGroup(all []ProblemChange, effects []Effect, words string, amounts bool) {
	n := 0
	for _, c := range all {
		if !slices.Contains(effects, c.Effect) {
			continue
		}
		lead := words + ":"
		if n++; n > 1 {
			lead = ","
		} else if s.format != "" {
			lead = " " + lead
		}
		s.add(lead+" %s", c.Problem.Words())
		if amounts {
			s.addAmounts(c)
		}
	}
	if n > 0 {
		s.add(".")
	}
}

// addAmounts writes before and after of the first state that has them.
func (s *sentence) addAmounts(c ProblemChange) {
	for _, state := range c.states() {
		if state.Before == nil {
			continue
		}
		s.add(" (%v to %v", state.Before, state.After)
		if state.Effect == LimitHigher {
			s.add("; the limit is %v instead of %v", state.LimitAfter, state.LimitBefore)
		}
		s.add(")")
		return
	}
}
