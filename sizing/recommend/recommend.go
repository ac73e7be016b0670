package recommend

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/airpath"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// alike is the difference in problems removed up to which two options count as
// equal.
const alike = 0.5

// removed is how many problems the option removes, clean and dirty each.
func removed(o *study.OptionResult) float64 {
	sum := 0.0
	for _, c := range o.Against {
		for s := range c.States() {
			sum += s.Gone
		}
	}
	return sum
}

// improves reports whether the option is better than today by the first two
// points of the rule (see study.Recommendation).
func improves(o *study.OptionResult, today *study.OptionResult) bool {
	if o.Counts.Stops != today.Counts.Stops {
		return o.Counts.Stops < today.Counts.Stops
	}
	return removed(o) > 0
}

// choose is the best of some options by the rule, nil where there are none.
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

// coarser reports whether an option has a lower installed MERV than today.
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

// decided is the point of the rule by which the best comes before the second.
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

const ruleSource message.ID = "fewest stops, then most problems removed clean and dirty, then no coarser filter than today's, then least cost over ten years"

// reasonWords explain why the option was chosen, and what it does to today's
// problems.
func reasonWords(s *study.Study, best, second *study.OptionResult, why study.Reason) study.Finding {
	f := study.FindingOf(best.Verdict, "recommended", ruleSource, message.Sentences{reason(s, best, second, why)})
	f.Advice = best.Versus.Words()
	return f
}

func reason(s *study.Study, best, second *study.OptionResult, why study.Reason) message.Message {
	if why == study.OnlyOne {
		return message.New("{option} is the only option that improves on today.", "option", study.OptionName(best.Name))
	}
	args := []any{"option", study.OptionName(best.Name), "other", study.OptionName(second.Name), "merv", best.Efficiency.InstalledMERV, "other_merv", second.Efficiency.InstalledMERV}
	var text message.ID
	switch why {
	case study.FewestStops:
		text = "{option} has the fewest stops, {stops}; {other} has {other_stops}."
		args = append(args, "stops", best.Counts.Stops, "other_stops", second.Counts.Stops)
	case study.MostRemoved:
		text = "{option} fixes more of today's problems than {other}, clean and dirty."
	case study.KeepsFineness:
		args = append(args, "today", s.Today().Efficiency.InstalledMERV)
		if best.TenYearKnown && second.TenYearKnown && best.TenYearCost > second.TenYearCost {
			text = "{option} and {other} fix about as much; {other} costs {money} less over ten years; {other} cleans less than today, MERV {other_merv} instead of {today}."
			args = append(args, "money", roundMoney(best.TenYearCost-second.TenYearCost))
			break
		}
		text = "{option} and {other} fix about as much; {other} cleans less than today, MERV {other_merv} instead of {today}."
	case study.LeastCost:
		switch {
		case !second.TenYearKnown:
			text = "{option} and {other} fix about as much; only the cost of {option} is known."
		case best.Efficiency.InstalledMERV != second.Efficiency.InstalledMERV:
			text = "{option} and {other} fix about as much; {option} costs {money} less over ten years, with MERV {merv} instead of {other_merv}."
		default:
			text = "{option} and {other} fix about as much; {option} costs {money} less over ten years."
		}
		args = append(args, "money", roundMoney(second.TenYearCost-best.TenYearCost))
	case study.FirstOfAlike:
		text = "{option} and {other} fix as much for the same cost."
	}
	return message.New(text, args...)
}

// notes are what must be added to the reason.
func notes(s *study.Study, best, second *study.OptionResult, why study.Reason) []study.Finding {
	var out []study.Finding
	if now, then := s.Today().Efficiency.InstalledMERV, best.Efficiency.InstalledMERV; then < now {
		out = append(out, study.NewFinding(study.Caution, "coarser_than_today", "MERV as installed", "{option} cleans less than today: MERV {merv} instead of {today}.", "option", study.OptionName(best.Name), "merv", then, "today", now))
	}
	if why == study.LeastCost && best.Efficiency.InstalledMERV < second.Efficiency.InstalledMERV {
		out = append(out, study.NewFinding(study.Caution, "coarser_than_next", "MERV as installed",
			"{option} wins on cost alone with the coarser filter: MERV {merv}, where {other} has {other_merv}.",
			"option", study.OptionName(best.Name), "merv", best.Efficiency.InstalledMERV, "other", study.OptionName(second.Name), "other_merv", second.Efficiency.InstalledMERV))
	}
	for i := range s.Options {
		if o := &s.Options[i]; !o.UpgradeKnown {
			out = append(out, study.NewFinding(study.Caution, "cost_unknown", "prices typed", "The work of {option} has no price, so its cost over ten years is not known.", "option", study.OptionName(o.Name)))
		}
	}
	return out
}

// wholeMoney is an amount that is written without cents.
type wholeMoney units.Money

// Show writes it for a reader.
func (m wholeMoney) Show(s units.Locale) string {
	text := units.Money(m).Show(s)
	whole := strings.TrimSuffix(strings.TrimSuffix(text, ".00"), ",00")
	return s.Dollars(strings.TrimPrefix(whole, "$"))
}

// roundMoney rounds to tens: no total is known more closely.
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

// nextWith is what is wrong today and which option to take.
func nextWith(s *study.Study, o *study.OptionResult) study.Finding {
	severity, wrong := study.Good, message.Sentences(nil)
	points := message.Rows{Mark: "; "}
	loss := lossFirst(s)
	if f := Worst(s); f != nil {
		severity, wrong = f.Severity, slices.Clip(f.Wrong)
		if severity == study.Stop || len(loss) == 0 {
			wrong = append(loss, wrong...)
			if m := remedy(o, f.Problem); !m.Empty() {
				points.Items = append(points.Items, m)
			}
		} else {
			wrong = loss
		}
	}
	if m := stays(o, s.Today()); len(loss) == 0 && !m.Empty() { // until the loss is found, what stays is not known
		points.Items = append(points.Items, m)
	}
	points.Items = append(points.Items, message.New("{clean} clean, {dirty} dirty", "clean", o.Clean.Airflow, "dirty", o.Loaded.Airflow), CostPoints(o, s.Today()))
	return study.FindingOf(severity, "next", ruleSource, append(wrong, message.New("Choose {option}: {points}.", "option", study.OptionName(o.Name), "points", points)))
}

// lossFirst advises to find the unexplained loss in the return first: until it is
// found, a larger size may not be needed. Empty where there is no such loss.
func lossFirst(s *study.Study) message.Sentences {
	if !slices.ContainsFunc(s.Findings, func(f study.Finding) bool { return f.Code == study.CodeUnexplained }) {
		return nil
	}
	for _, p := range s.Today().Clean.Parts {
		if p.Name == airpath.PartUnexplained {
			return message.Sentences{message.New("First look for {loss} of return drop that nothing described explains: a crushed flex, a closed damper or a blocked grille.", "loss", p.Drop)}
		}
	}
	return nil
}

// remedy is what the option does to the problem named before it. Of a short airflow,
// whose figures follow in any case, it says only whether it stays short.
func remedy(o *study.OptionResult, p study.Problem) message.Message {
	i := slices.IndexFunc(o.Against, func(c study.ProblemChange) bool { return c.Problem == p })
	if i < 0 {
		return message.Message{}
	}
	c := o.Against[i]
	if p == study.AirflowShort {
		switch c.Effect {
		case study.Removed, study.LimitHigher:
			return message.Message{}
		case study.RemovedUnsure:
			return message.New("enough air, but not surely")
		case study.RemovedClean:
			return message.New("still short with a dirty filter")
		case study.EffectTooClose:
			return message.New("whether this brings more air is too close to tell")
		}
		return message.New("still short")
	}
	switch c.Effect {
	case study.Removed:
		return message.New("this goes away")
	case study.RemovedUnsure:
		return message.New("this goes away, but not surely, at {figure}", "figure", cmp.Or(c.Clean, c.Loaded).After)
	case study.EffectTooClose:
		return message.New("whether this helps is too close to tell")
	case study.RemovedClean:
		return message.New("this goes away with a clean filter and comes back with a dirty one")
	case study.LimitHigher:
		return message.New("the figure stays, but its limit is higher")
	case study.LessenedClean:
		return message.New("this improves to {figure} with a clean filter only, not enough", "figure", c.Clean.After)
	case study.Lessened:
		return message.New("this improves to {figure}, not enough", "figure", cmp.Or(c.Clean, c.Loaded).After) // of the filter state of the finding
	}
	return message.New("this stays")
}

// mostStaying is how many problems that stay are named.
const mostStaying = 2

// stays names problems of today that the option does not remove, the worst first, but
// for the one that the sentence began with.
func stays(o, today *study.OptionResult) message.Message {
	named := message.Rows{Mark: ", "}
	more := 0
	for _, c := range o.Against {
		switch c.Effect {
		case study.Lessened, study.LessenedClean, study.RemovedClean, study.Left, study.Worsened:
		default:
			continue
		}
		switch first := len(today.Findings) > 0 && today.Findings[0].Problem == c.Problem; {
		case first || c.Severity == study.Good:
		case len(named.Items) == mostStaying:
			more++
		default:
			named.Items = append(named.Items, c.Problem)
		}
	}
	switch {
	case len(named.Items) == 0:
		return message.Message{}
	case more > 0:
		return message.New("still there: {problems} and {count} more", "problems", named, "count", more)
	}
	return message.New("still there: {problems}", "problems", named)
}

// CostPoints are the cost of the work now and the cost over ten years beside today's,
// with the MERV of both where they differ.
func CostPoints(o, today *study.OptionResult) message.Rows {
	points := message.Rows{Mark: ", ", Items: []any{workPoint(o)}}
	more := roundMoney(o.TenYearCost - today.TenYearCost)
	args := []any{"money", max(more, -more), "merv", o.Efficiency.InstalledMERV, "today", today.Efficiency.InstalledMERV}
	same := more == 0 || o.TenYearTooClose
	unlike := o.Efficiency.InstalledMERV != today.Efficiency.InstalledMERV
	add := func(text message.ID) message.Rows {
		points.Items = append(points.Items, message.New(text, args...))
		return points
	}
	switch {
	case !o.UpgradeKnown && unlike:
		return add("with MERV {merv} instead of {today}")
	case !o.UpgradeKnown:
		return points
	case !o.TenYearKnown && unlike:
		return add("ten-year cost not known, with MERV {merv} instead of {today}")
	case !o.TenYearKnown:
		return add("ten-year cost not known")
	case same && unlike:
		return add("about the same cost over ten years, with MERV {merv} instead of {today}")
	case same:
		return add("about the same cost over ten years")
	case more > 0 && unlike:
		return add("about {money} more over ten years, with MERV {merv} instead of {today}")
	case more > 0:
		return add("about {money} more over ten years")
	case more < 0 && unlike:
		return add("about {money} less over ten years, with MERV {merv} instead of {today}")
	}
	return add("about {money} less over ten years")
}

// workPoint is the price of the work itself.
func workPoint(o *study.OptionResult) message.Message {
	switch {
	case !o.UpgradeKnown:
		return message.New("no price entered")
	case o.Upgrade == 0:
		return message.New("no work to pay for")
	}
	return message.New("{price} now", "price", wholeMoney(o.Upgrade))
}

// recommendNone explains why no option is recommended, and what to do instead.
func recommendNone(s *study.Study, r *study.Recommendation, all []*study.OptionResult) {
	today, worst := s.Today(), Worst(s)
	set := func(reason study.Reason, severity study.Severity, text message.ID, args ...any) {
		r.Reason, r.Why = reason, study.NewFinding(severity, "recommended", ruleSource, text, args...)
	}
	switch {
	case worst == nil:
		set(study.NoneNeeded, study.Good, "Today's house keeps every limit: {clean} clean, {dirty} dirty. Nothing has to change.", "clean", today.Clean.Airflow, "dirty", today.Loaded.Airflow)
		r.Next = study.FindingOf(study.Good, "next", ruleSource, r.Why.Wrong)
		return
	case len(all) == 0:
		set(study.NoOptions, today.Verdict, "There is no option to compare with today yet.")
	case r.Basis == study.BySamples && slices.ContainsFunc(all, func(o *study.OptionResult) bool {
		return slices.ContainsFunc(o.Against, func(c study.ProblemChange) bool { return c.Effect == study.EffectTooClose })
	}):
		set(study.ReasonTooClose, today.Verdict, "No option is surely better than today. Measure first what is marked as assumed.")
	default:
		near := choose(s, all)
		set(study.NoneImproves, today.Verdict, "No option improves on today; {option} comes nearest.", "option", study.OptionName(near.Name))
		r.Why.Advice = near.Versus.Words()
	}
	r.Next = nextWithout(s, worst)
}

// nextWithout is what is wrong, with the suggested size that moves the most air
// where that is noticeably more than today; else with the advice of the
// finding.
func nextWithout(s *study.Study, f *study.Finding) study.Finding {
	if loss := lossFirst(s); len(loss) > 0 {
		if f.Severity == study.Stop {
			loss = append(loss, f.Words()...)
		}
		return study.FindingOf(f.Severity, "next", f.Source, loss)
	}
	var best *study.Size
	for _, z := range s.SuggestedSizes.Sizes() {
		if z.MeetsAll && (best == nil || z.Airflow > best.Airflow) {
			best = z
		}
	}
	if best == nil || !study.Short(s.Today().Clean.Airflow, best.Airflow) {
		return study.FindingOf(f.Severity, "next", f.Source, f.Words())
	}
	next := study.FindingOf(f.Severity, "next", f.Source, f.Wrong).Then(putIn[best.Place], "size", best.Label, "airflow", best.Airflow)
	if z := s.SuggestedSizes.Smallest(best.Place); z != nil && z.Label != best.Label && z.FilterDrop > best.FilterDrop {
		next = next.Then("Its filter takes {drop} less pressure than one of {smallest}, the smallest size that fits.", "drop", z.FilterDrop-best.FilterDrop, "smallest", z.Label)
	}
	return next
}

// putIn propose a size, by its place.
var putIn = map[job.PlaceKind]message.ID{
	job.InGrille:  "Put in a filter grille of {size}: {airflow} with a clean filter.",
	job.InSlot:    "Put in a slot of {size}: {airflow} with a clean filter.",
	job.InCabinet: "Put in a cabinet of {size}: {airflow} with a clean filter.",
}
