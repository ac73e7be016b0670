package sizing

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/search"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// searched are houses of which the search has to choose unlike things.
func searched() map[string]Job {
	few := pinned()
	few.Limits.MaxOpenings = 1
	tight := pinned()
	tight.Limits.CabinetWidth, tight.Limits.CabinetHeight, tight.Limits.CabinetDepth = 20*units.Inch, 44*units.Inch, 8*units.Inch
	slow := pinned()
	slow.TargetFaceVelocity = 180 * units.FPM
	metric := pinned()
	metric.Limits.NominalSizes = MetricSizes
	code := pinned()
	code.Limits.Checks, code.Limits.MinMERV = CheckSets(), 13
	walled := pinned()
	walled.Limits.WallWidth, walled.Limits.WallHeight, walled.Limits.StudBay = 16*units.Inch, 32*units.Inch, 14.5*units.Inch
	return map[string]Job{"pinned": pinned(), "few": few, "tight": tight, "slow": slow, "metric": metric, "code": code, "walled": walled, "in grilles": inGrilles(), "least": least(), "two": twoReturns()}
}

// The order of the list: those that meet, then those that miss fewer limits, then fewer
// openings, then the more relief for the metal: today's filter drop less the size's, over
// face area and as much again for every 4 in of depth; of equal ones the narrower, as in
// the list. On the front is who meets and is
// beaten by none in openings, face and drop at once. Each size's figures are its own.
func TestOrderOfSizes_Identity(t *testing.T) {
	for name, j := range searched() {
		s := solved(t, j)
		now := float64(s.Today().Clean.FilterDrop)
		value := func(z *Size) float64 {
			return (now - float64(z.FilterDrop)) / (float64(z.FaceArea) * (1 + z.Depth.In(units.Inch)/4))
		}
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(math.Abs(a), math.Abs(b)) }
		missing := 0
		for i := range s.Sizes {
			z := &s.Sizes[i]
			at := fmt.Sprintf("%s, %s %s", name, z.Place, z.Label)
			face := float64(z.Count) * float64(z.Width) * float64(z.Height)
			assert.InEpsilon(t, face, float64(z.FaceArea), 1e-9, at)
			assert.InEpsilon(t, float64(s.DesignAirflow)/face, float64(z.DesignFaceVelocity), 1e-9, at)
			assert.InEpsilon(t, float64(z.Airflow)/face, float64(z.FaceVelocity), 1e-9, at)
			assert.Equal(t, len(z.Misses) == 0, z.MeetsAll, at)
			assert.Equal(t, z.Count > 1, strings.HasPrefix(z.Label, fmt.Sprintf("%d x ", z.Count)), at)
			assert.Equal(t, z.Place == InGrille, z.Assembly == nil, at)
			for _, m := range z.Misses {
				assert.NotEmpty(t, m.In(units.IP), at)
			}
			velocity := float64(z.DesignFaceVelocity) / float64(s.TargetFaceVelocity)
			_, fast := codes(z.Misses)["face_velocity"]
			assert.Equal(t, velocity > 1.0001, fast, at)
			if fast {
				need := units.Area(float64(s.DesignAirflow) / float64(s.TargetFaceVelocity))
				assert.Equal(t, "face velocity "+z.DesignFaceVelocity.Show(units.IP)+" is over the target "+s.TargetFaceVelocity.Show(units.IP)+": it needs "+need.Show(units.IP)+" of face, this has "+z.FaceArea.Show(units.IP), coded(z.Misses, "face_velocity").In(units.IP))
			}
			if m := coded(z.Misses, "filter_drop"); m != nil {
				assert.Equal(t, "clean drop "+z.FilterDrop.Show(units.IP)+" is over the "+(s.RatedExternalStatic/5).Show(units.IP)+" that a filter may take", m.In(units.IP))
			}
			assert.Equal(t, z.FilterDrop > s.RatedExternalStatic/5, coded(z.Misses, "filter_drop") != nil, at)
			beaten := false
			for k := range s.Sizes {
				b := &s.Sizes[k]
				if !b.MeetsAll {
					continue
				}
				count, area, drop := b.Count-z.Count, float64(b.FaceArea-z.FaceArea), float64(b.FilterDrop-z.FilterDrop)
				if near(float64(b.FaceArea), float64(z.FaceArea)) {
					area = 0
				}
				if near(float64(b.FilterDrop), float64(z.FilterDrop)) {
					drop = 0
				}
				beaten = beaten || count <= 0 && area <= 0 && drop <= 0 && (count < 0 || area < 0 || drop < 0)
			}
			assert.Equal(t, z.MeetsAll && !beaten, z.ParetoOptimal, at)
			if !z.MeetsAll {
				missing++
			}
			if i == 0 {
				continue
			}
			before := &s.Sizes[i-1]
			switch {
			case before.MeetsAll != z.MeetsAll:
				assert.True(t, before.MeetsAll, at)
			case len(before.Misses) != len(z.Misses):
				assert.Less(t, len(before.Misses), len(z.Misses), at)
			case before.Count != z.Count:
				assert.Less(t, before.Count, z.Count, at)
			case !near(value(before), value(z)):
				assert.Greater(t, value(before), value(z), at)
			case !near(float64(before.FaceArea), float64(z.FaceArea)):
				assert.Less(t, before.FaceArea, z.FaceArea, at)
			case before.Place == z.Place && before.Depth == z.Depth:
				assert.Less(t, before.Width, z.Width, "%s: as listed", at)
			}
		}
		assert.LessOrEqual(t, missing, 12+4, "%s: the nearest twelve and those of the answer", name)
	}
}

// The answer for each place: the fewest limits missed, first one that keeps the face
// velocity, then the fewest openings, then the least face, or the most where all are fast,
// then the shallowest; never one that has no room. The largest is the single cabinet of the
// most face, the deeper of two.
func TestAnswerOfSizes_Identity(t *testing.T) {
	room := []string{"wall", "stud_bay", "room", "depth"}
	for name, j := range searched() {
		s := solved(t, j)
		fits := false
		picked := map[PlaceKind]*Size{InGrille: s.SuggestedSizes.Grille, InSlot: s.SuggestedSizes.Slot, InCabinet: s.SuggestedSizes.Cabinet}
		fast := func(z *Size) int {
			if coded(z.Misses, "face_velocity") != nil {
				return 1
			}
			return 0
		}
		for i := range s.Sizes {
			z := &s.Sizes[i]
			fits = fits || z.MeetsAll
			hasRoom := !slices.ContainsFunc(z.Misses, func(f Finding) bool { return slices.Contains(room, f.Code) })
			best := picked[z.Place]
			at := fmt.Sprintf("%s, %s %s", name, z.Place, z.Label)
			if !hasRoom {
				continue
			}
			require.NotNil(t, best, at)
			sign := 1.0
			if fast(z) == 1 && fast(best) == 1 {
				sign = -1
			}
			mine := []float64{float64(len(z.Misses)), float64(fast(z)), float64(z.Count), sign * z.FaceArea.In(units.SquareInch), z.Depth.In(units.Inch)}
			theirs := []float64{float64(len(best.Misses)), float64(fast(best)), float64(best.Count), sign * best.FaceArea.In(units.SquareInch), best.Depth.In(units.Inch)}
			for k := range mine {
				mine[k], theirs[k] = math.Round(mine[k]*1e4), math.Round(theirs[k]*1e4)
			}
			assert.LessOrEqual(t, slices.Compare(theirs, mine), 0, "%s beats %s", at, best.Label)
			if z.Place == InCabinet && z.Count == 1 {
				require.NotNil(t, s.SuggestedSizes.Largest, at)
				l := s.SuggestedSizes.Largest
				assert.GreaterOrEqual(t, l.FaceArea.In(units.SquareInch), z.FaceArea.In(units.SquareInch)-1e-6, at)
				if math.Abs(l.FaceArea.In(units.SquareInch)-z.FaceArea.In(units.SquareInch)) < 1e-6 {
					assert.GreaterOrEqual(t, l.Depth, z.Depth, at)
				}
				assert.Equal(t, 1, l.Count)
			}
		}
		assert.Equal(t, fits, s.SuggestedSizes.Fits, name)
	}
}

// 1200 cfm at 280 fpm need 617 in2. The supplier's cabinet of 24x26, 624 in2, comes after
// the listed ones and is suggested before 24x30; the largest stays the listed one.
func TestSuggestedFromStock(t *testing.T) {
	j := pinned()
	j.TargetFaceVelocity = 280 * units.FPM
	listed := solved(t, j).SuggestedSizes
	require.Equal(t, "24x30x4", listed.Cabinet.Label)
	j.StockSizes = []StockSize{{Of: FilterSize, Width: 24 * units.Inch, Height: 26 * units.Inch, Depth: 4 * units.Inch}}
	s := solved(t, j).SuggestedSizes
	assert.Equal(t, "24x26x4", s.Cabinet.Label)
	require.Greater(t, s.Largest.FaceArea, s.Cabinet.FaceArea)
	assert.Equal(t, listed.Largest.Label, s.Largest.Label)
}

// A grille holds a filter 1 in. deep, or 48 mm of the metric ones, the largest too, which
// 2000 cfm need.
func TestDepthBehindAGrille(t *testing.T) {
	for system, depth := range map[units.System]units.Length{units.InchPound: units.Inch, units.Metric: 48 * units.Millimetre} {
		j := least()
		j.DesignAirflow, j.Limits.MaxOpenings = 2000*units.CFM, 1
		if system == units.Metric {
			j.Limits.NominalSizes = MetricSizes
		}
		listed := stock.Of(system, stock.FilterGrilles())
		largest, seen := listed[len(listed)-1], false
		for _, z := range solved(t, j).Sizes {
			if z.Place == InGrille {
				assert.InDelta(t, float64(depth), float64(z.Depth), 1e-9, z.Label)
				seen = seen || z.Width == largest.Width && z.Height == largest.Height
			}
		}
		assert.True(t, seen, "%s", largest)
	}
}

// A further opening is looked at where one fewer would not keep the target; a size from
// half to 1.45 times as fast as that; as many filters in one casing as two. Grilles at
// least as many as there are returns.
func TestSizesLookedAt_Identity(t *testing.T) {
	for name, j := range searched() {
		s := solved(t, j)
		returns := max(1, len(j.Returns))
		most := max(returns, 3)
		if j.Limits.MaxOpenings > 0 {
			most = max(returns, j.Limits.MaxOpenings)
		}
		for _, z := range s.Sizes {
			at := fmt.Sprintf("%s, %s %s", name, z.Place, z.Label)
			least := 1
			if z.Place == InGrille {
				least = returns
				assert.LessOrEqual(t, z.Count, most, at)
			} else {
				assert.LessOrEqual(t, z.Count, 2, at)
			}
			assert.GreaterOrEqual(t, z.Count, least, at)
			v := float64(z.DesignFaceVelocity) / float64(s.TargetFaceVelocity)
			if len(j.Limits.Checks) == 0 {
				assert.GreaterOrEqual(t, v, 0.5-1e-9, at)
				if z.Key() != s.SuggestedSizes.Largest.Key() {
					assert.LessOrEqual(t, v, 1.45+1e-9, at)
				}
				if z.Count > least {
					assert.Greater(t, v*float64(z.Count)/float64(z.Count-1), 1.0001, "%s: one fewer would do", at)
				}
			}
			switch z.Place {
			case InCabinet:
				assert.Greater(t, z.Depth, 2.1*units.Inch, at)
			case InSlot:
				assert.LessOrEqual(t, z.Depth, 2.1*units.Inch, at)
			case InGrille:
				want := units.Inch
				if j.Limits.NominalSizes == MetricSizes {
					want = 48 * units.Millimetre
				}
				assert.InDelta(t, float64(want), float64(z.Depth), 1e-9, at)
			}
		}
	}
	// The job's own make of a depth and MERV is taken before a generic one.
	s := solved(t, pinned())
	for _, z := range s.Sizes {
		if z.Depth == units.Inch {
			assert.Equal(t, "own", z.Filter)
		} else {
			assert.Equal(t, "generic MERV 8", z.Filter)
		}
		assert.Equal(t, 8, z.MERV)
	}
}

// A size taken is an option of its own: a grille of it at the head of each branch, with
// the style of what was there, a copy of the last branch where it has more, and no slot;
// at the equipment a slot, and no filter left in the grilles.
func TestSizeTakenByHand_Identity(t *testing.T) {
	j := inGrilles()
	j.Prices = invented
	j.Returns[1].Grille.FreeArea = 0.7
	z := Size{Place: InGrille, Count: 3, Width: 20 * units.Inch, Height: 30 * units.Inch, Depth: units.Inch, Label: "3 x 20x30x1", Filter: "fine", MERV: 11}
	name := search.AddSize(units.IP, &j, z)
	o := j.Options[0]
	assert.Equal(t, "filter grille 3 x 20x30x1", name)
	assert.Equal(t, units.Money(2*150+700), o.Price, "two grilles and a return")
	assert.Equal(t, Slot{None: true}, o.Slot)
	require.Len(t, o.Returns, 3)
	for i, r := range o.Returns {
		assert.Equal(t, []string{"hall", "den", ""}[i], r.Name)
		assert.Equal(t, "fine", r.Filter)
		assert.Equal(t, duct.Grille{Width: 20 * units.Inch, Height: 30 * units.Inch, FreeArea: []float64{0, 0.7, 0.7}[i]}, r.Grille)
		assert.Equal(t, j.Returns[min(i, 1)].Runs, r.Runs)
	}
	assert.Equal(t, filter.Filter{Name: "fine", Depth: units.Inch, MERV: 11}, j.Filters[len(j.Filters)-1])
	assert.Equal(t, name+", 2", search.AddSize(units.IP, &j, z))
	assert.Equal(t, name+", 3", search.AddSize(units.IP, &j, z))
	assert.Len(t, j.Filters, 2, "the make is there already")

	z = Size{Place: InCabinet, Count: 2, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Stacked: true, Label: "2 x 20x25x4", Filter: "fine", MERV: 11}
	search.AddSize(units.IP, &j, z)
	o = j.Options[3]
	assert.Equal(t, units.Money(900), o.Price)
	assert.Equal(t, Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Count: 2, Stacked: true, Filter: o.Filter}, o.Slot)
	assert.Contains(t, o.Filter, "fine, 4", "the same make in another depth is another")
	require.Len(t, o.Returns, 2)
	assert.Empty(t, o.Returns[0].Filter+o.Returns[1].Filter)
	assert.Equal(t, "own", j.Returns[0].Filter, "today stays")
	bare := pinned()
	bare.Returns = nil
	search.AddSize(units.IP, &bare, Size{Place: InGrille, Count: 1, Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch, Label: "20x20x1", Filter: "own"})
	assert.Equal(t, Slot{Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch, AtGrilles: true, Filter: "own"}, bare.Options[0].Slot)
	assert.Nil(t, bare.Options[0].Returns)
}

// A size of the list and one of another list are each solved as an option, once.
func TestSizesAsOptions_Identity(t *testing.T) {
	j := pinned()
	s := solved(t, j)
	listed := s.Sizes[0]
	a, err := s.With(listed)
	require.NoError(t, err)
	again, err := s.With(listed)
	require.NoError(t, err)
	assert.Same(t, a, again)
	other := Size{Place: InSlot, Count: 1, Width: 12 * units.Inch, Height: 12 * units.Inch, Depth: units.Inch, Label: "12x12x1", Filter: "odd", MERV: 11}
	b, err := s.With(other)
	require.NoError(t, err)
	assert.InDelta(t, 144, b.FaceArea.In(units.SquareInch), 1e-6)
	assert.Equal(t, "odd", b.Filter)
	assert.Equal(t, 11, b.Efficiency.MERV)
	assert.NotEmpty(t, b.Findings)
	same, err := s.With(other)
	require.NoError(t, err)
	assert.Same(t, b, same)
	for i := range s.Sizes[:4] {
		r, err := s.With(s.Sizes[i])
		require.NoError(t, err)
		assert.InEpsilon(t, float64(s.Sizes[i].FaceArea), float64(r.FaceArea), 1e-9)
		assert.InEpsilon(t, float64(s.Sizes[i].Airflow), float64(r.Clean.Airflow), 1e-9)
	}
}

// What each part alone would have to come down to: of 0.634 in. w.c. at 1000 cfm all but
// the part's own stays, and the blower has what its line leaves at the airflow asked for.
// A line from 1100 cfm at none to 900 at 0.8 has 0.4 left at 1000 and 0.6 at 950, in thinner
// air 0.98354 of it.
func TestRequiredDropsByHand_Identity(t *testing.T) {
	j := pinned()
	tap := &j.Equipment.Blower.Taps[0]
	tap.Points[0].ExternalStatic, tap.Points[0].Airflow = 0, 1100*units.CFM
	tap.Points[1].ExternalStatic, tap.Points[1].Airflow = 0.8*units.InchWater, 900*units.CFM
	r, err := FindUpgrades(context.Background(), j, 1000*units.CFM, nil)
	require.NoError(t, err)
	assert.InDelta(t, 0.4*0.98354, r.Available.In(units.InchWater), 1e-5)
	assert.False(t, r.OffTable)
	assert.InDelta(t, 1000, r.Target.In(units.CFM), 1e-9)
	over := 0.634 - 0.4*0.98354
	want := map[PartName]float64{"return": 0.1832, "filter": 0.2507, "coil": 0.12, "supply": 0.08}
	require.Len(t, r.RequiredDrops, 4)
	for _, d := range r.RequiredDrops {
		assert.InDelta(t, want[d.Part], d.Now.In(units.InchWater), 7e-4, d.Part)
		assert.InDelta(t, want[d.Part]-over, d.Needed.In(units.InchWater), 1.5e-3, d.Part)
		assert.Equal(t, d.Part == "filter", d.Possible, "%s: 0.24 too much", d.Part)
		assert.Equal(t, d.Part == "filter", d.Face > 0, d.Part)
		delete(want, d.Part)
	}
	r, err = FindUpgrades(context.Background(), j, 1200*units.CFM, nil)
	require.NoError(t, err)
	assert.True(t, r.OffTable)

	// At 950 cfm of a filter that takes 0.25 (v/288)^n: what it may take carries 950 cfm over
	// a face, and the smallest listed one of 1 in, as deep within a tenth, that holds it.
	r, err = FindUpgrades(context.Background(), j, 950*units.CFM, nil)
	require.NoError(t, err)
	seen := false
	for _, d := range r.RequiredDrops {
		if d.Part != "filter" || !d.Possible {
			continue
		}
		seen = true
		assert.Regexp(t, `x1$`, d.Size)
		var w, h float64
		_, err := fmt.Sscanf(d.Size, "%fx%fx", &w, &h)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, w*h, d.Face.In(units.SquareInch)-1e-6)
	}
	assert.True(t, seen)
}

// A wider duct of each shape, of a rectangle both sides; a make of filter that fits goes
// into today's place, one of another depth or size does not.
func TestChangesByHand_Identity(t *testing.T) {
	j := ducts()
	j.Prices = invented
	j.Limits.DuctFriction = 0.03 * units.InchWaterPer100Feet
	s := solved(t, j)
	require.True(t, s.Ducts[0].Undersized && s.Ducts[1].Undersized)
	_, o := single(t, j, "larger ducts in hall and den")
	assert.Equal(t, s.Ducts[0].Round.Diameter, o.Returns[0].Runs[0].Diameter)
	rect := o.Returns[1].Runs[0]
	assert.Equal(t, [2]units.Length{s.Ducts[1].Rect.Width, s.Ducts[1].Rect.Height}, [2]units.Length{rect.Width, rect.Height})
	require.NotEqual(t, rect.Width, rect.Height)
	assert.Equal(t, s.Ducts[1].Flex.Diameter, o.Returns[1].Runs[1].Diameter)
	assert.Zero(t, o.Returns[1].Fittings[0].Diameter)

	f := func(name string, depth, w, h units.Length, merv int) filter.Filter {
		g := pinned().Filters[0]
		g.Name, g.Depth, g.Width, g.Height, g.MERV = name, depth*units.Inch, w*units.Inch, h*units.Inch, merv
		g.Rating = []filter.RatingPoint{{FaceVelocity: 288 * units.FPM, Drop: 0.05 * units.InchWater}}
		return g
	}
	j = pinned()
	j.Limits.MinMERV = 8
	j.Filters = append(j.Filters, f("free", 1, 0, 0, 8), f("sized", 1, 25, 20, 11), f("narrow", 1, 16, 25, 11), f("deep", 4, 0, 0, 11), f("coarse", 1, 0, 0, 4))
	r, err := FindUpgrades(context.Background(), j, 1300*units.CFM, nil)
	require.NoError(t, err)
	var names []string
	for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
		if len(w.Changes) == 1 && strings.HasPrefix(w.Name(), "filter ") && !strings.HasPrefix(w.Name(), "filter grille") {
			names = append(names, w.Name())
			assert.InDelta(t, 0.05, w.Result.Clean.FilterDrop.In(units.InchWater), 1e-3)
			assert.Zero(t, w.Result.Upgrade)
			assert.InDelta(t, 300, w.Lacks.In(units.CFM), 0.1)
		}
	}
	slices.Sort(names)
	assert.Equal(t, []string{"filter free", "filter sized"}, names)
	assert.True(t, slices.IsSortedFunc(r.FallShort, func(a, b Upgrade) int { return int(math.Round(1e6 * float64(a.Lacks-b.Lacks))) }), "the nearest first")

	// Returns with a filter in each: what is in the grilles counts, each of its own size.
	g := inGrilles()
	g.Returns = g.Returns[:1]
	g.Filters = append(g.Filters, f("square", 1, 20, 20, 8), f("long", 1, 20, 25, 8))
	r, err = FindUpgrades(context.Background(), g, 1300*units.CFM, nil)
	require.NoError(t, err)
	fits := map[string]bool{}
	for _, w := range slices.Concat(r.Upgrades, r.FallShort) {
		fits[w.Name()] = true
	}
	assert.True(t, fits["filter square"])
	assert.False(t, fits["filter long"])
}

// Only one grille is too fast: it alone is changed, the other stays, and both keep their
// opening's limit.
func TestOneGrilleIsTooFast(t *testing.T) {
	j := ducts() // the hall's 12x12 sees over 500 fpm, the den's 20x20 less
	b := solved(t, j).Today().Clean.Branches
	require.Greater(t, b[0].FaceVelocity, 505*units.FPM)
	require.Less(t, b[1].FaceVelocity, 495*units.FPM)
	w, o := single(t, j, "larger grilles in hall")
	assert.Equal(t, "larger grilles in hall", w.Name())
	assert.Equal(t, j.Returns[1].Grille, o.Returns[1].Grille)
	assert.NotEqual(t, j.Returns[0].Grille, o.Returns[0].Grille)
	assert.LessOrEqual(t, b[0].Airflow.In(units.CFM)*144/o.Returns[0].Grille.Width.In(units.Inch)/o.Returns[0].Grille.Height.In(units.Inch), 500.1)
}

// An option made of a size shares nothing with the house as it is.
func TestTakenSizeSharesNothing(t *testing.T) {
	j := inGrilles()
	search.AddSize(units.IP, &j, Size{Place: InCabinet, Count: 1, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Label: "20x25x4", Filter: "deep", MERV: 8})
	o := &j.Options[0]
	o.Returns[0].Runs[0].Diameter, o.Returns[0].Fittings[0].Coefficient = 1, 9
	assert.Equal(t, inGrilles().Returns, j.Returns)
}

// The make that the search tries is not the job's, though it bears the name of one: the
// job's drops 1 in. w.c. where the generic one drops a seventh of that.
func TestSizesTryTheirOwnMake(t *testing.T) {
	j := least()
	own := filter.Filter{Name: "generic MERV 8", Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: 8,
		Rating: []filter.RatingPoint{{FaceVelocity: filter.RatedFace, Drop: units.InchWater}}}
	j.Filters, j.Slot.Filter = append(j.Filters, own), own.Name
	s := solved(t, j)
	tried := 0
	for _, z := range s.Sizes {
		if z.Count != 1 || z.Depth != units.Inch || z.Filter != own.Name {
			continue
		}
		tried++
		law, err := filter.Filter{Name: own.Name, Depth: z.Depth, MERV: 8}.Law(z.Width, z.Height, solvedHouse(s).Air)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(law.Drop(z.FaceVelocity)), float64(z.FilterDrop), 1e-6, z.Label)
	}
	assert.NotZero(t, tried)
}
