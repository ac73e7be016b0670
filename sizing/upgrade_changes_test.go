package sizing

import (
	"context"
	"math"
	"returnbench/sizing/message"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/fit"
	"returnbench/sizing/search"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

// cramped has two returns whose ducts and grilles are too small, the second a
// slack flex.
func cramped() Job {
	j := least()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch}
	j.Returns = []Return{
		{Name: "hall", Grille: duct.Grille{Width: 12 * units.Inch, Height: 12 * units.Inch},
			Runs:     []duct.Run{{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 12 * units.Foot}},
			Fittings: []duct.Fitting{{Kind: duct.ElbowFiveGore, Diameter: 10 * units.Inch}}},
		{Name: "den", Grille: duct.Grille{Width: 10 * units.Inch, Height: 10 * units.Inch},
			Runs: []duct.Run{{Shape: duct.Flex, Diameter: 9 * units.Inch, Length: 20 * units.Foot, Compression: 0.2}}},
	}
	j.Prices = invented
	return j
}

// single gives the one change whose words begin so, and the option that it makes.
func single(t *testing.T, j Job, words string) (Upgrade, Option) {
	t.Helper()
	r, err := FindUpgrades(context.Background(), j, 3000*units.CFM, nil)
	require.NoError(t, err)
	for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
		if len(w.Changes) == 1 && strings.HasPrefix(w.Changes[0].String(), words) {
			taken := j.Clone()
			upgrade.AddUpgrade(units.IP, &taken, w)
			return w, taken.Options[len(taken.Options)-1]
		}
	}
	require.Failf(t, "no such change", words)
	return Upgrade{}, Option{}
}

// The job gets the makes that the upgrade puts somewhere, and no other of those that
// were tried.
func TestUpgradeBringsItsOwnMakes(t *testing.T) {
	j := cramped()
	r, err := FindUpgrades(context.Background(), j, 3000*units.CFM, nil)
	require.NoError(t, err)
	brought := map[int]int{}
	for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
		taken := j.Clone()
		upgrade.AddUpgrade(units.IP, &taken, w)
		o := taken.Options[len(taken.Options)-1]
		used := []string{o.Filter, o.Slot.Filter}
		for _, branch := range o.Returns {
			used = append(used, branch.Filter)
		}
		added := taken.Filters[len(j.Filters):]
		for _, f := range added {
			assert.Contains(t, used, f.Name, o.Name)
		}
		for _, name := range used {
			if name != "" {
				assert.True(t, slices.ContainsFunc(taken.Filters, func(f filter.Filter) bool { return f.Name == name }), "%s of %s", name, o.Name)
			}
		}
		brought[len(added)]++
	}
	assert.NotZero(t, brought[0], "a larger duct needs no filter")
	assert.NotZero(t, brought[1], "a cabinet does")
}

// Of each kind of place the smallest size that is suggested and the one of the least drop
// are tried: 24x24 before 20x30 and 25x25 for its face of 576 in2, and 24x30. Where there
// is room for 24x24 alone, with its casing 25x25, it is both, and is tried once.
func TestSizesTried_Identity(t *testing.T) {
	tried := func(j Job) map[string]int {
		r, err := FindUpgrades(context.Background(), j, 3000*units.CFM, nil)
		require.NoError(t, err)
		times := map[string]int{}
		for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
			if words := w.Changes[0].String(); len(w.Changes) == 1 && (strings.HasPrefix(words, "slot") || strings.HasPrefix(words, "cabinet")) {
				times[words]++
			}
		}
		return times
	}
	j := pinned()
	assert.Equal(t, map[string]int{"cabinet 24x24x4": 1, "cabinet 24x30x4": 1, "slot 24x24x2": 1, "slot 24x30x2": 1}, tried(j))
	j.Limits.CabinetWidth, j.Limits.CabinetHeight, j.Limits.CasingFace = 25*units.Inch, 25*units.Inch, units.Inch
	assert.Equal(t, map[string]int{"cabinet 24x24x4": 1, "slot 24x24x2": 1}, tried(j))
}

// Without described returns there are two kinds of change: filters and taps. Each is
// tried by itself; in pairs, one of each kind, only those that raise the airflow by
// themselves. The finer filter in the same slot and the slower tap do not.
func TestPairsAreOfChangesThatHelp(t *testing.T) {
	j := least()
	j.Prices = invented
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}
	j.Filters = []filter.Filter{rated("own", units.Inch, 0.2, 11), rated("finer", units.Inch, 0.4, 13)}
	tap := func(name string, cfm units.Flow) blower.Tap {
		return blower.Tap{Name: name, Points: []blower.Point{{ExternalStatic: 0.05 * units.InchWater, Airflow: (cfm + 50) * units.CFM}, {ExternalStatic: units.InchWater, Airflow: (cfm - 50) * units.CFM}}}
	}
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, CoolingTap: "middle", Taps: []blower.Tap{tap("highest", 1150), tap("high", 1100), tap("middle", 1000), tap("low", 800)}}
	r, err := FindUpgrades(context.Background(), j, 3000*units.CFM, nil)
	require.NoError(t, err)
	require.Empty(t, r.Upgrades)
	singles, helpful := 0, map[string]int{}
	for _, w := range r.FallShort {
		if len(w.Changes) > 1 {
			continue
		}
		singles++
		kind := "filter"
		if strings.HasPrefix(w.Name(), "tap") {
			kind = "tap"
			assert.Equal(t, units.Money(90), w.Result.Upgrade, "a visit")
		}
		if w.Result.Clean.Airflow > r.Today {
			helpful[kind]++
		}
	}
	require.Equal(t, 2, helpful["tap"], "of three")
	require.GreaterOrEqual(t, helpful["filter"], 1)
	require.Greater(t, singles, helpful["filter"]+helpful["tap"]+1, "the finer filter and the slower tap")
	assert.Equal(t, singles+helpful["filter"]*helpful["tap"], r.Tried, "no two of a kind")
}

func TestLargerDucts_Identity(t *testing.T) {
	j := cramped()
	ducts := solved(t, j).Ducts
	w, o := single(t, j, "larger ducts")
	assert.Equal(t, "larger ducts in hall and den", w.Name())
	assert.Equal(t, w.Name(), w.Result.Name)
	assert.Equal(t, units.Money(800), w.Result.Upgrade, "two ducts at 400")
	assert.Equal(t, ducts[0].Round.Diameter, o.Returns[0].Runs[0].Diameter)
	assert.Equal(t, ducts[1].Flex.Diameter, o.Returns[1].Runs[0].Diameter)
	assert.Zero(t, o.Returns[0].Fittings[0].Diameter, "a fitting takes the section of its run")
	assert.Equal(t, j.Returns[0].Grille, o.Returns[0].Grille)

	j.Returns[0].Runs[0].Diameter = 24 * units.Inch
	w, o = single(t, j, "larger ducts")
	assert.Equal(t, "larger ducts in den", w.Name())
	assert.Equal(t, units.Money(400), w.Result.Upgrade)
	assert.Equal(t, 24*units.Inch, o.Returns[0].Runs[0].Diameter, "one that is large enough stays")
}

// Each fitting of a duct that becomes larger takes the section of its run.
func TestLargerDuctsKeepTheirFittings(t *testing.T) {
	j := cramped()
	j.Returns[0].Fittings = []duct.Fitting{{Kind: duct.ElbowFiveGore, Diameter: 10 * units.Inch}, {Kind: duct.ElbowMitred, Diameter: 9 * units.Inch, Count: 2}}
	_, o := single(t, j, "larger ducts")
	assert.Equal(t, []duct.Fitting{{Kind: duct.ElbowFiveGore}, {Kind: duct.ElbowMitred, Count: 2}}, o.Returns[0].Fittings)
}

// Of rectangular ducts in line a small one becomes the nominal one that keeps the limits.
// One of more area stays, lying or upright.
func TestLargerRectangularDuct(t *testing.T) {
	j := cramped()
	run := func(width, height units.Length) duct.Run {
		return duct.Run{Shape: duct.Rectangular, Width: width, Height: height, Length: 4 * units.Foot}
	}
	small := run(8*units.Inch, 8*units.Inch)
	var rect study.DuctChoice
	lying, upright := small, small
	for range 4 { // their lengths count in the size that keeps the limits
		j.Returns[0].Runs = []duct.Run{small, lying, upright}
		rect = solved(t, j).Ducts[0].Rect
		lying, upright = run(rect.Width+units.Inch, rect.Height), run(rect.Height, rect.Width+units.Inch)
	}
	require.Equal(t, []duct.Run{small, lying, upright}, j.Returns[0].Runs)
	require.Greater(t, rect.Width, rect.Height+2*units.Inch)
	_, o := single(t, j, "larger ducts")
	assert.Equal(t, []duct.Run{run(rect.Width, rect.Height), lying, upright}, o.Returns[0].Runs)
}

func TestFlexPulledStraight_Identity(t *testing.T) {
	w, o := single(t, cramped(), "flex pulled straight")
	assert.Equal(t, units.Money(90), w.Result.Upgrade, "a visit")
	assert.InDelta(t, 0.04, o.Returns[1].Runs[0].Compression, 1e-12)
	assert.Zero(t, o.Returns[0].Runs[0].Compression)
	assert.Equal(t, 9*units.Inch, o.Returns[1].Runs[0].Diameter)
}

// Of two flexes in line the slack one is pulled to 4 %, the straighter one stays at 2 %.
func TestFlexesInLinePulledStraight(t *testing.T) {
	j := cramped()
	second := j.Returns[1].Runs[0]
	second.Compression = 0.02
	j.Returns[1].Runs = append(j.Returns[1].Runs, second)
	_, o := single(t, j, "flex pulled straight")
	assert.InDelta(t, 0.04, o.Returns[1].Runs[0].Compression, 1e-12)
	assert.InDelta(t, 0.02, o.Returns[1].Runs[1].Compression, 1e-12)
}

// A flex that lies straight already is no work: only the slack one of two is a visit, and
// where none is slack there is nothing to offer.
func TestStraightFlexIsLeft(t *testing.T) {
	j := cramped()
	j.Returns[0].Runs[0] = duct.Run{Shape: duct.Flex, Diameter: 10 * units.Inch, Length: 12 * units.Foot, Compression: 0.04}
	w, _ := single(t, j, "flex pulled straight")
	assert.Equal(t, units.Money(90), w.Result.Upgrade)
	j.Returns[1].Runs[0].Compression = 0.04
	r, err := FindUpgrades(context.Background(), j, 3000*units.CFM, nil)
	require.NoError(t, err)
	for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
		assert.NotContains(t, w.Name(), "pulled straight")
	}
}

// The smallest nominal grille that keeps 500 fpm and fits the opening; one with
// a filter in it is a filter grille.
func TestLargerGrilles_Identity(t *testing.T) {
	check := func(j Job, list []stock.Size) {
		branches := solved(t, j).Today().Clean.Branches
		w, o := single(t, j, "larger grilles")
		assert.Equal(t, units.Money(300), w.Result.Upgrade, "two grilles at 150")
		for i, b := range branches {
			need := b.Airflow.In(units.CFM) / 500 * 144 // in2
			g := o.Returns[i].Grille
			got := g.Width.In(units.Inch) * g.Height.In(units.Inch)
			assert.GreaterOrEqual(t, got, need, b.Name)
			named := false
			for _, z := range stock.Of(units.InchPound, list) {
				named = named || z.Width == g.Width && z.Height == g.Height
				area := z.Face().In(units.SquareInch)
				if area >= need && fit.Excess(z.Width, z.Height, j.Returns[i].OpeningWidth, j.Returns[i].OpeningHeight) <= fit.Slack {
					assert.LessOrEqual(t, got, area+1e-6, "%s: %s would do", b.Name, z)
				}
			}
			assert.True(t, named, "%s: %v is on the list", b.Name, g)
		}
	}
	check(cramped(), stock.Grilles())
	filtered := twoReturns()
	filtered.Prices = invented
	for i := range filtered.Returns {
		filtered.Returns[i].Grille.Width, filtered.Returns[i].Grille.Height = 12*units.Inch, 12*units.Inch
	}
	check(filtered, stock.FilterGrilles())
	walled := cramped()
	walled.Returns[0].OpeningWidth, walled.Returns[0].OpeningHeight = 14*units.Inch, 40*units.Inch
	check(walled, stock.Grilles())
	slices.Reverse(walled.Returns)
	check(walled, stock.Grilles())
}

// flatHouse moves 1010 cfm, whatever its one return drops.
func flatHouse() Job {
	j := least()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch}
	j.Equipment.Blower = blower.Table{Motor: blower.ConstantAirflow, CoolingTap: "one", Taps: []blower.Tap{{Name: "one", Points: []blower.Point{
		{Airflow: 1010.1 * units.CFM, ExternalStatic: 0.1 * units.InchWater}, {Airflow: 1009.9 * units.CFM, ExternalStatic: 3 * units.InchWater}}}}}
	j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 10 * units.Inch, Height: 10 * units.Inch},
		Runs: []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: 10 * units.Foot}}}}
	return j
}

// 1010 cfm keep 500 fpm through 1010/500 ft2 = 290.9 in2. The smallest listed grille of
// so much is 10 x 30 in, 300 in2; the supplier's of 27 x 11 in, 297 in2, is smaller.
func TestLargerGrilleInStock_Identity(t *testing.T) {
	j := flatHouse()
	assert.InDelta(t, 1010, solved(t, j).Today().Clean.Branches[0].Airflow.In(units.CFM), 0.2)
	_, o := single(t, j, "larger grilles")
	assert.Equal(t, duct.Grille{Width: 10 * units.Inch, Height: 30 * units.Inch}, o.Returns[0].Grille)
	j.StockSizes = []StockSize{
		{Of: GrilleSize, Width: 29 * units.Inch, Height: 10 * units.Inch},                          // 290 in2: too small
		{Of: FilterSize, Width: 29.5 * units.Inch, Height: 10 * units.Inch, Depth: 1 * units.Inch}, // no grille
		{Of: GrilleSize, Width: 27 * units.Inch, Height: 11 * units.Inch},
	}
	_, o = single(t, j, "larger grilles")
	assert.Equal(t, duct.Grille{Width: 27 * units.Inch, Height: 11 * units.Inch}, o.Returns[0].Grille)
	j.Returns[0].OpeningWidth, j.Returns[0].OpeningHeight = 10*units.Inch, 40*units.Inch
	_, o = single(t, j, "larger grilles")
	assert.Equal(t, duct.Grille{Width: 10 * units.Inch, Height: 30 * units.Inch}, o.Returns[0].Grille, "the wall takes no 11 in")
}

// A perforated face, half open, passes 1010 cfm no faster than a stamped one of 65 % at
// 500 fpm through 290.9 x 0.65/0.5 = 378.1 in2 of face: the smallest listed is 16 x 24 in,
// 384 in2. A bar grille, three quarters open, keeps the 500 fpm of its face. A filter
// behind the face is what the air meets: it needs no more.
func TestLargerGrilleByItsFreeArea(t *testing.T) {
	j := flatHouse()
	for style, want := range map[duct.GrilleStyle]float64{duct.Stamped: 290.9, duct.Bar: 290.9, duct.Perforated: 378.1} {
		r := Return{Grille: duct.Grille{Width: units.Inch, Height: units.Inch, Style: style}}
		assert.InDelta(t, want, search.GrilleFace(r, 1010*units.CFM).In(units.SquareInch), 0.1, style)
		r.Filter = "own"
		assert.InDelta(t, 290.9, search.GrilleFace(r, 1010*units.CFM).In(units.SquareInch), 0.1, style)
		j.Returns[0].Grille.Style = style
		_, o := single(t, j, "larger grilles")
		assert.GreaterOrEqual(t, o.Returns[0].Grille.GrossArea().In(units.SquareInch), want)
		assert.Less(t, o.Returns[0].Grille.GrossArea().In(units.SquareInch), want*1.05, style)
		j.Returns[0].Grille = o.Returns[0].Grille
		assert.False(t, search.SmallGrille(j.Returns[0], 1010*units.CFM))
		j = flatHouse()
	}
	// 20 x 16 in is 320 in2: enough for a stamped face of 1010 cfm, not for a perforated one.
	j.Returns[0].Grille = duct.Grille{Width: 20 * units.Inch, Height: 16 * units.Inch}
	j.Returns[0].Runs[0].Diameter = 24 * units.Inch
	assert.NotContains(t, codes(solved(t, j).Findings), "undersized_parts")
	j.Returns[0].Grille.FreeArea = 0.5
	assert.Contains(t, codes(solved(t, j).Findings), "undersized_parts")
}

// The equation for a flex that is not pulled straight was found from 6 to 16 in and up to
// 30 % slack: past it the house says that its drop is a guess.
func TestFlexOutOfRange(t *testing.T) {
	for _, c := range []struct {
		diameter, slack float64
		said            bool
	}{
		{16, 0.3, false}, {6, 0.1, false}, {18, 0.05, true}, {5, 0.05, true}, {10, 0.31, true},
	} {
		j := flatHouse()
		j.Returns[0].Runs[0] = duct.Run{Shape: duct.Flex, Diameter: units.Length(c.diameter) * units.Inch, Length: 10 * units.Foot, Compression: c.slack}
		s := solved(t, j)
		assert.Equal(t, c.said, codes(s.Findings)["flex_range"] != "", "%v", c)
		if c.diameter == 10 {
			assert.Equal(t, "hall: the 10 in flex lies 31 % shorter than fully stretched. The equation for its drop holds from 6 in to 16 in and up to 30 %: here it is a guess. Pull it straight, or measure the drop of this return.",
				findingOf(t, s.Findings, "flex_range").In(units.IP))
		}
	}
}

// The second return, which has all but a few of the 1010 cfm, is held to its own opening of
// 14 x 24 in and to its own face: perforated, half open, it needs 290.9 x 0.65/0.5 = 378 in2,
// which is 16 x 24 in. With a filter behind it the smallest on the list of filter grilles
// over 290.9 in2 is 16 x 20 in; 10 x 30 in is on that of plain ones alone.
func TestLargerGrilleOfTheSecondReturn(t *testing.T) {
	j := flatHouse()
	j.Returns = append([]Return{drop10("narrow", 200)}, j.Returns...)
	j.Returns[0].Runs[0].Diameter, j.Returns[0].Fittings[0].Count = 3*units.Inch, 20
	chosen := func() duct.Grille {
		_, o := single(t, j, "larger grilles")
		require.Zero(t, o.Returns[0].Grille)
		return o.Returns[1].Grille
	}
	require.Equal(t, duct.Grille{Width: 10 * units.Inch, Height: 30 * units.Inch}, chosen())
	j.Returns[1].OpeningWidth, j.Returns[1].OpeningHeight = 14*units.Inch, 24*units.Inch
	g := chosen()
	assert.LessOrEqual(t, fit.Excess(g.Width, g.Height, 14*units.Inch, 24*units.Inch), fit.Slack, "%v", g)
	j.Returns[1].OpeningWidth, j.Returns[1].OpeningHeight = 0, 0
	j.Returns[1].Grille.Style = duct.Perforated
	assert.Equal(t, duct.Grille{Width: 16 * units.Inch, Height: 24 * units.Inch, Style: duct.Perforated}, chosen())
	j.Returns[1].Grille.Style = ""
	j.Filters = []filter.Filter{rated("own", units.Inch, 0.1, 8)}
	j.Slot, j.Returns[1].Filter = Slot{None: true}, "own"
	assert.Equal(t, duct.Grille{Width: 16 * units.Inch, Height: 20 * units.Inch}, chosen())
}

// The filter of today's make that would do alone is the supplier's, where that is
// smaller than the next listed one: 20 in by the face asked for, up to the next 1/16 in.
func TestFilterInStockThatDoes_Identity(t *testing.T) {
	j := least()
	ofFilter := func() RequiredDrop {
		r, err := FindUpgrades(context.Background(), j, 1180*units.CFM, nil)
		require.NoError(t, err)
		i := slices.IndexFunc(r.RequiredDrops, func(d RequiredDrop) bool { return d.Part == PartFilter })
		return r.RequiredDrops[i]
	}
	listed := ofFilter()
	require.NotEmpty(t, listed.Size)
	width := units.Length(math.Ceil(listed.Face.In(units.SquareInch)/20*16)/16) * units.Inch
	deep := j.Slot.Depth
	if deep == 0 {
		deep = units.Inch
	}
	size := stock.Size{Width: width, Height: 20 * units.Inch, Depth: deep}
	require.NotEqual(t, listed.Size, size.String())
	j.StockSizes = []StockSize{{Of: FilterSize, Width: width - units.Inch/16, Height: 20 * units.Inch, Depth: deep},
		{Of: FilterSize, Width: width, Height: 20 * units.Inch, Depth: 3 * deep}, {Of: FilterSize, Width: width, Height: 20 * units.Inch, Depth: deep}}
	have := ofFilter()
	assert.InEpsilon(t, float64(listed.Face), float64(have.Face), 1e-9)
	assert.Equal(t, size.String(), have.Size)

	// A depth within a tenth is the same depth.
	for share, same := range map[units.Length]bool{14.0 / 16: false, 15.0 / 16: true, 17.0 / 16: true, 18.0 / 16: false} {
		near := stock.Size{Width: width, Height: 20 * units.Inch, Depth: share * deep}
		j.StockSizes = []StockSize{{Of: FilterSize, Width: near.Width, Height: near.Height, Depth: near.Depth}}
		assert.Equal(t, same, near.String() == ofFilter().Size, "%g", float64(share))
	}
}

// One more return is a copy of the one that carries the most air.
func TestOneMoreReturn(t *testing.T) {
	for _, swap := range []bool{false, true} {
		j := cramped()
		if swap {
			slices.Reverse(j.Returns)
		}
		w, o := single(t, j, "one more return")
		assert.Equal(t, units.Money(700), w.Result.Upgrade)
		require.Len(t, o.Returns, 3)
		assert.Empty(t, o.Returns[2].Name, "it is named by its number")
		j.Options = append(j.Options, o)
		name := solved(t, j).Option(o.Name).Clean.Branches[2].Name
		assert.Equal(t, "return 3", name.String())
		assert.Equal(t, "retorno 3", name.Show(units.Locale{Language: "es"}))
		assert.Equal(t, 10*units.Inch, o.Returns[2].Runs[0].Diameter, "the hall's")
	}
}

// A size that meets with the fewest openings, then the least face, is suggested
// for each place.
func TestSuggestedSize_Identity(t *testing.T) {
	picked := func(s *Study, place PlaceKind) *Size {
		return map[PlaceKind]*Size{InGrille: s.SuggestedSizes.Grille, InSlot: s.SuggestedSizes.Slot, InCabinet: s.SuggestedSizes.Cabinet}[place]
	}
	s := solved(t, least())
	for _, place := range []PlaceKind{InGrille, InSlot, InCabinet} {
		best := picked(s, place)
		require.NotNil(t, best)
		for _, z := range s.Sizes {
			if z.Place != place || !z.MeetsAll {
				continue
			}
			require.True(t, best.MeetsAll, "%s meets", z.Label)
			assert.LessOrEqual(t, best.Count, z.Count, z.Label)
			if z.Count == best.Count {
				assert.LessOrEqual(t, best.FaceArea.In(units.SquareInch), z.FaceArea.In(units.SquareInch)+1e-6, z.Label)
			}
		}
	}
}

// Where one opening is all that there may be and each of the grilles is over the
// target of 180 fpm (960 in2), the largest is suggested.
func TestSuggestedSizeWhereAllAreFast_Identity(t *testing.T) {
	j := least()
	j.TargetFaceVelocity, j.Limits.MaxOpenings, j.Limits.MaxFilterDrop = 180*units.FPM, 1, 2*units.InchWater
	s := solved(t, j)
	require.NotNil(t, s.SuggestedSizes.Grille)
	require.False(t, s.SuggestedSizes.Grille.MeetsAll)
	seen := 0
	for _, z := range s.Sizes {
		if z.Place == InGrille {
			seen++
			assert.GreaterOrEqual(t, s.SuggestedSizes.Grille.FaceArea.In(units.SquareInch), z.FaceArea.In(units.SquareInch)-1e-6, z.Label)
		}
	}
	assert.Greater(t, seen, 1, "there was a choice")
}

// After the blower stands what coil and supply take, after the coil what the
// supply takes: 0.25 (Q/1200)^1.8 and 0.15 (Q/1200)^2 in. w.c.; at the blower's
// inlet what the return takes. A table measured with the coil leaves it out of
// the external static, but the port between them reads it.
func TestPortsAddUp_Identity(t *testing.T) {
	for _, included := range [][]blower.Included{nil, {blower.IncludesWetCoil}} {
		j := lineHouse()
		j.Equipment.Blower.Includes = included
		c := solved(t, j).Today().Clean
		f := c.Airflow.In(units.CFM) / 1200
		coil, supply := 0.25*math.Pow(f, 1.8), 0.15*f*f
		ret := c.ExternalStatic.In(units.InchWater) - supply
		if included == nil {
			ret -= coil
		}
		want := map[message.ID]float64{PortReturn: -ret, PortInlet: -ret, PortOutlet: coil + supply, PortSupply: supply}
		require.Len(t, c.Ports, len(want))
		for _, p := range c.Ports {
			assert.InDelta(t, want[p.Name], p.Static.In(units.InchWater), 1e-6, "%s, %v", p.Name, included)
		}
	}
}

// The drop of filters in several branches is the mean by the air that each carries.
func TestFilterDropIsWeightedByAir_Identity(t *testing.T) {
	c := solved(t, twoReturns()).Today().Clean
	require.Len(t, c.Branches, 2)
	a, b := c.Branches[0], c.Branches[1]
	want := (float64(a.FilterDrop)*float64(a.Airflow) + float64(b.FilterDrop)*float64(b.Airflow)) / float64(a.Airflow+b.Airflow)
	assert.InEpsilon(t, want, float64(c.FilterDrop), 1e-9)
	assert.Greater(t, max(a.FilterDrop, b.FilterDrop)/min(a.FilterDrop, b.FilterDrop), units.Pressure(1.02), "they differ")
}

// What a tap would do: airflow over the 3 tons, the rise by 1.08 of output and
// watts, and which limits it keeps.
func TestTapAdvice_Identity(t *testing.T) {
	j := twoTaps()
	j.DesignAirflow = 1300 * units.CFM
	j.Equipment.HeatingOutput = 60000 * units.BtuPerHour
	j.Equipment.RiseLow, j.Equipment.RiseHigh = 30*units.FahrenheitDegree, 46*units.FahrenheitDegree
	j.Site.HeatingIndoor = units.Fahrenheit(70)
	j.Supply, j.Coil = Part{Drop: 0.1 * units.InchWater, Airflow: 1200 * units.CFM}, Part{Drop: 0.1 * units.InchWater, Airflow: 1200 * units.CFM}
	s := solved(t, j)
	require.Len(t, s.Taps, 2)
	low, high := s.Taps[0], s.Taps[1]
	assert.Equal(t, []bool{false, true}, []bool{low.ReachesFlow, high.ReachesFlow})
	assert.True(t, low.WithinStatic && high.WithinStatic)
	for _, tap := range s.Taps {
		assert.InEpsilon(t, tap.Airflow.In(units.CFM)/3, tap.AirflowPerCapacity.In(units.CFMPerTon), 1e-9)
		watts := map[string]float64{"low": 300, "high": 500}[tap.Tap] * s.Air.DensityRatio
		assert.InEpsilon(t, watts, tap.BlowerPower.In(units.Watt), 1e-6)
		rise := (60000 + 3.412*watts) / (1.08 * tap.HeatingAirflow.In(units.CFM))
		assert.InEpsilon(t, rise, tap.TemperatureRise.In(units.FahrenheitDegree), 0.01)
		assert.Greater(t, tap.HeatingAirflow, tap.Airflow, "the coil is dry")
	}
	assert.Equal(t, []bool{false, true}, []bool{low.WithinRise, high.WithinRise}, "%v and %v", low.TemperatureRise, high.TemperatureRise)
	assert.Equal(t, []bool{false, true}, []bool{low.ForCooling, high.ForCooling})
	j.Equipment.RatedExternalStatic = 0.2 * units.InchWater
	s = solved(t, j)
	assert.False(t, s.Taps[0].WithinStatic || s.Taps[1].WithinStatic)
}

// Of three returns the second carries the most air, the third more than the first.
func TestOneMoreOfThree(t *testing.T) {
	j := pinned()
	j.Returns = []Return{drop10("little", 16), drop10("most", 2), drop10("more", 8)}
	_, o := single(t, j, "one more return")
	require.Len(t, o.Returns, 4)
	assert.Equal(t, j.Returns[1].Fittings, o.Returns[3].Fittings)
}
