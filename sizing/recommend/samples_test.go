package recommend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/compare"
	"returnbench/sizing/study"
)

// What the numbers claim stays where 95 in 100 samples bear it out: of twenty
// samples the option keeps the limit in so many and is better by 2 in so many,
// worse by 2 in so many, where 1 can be noticed.
func TestClaimsBySamples_Identity(t *testing.T) {
	for _, c := range []struct {
		claim        study.Effect
		kept, better int
		worse        int // of those that are not better; the rest are alike
		want         study.Effect
	}{
		{study.Removed, 20, 20, 0, study.Removed},
		{study.Removed, 10, 20, 0, study.RemovedUnsure},
		{study.Removed, 20, 10, 10, study.EffectTooClose},
		{study.LimitHigher, 20, 0, 20, study.LimitHigher},
		{study.LimitHigher, 10, 20, 0, study.Lessened},
		{study.LimitHigher, 10, 0, 20, study.EffectTooClose},
		{study.Lessened, 0, 20, 0, study.Lessened},
		{study.Lessened, 20, 10, 10, study.EffectTooClose},
		{study.Worsened, 0, 0, 20, study.Worsened},
		{study.Worsened, 0, 20, 0, study.EffectTooClose},
		{study.Worsened, 0, 0, 10, study.EffectTooClose},
		{study.Worsened, 0, 0, 0, study.EffectTooClose},
		{study.Added, 20, 20, 0, study.Added},
	} {
		const n = 20
		key := compare.LimitKey{Problem: "static_high", State: study.WhenClean}
		today, option := &compare.DrawnLimit{}, &compare.DrawnLimit{}
		for k := range n {
			gain := 0.0
			switch {
			case k < c.better:
				gain = 2
			case k < c.better+c.worse:
				gain = -2
			}
			today.Worse, today.Least, today.Missed = append(today.Worse, 5), append(today.Least, 1), append(today.Missed, true)
			option.Worse, option.Least, option.Missed = append(option.Worse, 5-gain), append(option.Least, 1), append(option.Missed, k >= c.kept)
		}
		p := sampledPair{
			option:  &compare.OptionRange{Limits: map[compare.LimitKey]*compare.DrawnLimit{key: option}},
			today:   &compare.OptionRange{Limits: map[compare.LimitKey]*compare.DrawnLimit{key: today}},
			problem: key.Problem,
		}
		got := study.StateChange{Effect: c.claim, Gone: 0.5}
		p.agree(&got, study.WhenClean)
		assert.Equal(t, c.want, got.Effect, "%v, kept in %d, better in %d", c.claim, c.kept, c.better)
		if c.want == study.EffectTooClose {
			assert.Zero(t, got.Gone)
		}
	}
}

// What can be noticed goes by its own sample: a gain of 2 is none where only 3 can be, in
// nineteen of twenty or in one, and so is a loss.
func TestEachSampleHasItsLeastChange_Identity(t *testing.T) {
	for _, c := range []struct {
		claim       study.Effect
		gain        float64
		first, rest float64 // that can be noticed
		want        study.Effect
	}{
		{study.Lessened, 2, 1, 3, study.EffectTooClose},
		{study.Lessened, 2, 3, 1, study.Lessened},
		{study.Worsened, -2, 1, 3, study.EffectTooClose},
		{study.Worsened, -2, 3, 1, study.Worsened},
	} {
		const n = 20
		key := compare.LimitKey{Problem: "static_high", State: study.WhenClean}
		today, option := &compare.DrawnLimit{}, &compare.DrawnLimit{}
		for k := range n {
			least := c.rest
			if k == 0 {
				least = c.first
			}
			today.Worse, today.Least, today.Missed = append(today.Worse, 5), append(today.Least, least), append(today.Missed, true)
			option.Worse, option.Least, option.Missed = append(option.Worse, 5-c.gain), append(option.Least, least), append(option.Missed, true)
		}
		p := sampledPair{
			option:  &compare.OptionRange{Limits: map[compare.LimitKey]*compare.DrawnLimit{key: option}},
			today:   &compare.OptionRange{Limits: map[compare.LimitKey]*compare.DrawnLimit{key: today}},
			problem: key.Problem,
		}
		got := study.StateChange{Effect: c.claim}
		p.agree(&got, study.WhenClean)
		assert.Equal(t, c.want, got.Effect, "%v, %v can be noticed in the first and %v in the others", c.claim, c.first, c.rest)
	}
}
