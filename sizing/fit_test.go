package sizing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/fit"
	"returnbench/sizing/job"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

func sizeOf(t *testing.T, s *Study, place PlaceKind, label string) Size {
	t.Helper()
	i := slices.IndexFunc(s.Sizes, func(z Size) bool { return z.Place == place && z.Label == label })
	require.GreaterOrEqual(t, i, 0, "%s %s is on the list", place, label)
	return s.Sizes[i]
}

func coded(fs []Finding, code string) *Finding {
	for i := range fs {
		if fs[i].Code == code {
			return &fs[i]
		}
	}
	return nil
}

// An option may have no filter under the least MERV that was typed, in whichever grille.
func TestLeastMERVOfEachPlace(t *testing.T) {
	for _, c := range []struct {
		mervs [2]int
		under bool
	}{{[2]int{13, 13}, false}, {[2]int{8, 13}, true}, {[2]int{13, 8}, true}} {
		j := inGrilles()
		j.Limits.MinMERV = 11
		o := Option{Name: "other", Returns: slices.Clone(j.Returns)}
		for i, merv := range c.mervs {
			f := j.Filters[0]
			f.Name, f.MERV = []string{"first", "second"}[i], merv
			j.Filters = append(j.Filters, f)
			o.Returns[i].Filter = f.Name
		}
		j.Options = []Option{o}
		assert.Equal(t, c.under, coded(solved(t, j).Option("other").Findings, "merv") != nil, "%v", c.mervs)
	}
}

// A blower table measured with a filter in place holds that filter's drop, so the
// external static is what all parts take less that drop. By hand for the filter of
// the table, MERV 4, 16 x 25 x 1, at 1200 cfm, 432 fpm:
//
//	0.065 in. w.c. x (432 / 295)^1.18 = 0.102 in. w.c. = 25.4 Pa
//
// and at the airflow that 20 x 30 x 2 gives it is off by no more than the airflow.
func TestStaticsAreExternal_Identity(t *testing.T) {
	j := least()
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesFilter}
	s := solved(t, j)
	z := sizeOf(t, s, InSlot, "20x30x2")
	name := search.AddSize(units.IP, &j, z)
	o := solved(t, j).Option(name)
	require.InEpsilon(t, float64(o.Clean.ExternalStatic), float64(z.ExternalStatic), 1e-9)
	total, held := 0.0, 0.0
	for _, p := range o.Clean.Parts {
		if p.Name == PartInTable {
			held = -float64(p.Drop)
			continue
		}
		total += float64(p.Drop)
	}
	assert.InEpsilon(t, 25.4*math.Pow(float64(z.Airflow/(1200*units.CFM)), 1.18), held, 0.02, "in air of 75 °F")
	assert.InEpsilon(t, total-held, float64(z.ExternalStatic), 1e-9, "all parts less what the table holds")
	tap := s.Taps[slices.IndexFunc(s.Taps, func(a TapAdvice) bool { return a.Tap == s.Blower.CoolingTap })]
	assert.InEpsilon(t, float64(s.Today().Clean.ExternalStatic), float64(tap.ExternalStatic), 1e-9)

	r, err := FindUpgrades(t.Context(), least(), 1150*units.CFM, nil)
	require.NoError(t, err)
	j = least()
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesFilter}
	with, err := FindUpgrades(t.Context(), j, 1150*units.CFM, nil)
	require.NoError(t, err)
	assert.Len(t, with.RequiredDrops, len(r.RequiredDrops), "what the table holds is not a part that one could change")
	for _, l := range with.RequiredDrops {
		assert.NotEqual(t, PartInTable, l.Part)
	}
}

// Two filters of 20 x 24 x 4 in one casing are two filters. By hand: 2 x 20 x 24 =
// 960 in2, at 1900 cfm 1900 / (960/144) = 285 fpm; the casing is 2 x 20 + 1 1/2 by
// 24 + 1 1/2 by 4 + 3 in side by side, 21 1/2 by 49 1/2 stacked. A price of 30 each
// makes 60 a change, and 0.06 in of bow on one frame is no other on two.
func TestACountIsACount_Identity(t *testing.T) {
	j := Job{Schema: Schema, DesignAirflow: 1900 * units.CFM}
	j.Filters = []filter.Filter{{Name: "deep", Width: 20 * units.Inch, Height: 24 * units.Inch, Depth: 4 * units.Inch, MERV: 8, Price: 30}}
	s := solved(t, j)
	z := sizeOf(t, s, InCabinet, "2 x 20x24x4")
	require.InEpsilon(t, 960.0, z.FaceArea.In(units.SquareInch), 1e-9)
	require.InEpsilon(t, 285.0, z.DesignFaceVelocity.In(units.FPM), 1e-9)
	name := search.AddSize(units.IP, &j, z)
	taken := j.Options[0].Slot
	assert.Equal(t, Slot{Width: 20 * units.Inch, Height: 24 * units.Inch, Depth: 4 * units.Inch, Count: 2, Filter: "deep"}, taken)
	o := solved(t, j).Option(name)
	require.Len(t, o.Places, 1)
	p := o.Places[0]
	assert.Equal(t, []any{InCabinet, -1, 2, 20 * units.Inch, 24 * units.Inch, 4 * units.Inch, "deep"},
		[]any{p.Where, p.Branch, p.Count, p.Width, p.Height, p.Depth, p.Filter})
	assert.InEpsilon(t, 2*float64(units.Year/p.Life), p.PerYear, 1e-9, "both filters are changed")
	assert.InEpsilon(t, 960.0, o.FaceArea.In(units.SquareInch), 1e-9)
	assert.Equal(t, "cabinet 2 x 20x24x4", o.Place.String())
	box := o.Assembly
	for k, want := range []float64{41.5, 25.5, 7} {
		assert.InEpsilon(t, want, []units.Length{box.Width, box.Height, box.Depth}[k].In(units.Inch), 1e-9)
	}
	assert.InEpsilon(t, 30*o.FiltersPerYear, float64(o.AnnualFilter), 1e-9)

	// A room 24 in wide and 50 high takes them one above the other.
	j = Job{Schema: Schema, DesignAirflow: 1900 * units.CFM, Limits: Limits{CabinetWidth: 22 * units.Inch, CabinetHeight: 50 * units.Inch}}
	up := sizeOf(t, solved(t, j), InCabinet, "2 x 20x24x4")
	assert.True(t, up.MeetsAll)
	assert.InEpsilon(t, 49.5, max(up.Assembly.Width, up.Assembly.Height).In(units.Inch), 1e-9)
}

// Two frames push and bow as one does that sees the same air for each square foot,
// and as much of the air slips past them.
func TestTwoFramesBowAsOne_Identity(t *testing.T) {
	house := func(flow units.Flow, count int) *OptionResult {
		j := Job{Schema: Schema, DesignAirflow: flow}
		j.Equipment.Blower.Motor = blower.ConstantAirflow
		j.Slot = Slot{Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch, Count: count, Gap: 2 * units.Millimetre, GapBends: 2, EdgeCover: 0.5 * units.Inch}
		return solved(t, j).Today()
	}
	one, two := house(800*units.CFM, 1), house(1600*units.CFM, 2)
	require.InEpsilon(t, float64(one.Clean.FaceVelocity), float64(two.Clean.FaceVelocity), 0.01)
	assert.InEpsilon(t, float64(one.FramePush), float64(two.FramePush), 0.02, "of each frame")
	assert.InEpsilon(t, one.LeakFraction, two.LeakFraction, 0.02)
	assert.InEpsilon(t, float64(one.Life), float64(two.Life)/2, 0.2, "the same dust on twice the face")
}

// The whole casing is held to the room. By hand: a 20 x 25 x 4 cabinet is 20 + 1 1/2
// by 25 + 1 1/2 in = 21 1/2 x 26 1/2 in., 1/2 in. too large for 22 x 26, however it
// is turned. With a casing of 1 in it is 21 x 26 in. and goes in.
func TestTheCasingIsHeldToTheRoom_Identity(t *testing.T) {
	j := least()
	j.TargetFaceVelocity = 350 * units.FPM
	j.Limits.CabinetWidth, j.Limits.CabinetHeight = 22*units.Inch, 26*units.Inch
	s := solved(t, j)
	require.True(t, s.Assumed("limits.casing_face"))
	require.True(t, s.Assumed("limits.casing_depth"))
	miss := coded(sizeOf(t, s, InCabinet, "20x25x4").Misses, study.CodeRoom)
	require.NotNil(t, miss)
	assert.Equal(t, "the cabinet needs 21 1/2 x 26 1/2 in. with a casing 1 1/2 in. larger than its filters, there is 22 x 26 in.: 1/2 in. too large", miss.In(units.IP))
	assert.Contains(t, miss.In(units.SI), "546 x 673 mm")

	j.Limits.CasingFace = units.Inch
	s = solved(t, j)
	require.False(t, s.Assumed("limits.casing_face"))
	assert.Nil(t, coded(sizeOf(t, s, InCabinet, "20x25x4").Misses, study.CodeRoom))
}

// A person's own options are held as sizes are. By hand: a grille of 20 x 20 is 20
// in wide between studs 14 1/2 in apart, 5 1/2 too wide; one of 14 x 24 goes between
// them. A 24 x 24 x 4 cabinet is 25 1/2 in each way, 1 1/2 more than 24 in. A 14 x 30
// grille does not go into the hall's own opening of 14 x 24, though the job's wall
// takes it.
func TestOptionsAreHeldToTheHouse_Identity(t *testing.T) {
	j := least()
	run := []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: 12 * units.Foot}}
	hall := Return{Name: "hall", Grille: duct.Grille{Width: 14 * units.Inch, Height: 20 * units.Inch}, Runs: run,
		OpeningWidth: 14 * units.Inch, OpeningHeight: 24 * units.Inch}
	j.Returns = []Return{hall}
	j.Limits = Limits{WallWidth: 30 * units.Inch, WallHeight: 30 * units.Inch, StudBay: 14.5 * units.Inch,
		CabinetWidth: 24 * units.Inch, CabinetHeight: 24 * units.Inch, CabinetDepth: 6 * units.Inch, MinMERV: 11}
	grille := func(name string, w, h units.Length) Return {
		return Return{Name: name, Grille: duct.Grille{Width: w * units.Inch, Height: h * units.Inch}, Runs: run}
	}
	j.Filters = []filter.Filter{{Name: "fine", MERV: 11, Depth: units.Inch}, {Name: "coarse", MERV: 8, Depth: units.Inch}, {Name: "deep", MERV: 11, Depth: 4 * units.Inch}}
	j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "fine"}
	deep := Slot{Width: 24 * units.Inch, Height: 24 * units.Inch, Depth: 4 * units.Inch, Filter: "deep"}
	den := grille("den", 14, 20)
	den.OpeningWidth, den.OpeningHeight = 12*units.Inch, 20*units.Inch
	j.Options = []Option{
		{Name: "wide", Returns: []Return{hall, grille("den", 20, 20)}},
		{Name: "narrow", Returns: []Return{hall, grille("den", 14, 24)}},
		{Name: "tall", Returns: []Return{grille("hall", 14, 30)}},
		{Name: "own wall", Returns: []Return{hall, den}},
		{Name: "cabinet", Slot: deep},
		{Name: "coarser", Filter: "coarse"},
	}
	s := solved(t, j)
	for _, want := range []struct{ option, code, text string }{
		{"wide", study.CodeStudBay, "Den: the grille is 20 in. wide between studs 14 1/2 in. apart: 5 1/2 in. too wide: never cut a stud, choose a grille that goes between them."},
		{"tall", study.CodeWall, "Hall: the grille needs 14 x 30 in., the wall has room for 14 x 24 in.: 6 in. too large: choose a smaller grille or two."},
		{"own wall", study.CodeWall, "Den: the grille needs 14 x 20 in., the wall has room for 12 x 20 in.: 2 in. too large: choose a smaller grille or two."},
		{"cabinet", study.CodeRoom, "The cabinet needs 25 1/2 x 25 1/2 in. with a casing 1 1/2 in. larger than its filters, there is 24 x 24 in.: 1 1/2 in. too large: choose a smaller one or make room."},
		{"cabinet", study.CodeDepth, "The cabinet needs 7 in. along the airflow with a casing 3 in. deeper than its filter, there is 6 in.: 1 in. too deep: choose a shallower one or make room."},
	} {
		o := s.Option(want.option)
		f := coded(o.Findings, want.code)
		require.NotNil(t, f, "%s %s", want.option, want.code)
		assert.Equal(t, Stop, f.Severity)
		assert.Equal(t, strings.ToLower(want.text), strings.ToLower(f.In(units.IP)))
		assert.Equal(t, Stop, o.Verdict)
	}
	for _, code := range fit.RoomCodes {
		assert.Nil(t, coded(s.Option("narrow").Findings, code), code)
		assert.Nil(t, coded(s.Today().Findings, code), "what stands there stands")
	}
	f := coded(s.Option("coarser").Findings, "merv")
	require.NotNil(t, f)
	assert.Equal(t, "MERV 8 is under the least of MERV 11: choose a finer filter.", f.In(units.IP))
}

// In a wall 30 in. wide and 20 in. high with bays of 14 1/2 in. a grille of 28 in. can lie
// in the wall but not between studs. One of 14 3/4 in. goes between them and stands too
// high; one of 15 in. is too wide.
func TestAGrilleThatOnlyLiesInTheWall(t *testing.T) {
	j := least()
	j.Limits = Limits{WallWidth: 30 * units.Inch, WallHeight: 20 * units.Inch, StudBay: 14.5 * units.Inch}
	run := []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: 12 * units.Foot}}
	for _, c := range []struct {
		height units.Length
		text   string
	}{
		{14.75, "den: between studs 14 1/2 in. apart the grille stands 28 in. high, the wall has 20 in.: 8 in. too high: never cut a stud, choose a shorter grille."},
		{15, "den: the grille is 15 in. wide between studs 14 1/2 in. apart: 1/2 in. too wide: never cut a stud, choose a grille that goes between them."},
	} {
		j.Options = []Option{{Name: "den", Returns: []Return{{Name: "den", Grille: duct.Grille{Width: 28 * units.Inch, Height: c.height * units.Inch}, Runs: run}}}}
		assert.Equal(t, c.text, findingOf(t, solved(t, j).Option("den").Findings, study.CodeStudBay).In(units.IP))
	}
}

// With the energy code's set ticked no size is called fitting that breaks it. By
// hand at 2 tons and 700 cfm: 1 in deep wants 700 / 150 = 4.667 ft2 = 672 in2 and
// 0.1 in. w.c. at the design airflow, filter grilles 600 in2 by the table, all MERV 13.
// A generic MERV 13 of 1 in drops 0.27 (v / 295)^1.18: at most 0.1 at 127 fpm, 793 in2.
func TestSizesKeepTheEnergyCode_Identity(t *testing.T) {
	j := Job{Schema: Schema, DesignAirflow: 700 * units.CFM, Equipment: Equipment{CoolingCapacity: 2 * units.Ton}}
	plain := solved(t, j)
	require.True(t, slices.ContainsFunc(plain.Sizes, func(z Size) bool {
		return z.MeetsAll && z.Depth < 1.5*units.Inch && z.FaceArea < 672*units.SquareInch
	}), "without the set such a size fits")
	j.Limits.Checks = []CheckSet{Title24}
	s := solved(t, j)
	fits := 0
	for _, z := range s.Sizes {
		with, err := s.With(z)
		require.NoError(t, err)
		for _, code := range []string{"title24_merv", "title24_face", "title24_drop", "title24_grilles"} {
			if f := coded(with.Findings, code); f != nil && z.MeetsAll {
				assert.Equal(t, Good, f.Severity, "%s %s: %s", z.Place, z.Label, f.In(units.IP))
			}
		}
		if !z.MeetsAll {
			continue
		}
		fits++
		assert.GreaterOrEqual(t, z.MERV, 13)
		if z.Depth < 1.5*units.Inch {
			assert.GreaterOrEqual(t, z.FaceArea.In(units.SquareInch), 785.0, z.Label)
		}
		if z.Place == InGrille {
			assert.GreaterOrEqual(t, z.FaceArea.In(units.SquareInch), 599.9, z.Label)
		}
	}
	assert.Positive(t, fits)
}

// Where nothing fits the answer says so, and what each of the nearest misses. By
// hand: a room of 18 x 22 in takes a cabinet for 16 x 20, 17 1/2 x 21 1/2 in., and
// none larger; at 1200 cfm its 320 in2 make 1200 / (320/144) = 540 fpm where 300 want
// 576 in2.
func TestNothingFits_Identity(t *testing.T) {
	j := least()
	j.Limits = Limits{CabinetWidth: 18 * units.Inch, CabinetHeight: 22 * units.Inch, WallWidth: 12 * units.Inch, WallHeight: 12 * units.Inch}
	s := solved(t, j)
	require.False(t, s.SuggestedSizes.Fits)
	largest := s.SuggestedSizes.Largest
	require.NotNil(t, largest)
	assert.Equal(t, "16x20x5", largest.Label)
	assert.InEpsilon(t, 540.0, largest.DesignFaceVelocity.In(units.FPM), 1e-9)
	assert.Equal(t, "face velocity 540 fpm is over the target 300 fpm: it needs 576 in2 of face, this has 320 in2", largest.Misses[0].In(units.IP))
	assert.True(t, strings.HasPrefix(s.SuggestedSizes.Text.String(), "Nothing fits; nearest: "), s.SuggestedSizes.Text)
	assert.Contains(t, s.SuggestedSizes.Text.String(), "cabinet 16x20x5 (face velocity 540 fpm is over the target 300 fpm: it needs 576 in2 of face, this has 320 in2")
	for _, z := range s.SuggestedSizes.Nearest {
		assert.NotEmpty(t, z.Misses)
		sizeOf(t, s, z.Place, z.Label) // and it is on the list
	}
	sizeOf(t, s, InCabinet, "16x20x5")

	// In 22 x 22 in both 20 x 20 x 4 and x 5 go, 21 1/2 in each way. They miss the face
	// velocity alone, so the shallower is the nearest; the largest is named beside it.
	j.Limits.CabinetWidth, j.Limits.CabinetHeight, j.Limits.MaxFilterDrop = 22*units.Inch, 22*units.Inch, 0.5*units.InchWater
	j.Limits.StudBay = 5 * units.Inch
	s = solved(t, j)
	require.False(t, s.SuggestedSizes.Fits)
	assert.Equal(t, "20x20x4", s.SuggestedSizes.Cabinet.Label)
	assert.Contains(t, s.SuggestedSizes.Text.String(), "cabinet 20x20x5 (face velocity 432 fpm is over the target 300 fpm")

	fine := solved(t, least())
	assert.True(t, fine.SuggestedSizes.Fits)
	assert.Empty(t, fine.SuggestedSizes.Nearest)
	assert.Empty(t, fine.SuggestedSizes.Text)
}

// A duct is judged with its branch's fittings at its own size. By hand for an elbow
// of 8 in with a coefficient of 1 that becomes one of the suggested duct: at Q cfm in
// a round duct of d in the velocity is Q / (pi d^2 / 576) fpm, and its drop
// (v / 4005)^2 in. w.c. at 0.075 lb/ft3, less as the air is lighter.
func TestDuctsAreJudgedWithTheirFittings_Identity(t *testing.T) {
	j := least()
	j.Returns = []Return{{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 30 * units.Inch}, Ends: NoEnds,
		Runs:     []duct.Run{{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 20 * units.Foot}},
		Fittings: []duct.Fitting{{Coefficient: 1, Diameter: 8 * units.Inch, Count: 2}}}}
	s := solved(t, j)
	d := s.Ducts[0]
	in := d.Round.Diameter.In(units.Inch)
	require.Greater(t, in, 10.0)
	v := d.Airflow.In(units.CFM) / (math.Pi * in * in / 576)
	assert.InEpsilon(t, 2*v*v/4005/4005*s.Air.DensityRatio, d.Round.FittingsDrop.In(units.InchWater), 0.002)
	assert.Equal(t, 2, d.Round.Fittings)
	assert.InEpsilon(t, 20.0, d.Round.Length.In(units.Foot), 1e-9)
	assert.Greater(t, d.Round.Drop, d.Round.FittingsDrop)
	f := coded(s.Findings, "duct_velocity")
	require.NotNil(t, f)
	assert.Contains(t, f.In(units.IP), "with the branch's 20.0 ft and its 2 fittings at that size")
	assert.EqualValues(t, "highest velocity and friction of return ducts in the job; 600 to 700 fpm (3.0 to 3.6 m/s) and 0.05 to 0.08 in. w.c. per 100 ft (0.4 to 0.65 Pa/m) are usual: common practice, no source", f.Source)
}

// Today's returns need not be named: an option's branch without a name is held to
// today's of its number.
func TestUnnamedReturnsKeepTheirWalls(t *testing.T) {
	j := least()
	r := Return{Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}, Runs: []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: 12 * units.Foot}}}
	j.Returns = []Return{r}
	j.Limits.WallWidth, j.Limits.WallHeight = 14*units.Inch, 14*units.Inch
	wider := job.CloneReturns(j.Returns)
	wider[0].Runs[0].Diameter = 18 * units.Inch
	j.Options = []Option{{Name: "wider duct", Returns: wider}}
	assert.Nil(t, coded(solved(t, j).Option("wider duct").Findings, study.CodeWall), "its grille is there already")
}

// A filter grille taken for a return that nobody described stays in the wall: it is
// held to the wall, and a gauge in the return plenum reads it too. By hand the plenum
// then shows what the return and the filter take together, as the blower's inlet.
func TestAFilterGrilleStaysInTheWall_Identity(t *testing.T) {
	j := least()
	j.Limits = Limits{CabinetWidth: 10 * units.Inch, CabinetHeight: 10 * units.Inch, WallWidth: 30 * units.Inch, WallHeight: 30 * units.Inch}
	s := solved(t, j)
	z := sizeOf(t, s, InGrille, s.SuggestedSizes.Grille.Label)
	name := search.AddSize(units.IP, &j, z)
	o := solved(t, j).Option(name)
	require.Equal(t, InGrille, o.Places[0].Where)
	assert.Equal(t, z.Count, o.Places[0].Count)
	assert.Nil(t, o.Assembly)
	assert.Nil(t, coded(o.Findings, study.CodeRoom), "it is not at the equipment")
	assert.InEpsilon(t, float64(o.Clean.Ports[1].Static), float64(o.Clean.Ports[0].Static), 1e-9)
	slot := solved(t, least()).Today().Clean
	assert.InEpsilon(t, float64(slot.Ports[1].Static+slot.FilterDrop), float64(slot.Ports[0].Static), 1e-9, "a slot lies between the two")
}
