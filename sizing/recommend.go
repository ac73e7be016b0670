package sizing

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/units"
)

// Recommendation is the one option to take, with its reason, or none with the
// reason.
//
// The rule, the same in window, pages and lists of homes:
//
//  1. The fewest stops.
//  2. Then the most problems removed, clean and dirty counted each. A problem that
//     is only lessened counts by the share of its excess that is gone, one that
//     grows or is added counts against the option, and one that a higher limit
//     allows counts by what the figure itself fell. Options within half a problem
//     of the most are held alike.
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
	// Notes say what the reason needs beside it: a coarser filter, a cost not known.
	Notes []Finding `json:"notes,omitempty"`
}

// Reason is what decided a Recommendation, or why there is none.
type Reason string

const (
	OnlyOne       Reason = "only_option" // that improves on today
	FewestStops   Reason = "fewest_stops"
	MostRemoved   Reason = "most_removed"
	KeepsFineness Reason = "keeps_fineness" // the other filters more coarsely than today
	LeastCost     Reason = "least_cost"
	FirstOfAlike  Reason = "first_of_alike"
	NoneNeeded    Reason = "none_needed"   // today keeps every limit
	NoOptions     Reason = "no_options"    // to choose from
	NoneImproves  Reason = "none_improves" // on today
	TooCloseToSay Reason = "too_close"     // the samples do not agree that any improves
)

// alike is how far apart in problems removed two options count as equal.
const alike = 0.5

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

// removed is how many problems the option removes, clean and dirty each.
func (o *OptionResult) removed() float64 {
	sum := 0.0
	for _, c := range o.Against {
		for _, s := range c.states() {
			sum += s.gone
		}
	}
	return sum
}

// improves tells whether the option is better than today by the first two
// points of the rule.
func (o *OptionResult) improves(today *OptionResult) bool {
	if o.Counts.Stops != today.Counts.Stops {
		return o.Counts.Stops < today.Counts.Stops
	}
	return o.removed() > 0
}

// choose is the best of some options by the rule, nil of none.
func (s *Study) choose(options []*OptionResult) *OptionResult {
	if len(options) == 0 {
		return nil
	}
	fewest := slices.MinFunc(options, func(a, b *OptionResult) int { return cmp.Compare(a.Counts.Stops, b.Counts.Stops) }).Counts.Stops
	options = slices.DeleteFunc(slices.Clone(options), func(o *OptionResult) bool { return o.Counts.Stops > fewest })
	most := slices.MaxFunc(options, func(a, b *OptionResult) int { return cmp.Compare(a.removed(), b.removed()) }).removed()
	options = slices.DeleteFunc(options, func(o *OptionResult) bool { return o.removed() < most-alike })
	return slices.MinFunc(options, func(a, b *OptionResult) int { return cmp.Or(order(s.coarser(a), s.coarser(b)), byCost(a, b)) })
}

// coarser tells that an option cleans less than today, as installed.
func (s *Study) coarser(o *OptionResult) bool {
	return o.Efficiency.InstalledMERV < s.Today().Efficiency.InstalledMERV
}

// byCost orders options by their cost over ten years, those whose cost is not
// known last.
func byCost(a, b *OptionResult) int {
	return cmp.Or(order(b.TenYearKnown, a.TenYearKnown), cmp.Compare(a.TenYearCost, b.TenYearCost))
}

// recommend applies the rule to the options as they are compared with today.
func (s *Study) recommend() Recommendation {
	r := Recommendation{Basis: ByNumbers}
	today := s.Today()
	var all, better []*OptionResult
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind != KindOption {
			continue
		}
		all = append(all, o)
		if slices.ContainsFunc(o.Against, func(c ProblemChange) bool { return c.Basis == BySamples }) {
			r.Basis = BySamples
		}
		if o.improves(today) {
			better = append(better, o)
		}
	}
	best := s.choose(better)
	if best == nil {
		s.recommendNone(&r, all)
		return r
	}
	second := s.choose(slices.DeleteFunc(slices.Clone(better), func(o *OptionResult) bool { return o == best }))
	r.Option, r.Reason = best.Name, s.decided(best, second)
	if second != nil {
		r.RunnerUp = second.Name
	}
	r.Why = s.reasonWords(best, second, r.Reason)
	r.Notes = s.notes(best, second, r.Reason)
	r.Next = s.nextWith(best)
	return r
}

// decided is the point of the rule by which the best stands before the second.
func (s *Study) decided(best, second *OptionResult) Reason {
	switch {
	case second == nil:
		return OnlyOne
	case best.Counts.Stops < second.Counts.Stops:
		return FewestStops
	case best.removed() > second.removed()+alike:
		return MostRemoved
	case s.coarser(second) && !s.coarser(best):
		return KeepsFineness
	case byCost(best, second) < 0:
		return LeastCost
	}
	return FirstOfAlike
}

const ruleSource = "fewest stops, then most problems removed clean and dirty, then no coarser filter than today's, then least cost over ten years"

// reasonWords say by what the option won, and what it does to today's problems.
func (s *Study) reasonWords(best, second *OptionResult, why Reason) Finding {
	var w sentence
	switch why {
	case OnlyOne:
		w.add("%s is the only option that improves on today.", best.Name)
	case FewestStops:
		w.add("%s has the fewest stops, %d; %s has %d.", best.Name, best.Counts.Stops, second.Name, second.Counts.Stops)
	case MostRemoved:
		w.add("%s removes the most: %.1f problems, clean and dirty counted each and a lessened one by its share; %s removes %.1f.",
			best.Name, best.removed(), second.Name, second.removed())
	case KeepsFineness:
		w.add("%s and %s remove about as much", best.Name, second.Name)
		if best.TenYearKnown && second.TenYearKnown && best.TenYearCost > second.TenYearCost {
			w.add("; %s costs %v less over ten years", second.Name, roundMoney(best.TenYearCost-second.TenYearCost))
		}
		w.add("; %s cleans less than today, MERV %d instead of %d.", second.Name, second.Efficiency.InstalledMERV, s.Today().Efficiency.InstalledMERV)
	case LeastCost:
		w.add("%s and %s remove about as much", best.Name, second.Name)
		if !second.TenYearKnown {
			w.add("; only the cost of %s is known.", best.Name)
			break
		}
		w.add("; %s costs %v less over ten years", best.Name, roundMoney(second.TenYearCost-best.TenYearCost))
		if a, b := best.Efficiency.InstalledMERV, second.Efficiency.InstalledMERV; a != b {
			w.add(", with MERV %d instead of %d", a, b)
		}
		w.add(".")
	case FirstOfAlike:
		w.add("%s and %s remove as much for the same cost.", best.Name, second.Name)
	}
	return *finding(best.Verdict, "recommended", ruleSource, w.format, w.args...).advise(best.Versus.format, best.Versus.args...)
}

// notes say what must not be left out beside the reason.
func (s *Study) notes(best, second *OptionResult, why Reason) []Finding {
	var out []Finding
	if now, then := s.Today().Efficiency.InstalledMERV, best.Efficiency.InstalledMERV; then < now {
		out = append(out, newFinding(Caution, "coarser_than_today", "MERV as installed", "%s cleans less than today: MERV %d instead of %d.", best.Name, then, now))
	}
	if why == LeastCost && best.Efficiency.InstalledMERV < second.Efficiency.InstalledMERV {
		out = append(out, newFinding(Caution, "coarser_than_next", "MERV as installed",
			"%s wins on cost alone with the coarser filter: MERV %d, where %s has %d.", best.Name, best.Efficiency.InstalledMERV, second.Name, second.Efficiency.InstalledMERV))
	}
	for i := range s.Options {
		if o := &s.Options[i]; !o.UpgradeKnown {
			out = append(out, newFinding(Caution, "cost_unknown", "prices typed", "The work of %s has no price, so its cost over ten years is not known.", o.Name))
		}
	}
	return out
}

// wholeMoney is written without cents.
type wholeMoney units.Money

// Show writes it in the units of a system.
func (m wholeMoney) Show(s units.System) string {
	return strings.TrimSuffix(units.Money(m).Show(s), ".00")
}

// roundMoney leaves tens: no total is known better.
func roundMoney(m units.Money) wholeMoney {
	return wholeMoney(math.Round(float64(m)/10) * 10)
}

// worst is the gravest finding of today's house, or of the house's ducts, taps
// and readings where today's option has none; nil where nothing is wrong.
func (s *Study) worst() *Finding {
	for i := range s.Today().Findings {
		if f := &s.Today().Findings[i]; f.Severity != Good {
			return f
		}
	}
	for i := range s.Findings {
		if f := &s.Findings[i]; f.Option == "" && f.Severity != Good && f.Code != "assumed" {
			return f
		}
	}
	return nil
}

// nextWith says what is wrong today and which option to take.
func (s *Study) nextWith(o *OptionResult) Finding {
	var w sentence
	severity := Good
	if f := s.worst(); f != nil {
		severity, w = f.Severity, f.wrong()
		w.format += " "
		w.args = slices.Clip(w.args)
		w.add("Choose %s: ", o.Name)
		w.addRemedy(o, f.Problem)
	} else {
		w.add("Choose %s: ", o.Name)
	}
	w.add("%v clean, %v dirty; ", o.Clean.Airflow, o.Loaded.Airflow)
	w.addCost(o, s.Today())
	return newFinding(severity, "next", ruleSource, w.format, w.args...)
}

// addRemedy says what the option does to the problem named before. Airflow
// follows in any case.
func (w *sentence) addRemedy(o *OptionResult, p Problem) {
	i := slices.IndexFunc(o.Against, func(c ProblemChange) bool { return c.Problem == p })
	if i < 0 || p == AirflowShort {
		return
	}
	switch c := o.Against[i]; c.Effect {
	case Removed:
		w.add("this goes away; ")
	case RemovedClean:
		w.add("this goes away with a clean filter and comes back with a dirty one; ")
	case LimitHigher:
		w.add("the figure stays, but its limit is higher; ")
	case Lessened, LessenedClean:
		states := c.states()
		w.add("this changes to %v; ", states[len(states)-1].After)
	default:
		w.add("this stays; ")
	}
}

// addCost compares the ten years with today's, and says where the filters are
// not equally fine.
func (w *sentence) addCost(o, today *OptionResult) {
	more := roundMoney(o.TenYearCost - today.TenYearCost)
	switch {
	case !o.TenYearKnown:
		w.add("the price of the work not known")
	case more > 0:
		w.add("about %v more over ten years", more)
	case more < 0:
		w.add("about %v less over ten years", -more)
	default:
		w.add("about the same cost over ten years")
	}
	if a, b := o.Efficiency.InstalledMERV, today.Efficiency.InstalledMERV; a != b {
		w.add(", with MERV %d instead of %d", a, b)
	}
	w.add(".")
}

// recommendNone says why no option is recommended, and what to do instead.
func (s *Study) recommendNone(r *Recommendation, all []*OptionResult) {
	today, worst := s.Today(), s.worst()
	say := func(reason Reason, severity Severity, w sentence) {
		r.Reason, r.Why = reason, newFinding(severity, "recommended", ruleSource, w.format, w.args...)
	}
	var w sentence
	switch {
	case worst == nil:
		w.add("Today's house keeps every limit: %v clean, %v dirty. Nothing has to change.", today.Clean.Airflow, today.Loaded.Airflow)
		say(NoneNeeded, Good, w)
		r.Next = newFinding(Good, "next", ruleSource, w.format, w.args...)
		return
	case len(all) == 0:
		w.add("There is no option to compare with today yet.")
		say(NoOptions, today.Verdict, w)
	case r.Basis == BySamples && slices.ContainsFunc(all, func(o *OptionResult) bool {
		return slices.ContainsFunc(o.Against, func(c ProblemChange) bool { return c.Effect == Unclear })
	}):
		w.add("No option improves on today by more than is known of this house: measure first what is marked as assumed.")
		say(TooCloseToSay, today.Verdict, w)
	default:
		near := s.choose(all)
		w.add("No option improves on today; %s comes nearest.", near.Name)
		say(NoneImproves, today.Verdict, w)
		r.Why.advise(near.Versus.format, near.Versus.args...)
	}
	r.Next = s.nextWithout(worst)
}

// nextWithout says what is wrong and offers the suggested size that moves the
// most air, where it moves noticeably more than today; else what the finding
// itself advises.
func (s *Study) nextWithout(f *Finding) Finding {
	var best *Size
	for _, z := range s.Answer.sizes() {
		if z.Meets && (best == nil || z.Airflow > best.Airflow) {
			best = z
		}
	}
	if best == nil || !short(s.Today().Clean.Airflow, best.Airflow) {
		return newFinding(f.Severity, "next", f.Source, f.format, f.args...)
	}
	w := f.wrong()
	w.args = slices.Clip(w.args)
	w.add(" Put in a %s of %s: %v with a clean filter.", placeWord(best.Place), best.Label, best.Airflow)
	return newFinding(f.Severity, "next", f.Source, w.format, w.args...)
}
