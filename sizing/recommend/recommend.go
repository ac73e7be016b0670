package recommend

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// alike is how far apart in problems removed two options count as equal.
const alike = 0.5

// removed is how many problems the option removes, clean and dirty each.
func removed(o *study.OptionResult) float64 {
	sum := 0.0
	for _, c := range o.Against {
		for _, s := range c.States() {
			sum += s.Gone
		}
	}
	return sum
}

// improves reports whether the option is better than today by the first two
// points of the rule.
func improves(o *study.OptionResult, today *study.OptionResult) bool {
	if o.Counts.Stops != today.Counts.Stops {
		return o.Counts.Stops < today.Counts.Stops
	}
	return removed(o) > 0
}

// choose is the best of some options by the rule, nil of none.
func choose(s *study.Study, options []*study.OptionResult) *study.OptionResult {
	if len(options) == 0 {
		return nil
	}
	fewest := slices.MinFunc(options, func(a, b *study.OptionResult) int { return cmp.Compare(a.Counts.Stops, b.Counts.Stops) }).Counts.Stops
	options = slices.DeleteFunc(slices.Clone(options), func(o *study.OptionResult) bool { return o.Counts.Stops > fewest })
	most := removed(slices.MaxFunc(options, func(a, b *study.OptionResult) int { return cmp.Compare(removed(a), removed(b)) }))
	options = slices.DeleteFunc(options, func(o *study.OptionResult) bool { return removed(o) < most-alike })
	return slices.MinFunc(options, func(a, b *study.OptionResult) int {
		return cmp.Or(study.Order(coarser(s, a), coarser(s, b)), byCost(a, b))
	})
}

// coarser reports whether an option cleans less than today, as installed.
func coarser(s *study.Study, o *study.OptionResult) bool {
	return o.Efficiency.InstalledMERV < s.Today().Efficiency.InstalledMERV
}

// byCost orders options by their cost over ten years, those whose cost is not
// known last.
func byCost(a, b *study.OptionResult) int {
	return cmp.Or(study.Order(b.TenYearKnown, a.TenYearKnown), cmp.Compare(a.TenYearCost, b.TenYearCost))
}

// recommend applies the rule to the options as they are compared with today.
func recommend(s *study.Study) study.Recommendation {
	r := study.Recommendation{Basis: study.ByNumbers}
	today := s.Today()
	var all, better []*study.OptionResult
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind != study.KindOption {
			continue
		}
		all = append(all, o)
		if slices.ContainsFunc(o.Against, func(c study.ProblemChange) bool { return c.Basis == study.BySamples }) {
			r.Basis = study.BySamples
		}
		if improves(o, today) {
			better = append(better, o)
		}
	}
	best := choose(s, better)
	if best == nil {
		recommendNone(s, &r, all)
		return r
	}
	second := choose(s, slices.DeleteFunc(slices.Clone(better), func(o *study.OptionResult) bool { return o == best }))
	r.Option, r.Reason = best.Name, decided(s, best, second)
	if second != nil {
		r.RunnerUp = second.Name
	}
	r.Why = reasonWords(s, best, second, r.Reason)
	r.Notes = notes(s, best, second, r.Reason)
	r.Next = nextWith(s, best)
	return r
}

// decided is the point of the rule by which the best stands before the second.
func decided(s *study.Study, best, second *study.OptionResult) study.Reason {
	switch {
	case second == nil:
		return study.OnlyOne
	case best.Counts.Stops < second.Counts.Stops:
		return study.FewestStops
	case removed(best) > removed(second)+alike:
		return study.MostRemoved
	case coarser(s, second) && !coarser(s, best):
		return study.KeepsFineness
	case byCost(best, second) < 0:
		return study.LeastCost
	}
	return study.FirstOfAlike
}

const ruleSource = "fewest stops, then most problems removed clean and dirty, then no coarser filter than today's, then least cost over ten years"

// reasonWords say by what the option won, and what it does to today's problems.
func reasonWords(s *study.Study, best, second *study.OptionResult, why study.Reason) study.Finding {
	var w study.Sentence
	switch why {
	case study.OnlyOne:
		w.Add("%s is the only option that improves on today.", best.Name)
	case study.FewestStops:
		w.Add("%s has the fewest stops, %d; %s has %d.", best.Name, best.Counts.Stops, second.Name, second.Counts.Stops)
	case study.MostRemoved:
		w.Add("%s fixes more of today's problems than %s, clean and dirty.", best.Name, second.Name)
	case study.KeepsFineness:
		w.Add("%s and %s fix about as much", best.Name, second.Name)
		if best.TenYearKnown && second.TenYearKnown && best.TenYearCost > second.TenYearCost {
			w.Add("; %s costs %v less over ten years", second.Name, roundMoney(best.TenYearCost-second.TenYearCost))
		}
		w.Add("; %s cleans less than today, MERV %d instead of %d.", second.Name, second.Efficiency.InstalledMERV, s.Today().Efficiency.InstalledMERV)
	case study.LeastCost:
		w.Add("%s and %s fix about as much", best.Name, second.Name)
		if !second.TenYearKnown {
			w.Add("; only the cost of %s is known.", best.Name)
			break
		}
		w.Add("; %s costs %v less over ten years", best.Name, roundMoney(second.TenYearCost-best.TenYearCost))
		if a, b := best.Efficiency.InstalledMERV, second.Efficiency.InstalledMERV; a != b {
			w.Add(", with MERV %d instead of %d", a, b)
		}
		w.Add(".")
	case study.FirstOfAlike:
		w.Add("%s and %s fix as much for the same cost.", best.Name, second.Name)
	}
	return *study.Raise(best.Verdict, "recommended", ruleSource, w.Format, w.Args...).Advise(best.Versus.Format, best.Versus.Args...)
}

// notes say what must not be left out beside the reason.
func notes(s *study.Study, best, second *study.OptionResult, why study.Reason) []study.Finding {
	var out []study.Finding
	if now, then := s.Today().Efficiency.InstalledMERV, best.Efficiency.InstalledMERV; then < now {
		out = append(out, study.NewFinding(study.Caution, "coarser_than_today", "MERV as installed", "%s cleans less than today: MERV %d instead of %d.", best.Name, then, now))
	}
	if why == study.LeastCost && best.Efficiency.InstalledMERV < second.Efficiency.InstalledMERV {
		out = append(out, study.NewFinding(study.Caution, "coarser_than_next", "MERV as installed",
			"%s wins on cost alone with the coarser filter: MERV %d, where %s has %d.", best.Name, best.Efficiency.InstalledMERV, second.Name, second.Efficiency.InstalledMERV))
	}
	for i := range s.Options {
		if o := &s.Options[i]; !o.UpgradeKnown {
			out = append(out, study.NewFinding(study.Caution, "cost_unknown", "prices typed", "The work of %s has no price, so its cost over ten years is not known.", o.Name))
		}
	}
	return out
}

// wholeMoney is written without cents.
type wholeMoney units.Money

// Show writes it in the units of a system.
func (m wholeMoney) Show(s units.Locale) string {
	return strings.TrimSuffix(units.Money(m).Show(s), ".00")
}

// roundMoney leaves tens: no total is known better.
func roundMoney(m units.Money) wholeMoney {
	return wholeMoney(math.Round(float64(m)/10) * 10)
}

// Worst is the worst finding of today's house, or of the house's ducts, taps
// and readings where today's option has none; nil where nothing is wrong.
func Worst(s *study.Study) *study.Finding {
	for i := range s.Today().Findings {
		if f := &s.Today().Findings[i]; f.Severity != study.Good {
			return f
		}
	}
	for i := range s.Findings {
		if f := &s.Findings[i]; f.Option == "" && f.Severity != study.Good && f.Code != "assumed" {
			return f
		}
	}
	return nil
}

// nextWith says what is wrong today and which option to take.
func nextWith(s *study.Study, o *study.OptionResult) study.Finding {
	var w study.Sentence
	severity := study.Good
	if f := Worst(s); f != nil {
		severity, w = f.Severity, f.Wrong()
		w.Format += " "
		w.Args = slices.Clip(w.Args)
		w.Add("Choose %s: ", o.Name)
		addRemedy(&w, o, f.Problem)
	} else {
		w.Add("Choose %s: ", o.Name)
	}
	w.Add("%v clean, %v dirty; ", o.Clean.Airflow, o.Loaded.Airflow)
	addCost(&w, o, s.Today())
	return study.NewFinding(severity, "next", ruleSource, w.Format, w.Args...)
}

// addRemedy says what the option does to the problem named before. Airflow
// follows in any case.
func addRemedy(w *study.Sentence, o *study.OptionResult, p study.Problem) {
	i := slices.IndexFunc(o.Against, func(c study.ProblemChange) bool { return c.Problem == p })
	if i < 0 || p == study.AirflowShort {
		return
	}
	switch c := o.Against[i]; c.Effect {
	case study.Removed:
		w.Add("this goes away; ")
	case study.RemovedClean:
		w.Add("this goes away with a clean filter and comes back with a dirty one; ")
	case study.LimitHigher:
		w.Add("the figure stays, but its limit is higher; ")
	case study.Lessened, study.LessenedClean:
		states := c.States()
		w.Add("this changes to %v; ", states[len(states)-1].After)
	default:
		w.Add("this stays; ")
	}
}

// addCost compares the ten years with today's, and says where the filters are
// not equally fine.
func addCost(w *study.Sentence, o, today *study.OptionResult) {
	more := roundMoney(o.TenYearCost - today.TenYearCost)
	switch {
	case !o.TenYearKnown:
		w.Add("the price of the work not known")
	case more > 0:
		w.Add("about %v more over ten years", more)
	case more < 0:
		w.Add("about %v less over ten years", -more)
	default:
		w.Add("about the same cost over ten years")
	}
	if a, b := o.Efficiency.InstalledMERV, today.Efficiency.InstalledMERV; a != b {
		w.Add(", with MERV %d instead of %d", a, b)
	}
	w.Add(".")
}

// recommendNone says why no option is recommended, and what to do instead.
func recommendNone(s *study.Study, r *study.Recommendation, all []*study.OptionResult) {
	today, worst := s.Today(), Worst(s)
	set := func(reason study.Reason, severity study.Severity, w study.Sentence) {
		r.Reason, r.Why = reason, study.NewFinding(severity, "recommended", ruleSource, w.Format, w.Args...)
	}
	var w study.Sentence
	switch {
	case worst == nil:
		w.Add("Today's house keeps every limit: %v clean, %v dirty. Nothing has to change.", today.Clean.Airflow, today.Loaded.Airflow)
		set(study.NoneNeeded, study.Good, w)
		r.Next = study.NewFinding(study.Good, "next", ruleSource, w.Format, w.Args...)
		return
	case len(all) == 0:
		w.Add("There is no option to compare with today yet.")
		set(study.NoOptions, today.Verdict, w)
	case r.Basis == study.BySamples && slices.ContainsFunc(all, func(o *study.OptionResult) bool {
		return slices.ContainsFunc(o.Against, func(c study.ProblemChange) bool { return c.Effect == study.Unclear })
	}):
		w.Add("No option is surely better than today. Measure first what is marked as assumed.")
		set(study.TooCloseToSay, today.Verdict, w)
	default:
		near := choose(s, all)
		w.Add("No option improves on today; %s comes nearest.", near.Name)
		set(study.NoneImproves, today.Verdict, w)
		r.Why.Advise(near.Versus.Format, near.Versus.Args...)
	}
	r.Next = nextWithout(s, worst)
}

// nextWithout says what is wrong and offers the suggested size that moves the
// most air, where it moves noticeably more than today; else what the finding
// itself advises.
func nextWithout(s *study.Study, f *study.Finding) study.Finding {
	var best *study.Size
	for _, z := range s.Answer.Sizes() {
		if z.Meets && (best == nil || z.Airflow > best.Airflow) {
			best = z
		}
	}
	if best == nil || !study.Short(s.Today().Clean.Airflow, best.Airflow) {
		return study.NewFinding(f.Severity, "next", f.Source, f.Format, f.Args...)
	}
	w := f.Wrong()
	w.Args = slices.Clip(w.Args)
	w.Add(" Put in a %s of %s: %v with a clean filter.", study.PlaceWord(best.Place), best.Label, best.Airflow)
	return study.NewFinding(f.Severity, "next", f.Source, w.Format, w.Args...)
}
