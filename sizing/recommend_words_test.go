package sizing

import (
	"returnbench/sizing/message"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/recommend"
	"returnbench/sizing/units"
)

// chosen is a study of today, over its static of 0.50 in. w.c. with 0.80, and of
// options that bring it down to 0.40, a, b and so on, with costs over ten years.
func chosen(costs ...units.Money) *Study {
	in := float64(units.InchWater)
	static := func(name string, kind OptionKind, v float64) OptionResult {
		o := judged(name, kind, figure{StaticHigh, v * in, v * in, 0.5 * in, false})
		o.UpgradeKnown, o.TenYearKnown, o.Efficiency.InstalledMERV = true, true, 8
		o.Clean.Airflow, o.Loaded.Airflow = 1000*units.CFM, 900*units.CFM
		return o
	}
	s := &Study{Options: []OptionResult{static(NoFilterName, KindNoFilter, 0.3), static(TodayName, KindToday, 0.8)}}
	s.Options[1].TenYearCost = 5000
	s.Options[1].Findings[0].Wrong = words("The static is high.")
	for i, c := range costs {
		o := static(string(rune('a'+i)), KindOption, 0.4)
		o.TenYearCost, o.Verdict = c, Good
		s.Options = append(s.Options, o)
	}
	return s
}

// advise writes the recommendation of a study whose options are changed first.
func advise(s *Study, change func(o []OptionResult)) Recommendation {
	change(s.Options[2:])
	return recommend.WithRanges(s, nil).Recommendation
}

// Which option, why, and what is said of it: each rule in its turn, the first that tells
// two options apart. Costs are reported in tens.
func TestAdviceInWords(t *testing.T) {
	as := func([]OptionResult) {}
	r := advise(chosen(4000), as)
	assert.Equal(t, []any{"a", OnlyOne, ""}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "a is the only option that improves on today. Removes: high external static.", r.Why.In(units.IP))
	assert.Equal(t, "The static is high. Choose a: this goes away; 1000 cfm clean, 900 cfm dirty; no work to pay for, about $1,000 less over ten years.", r.Next.In(units.IP))
	assert.Equal(t, Caution, r.Next.Severity)
	assert.Equal(t, Good, r.Why.Severity)

	r = advise(chosen(5126, 5204), as)
	assert.Equal(t, []any{"a", LeastCost, "b"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "a and b fix about as much; a costs $80 less over ten years. Removes: high external static.", r.Why.In(units.IP))
	assert.Contains(t, r.Next.In(units.IP), "about $130 more over ten years.")
	assert.Empty(t, r.Notes)

	// The work itself: a price to the dollar, or none.
	r = advise(chosen(5560), func(o []OptionResult) { o[0].Upgrade = 1480 })
	assert.Contains(t, r.Next.In(units.IP), "900 cfm dirty; $1,480 now, about $560 more over ten years.")
	assert.Contains(t, r.Next.In(units.Locale{Comma: true, Language: "es"}), "$1.480 ahora, cerca de $560 más a diez años.")
	r = advise(chosen(5560), func(o []OptionResult) { o[0].UpgradeKnown, o[0].TenYearKnown = false, false })
	assert.Contains(t, r.Next.In(units.IP), "900 cfm dirty; no price entered.")

	r = advise(chosen(5204, 5003), as)
	assert.Equal(t, []any{"b", LeastCost, "a"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Contains(t, r.Next.In(units.IP), "about the same cost over ten years.")

	r = advise(chosen(5000, 5000), as)
	assert.Equal(t, []any{"a", FirstOfAlike, "b"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "a and b fix as much for the same cost. Removes: high external static.", r.Why.In(units.IP))

	r = advise(chosen(5300, 5000), func(o []OptionResult) {
		o[1].Findings = append(o[1].Findings, Finding{Severity: Stop, Code: "off_table", Problem: OffTable})
	})
	assert.Equal(t, []any{"a", OnlyOne, ""}, []any{r.Option, r.Reason, r.RunnerUp}, "one with a stop more than today improves nothing")
	r = advise(chosen(5300, 5000, 6000), func(o []OptionResult) {
		o[1].Efficiency.InstalledMERV, o[2].Efficiency.InstalledMERV = 6, 6
	})
	assert.Equal(t, []any{"a", KeepsFineness, "b"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "a and b fix about as much; b costs $300 less over ten years; b cleans less than today, MERV 6 instead of 8. Removes: high external static.", r.Why.In(units.IP))
	r = advise(chosen(4800, 5000), func(o []OptionResult) { o[1].Efficiency.InstalledMERV = 6 })
	assert.Equal(t, "a and b fix about as much; b cleans less than today, MERV 6 instead of 8. Removes: high external static.", r.Why.In(units.IP))

	// An unpriced one comes last; a coarser one wins on cost alone, and that is noted.
	r = advise(chosen(4000, 5000), func(o []OptionResult) { o[0].TenYearKnown, o[0].UpgradeKnown, o[0].TenYearCost = false, false, 0 })
	assert.Equal(t, []any{"b", LeastCost, "a"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "b and a fix about as much; only the cost of b is known. Removes: high external static.", r.Why.In(units.IP))
	require.Len(t, r.Notes, 1)
	assert.Equal(t, "The work of a has no price, so its cost over ten years is not known.", r.Notes[0].In(units.IP))
	r = advise(chosen(4000, 5000), func(o []OptionResult) {
		o[0].TenYearKnown, o[1].TenYearKnown = false, false
	})
	assert.Contains(t, r.Next.In(units.IP), "no work to pay for, ten-year cost not known.")
	r = advise(chosen(4000, 5000), func(o []OptionResult) { o[0].Efficiency.InstalledMERV, o[1].Efficiency.InstalledMERV = 9, 11 })
	assert.Equal(t, "a and b fix about as much; a costs $1,000 less over ten years, with MERV 9 instead of 11. Removes: high external static.", r.Why.In(units.IP))
	require.Len(t, r.Notes, 1)
	assert.Equal(t, "a wins on cost alone with the coarser filter: MERV 9, where b has 11.", r.Notes[0].In(units.IP))
	assert.Contains(t, r.Next.In(units.IP), "about $1,000 less over ten years, with MERV 9 instead of 8.")
	r = advise(chosen(4000, 5000), func(o []OptionResult) { o[0].Efficiency.InstalledMERV, o[1].Efficiency.InstalledMERV = 11, 9 })
	assert.Empty(t, r.Notes)
	r = advise(chosen(4000), func(o []OptionResult) { o[0].Efficiency.InstalledMERV = 6 })
	require.Len(t, r.Notes, 1)
	assert.Equal(t, "a cleans less than today: MERV 6 instead of 8.", r.Notes[0].In(units.IP))

	// Stops today that one option has fewer of.
	stops := func(o *OptionResult, n int) {
		for range n {
			o.Findings = append([]Finding{{Severity: Stop, Code: "off_table", Problem: OffTable, Wrong: words("Off.")}}, o.Findings...)
		}
	}
	s := chosen(5000, 4000)
	stops(&s.Options[1], 3)
	r = advise(s, func(o []OptionResult) { stops(&o[0], 1); stops(&o[1], 2) })
	assert.Equal(t, []any{"a", FewestStops, "b"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Contains(t, r.Why.In(units.IP), "a has the fewest stops, 1; b has 2.")
	assert.Equal(t, Stop, r.Next.Severity)
	assert.Contains(t, r.Next.In(units.IP), "Off. Choose a: this stays; 1000 cfm clean", "one stop is left")

	// One that lessens the static by half of its excess, clean and dirty, removes 1, half
	// a problem and more behind one that removes 2.
	in := units.InchWater
	half := judged("half", KindOption, figure{StaticHigh, 0.65 * float64(in), 0.65 * float64(in), 0.5 * float64(in), false})
	r = advise(chosen(6000, 100), func(o []OptionResult) {
		cost := o[1].TenYearCost
		o[1] = half
		o[1].TenYearCost, o[1].TenYearKnown, o[1].UpgradeKnown, o[1].Efficiency.InstalledMERV = cost, true, true, 8
	})
	assert.Equal(t, []any{"a", MostRemoved, "half"}, []any{r.Option, r.Reason, r.RunnerUp})
	assert.Equal(t, "a fixes more of today's problems than half, clean and dirty. Removes: high external static.", r.Why.In(units.IP))
	r = advise(chosen(100), func(o []OptionResult) {
		o[0] = half
		o[0].Name, o[0].TenYearKnown, o[0].Clean.Airflow, o[0].Loaded.Airflow = "a", true, 1000*units.CFM, 900*units.CFM
	})
	assert.Contains(t, r.Next.In(units.IP), "Choose a: this improves to 0.650 in. w.c., not enough; 1000 cfm clean")
}

// What the next step says of the problem named: it goes, comes back dirty, stays, or is
// allowed by a higher limit.
func TestRemedyInWords(t *testing.T) {
	in := float64(units.InchWater)
	next := func(today, then figure, more ...figure) string {
		s := chosen(5000)
		held := func(o *OptionResult, figures ...figure) {
			j := judged(o.Name, o.Kind, figures...)
			o.Held, o.Findings = j.Held, j.Findings
			for i := range o.Findings {
				o.Findings[i].Wrong = words("It is so.")
			}
		}
		held(&s.Options[1], append([]figure{today}, figure{FilterDrop, 0.5 * in, 0.5 * in, 0.1 * in, false})...)
		held(&s.Options[2], append([]figure{then}, figure{FilterDrop, 0.05 * in, 0.05 * in, 0.1 * in, false})...)
		return advise(s, func([]OptionResult) {}).Next.In(units.IP)
	}
	assert.Contains(t, next(figure{StaticHigh, 150, 150, 100, false}, figure{StaticHigh, 90, 150, 100, false}), "Choose a: this goes away with a clean filter and comes back with a dirty one; 1000 cfm")
	assert.Contains(t, next(figure{StaticHigh, 150, 150, 100, false}, figure{StaticHigh, 150, 150, 100, false}), "Choose a: this stays; 1000 cfm")
	assert.Contains(t, next(figure{StaticHigh, 150, 150, 100, false}, figure{StaticHigh, 160, 160, 100, false}), "Choose a: this stays; 1000 cfm")
	assert.Contains(t, next(figure{AirflowShort, 90, 90, 100, true}, figure{AirflowShort, 120, 120, 100, true}), "Choose a: 1000 cfm", "airflow follows in any case")
	assert.Contains(t, next(figure{AirflowShort, 80, 80, 100, true}, figure{AirflowShort, 90, 90, 100, true}), "Choose a: still short; 1000 cfm")
	assert.Contains(t, next(figure{AirflowShort, 80, 80, 100, true}, figure{AirflowShort, 120, 90, 100, true}), "Choose a: still short with a dirty filter; 1000 cfm")
	assert.Contains(t, next(figure{FaceVelocity, 150, 150, 100, false}, figure{FaceVelocity, 140, 140, 200, false}), "Choose a: the figure stays, but its limit is higher; 1000 cfm")
}

// Why none is recommended.
func TestNoneInWords(t *testing.T) {
	s := chosen()
	r := recommend.WithRanges(s, nil).Recommendation
	assert.Equal(t, []any{"", NoOptions, "There is no option to compare with today yet."}, []any{r.Option, r.Reason, r.Why.In(units.IP)})
	assert.Equal(t, "The static is high.", r.Next.In(units.IP))
	assert.Equal(t, Caution, r.Why.Severity)
	s = chosen(100, 200)
	for i := range s.Options[2:] {
		o := &s.Options[i+2]
		name := o.Name
		*o = judged(name, KindOption, figure{StaticHigh, float64(0.9+0.1*float64(i)) * float64(units.InchWater), float64(0.9+0.1*float64(i)) * float64(units.InchWater), 0.5 * float64(units.InchWater), false})
	}
	r = recommend.WithRanges(s, nil).Recommendation
	assert.Equal(t, []any{"", NoneImproves}, []any{r.Option, r.Reason})
	assert.Equal(t, "No option improves on today; a comes nearest. Makes worse: high external static (0.800 in. w.c. to 0.900 in. w.c.).", r.Why.In(units.IP))
	calm := chosen(100)
	calm.Options[1].Findings, calm.Options[1].Held = nil, calm.Options[2].Held
	r = recommend.WithRanges(calm, nil).Recommendation
	assert.Equal(t, []any{"", NoneNeeded, "Today's house keeps every limit: 1000 cfm clean, 900 cfm dirty. Nothing has to change."}, []any{r.Option, r.Reason, r.Why.In(units.IP)})
	assert.Equal(t, r.Why.In(units.IP), r.Next.In(units.IP))
	// A finding of the house itself counts, but not that much is assumed.
	calm.Findings = []Finding{{Severity: Caution, Code: "assumed", Wrong: words("Assumed.")}, {Severity: Caution, Code: "x", Option: "a"}, {Severity: Good, Code: "y"}}
	assert.Nil(t, recommend.Worst(calm))
	calm.Findings = append(calm.Findings, Finding{Severity: Caution, Code: "duct", Wrong: words("Duct.")})
	assert.Equal(t, "duct", recommend.Worst(calm).Code)
	calm.Options[1].Findings = []Finding{{Severity: Good, Code: "well"}, {Severity: Caution, Code: "today"}}
	assert.Equal(t, "today", recommend.Worst(calm).Code, "today's own come first")
	calm.Options[1].Findings = calm.Options[1].Findings[:1]
	assert.Equal(t, "duct", recommend.Worst(calm).Code)
	calm.Options[1].Findings = nil
	r = recommend.WithRanges(calm, nil).Recommendation
	assert.Equal(t, "Duct.", r.Next.In(units.IP))
	// The suggested size that moves the most air, where that is noticeably more.
	calm.SuggestedSizes = SuggestedSizes{Slot: &Size{Place: InSlot, Label: "small", MeetsAll: true, Airflow: 1100 * units.CFM}, Cabinet: &Size{Place: InCabinet, Label: "large", MeetsAll: true, Airflow: 1200 * units.CFM},
		Grille: &Size{Place: InGrille, Label: "larger", Airflow: 1300 * units.CFM}}
	assert.Equal(t, "Duct. Put in a cabinet of large: 1200 cfm with a clean filter.", recommend.WithRanges(calm, nil).Recommendation.Next.In(units.IP))
	calm.SuggestedSizes.Cabinet.Airflow, calm.SuggestedSizes.Slot.Airflow = 1005*units.CFM, 1002*units.CFM
	assert.Equal(t, "Duct.", recommend.WithRanges(calm, nil).Recommendation.Next.In(units.IP))
}

func words(text message.ID) message.Sentences { return message.Sentences{message.New(text)} }
