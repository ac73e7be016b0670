package sizing

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/recommend"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// steady is a house whose sums can be done by hand. Its blower holds flow at any
// static, within 1 cfm. At 1200 cfm the return takes 0.10 in. w.c. (a fifth of the
// rated 0.50), coil and supply 0.10 each as typed: 0.30 without the filter, which
// stands in 20x25 in, 3.472 ft2, so at 1200 / 3.472 = 345.6 fpm.
func steady(flow units.Flow, today filter.Filter) Job {
	j := least()
	j.Equipment.Kind, j.Equipment.NoHeating, j.Equipment.RatedExternalStatic = FurnaceWithCoil, true, 0.5*units.InchWater
	points := []blower.Point{
		{ExternalStatic: 0.05 * units.InchWater, Airflow: flow + units.CFM, Power: 400},
		{ExternalStatic: 1.5 * units.InchWater, Airflow: flow - units.CFM, Power: 500},
	}
	j.Equipment.Blower = blower.Table{Motor: blower.ConstantAirflow, Taps: []blower.Tap{{Name: "only", Points: points}}}
	j.Coil.Drop, j.Supply.Drop = 0.10*units.InchWater, 0.10*units.InchWater
	j.Limits.MaxFilterDrop = units.InchWater // nothing is over it
	j.Limits.ChangeDrop, j.Limits.ChangeMonths = 0.35*units.InchWater, 12*units.Month
	j.Site.CoolingHours = 4000 * units.Hour
	j.Filters = []filter.Filter{today}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: today.Depth, Filter: today.Name}
	return j
}

// rated is a filter that drops so much, clean, at 345.6 fpm.
func rated(name string, depth units.Length, drop float64, merv int) filter.Filter {
	return filter.Filter{Name: name, Depth: depth, MERV: merv,
		Rating: []filter.RatingPoint{{FaceVelocity: 345.6 * units.FPM, Drop: units.Pressure(drop) * units.InchWater}}}
}

// offer makes a filter in a 20x25 cabinet an option of the job.
func offer(j *Job, f filter.Filter, price units.Money) {
	j.Filters = append(j.Filters, f)
	j.Options = append(j.Options, Option{Name: f.Name, Filter: f.Name, Price: price,
		Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: f.Depth, Filter: f.Name}})
}

func changeOf(t testing.TB, s *Study, option string, p Problem) ProblemChange {
	t.Helper()
	o := s.Option(option)
	i := slices.IndexFunc(o.Against, func(c ProblemChange) bool { return c.Problem == p })
	require.GreaterOrEqual(t, i, 0, "%s says nothing of %s", option, p)
	return o.Against[i]
}

func findingOf(t testing.TB, fs []Finding, code string) Finding {
	t.Helper()
	f, ok := study.First(fs, func(f Finding) bool { return f.Code == code })
	require.True(t, ok, code)
	return f
}

// Static today 0.30 + 0.30 = 0.60, 0.10 over the rated 0.50; dirty 0.30 + 0.35 =
// 0.65, over it too.
func TestFindingHoldsItsNumbers_Identity(t *testing.T) {
	f := findingOf(t, solved(t, steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 8))).Today().Findings, "static_high")
	assert.Equal(t, StaticHigh, f.Problem)
	assert.Equal(t, WhenBoth, f.State)
	assert.InDelta(t, 0.60, f.Measured.(units.Pressure).In(units.InchWater), 0.01)
	assert.InDelta(t, 0.50, f.Limit.(units.Pressure).In(units.InchWater), 1e-9)
	assert.Regexp(t, `^External static is 0\.(60\d|59\d) in\. w\.c\., 0\.(10\d|09\d) in\. w\.c\. over the rated 0\.500 in\. w\.c\.: the blower takes \d+ W to hold its airflow\. The filter is the biggest restriction`, f.In(units.IP))
	assert.NotContains(t, f.Lead(units.IP), "restriction")
}

// Today 0.60 clean and 0.65 dirty are over the rated 0.50. The option's filter
// drops 0.10: 0.40 clean, and 0.65 again once it is changed at 0.35. It is no
// cure, and the option is not good.
func TestBackWhenDirtyIsNotRemoved_Identity(t *testing.T) {
	j := steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 8))
	deep := rated("deep", 4*units.Inch, 0.10, 8)
	deep.Width, deep.Height, deep.DustCapacity, deep.FinalDrop = 20*units.Inch, 25*units.Inch, 100*units.Gram, 0.36*units.InchWater
	offer(&j, deep, 600)
	s := solved(t, j)
	c := changeOf(t, s, "deep", StaticHigh)
	assert.Equal(t, RemovedClean, c.Effect)
	assert.Equal(t, Removed, c.Clean.Effect)
	assert.InDelta(t, 0.20, c.Clean.By.(units.Pressure).In(units.InchWater), 0.005)
	assert.Equal(t, Left, c.Loaded.Effect)
	assert.InDelta(t, 0.65, c.Loaded.After.(units.Pressure).In(units.InchWater), 0.02)
	o := s.Option("deep")
	assert.Equal(t, WhenLoaded, findingOf(t, o.Findings, "static_high").State)
	assert.NotEqual(t, Good, o.Verdict)
	assert.Contains(t, o.Versus.In(units.IP), "Removes with a clean filter only: high external static.")

	// With a filter changed at 0.15 it stays away: 0.30 + 0.15 = 0.45 dirty.
	j.Limits.ChangeDrop = 0.15 * units.InchWater
	j.Filters[0] = rated("thin", units.Inch, 0.30, 8)
	assert.Equal(t, Removed, changeOf(t, solved(t, j), "deep", StaticHigh).Effect)
}

// 345.6 fpm is over the 300 of a thin filter. A filter 4 in deep in the same
// face sees the same speed under a limit of 492; in a face of 24x30, 5 ft2, it
// sees 240 fpm, under both.
func TestHigherLimitIsNotRemoved_Identity(t *testing.T) {
	j := steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 8))
	offer(&j, rated("deep", 4*units.Inch, 0.10, 8), 600)
	offer(&j, rated("large", 4*units.Inch, 0.10, 8), 600)
	j.Options[1].Slot.Width, j.Options[1].Slot.Height = 24*units.Inch, 30*units.Inch
	s := solved(t, j)
	c := changeOf(t, s, "deep", FaceVelocity)
	assert.Equal(t, LimitHigher, c.Effect)
	assert.InDelta(t, 0, c.Clean.By.(units.Speed).In(units.FPM), 0.5)
	assert.InDelta(t, 300, c.Clean.LimitBefore.(units.Speed).In(units.FPM), 1e-9)
	assert.InDelta(t, 492, c.Clean.LimitAfter.(units.Speed).In(units.FPM), 1e-9)
	assert.Zero(t, s.Option("deep").Counts.Removed, "the static is back when dirty")
	assert.Equal(t, Removed, changeOf(t, s, "large", FaceVelocity).Effect)
}

// Of 1200 cfm, 1180 is 1.7 % short and 1190 is 0.8 %, less than a gauge tells.
// Findings, taps and upgrades go by the one limit.
func TestOneLimitOfShortAirflow_Identity(t *testing.T) {
	for flow, isShort := range map[units.Flow]bool{1180 * units.CFM: true, 1190 * units.CFM: false} {
		j := steady(flow, rated("thin", units.Inch, 0.10, 8))
		s := solved(t, j)
		found := codes(s.Today().Findings)
		assert.Equal(t, isShort, found["airflow_short"] == Caution)
		assert.Equal(t, !isShort, found["airflow"] == Good)
		assert.Equal(t, !isShort, s.Taps[0].ReachesFlow)
		j.Filters = append(j.Filters, rated("other", units.Inch, 0.11, 8))
		r, err := FindUpgrades(context.Background(), j, 1200*units.CFM, nil)
		require.NoError(t, err)
		assert.Equal(t, !isShort, slices.ContainsFunc(r.Upgrades, func(w Upgrade) bool { return w.Name() == "filter other" }))
		assert.Equal(t, isShort, slices.ContainsFunc(r.FallShort, func(w Upgrade) bool { return w.Name() == "filter other" }))
	}
}

// Three options, all with a caution: the numbers tell them apart. Static 0.60
// today becomes 0.40, 0.52 and 0.62.
func TestCautionsAreDistinguished_Identity(t *testing.T) {
	j := steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 8))
	j.Limits.ChangeDrop = 0.34 * units.InchWater
	offer(&j, rated("good", 2*units.Inch, 0.10, 8), 600)
	offer(&j, rated("fair", 2*units.Inch, 0.22, 8), 600)
	offer(&j, rated("poor", 2*units.Inch, 0.32, 8), 600)
	s := solved(t, j)
	for name, want := range map[string]struct {
		static Effect
		counts Counts
	}{
		"good": {RemovedClean, Counts{Cautions: 2, Lessened: 1, Left: 1}},
		"fair": {LessenedClean, Counts{Cautions: 2, Lessened: 1, Left: 1}},
		"poor": {Worsened, Counts{Cautions: 2, Left: 2}},
	} {
		o := s.Option(name)
		assert.Equal(t, Caution, o.Verdict, name)
		assert.Equal(t, want.static, changeOf(t, s, name, StaticHigh).Effect, name)
		assert.Equal(t, want.counts, o.Counts, name)
	}
	assert.NotEqual(t, s.Option("good").Versus.In(units.IP), s.Option("fair").Versus.In(units.IP))
	assert.Equal(t, "good", s.Recommendation.Option)
}

// Each point of the rule decides once. All cabinets take the static from 0.60 to
// 0.40; what else they are differs.
func TestRecommendation_Identity(t *testing.T) {
	thin := rated("thin", units.Inch, 0.30, 11)
	deep := func(name string, merv int) filter.Filter {
		f := rated(name, 4*units.Inch, 0.10, merv)
		f.Price = 30
		return f
	}
	t.Run("cost", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, deep("dear", 11), 800)
		offer(&j, deep("cheap", 11), 500)
		s := solved(t, j)
		r := s.Recommendation
		assert.Equal(t, "cheap", r.Option)
		assert.Equal(t, LeastCost, r.Reason)
		assert.Equal(t, "dear", r.RunnerUp)
		assert.Contains(t, r.Why.In(units.IP), "cheap costs $300 less over ten years", "800 - 500")
		assert.Equal(t, ByNumbers, r.Basis)
		assert.Equal(t, "cheap", s.Proposed().Name)
	})
	t.Run("a cost not known comes last", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, deep("unpriced", 11), 0)
		offer(&j, deep("priced", 11), 800)
		s := solved(t, j)
		assert.Equal(t, "priced", s.Recommendation.Option)
		assert.Contains(t, codes(s.Recommendation.Notes), "cost_unknown")
		assert.NotContains(t, s.Recommendation.Why.In(units.IP), "less over ten years")
	})
	t.Run("problems before cost", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, rated("little", 2*units.Inch, 0.28, 11), 10) // 0.58, and as fast as today
		offer(&j, deep("much", 11), 5000)
		s := solved(t, j)
		assert.Equal(t, "much", s.Recommendation.Option)
		assert.Equal(t, MostRemoved, s.Recommendation.Reason)
	})
	t.Run("a coarser filter than today never wins on cost", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, deep("coarse", 8), 100)
		offer(&j, deep("fine", 11), 800)
		r := solved(t, j).Recommendation
		assert.Equal(t, "fine", r.Option)
		assert.Equal(t, KeepsFineness, r.Reason)
		assert.Contains(t, r.Why.In(units.IP), "coarse cleans less than today, MERV 8 instead of 11")
	})
	t.Run("unequal fineness is said", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, deep("thirteen", 13), 100)
		offer(&j, deep("sixteen", 16), 800)
		r := solved(t, j).Recommendation
		assert.Equal(t, "thirteen", r.Option)
		assert.Contains(t, r.Why.In(units.IP), "with MERV 13 instead of 16")
		assert.Contains(t, codes(r.Notes), "coarser_than_next")
		assert.Contains(t, r.Next.In(units.IP), "over ten years, with MERV 13 instead of 11.")
	})
	t.Run("stops before problems", func(t *testing.T) {
		// 60000 Btu/h into 1200 cfm is 60000 / (1.08 x 1200) = 46 F; a wheel at 0.7 times
		// the speed moves some 840 cfm, 66 F, over the nameplate's 60.
		j := steady(1200*units.CFM, thin)
		j.Equipment.NoHeating, j.Equipment.Blower.Motor = false, blower.PSC
		j.Equipment.HeatingOutput, j.Equipment.RiseLow, j.Equipment.RiseHigh = 60000*units.BtuPerHour, 30*units.FahrenheitDegree, 60*units.FahrenheitDegree
		offer(&j, deep("slow", 11), 100)
		offer(&j, rated("little", 2*units.Inch, 0.25, 11), 800)
		j.Options[0].SpeedRatio = 0.7
		s := solved(t, j)
		require.Equal(t, Stop, s.Option("slow").Verdict)
		assert.Equal(t, Added, changeOf(t, s, "slow", RiseHigh).Effect)
		assert.Equal(t, "little", s.Recommendation.Option)
		assert.Equal(t, OnlyOne, s.Recommendation.Reason, "one that adds a stop does not improve on today")
	})
	t.Run("none improves", func(t *testing.T) {
		j := steady(1200*units.CFM, thin)
		offer(&j, rated("same", units.Inch, 0.30, 11), 100)
		s := solved(t, j)
		assert.Nil(t, s.Recommended())
		assert.Equal(t, TodayName, s.Proposed().Name)
		assert.Equal(t, NoneImproves, s.Recommendation.Reason)
		assert.Contains(t, s.Recommendation.Why.In(units.IP), "No option improves on today; same comes nearest.")
	})
	t.Run("none needed", func(t *testing.T) {
		// 20x30, 4.17 ft2: 288 fpm; 0.30 + 0.07 = 0.37 clean and 0.30 + 0.15 = 0.45 dirty.
		j := steady(1200*units.CFM, rated("thin", units.Inch, 0.08, 11))
		j.Slot.Width, j.Slot.Height = 20*units.Inch, 30*units.Inch
		j.Limits.ChangeDrop, j.Limits.MaxFilterDrop = 0.15*units.InchWater, 0
		s := solved(t, j)
		require.Equal(t, Good, s.Today().Verdict, s.Today().Why)
		require.Nil(t, recommend.Worst(s))
		assert.Equal(t, NoneNeeded, s.Recommendation.Reason)
		assert.Equal(t, Good, s.Recommendation.Next.Severity)
	})
	t.Run("no options", func(t *testing.T) {
		s := solved(t, steady(1000*units.CFM, thin))
		assert.Equal(t, NoOptions, s.Recommendation.Reason)
	})
}

// The next step says what is wrong, by how much, and what to do, in the units
// asked for. Airflow 1000 of 1200 cfm: 200 short, 333 cfm per ton. What the option
// improves is the static, over 0.50 with 0.21 and 0.37 for the filter.
func TestNextStep_Identity(t *testing.T) {
	j := steady(1000*units.CFM, rated("thin", units.Inch, 0.45, 11))
	j.Limits.ChangeDrop = 0.5 * units.InchWater
	offer(&j, rated("deep", 4*units.Inch, 0.10, 11), 600)
	next := solved(t, j).Recommendation.Next
	assert.Equal(t, Caution, next.Severity)
	assert.Regexp(t, `^Airflow is 1000 cfm \(333 cfm/ton\), 200 cfm short of the 1200 cfm the coil needs\. Choose deep: still short; 100[01] cfm clean, 100[01] cfm dirty; \$600 now, about \$\d+ (more|less) over ten years\.$`, next.In(units.IP))
	assert.Contains(t, next.In(units.SI), "472 L/s")
	assert.NotContains(t, next.In(units.SI), "cfm")

	// Without options the suggested size that moves noticeably more air is offered;
	// this blower moves the same through any, so the finding's own advice stands.
	j.Options = nil
	next = solved(t, j).Recommendation.Next
	assert.Contains(t, next.In(units.IP), "The filter is the biggest restriction")
	weak := least()
	weak.Slot = Slot{Width: 16 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch}
	s := solved(t, weak)
	assert.Regexp(t, `Put in a (cabinet|slot|filter grille) of .*: \d+ cfm with a clean filter\. Its filter takes 0\.0\d\d in\. w\.c\. less pressure than one of 24x24x4, the smallest size that fits\.$`, s.Recommendation.Next.In(units.IP))

	// By counts to the better: of an airflow what is gained, of a static what falls.
	offer(&weak, rated("deep", 4*units.Inch, 0.10, 8), 600)
	s = solved(t, weak)
	now, then := s.Today(), s.Option("deep")
	require.Greater(t, then.Clean.Airflow, now.Clean.Airflow)
	air, static := changeOf(t, s, "deep", AirflowShort), changeOf(t, s, "deep", StaticHigh)
	assert.InDelta(t, float64(then.Clean.Airflow-now.Clean.Airflow), air.Clean.By.SI(), 1e-12)
	assert.InDelta(t, float64(now.Clean.ExternalStatic-then.Clean.ExternalStatic), static.Clean.By.SI(), 1e-9)
}

// Static 0.60 today. An option at 0.499 keeps the limit by its number alone: in
// about half of the samples it does not, so it is said to be removed, but not surely.
// One at 0.33 keeps it in nearly all. The recommendation follows.
func TestClaimsHoldToTheSamples_Identity(t *testing.T) {
	j := steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 11))
	j.Limits.ChangeDrop = 0.31 * units.InchWater
	offer(&j, rated("barely", 4*units.Inch, 0.185, 11), 500)
	offer(&j, rated("plainly", 4*units.Inch, 0.03, 11), 500)
	j.Returns = nil
	s := solved(t, j)
	require.Equal(t, Removed, changeOf(t, s, "barely", StaticHigh).Clean.Effect, s.Option("barely").Clean.ExternalStatic.Show(units.IP))
	ranges, err := Ranges(context.Background(), j, 100, UsualSeed, nil)
	require.NoError(t, err)
	held := recommend.WithRanges(s, ranges)
	c := changeOf(t, held, "barely", StaticHigh)
	assert.Equal(t, BySamples, c.Basis)
	assert.Equal(t, RemovedUnsure, c.Clean.Effect)
	assert.Equal(t, Removed, changeOf(t, held, "plainly", StaticHigh).Clean.Effect)
	assert.Equal(t, BySamples, held.Recommendation.Basis)
	assert.Equal(t, ByNumbers, changeOf(t, s, "barely", StaticHigh).Basis, "the study itself is left as it was")

	// Two like filters: the samples tell no difference from today.
	j.Filters, j.Options = j.Filters[:1], nil
	offer(&j, rated("alike", units.Inch, 0.297, 11), 500)
	s = solved(t, j)
	ranges, err = Ranges(context.Background(), j, 100, UsualSeed, nil)
	require.NoError(t, err)
	assert.Nil(t, recommend.WithRanges(s, ranges).Recommended())
}

func TestSeverityRank(t *testing.T) {
	assert.Greater(t, Stop.Rank(), Caution.Rank())
	assert.Greater(t, Caution.Rank(), Good.Rank())
	fs := []Finding{{Severity: Good}, {Severity: Stop, Code: "first"}, {Severity: Caution}, {Severity: Stop}}
	WorstFirst(fs)
	assert.Equal(t, "first", fs[0].Code)
	assert.Equal(t, Good, fs[3].Severity)
}
