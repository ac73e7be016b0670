package sizing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/compare"
	"returnbench/sizing/recommend"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

// drawn are samples of the limit of external static, clean and dirty.
func drawn(o *OptionResult, worse []float64, limit float64) OptionRange {
	limits := map[compare.LimitKey]*compare.DrawnLimit{}
	for _, state := range []FilterState{WhenClean, WhenLoaded} {
		d := &compare.DrawnLimit{}
		for _, w := range worse {
			d.Worse, d.Least, d.Missed = append(d.Worse, w), append(d.Least, 0.01), append(d.Missed, w > limit)
		}
		limits[compare.LimitKey{Problem: StaticHigh, State: state}] = d
	}
	return OptionRange{Name: o.Name, Kind: o.Kind, Limits: limits}
}

// By the numbers a takes the static from 0.80 to 0.40, under the 0.50. In ten of twenty
// samples it is 0.90 instead, worse than today: no option is surely better, and that is
// said in place of the option. Where all twenty agree it is chosen.
func TestNoneIsSurelyBetter_Identity(t *testing.T) {
	s := chosen(4000)
	today, option := make([]float64, 20), make([]float64, 20)
	for k := range today {
		today[k], option[k] = 0.8, 0.4
	}
	advice := func() Recommendation {
		return recommend.WithRanges(s, []OptionRange{drawn(&s.Options[1], today, 0.5), drawn(&s.Options[2], option, 0.5)}).Recommendation
	}
	r := advice()
	assert.Equal(t, []any{"a", OnlyOne, BySamples}, []any{r.Option, r.Reason, r.Basis})
	for k := range 10 {
		option[k] = 0.9
	}
	r = advice()
	assert.Equal(t, []any{"", ReasonTooClose, BySamples}, []any{r.Option, r.Reason, r.Basis})
	assert.Equal(t, "No option is surely better than today. Measure first what is marked as assumed.", r.Why.In(units.IP))
	assert.Equal(t, Caution, r.Why.Severity)
	assert.Equal(t, "The static is high.", r.Next.In(units.IP))
	// Worse in all twenty is no doubt: it comes nearest and improves nothing.
	s.Options[2] = judged("a", KindOption, figure{StaticHigh, 0.9 * float64(units.InchWater), 0.9 * float64(units.InchWater), 0.5 * float64(units.InchWater), false})
	for k := range option {
		option[k] = 0.9
	}
	r = advice()
	assert.Equal(t, []any{"", NoneImproves, BySamples}, []any{r.Option, r.Reason, r.Basis})
	assert.Contains(t, r.Why.In(units.IP), "No option improves on today; a comes nearest. Makes worse: high external static")
}

// A house without a filter has no face velocity. One of 20x25 in, 3.472 ft2, sees 288
// fpm of its 1000 cfm, under the 300 of a filter 1 in deep; one of 16x20, 2.222 ft2,
// sees 450: an option that puts it in adds that. The other way, an option without the filter is rid of
// the problem.
func TestFirstFilterAddsItsFaceVelocity_Identity(t *testing.T) {
	j := pinned()
	j.Filters[0].Rating[0].Drop = 0.01 * units.InchWater
	large, small := j.Slot, j.Slot
	small.Width, small.Height = 16*units.Inch, 20*units.Inch
	j.Slot = Slot{None: true}
	j.Options = []Option{{Name: "large", Slot: large}, {Name: "small", Slot: small}}
	s := solved(t, j)
	require.Zero(t, s.Today().FaceArea)
	for _, c := range s.Option("large").Against {
		assert.NotEqual(t, FaceVelocity, c.Problem)
	}
	c := changeOf(t, s, "small", FaceVelocity)
	assert.Equal(t, Added, c.Effect)
	assert.Equal(t, -1.0, c.Clean.Gone, "it counts against the option")
	assert.Nil(t, c.Loaded)
	assert.Equal(t, 1+s.Option("large").Counts.Added, s.Option("small").Counts.Added)
	assert.Contains(t, s.Option("small").Versus.In(units.IP), "Adds: high face velocity.")

	j.Slot, j.Options = small, []Option{{Name: "none", Slot: Slot{None: true}}}
	s = solved(t, j)
	c = changeOf(t, s, "none", FaceVelocity)
	assert.Equal(t, Removed, c.Effect)
	assert.Equal(t, 1.0, c.Clean.Gone)
}

// On its lowest tap a house can have more speed with any other change. Of these pairs,
// each solved by itself, the one told to fall short the least is the one that moves the most.
func TestNearestPairIsListed_Identity(t *testing.T) {
	j := choked()
	j.Equipment.Blower = blower.Generic(blower.PSC, 1200*units.CFM, 0.5*units.InchWater)
	j.Equipment.Blower.CoolingTap = "low"
	r, err := FindUpgrades(t.Context(), j, 4000*units.CFM, nil)
	require.NoError(t, err)
	require.Empty(t, r.Upgrades)
	var told []Upgrade
	for _, w := range r.FallShort {
		if len(w.Changes) == 2 {
			told = append(told, w)
		}
		if len(w.Changes) == 1 && !strings.HasPrefix(w.Name(), "tap ") {
			upgrade.AddUpgrade(units.IP, &j, w)
			j.Options[len(j.Options)-1].Tap = "high"
		}
	}
	require.Len(t, told, 1)
	require.Greater(t, len(j.Options), 3)
	most := 0.0
	for _, o := range solved(t, j).Options {
		if o.Kind == KindOption {
			most = max(most, float64(o.Clean.Airflow))
		}
	}
	assert.InEpsilon(t, most, float64(told[0].Result.Clean.Airflow), 1e-9, told[0].Name())
}

// Pieces and sizes of no whole inch keep two digits, of no whole millimeter none: 9.5,
// 10.125 and 7.333 in, and 241.3 mm.
func TestPiecesOfOddSizes_Identity(t *testing.T) {
	j := ducts()
	j.Returns[0].Runs[0].Diameter, j.Returns[0].Grille.Width = 9.5*units.Inch, 12.25*units.Inch
	j.Returns[1].Runs[0].Width, j.Returns[1].Runs[0].Height = 10.126*units.Inch, 7.333*units.Inch
	names := func() map[string]bool {
		out := map[string]bool{}
		for _, p := range solved(t, j).ReturnComponents {
			out[p.Name.String()] = true
		}
		return out
	}
	got := names()
	assert.True(t, got["round duct 9.5 in"] && got["grille 12.25x12 in"] && got["rectangular duct 10.13x7.33 in"], "%v", got)
	j.Limits.NominalSizes = MetricSizes
	got = names()
	assert.True(t, got["round duct 241 mm"] && got["grille 311x305 mm"] && got["rectangular duct 257x186 mm"], "%v", got)
}
