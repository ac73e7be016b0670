package study

import "iter"

// Effect is what an option does to a problem.
type Effect string

const (
	Removed        Effect = "removed"
	RemovedUnsure  Effect = "removed_unsure" // the figure keeps its limit, though not in as many samples as a removal needs
	RemovedClean   Effect = "removed_clean"  // gone with a clean filter, back with a dirty one
	LimitHigher    Effect = "limit_higher"   // the figure is over today's limit still; the option's own limit is higher
	Lessened       Effect = "lessened"
	LessenedClean  Effect = "lessened_clean" // with a clean filter; as today with a dirty one
	Left           Effect = "left"
	Worsened       Effect = "worse"
	Added          Effect = "added"
	EffectTooClose Effect = "unsure"     // the samples do not agree on it
	NotHeld        Effect = "not_judged" // the check does not apply to the house with that change
)

// Basis is the basis of a claim.
type Basis string

const (
	ByNumbers Basis = "numbers" // as solved, without their uncertainty
	BySamples Basis = "samples" // at least compare.SureShare of the samples agree
)

// StateChange is what an option does to a problem in one state of the filter.
type StateChange struct {
	Effect Effect `json:"effect"`
	Before Amount `json:"before,omitempty"`
	After  Amount `json:"after,omitempty"`
	// By is the improvement of the figure, in the unit of its kind.
	By          Amount `json:"by,omitempty"`
	LimitBefore Amount `json:"limit_before,omitempty"`
	LimitAfter  Amount `json:"limit_after,omitempty"`

	Gone float64 `json:"-"` // share of today's excess that is gone: 1 all of it, below 0 it grew
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

// States are the filter states in which the problem occurs.
func (c *ProblemChange) States() iter.Seq[*StateChange] {
	return func(yield func(*StateChange) bool) {
		if c.Clean != nil && !yield(c.Clean) {
			return
		}
		if c.Loaded != nil {
			yield(c.Loaded)
		}
	}
}

// Counts are the numbers of an option's stops and cautions, and of today's
// problems by what it does to them.
type Counts struct {
	Stops    int `json:"stops"`
	Cautions int `json:"cautions"`

	Removed  int `json:"removed"`  // clean and dirty
	Lessened int `json:"lessened"` // in part: also those gone with a clean filter alone, removed but not surely, or allowed by a higher limit
	Left     int `json:"left"`     // also those that are worse, too close to tell or not judged
	Added    int `json:"added"`
}

// Recommendation is the one option to take, with the reason, or no option and
// the reason.
//
// The rule, the same in window, pages and lists of homes:
//
//  1. The fewest stops.
//  2. Then the most problems removed, clean and dirty counted each. A problem that
//     is only lessened counts by the share of its excess that is gone, one that
//     grows or is added counts against the option, and one that a higher limit
//     allows counts by what the figure itself fell. Options within half a problem
//     of the most count as equal.
//  3. Then those that filter at least as finely as today (MERV as installed), and
//     of these the least cost over ten years. An option whose cost is not known
//     comes after those whose cost is. Cost is never compared between filters of
//     unequal fineness without that being said.
//
// An option is recommended only where it has fewer stops than today, or as many
// and more removed than added.
type Recommendation struct {
	Option   string `json:"option,omitzero"` // empty: none
	Reason   Reason `json:"reason"`
	RunnerUp string `json:"runner_up,omitzero"` // the one that would be recommended without Option
	Basis    Basis  `json:"basis"`
	// Why is the reason in words, with what is left, and Next the next thing to do.
	Why  Finding `json:"why"`
	Next Finding `json:"next"`
	// Notes add to the reason: a coarser filter, a cost not known.
	Notes []Finding `json:"notes,omitempty"`
}

// Reason is what decided a Recommendation, or why there is none.
type Reason string

const (
	OnlyOne        Reason = "only_option" // that improves on today
	FewestStops    Reason = "fewest_stops"
	MostRemoved    Reason = "most_removed"
	KeepsFineness  Reason = "keeps_fineness" // the other filters more coarsely than today
	LeastCost      Reason = "least_cost"
	FirstOfAlike   Reason = "first_of_alike"
	NoneNeeded     Reason = "none_needed"   // today keeps every limit
	NoOptions      Reason = "no_options"    // to choose from
	NoneImproves   Reason = "none_improves" // on today
	ReasonTooClose Reason = "too_close"     // the samples do not agree that any improves
)

// Recommended is the option recommended; nil where none is.
func (s *Study) Recommended() *OptionResult {
	if s.Recommendation.Option == "" {
		return nil
	}
	return s.Option(s.Recommendation.Option)
}

// Proposed is the option recommended, or today where none is.
func (s *Study) Proposed() *OptionResult {
	if o := s.Recommended(); o != nil {
		return o
	}
	return s.Today()
}
