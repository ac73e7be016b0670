package sizing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// A filter in one of two returns sees its own air, and the other's passes no filter: a
// share of it in all the air, told as a leak that only a filter in every return cures.
func TestOneReturnIsUnfiltered_Identity(t *testing.T) {
	for filtered := range 2 {
		j := inGrilles()
		j.Returns[1-filtered].Filter = ""
		s := solved(t, j)
		o := s.Today()
		b := o.Clean.Branches
		require.Len(t, b, 2)
		require.Len(t, o.Places, 1)
		own := b[filtered].Airflow.In(units.CFM)
		assert.Zero(t, b[1-filtered].FilterDrop)
		assert.Positive(t, b[filtered].FilterDrop)
		assert.InDelta(t, own/[]float64{400, 500}[filtered]*144, o.Clean.FaceVelocity.In(units.FPM), 1e-6)
		assert.InDelta(t, 1-own/1000, o.Clean.LeakFraction, 1e-4)
		assert.InDelta(t, own/1000, o.Places[0].AirShare, 1e-4)
		assert.InDelta(t, b[filtered].FilterDrop.In(units.InchWater)*own/1000, o.Clean.FilterDrop.In(units.InchWater), 1e-4, "the mean over all air")
		assert.Equal(t, []string{"hall", "den"}[filtered], o.Places[0].Return.String())
		text := findingOf(t, o.Findings, "leak").In(units.IP)
		assert.Regexp(t, `% of the air slips past the filter.*and fouls the coil\. Filter every return\.$`, text)
		for i := range o.Efficiency.Installed {
			assert.InDelta(t, o.Efficiency.BySize[i]*own/1000, o.Efficiency.Installed[i], 1e-4)
		}
		assert.Less(t, o.Efficiency.InstalledMERV, o.Efficiency.MERV)
		// Half of the dust or so goes past.
		last := o.LifeCurve[len(o.LifeCurve)-1]
		assert.InEpsilon(t, 7.6667*last.Time.In(units.Month)*own/1000, last.Dust.In(units.Gram), 0.1)
	}
}

// ducts is the pinned house behind a grille 12x12, a round of 10 in, 20 ft, with two elbows; a rectangle of
// 8x12 in, 10 ft, with a slack flex of 9 in, 15 ft, and a fitting of its own section.
func ducts() Job {
	j := pinned()
	j.Returns = []Return{
		{Name: "hall", Ends: NoEnds, Grille: duct.Grille{Width: 12 * units.Inch, Height: 12 * units.Inch},
			Runs:     []duct.Run{{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 20 * units.Foot}},
			Fittings: []duct.Fitting{{Kind: duct.ElbowFiveGore, Coefficient: 0.3, Count: 2}}},
		{Name: "den", Ends: NoEnds, Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch},
			Runs:     []duct.Run{{Shape: duct.Rectangular, Width: 12 * units.Inch, Height: 8 * units.Inch, Length: 10 * units.Foot}, {Shape: duct.Flex, Diameter: 9 * units.Inch, Length: 15 * units.Foot, Compression: 0.1}},
			Fittings: []duct.Fitting{{Kind: duct.ElbowFiveGore, Coefficient: 0.5, Diameter: 9 * units.Inch}}},
	}
	return j
}

// Each piece of the return by itself: where it is, what it takes at its branch's air, its
// speed, the straight duct that takes as much, and whether it is too small. Grilles may
// see 500 fpm, ducts 700 fpm and 0.08 in. w.c. per 100 ft.
func TestPiecesByHand_Identity(t *testing.T) {
	s := solved(t, ducts())
	air := solvedHouse(s).Air
	c := s.Today().Clean
	hall, den := c.Branches[0].Airflow, c.Branches[1].Airflow
	vp := func(cfm units.Flow, ft2, coefficient float64) float64 {
		v := cfm.In(units.CFM) / ft2
		return coefficient * v * v / 4005 / 4005 * 0.98354
	}
	circle := func(in float64) float64 { return math.Pi / 4 * in * in / 144 }
	j := ducts()
	pieces := map[string]ReturnComponent{}
	for i, p := range s.ReturnComponents {
		pieces[p.Branch.String()+", "+p.Name.String()] = p
		if i > 0 {
			assert.LessOrEqual(t, p.Drop, s.ReturnComponents[i-1].Drop, "the dearest first")
		}
	}
	require.Len(t, pieces, 7)
	run := func(i, k int) *duct.Run { return &j.Returns[i].Runs[k] }
	limitFriction := 0.08 * units.InchWaterPer100Feet
	hold := func(name string, drop, fpm, feet float64, small bool) {
		t.Helper()
		p, is := pieces[name]
		require.True(t, is, "%s among %v", name, pieces)
		assert.InEpsilon(t, drop, p.Drop.In(units.InchWater), 6e-3, name)
		assert.InEpsilon(t, fpm, p.Velocity.In(units.FPM), 1e-6, name)
		if feet == 0 {
			assert.Zero(t, p.EquivalentLength, name)
		} else {
			assert.InEpsilon(t, feet, p.EquivalentLength.In(units.Foot), 6e-3, name)
		}
		assert.Equal(t, small, p.Undersized, name)
	}
	straight := func(r *duct.Run, q units.Flow) (drop, fpm float64, small bool) {
		return r.Drop(q, air).In(units.InchWater), r.Velocity(q).In(units.FPM), r.Velocity(q) > 700*units.FPM || r.Friction(q, air) > limitFriction
	}
	hold("hall, grille 12x12 in", c.Branches[0].GrilleDrop.In(units.InchWater), hall.In(units.CFM), 0, true)
	hold("den, grille 20x20 in", c.Branches[1].GrilleDrop.In(units.InchWater), den.In(units.CFM)*144/400, 0, false)
	d, v, small := straight(run(0, 0), hall)
	hold("hall, round duct 10 in", d, v, 20, small)
	d, v, small = straight(run(1, 0), den)
	hold("den, rectangular duct 12x8 in", d, v, 10, small)
	d, v, small = straight(run(1, 1), den)
	hold("den, flex duct 9 in", d, v, 15, small)
	// A fitting against a metre of smooth round duct of its section.
	metre := func(in float64, q units.Flow) float64 {
		return (duct.Run{Shape: duct.Round, Diameter: units.Length(in) * units.Inch, Length: units.Metre}).Drop(q, air).In(units.InchWater) / units.Metre.In(units.Foot)
	}
	elbows := vp(hall, circle(10), 2*0.3)
	hold("hall, 2 x elbow five gore", elbows, hall.In(units.CFM)/circle(10), elbows/metre(10, hall), hall.In(units.CFM)/circle(10) > 700)
	elbow := vp(den, circle(9), 0.5)
	hold("den, elbow five gore", elbow, den.In(units.CFM)/circle(9), elbow/metre(9, den), den.In(units.CFM)/circle(9) > 700)

	// The branch sums them up: its fastest and its steepest run.
	require.Len(t, s.Ducts, 2)
	for i, want := range []struct {
		feet, equivalent float64
		now              float64
		friction         units.FrictionRate
	}{
		{20, 20 + elbows/metre(10, hall), hall.In(units.CFM) / circle(10), run(0, 0).Friction(hall, air)},
		{25, 25 + elbow/metre(9, den), den.In(units.CFM) / circle(9), run(1, 1).Friction(den, air)},
	} {
		d := s.Ducts[i]
		assert.InEpsilon(t, want.feet, d.Length.In(units.Foot), 1e-9)
		assert.InEpsilon(t, want.equivalent, d.EquivalentLength.In(units.Foot), 6e-3)
		assert.InEpsilon(t, want.now, d.PresentVelocity.In(units.FPM), 1e-6)
		assert.InEpsilon(t, float64(want.friction), float64(d.PresentFriction), 1e-9)
		assert.InEpsilon(t, float64(c.Branches[i].DuctDrop), float64(d.PresentDrop), 1e-12)
		assert.Equal(t, c.Branches[i].Airflow, d.Airflow)
		assert.Equal(t, d.PresentVelocity > 700*units.FPM || d.PresentFriction > limitFriction, d.Undersized)
		assert.Equal(t, c.Branches[i].Name, d.Branch)
		// A new flex has the slack of a new one, not of the branch's own.
		assert.InDelta(t, 0.04, d.Flex.Compression, 1e-12)
		for _, choice := range []DuctChoice{d.Round, d.Flex, d.Rect} {
			require.True(t, choice.Found())
			whole := choice.Run
			whole.Length = units.Length(want.feet) * units.Foot
			n := []float64{0.6, 0.5}[i]
			fittings := vp(d.Airflow, whole.Area().In(units.SquareFoot), n)
			assert.InEpsilon(t, fittings, choice.FittingsDrop.In(units.InchWater), 6e-3)
			assert.InEpsilon(t, whole.Drop(d.Airflow, air).In(units.InchWater)+fittings, choice.Drop.In(units.InchWater), 6e-3)
			assert.Equal(t, []int{2, 1}[i], choice.Fittings)
			assert.InEpsilon(t, want.feet, choice.Length.In(units.Foot), 1e-9)
			assert.Equal(t, choice.Drop > 0.1*units.InchWater, choice.OverBudget, "a fifth of the rated 0.50")
			assert.InEpsilon(t, float64(whole.Velocity(d.Airflow)), float64(choice.Velocity), 1e-9)
			assert.InEpsilon(t, float64(whole.Friction(d.Airflow, air)), float64(choice.Friction), 1e-9)
		}
		smaller := func(in float64) bool {
			r := duct.Run{Shape: duct.Round, Diameter: units.Length(in) * units.Inch, Length: 1}
			return float64(r.Friction(d.Airflow, air)/limitFriction) > float64(r.Velocity(d.Airflow)/(700*units.FPM))
		}
		want1 := "velocity"
		rounds := stock.Rounds(units.InchPound)
		for k := range rounds {
			if k > 0 && rounds[k] == d.Round.Diameter && smaller(rounds[k-1].In(units.Inch)) {
				want1 = "friction"
			}
		}
		assert.Equal(t, want1, d.Round.GoverningLimit)
	}
	// Of a house whose branches nobody described the one duct is told for all its air.
	bare := pinned()
	bare.Returns = nil
	s = solved(t, bare)
	require.Len(t, s.Ducts, 1)
	assert.Equal(t, "return", s.Ducts[0].Branch.String())
	assert.InDelta(t, 1000, s.Ducts[0].Airflow.In(units.CFM), 0.02)
	assert.Zero(t, s.Ducts[0].Length)
	assert.False(t, s.Ducts[0].Undersized)
	assert.Zero(t, s.Ducts[0].Round.Drop, "no straight duct is known")
	assert.Empty(t, s.ReturnComponents)
	// In a metric house pieces are named in millimetres.
	metric := ducts()
	metric.Limits.NominalSizes = MetricSizes
	names := map[string]bool{}
	for _, p := range solved(t, metric).ReturnComponents {
		names[p.Name.String()] = true
	}
	assert.True(t, names["grille 305x305 mm"] && names["round duct 254 mm"] && names["rectangular duct 305x203 mm"], "%v", names)
}

// Wide enough for the velocity, too tight for the friction: at 0.02 in. w.c. per 100 ft the
// duct is judged by its friction, and its sentence says so; where no listed duct does,
// that too. The worst comes first.
func TestDuctsInWords_Identity(t *testing.T) {
	j := ducts()
	j.Limits.DuctVelocity, j.Limits.DuctFriction = 3000*units.FPM, 0.05*units.InchWaterPer100Feet
	s := solved(t, j)
	var texts []string
	for _, f := range s.Findings {
		if f.Code == "duct_friction" {
			texts = append(texts, f.In(units.IP))
		}
		assert.NotEqual(t, "duct_velocity", f.Code)
	}
	require.Len(t, texts, 2)
	first, second := s.Ducts[0], s.Ducts[1]
	if second.PresentDrop > first.PresentDrop {
		first, second = second, first
	}
	for i, d := range []DuctSize{first, second} {
		show := func(v interface{ Show(units.Locale) string }) string { return v.Show(units.IP) }
		want := d.Branch.String() + ": the duct drops " + show(d.PresentDrop) + ", " + show(d.PresentFriction) + " at its tightest, over the " + show(j.Limits.DuctFriction) + " allowed. A round duct of "
		assert.Contains(t, texts[i], want)
		assert.Contains(t, texts[i], " would drop "+show(d.Round.Drop)+" with the branch's "+show(d.Round.Length)+" and its ")
		assert.Contains(t, texts[i], "fittings at that size.")
	}
	j.Limits.DuctVelocity = 100 * units.FPM
	text := said(t, solved(t, j), "", "duct_velocity")
	assert.Contains(t, text, "over the 100 fpm allowed. No listed round duct carries this airflow: split it between two.")
	reversed := ducts()
	reversed.Returns[0], reversed.Returns[1] = reversed.Returns[1], reversed.Returns[0]
	reversed.Limits = Limits{DuctVelocity: 300 * units.FPM}
	s = solved(t, reversed)
	var last units.Pressure = math.MaxFloat64
	for _, f := range s.Findings {
		if f.Code == "duct_velocity" {
			drop := argument(f.Wrong[0], "drop").(units.Pressure)
			assert.LessOrEqual(t, drop, last)
			last = drop
		}
	}
}

// A grille that reads less than it is described keeps the factor, and so does its duct,
// each by itself: what an option builds new is taken as described.
func TestKeptFactorsByHand_Identity(t *testing.T) {
	j := pinned()
	j.Readings = []Reading{{ReturnPlenum: -0.1 * units.InchWater, Airflow: 1000 * units.CFM}}
	k := 0.1 / 0.18291
	s := solved(t, j)
	assert.InDelta(t, 0.1, s.Today().Clean.Parts[0].Drop.In(units.InchWater), 1e-4)
	total := 0.0
	for _, p := range s.ReturnComponents {
		if p.Branch.Given == "hall" {
			total += p.Drop.In(units.InchWater)
		}
	}
	assert.InDelta(t, 0.1, total, 1e-4, "the pieces take the factor too")
	h := solvedHouse(s)
	kept := h.RetainedFactors(append(j.Returns[:1:1], drop10("new", 8), drop10("other", 3)))
	require.Len(t, kept, 3)
	for i, want := range []float64{k, k, 1} { // a name is no physics, another coefficient is
		assert.InDelta(t, want, kept[i].Duct, 1e-3)
	}
	assert.InDelta(t, 1, kept[2].Grille, 1e-12, "both of today's are taken")
	kept = h.RetainedFactors([]Return{drop10("other", 3), drop10("den", 8)})
	assert.InDelta(t, k, kept[0].Grille, 1e-3, "neither it nor today's hall has a grille")
	assert.InDelta(t, 1, kept[0].Duct, 1e-12)
	assert.InDelta(t, k, kept[1].Duct, 1e-3)
	grilled := drop10("hall", 2)
	grilled.Grille = duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}
	kept = h.RetainedFactors([]Return{grilled})
	assert.InDelta(t, 1, kept[0].Grille, 1e-12)
	assert.InDelta(t, k, kept[0].Duct, 1e-3)
}

// argument is a message's argument by its name.
func argument(m message.Message, name string) any {
	return m.Args[slices.Index(m.Args, any(name))+1]
}
