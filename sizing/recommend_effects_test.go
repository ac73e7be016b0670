package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/recommend"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// figure is a limit of an option with its finding, where it is missed.
type figure struct {
	problem       Problem
	clean, loaded float64 // SI
	limit         float64
	least         bool
}

// judged is an option of which only figures and findings are known.
func judged(name string, kind OptionKind, figures ...figure) OptionResult {
	o := OptionResult{Name: name, Kind: kind, Verdict: Caution}
	for _, f := range figures {
		missed := false
		for state, v := range map[FilterState]float64{WhenClean: f.clean, WhenLoaded: f.loaded} {
			l := study.AtMost(f.problem, state, units.Pressure(v), units.Pressure(f.limit))
			if f.least {
				l = study.AtLeast(f.problem, state, units.Pressure(v), units.Pressure(f.limit))
			}
			o.Held = append(o.Held, l)
			missed = missed || l.Missed
		}
		if missed {
			o.Findings = append(o.Findings, Finding{Severity: Caution, Code: string(f.problem), Problem: f.problem})
		}
	}
	return o
}

// What becomes of one problem, clean and dirty, with how much of it is gone: of a static
// of 150 over 100, 120 leaves 20 of the 50 too much, 3/5 are gone; 200 adds as much again.
// A minimum counts the other way. Less than a hundredth of the figure is no change.
func TestEffectsByHand_Identity(t *testing.T) {
	type state struct {
		effect   Effect
		gone, by float64
	}
	for _, c := range []struct {
		name                                  string
		least                                 bool
		now, nowLoaded, then, thenLoaded, lim float64
		clean, loaded                         *state
		both                                  Effect
	}{
		{"removed", false, 150, 150, 90, 90, 100, &state{Removed, 1, 60}, &state{Removed, 1, 60}, Removed},
		{"lessened", false, 150, 160, 120, 130, 100, &state{Lessened, 0.6, 30}, &state{Lessened, 0.5, 30}, Lessened},
		{"left", false, 150, 150, 149, 151, 100, &state{Left, 0, 1}, &state{Left, 0, -1}, Left},
		{"worse", false, 150, 150, 200, 160, 100, &state{Worsened, -1, -50}, &state{Worsened, -0.2, -10}, Worsened},
		{"far worse", false, 150, 150, 300, 160, 100, &state{Worsened, -1, -150}, &state{Worsened, -0.2, -10}, Worsened},
		{"added", false, 90, 90, 120, 120, 100, &state{Added, -1, -30}, &state{Added, -1, -30}, Added},
		{"added clean, worse dirty", false, 90, 150, 120, 200, 100, &state{Added, -1, -30}, &state{Worsened, -1, -50}, Worsened},
		{"too close", false, 100.5, 100.5, 99.9, 99.9, 100, &state{EffectTooClose, 0, 0.6}, &state{EffectTooClose, 0, 0.6}, EffectTooClose},
		{"removed clean", false, 150, 150, 90, 150, 100, &state{Removed, 1, 60}, &state{Left, 0, 0}, RemovedClean},
		{"lessened clean", false, 150, 150, 120, 150, 100, &state{Lessened, 0.6, 30}, &state{Left, 0, 0}, LessenedClean},
		{"lessened clean, worse dirty", false, 150, 150, 120, 175, 100, &state{Lessened, 0.6, 30}, &state{Worsened, -0.5, -25}, Worsened},
		{"left clean, lessened dirty", false, 150, 150, 150, 120, 100, &state{Left, 0, 0}, &state{Lessened, 0.6, 30}, Left},
		{"lessened clean, gone dirty", false, 150, 150, 120, 90, 100, &state{Lessened, 0.6, 30}, &state{Removed, 1, 60}, Lessened},
		{"dirty alone", false, 90, 150, 80, 90, 100, nil, &state{Removed, 1, 60}, Removed},
		{"clean alone", false, 150, 90, 120, 80, 100, &state{Lessened, 0.6, 30}, nil, Lessened},
		{"a minimum, lessened", true, 50, 60, 80, 70, 100, &state{Lessened, 0.6, 30}, &state{Lessened, 0.25, 10}, Lessened},
		{"a minimum, removed", true, 50, 50, 110, 100, 100, &state{Removed, 1, 60}, &state{Removed, 1, 50}, Removed},
		{"a minimum, worse", true, 50, 50, 25, 40, 100, &state{Worsened, -0.5, -25}, &state{Worsened, -0.2, -10}, Worsened},
		{"a minimum, added", true, 110, 110, 90, 90, 100, &state{Added, -1, -20}, &state{Added, -1, -20}, Added},
	} {
		today := judged(TodayName, KindToday, figure{"static_high", c.now, c.nowLoaded, c.lim, c.least})
		o := judged("x", KindOption, figure{"static_high", c.then, c.thenLoaded, c.lim, c.least})
		recommend.CompareWith(&o, &today, nil, nil)
		require.Len(t, o.Against, 1, c.name)
		a := o.Against[0]
		assert.Equal(t, c.both, a.Effect, c.name)
		assert.Equal(t, ByNumbers, a.Basis)
		for what, pair := range map[string]struct {
			want      *state
			got       *study.StateChange
			now, then float64
		}{"clean": {c.clean, a.Clean, c.now, c.then}, "loaded": {c.loaded, a.Loaded, c.nowLoaded, c.thenLoaded}} {
			if pair.want == nil {
				assert.Nil(t, pair.got, "%s %s", c.name, what)
				continue
			}
			require.NotNil(t, pair.got, "%s %s", c.name, what)
			assert.Equal(t, pair.want.effect, pair.got.Effect, "%s %s", c.name, what)
			assert.InDelta(t, pair.want.gone, pair.got.Gone, 1e-9, "%s %s", c.name, what)
			assert.InDelta(t, pair.want.by, pair.got.By.SI(), 1e-9, "%s %s", c.name, what)
			assert.InDelta(t, pair.now, pair.got.Before.SI(), 1e-9)
			assert.InDelta(t, pair.then, pair.got.After.SI(), 1e-9)
			assert.InDelta(t, c.lim, pair.got.LimitBefore.SI(), 1e-9)
			assert.InDelta(t, c.lim, pair.got.LimitAfter.SI(), 1e-9)
		}
	}
}

// A problem without a figure is there or not; one that the option is not held to any
// more is not called removed. The graver of two findings of one problem counts. The
// words name each group of problems once, with the figures of those that moved.
func TestEffectsInWords(t *testing.T) {
	in := float64(units.InchWater)
	plain := func(problem Problem, severity Severity, bothWays bool) Finding {
		return Finding{Severity: severity, Code: string(problem), Problem: problem, BothWays: bothWays}
	}
	today := judged(TodayName, KindToday, figure{StaticHigh, 0.8 * in, 0.9 * in, 0.5 * in, false}, figure{FilterDrop, 0.4 * in, 0.4 * in, 0.1 * in, false}, figure{FilterLeak, 3, 3, 1, false},
		figure{RiseHigh, 60, 60, 50, false}, figure{AirflowHigh, 60, 60, 50, false}, figure{Frost, 40, 40, 50, false})
	today.Findings = append(today.Findings, plain("over_budget", Caution, false), plain("speed_up", Caution, false), plain("title24_merv", Caution, true), plain("title24_face", Caution, true), plain("ashrae622_merv", Good, true))
	o := judged("x", KindOption, figure{StaticHigh, 0.4 * in, 0.45 * in, 0.5 * in, false}, figure{FilterDrop, 0.2 * in, 0.2 * in, 0.1 * in, false}, figure{FilterLeak, 0.5, 3, 1, false},
		figure{RiseHigh, 60, 60, 50, false}, figure{AirflowHigh, 80, 80, 50, false}, figure{Frost, 60, 60, 50, false})
	o.Findings = append(o.Findings, plain("over_budget", Stop, false), plain("merv", Caution, false), plain("title24_face", Good, true), plain("ashrae622_merv", Caution, true))
	recommend.CompareWith(&o, &today, nil, nil)
	got := map[Problem]Effect{}
	for _, c := range o.Against {
		got[c.Problem] = c.Effect
		if c.Problem == "over_budget" {
			assert.Equal(t, Stop, c.Severity, "the graver of the two")
			assert.Equal(t, 0.0, c.Clean.Gone)
		}
	}
	assert.Equal(t, map[Problem]Effect{StaticHigh: Removed, FilterDrop: Lessened, FilterLeak: RemovedClean, RiseHigh: Left, AirflowHigh: Worsened, Frost: Added,
		"over_budget": Left, "speed_up": Removed, "title24_merv": NotHeld, "title24_face": Removed, "ashrae622_merv": Added, "merv": Added}, got)
	// Stop 1; cautions: filter drop, leak, rise, air, frost, merv, ashrae.
	assert.Equal(t, Counts{Stops: 1, Cautions: 7, Removed: 3, Lessened: 2, Left: 4, Added: 3}, o.Counts)
	assert.Equal(t, "Removes: high external static, a faster wheel, filter face by the energy code. Removes with a clean filter only: air past the filter. Lessens: high filter drop (0.400 in. w.c. to 0.200 in. w.c.). "+
		"Leaves: too high a temperature rise, a price over the budget. Not judged any more: MERV by the energy code. Makes worse: too much airflow (0.241 in. w.c. to 0.321 in. w.c.). Adds: coil frost, too coarse a filter, MERV by ASHRAE 62.2.",
		o.Versus.In(units.IP))
	assert.Equal(t, Caution, o.Versus.Severity)
	for _, c := range o.Against {
		switch c.Problem {
		case "merv", Frost:
			assert.Equal(t, -1.0, c.Clean.Gone)
		case "speed_up", "title24_face":
			assert.Equal(t, 1.0, c.Clean.Gone)
		case "title24_merv":
			assert.Zero(t, c.Clean.Gone)
		}
	}
	none := judged("y", KindOption)
	calm := judged(TodayName, KindToday)
	recommend.CompareWith(&none, &calm, nil, nil)
	assert.Equal(t, "It has no problem to remove and adds none.", none.Versus.In(units.IP))
	assert.Equal(t, Counts{}, none.Counts)
	recommend.CompareWith(&today, &today, nil, nil)
	assert.Empty(t, today.Against, "today is compared with nothing")
	assert.Equal(t, 9, today.Counts.Cautions)
}
