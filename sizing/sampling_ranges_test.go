package sizing

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/compare"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/perturb"
	"returnbench/sizing/sampling"
	"returnbench/sizing/units"
)

func ranged(t testing.TB, j Job, samples int, d Deviations) []OptionRange {
	t.Helper()
	r, err := Sampling{Samples: samples, Seed: 7}.RangesWith(context.Background(), j, d)
	require.NoError(t, err)
	return r
}

func width(r Range[units.Flow]) float64 { return float64(r.High - r.Low) }

// withCabinet is the least house with a four-inch cabinet beside it.
func withCabinet() Job {
	j := least()
	j.Options = []Option{{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}
	return j
}

// lineHouse is described by one straight line of a blower table through two
// points, a coil and a supply; nothing of it is assumed but the return.
func lineHouse() Job {
	j := least()
	j.Slot.None = true
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "high", Points: []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1500 * units.CFM},
		{ExternalStatic: 0.9 * units.InchWater, Airflow: 900 * units.CFM},
	}}}}
	j.Coil = Part{Drop: 0.25 * units.InchWater, Airflow: 1200 * units.CFM, Exponent: 1.8}
	j.Supply = Part{Drop: 0.15 * units.InchWater, Airflow: 1200 * units.CFM, Exponent: 2}
	return j
}

// TestRangesPropagate_Identity holds the sampled airflow of a straight blower line
// against the law of propagation of uncertainty (ISO/IEC Guide 98-3, equation 10). With blower line P(Q), falling,
// and drops S that rise as Q^n the operating point obeys P(Q) = sum of S, so
//
//	dQ/d(ln k) = P' Q / (P' - sum of n S / Q)   for a factor k on the line's airflow
//	dQ/d(ln k) = S / (P' - sum of n S / Q)      for a factor k on one drop
//	u(Q)^2     = sum of (dQ/d(ln k) u(k))^2
//
// and nine tenths lie within 1.645 u(Q) on either side.
func TestRangesPropagate_Identity(t *testing.T) {
	j := lineHouse()
	c := solved(t, j).Today().Clean
	q, slope := float64(c.Airflow), lineSlope(t, j)
	steep := slope
	for _, p := range c.Parts {
		steep -= map[PartName]float64{PartReturn: 2, PartCoil: 1.8, PartSupply: 2}[p.Name] * float64(p.Drop) / q
	}
	for _, x := range []Deviations{{BlowerTable: 0.04}, {Rating: 0.05}, {BlowerTable: 0.04, Rating: 0.05}} {
		u2 := math.Pow(slope*q/steep*x.BlowerTable, 2)
		for _, p := range c.Parts {
			if p.Name != "return" {
				u2 += math.Pow(float64(p.Drop)/steep*x.Rating, 2)
			}
		}
		got := ranged(t, j, 2000, x)[1].Airflow
		// 0.06 is three standard errors of the two ends of 2000 samples.
		assert.InEpsilon(t, 1.645*math.Sqrt(u2), width(got)/2, 0.06, "%+v", x)
	}
}

// ductHouse is lineHouse with two returns described by grille and fittings, all
// of which take the square of their airflow.
func ductHouse() Job {
	j := lineHouse()
	branch := func(name string, width, across units.Length) Return {
		return Return{Name: name, Grille: duct.Grille{Width: width, Height: 20 * units.Inch},
			Fittings: []duct.Fitting{{Kind: duct.ElbowMitred, Count: 3, Diameter: across}}}
	}
	j.Returns = []Return{branch("hall", 12*units.Inch, 11*units.Inch), branch("den", 10*units.Inch, 10*units.Inch)}
	return j
}

// TestRangesOfGeometry_Identity does as TestRangesPropagate_Identity for what is worked
// out from ducts and grilles. Branches whose drop is the same square law p = R q^2
// share it by their flows, so that for a factor k on part j of branch i
//
//	d(ln S)/d(ln k) = (qi/Q) (pij/S)   with S the return's drop
func TestRangesOfGeometry_Identity(t *testing.T) {
	rated := ductHouse()
	for i := range rated.Returns {
		rated.Returns[i].Grille.Rating = []duct.GrilleRating{{Airflow: 600 * units.CFM, Drop: 0.1 * units.InchWater}}
	}
	for _, x := range []struct {
		name           string
		job            Job
		grille, fitted float64
		known          Deviations
	}{
		{"as described", ductHouse(), 0.15, 0.15, Deviations{Geometry: 0.15}},
		{"with rated grilles", rated, 0, 0.10, Deviations{Geometry: 0.10}},
	} {
		c := solved(t, x.job).Today().Clean
		q, steep := float64(c.Airflow), lineSlope(t, x.job)
		for _, p := range c.Parts {
			steep -= map[PartName]float64{PartReturn: 2, PartCoil: 1.8, PartSupply: 2}[p.Name] * float64(p.Drop) / q
		}
		u2 := 0.0
		for _, b := range c.Branches {
			share := float64(b.Airflow) / q
			u2 += math.Pow(share*float64(b.GrilleDrop)*x.grille/steep, 2) + math.Pow(share*float64(b.DuctDrop)*x.fitted/steep, 2)
		}
		got := ranged(t, x.job, 2000, x.known)[1].Airflow
		assert.InEpsilon(t, 1.645*math.Sqrt(u2), width(got)/2, 0.06, x.name)
	}
}

// TestGeometryMovesAlike_Identity: what an option leaves as it is moves with
// today's, so that the same house has no gain; what a gauge read of the whole
// return stands whatever its parts are worked out to take; and a rated grille
// moves with the ratings.
func TestGeometryMovesAlike_Identity(t *testing.T) {
	j := ductHouse()
	j.Options = []Option{{Name: "the same", Returns: job.CloneReturns(j.Returns)}, {Name: "turned round", Returns: []Return{j.Returns[1], j.Returns[0]}}}
	for _, r := range ranged(t, j, 40, Deviations{Geometry: 0.3})[2:] {
		assert.InDelta(t, 0, float64(r.AirflowGain.Low), 1e-9, r.Name)
		assert.InDelta(t, 0, float64(r.AirflowGain.High), 1e-9, r.Name)
		assert.Positive(t, width(r.Airflow))
	}
	read := lineHouse()
	read.Returns = ductHouse().Returns[:1]
	read.Readings = []Reading{{ReturnPlenum: -0.2 * units.InchWater, Airflow: 1000 * units.CFM}}
	assert.InDelta(t, 0, width(ranged(t, read, 20, Deviations{Geometry: 0.3})[1].Airflow), 1e-9)

	rated := lineHouse()
	rated.Returns = []Return{{Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, Rating: []duct.GrilleRating{{Airflow: 600 * units.CFM, Drop: 0.1 * units.InchWater}}}}}
	rated.Coil, rated.Supply = Part{}, Part{}
	assert.Zero(t, width(ranged(t, rated, 20, Deviations{Geometry: 0.3})[1].Airflow))
	assert.Positive(t, width(ranged(t, rated, 20, Deviations{Rating: 0.05})[1].Airflow))
}

// lineSlope is the fall of the blower's line in Pa per m3/s, at the house's density.
func lineSlope(t testing.TB, j Job) float64 {
	t.Helper()
	p := j.Equipment.Blower.Taps[0].Points
	return float64(p[1].ExternalStatic-p[0].ExternalStatic) / float64(p[1].Airflow-p[0].Airflow) * solved(t, j).Air.DensityRatio
}

// TestScatter_Identity: the sum of four standard normal numbers has twice their
// deviation, and nine tenths of it lie within 1.645 deviations (gonum's normal
// distribution, TestBandReach_Published): ISO/IEC Guide 98-3 Supplement 1 takes
// the same sum as its additive model.
func TestScatter_Identity(t *testing.T) {
	const n = 40000
	sums, square := make([]float64, n), 0.0
	for i := range sums {
		s := perturb.New(Deviations{}, 1, i)
		for _, name := range []string{"coil", "supply", "filter", "blower table"} {
			sums[i] += math.Log(s.Factor(1, name))
		}
		square += sums[i] * sums[i]
	}
	assert.InDelta(t, 2, math.Sqrt(square/n), 0.022, "three standard errors of 40000 samples")
	r := compare.Middle(n, func(i int) float64 { return sums[i] })
	for name, end := range map[string]float64{"low end": -r.Low, "high end": r.High} {
		assert.InDelta(t, 3.29, end, 0.065, "%s: three standard errors of 40000 samples", name)
	}
}

func TestRanges_Repeat_Identity(t *testing.T) {
	j := withCabinet()
	var first []byte
	for _, workers := range []int{1, 2, 3, 16} {
		r, err := Sampling{Samples: 40, Seed: 7, Workers: workers}.Ranges(context.Background(), j)
		require.NoError(t, err)
		got, err := json.Marshal(r)
		require.NoError(t, err)
		if first == nil {
			first = got
		}
		require.Equal(t, string(first), string(got), "%d workers", workers)
	}
	other, err := Ranges(context.Background(), j, 40, 8, nil)
	require.NoError(t, err)
	got, err := json.Marshal(other)
	require.NoError(t, err)
	require.NotEqual(t, string(first), string(got), "another seed takes other samples")
}

// TestRanges_Unrelated_Identity: what takes no part leaves every range as it is,
// wherever it stands in its list.
func TestRanges_Unrelated_Identity(t *testing.T) {
	j := ductHouse()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "b"}
	rating := []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.2 * units.InchWater}}
	j.Filters = []filter.Filter{{Name: "b", MERV: 8, Depth: units.Inch, Rating: rating}}
	j.Options = withCabinet().Options
	j.Readings = []Reading{{ReturnPlenum: -0.2 * units.InchWater, BlowerInlet: -0.4 * units.InchWater, Airflow: 1000 * units.CFM}}
	want := ranged(t, j, 40, UsualDeviations())
	for name, add := range map[string]func(*Job){
		"an empty round": func(j *Job) { j.Readings = append([]Reading{{Label: "to come"}}, j.Readings...) },
		"a round of another option": func(j *Job) {
			j.Readings = append([]Reading{{Option: "cabinet", FilterDrop: 0.1 * units.InchWater}}, j.Readings...)
		},
		"a filter that nobody uses":  func(j *Job) { j.Filters = append([]filter.Filter{{Name: "a", MERV: 11, Rating: rating}}, j.Filters...) },
		"a filter without a rating":  func(j *Job) { j.Filters = append([]filter.Filter{{Name: "a", MERV: 11}}, j.Filters...) },
		"another name of the round":  func(j *Job) { j.Readings[0].Label, j.Readings[0].Date = "before", "May" },
		"another order of the ducts": func(j *Job) { j.Returns[0], j.Returns[1] = j.Returns[1], j.Returns[0] },
	} {
		other := j.Clone()
		add(&other)
		for i, r := range ranged(t, other, 40, UsualDeviations()) {
			assert.InEpsilon(t, float64(want[i].Airflow.Low), float64(r.Airflow.Low), 1e-9, "%s: %s", name, r.Name)
			assert.InEpsilon(t, float64(want[i].Airflow.High), float64(r.Airflow.High), 1e-9, "%s: %s", name, r.Name)
		}
	}
	more := j.Clone()
	more.Options = append([]Option{{Name: "finer", Filter: GenericFilterName}}, more.Options...)
	more.Filters = append(more.Filters, assume.GenericFilter())
	got := ranged(t, more, 40, UsualDeviations())
	assert.InEpsilon(t, float64(want[1].Airflow.Low), float64(got[1].Airflow.Low), 1e-9)
	assert.InEpsilon(t, float64(want[2].Airflow.Low), float64(got[3].Airflow.Low), 1e-9)
	assert.NotEqual(t, want[1].Airflow, got[2].Airflow)
}

func TestRanges_HoldTheStudy_Identity(t *testing.T) {
	j := withCabinet()
	a := ranged(t, j, 60, UsualDeviations())
	s := solved(t, j)
	for i, r := range a {
		o := &s.Options[i]
		assert.Equal(t, o.Name, r.Name)
		assert.Equal(t, 60, r.Samples)
		assert.LessOrEqual(t, r.Airflow.Low, o.Clean.Airflow)
		assert.GreaterOrEqual(t, r.Airflow.High, o.Clean.Airflow)
		assert.GreaterOrEqual(t, float64(r.Airflow.Within(o.Clean.Airflow)), width(r.Airflow)/2)
	}
	assert.True(t, a[2].MoreAir.Holds(), "a deeper filter moves more air in every sample of a PSC house")
	assert.Equal(t, ClaimBetter, a[2].AgainstToday)
	assert.Empty(t, a[1].AgainstToday)
	f := RangeFindings(a)
	require.Len(t, f, 1)
	assert.Equal(t, "upgrade_helps", f[0].Code)
	assert.Equal(t, Good, f[0].Severity)
}

// TestRanges_Nothing_Identity: what is known exactly has no width, be the filter known by
// its MERV or by its media.
func TestRanges_Nothing_Identity(t *testing.T) {
	made := withFilter(filter.Filter{MERV: 11, Depth: units.Inch, PleatDepth: 0.75 * units.Inch, MediaResistance: 60})
	for _, j := range []Job{withCabinet(), made} {
		s := solved(t, j)
		for i, r := range ranged(t, j, 8, Deviations{}) {
			c := &s.Options[i].Clean
			assert.Equal(t, Range[units.Flow]{Low: c.Airflow, High: c.Airflow}, r.Airflow)
			assert.Equal(t, Range[units.Pressure]{Low: c.ExternalStatic, High: c.ExternalStatic}, r.ExternalStatic)
			assert.Equal(t, Range[units.Pressure]{Low: c.FilterDrop, High: c.FilterDrop}, r.FilterDrop)
			assert.Equal(t, Range[units.Power]{Low: c.BlowerPower, High: c.BlowerPower}, r.BlowerPower)
			assert.Zero(t, r.Airflow.Within(c.Airflow))
		}
	}
}

// TestRanges_Wider_Identity: more uncertainty never narrows a range. Samples of
// the same number are moved the same way, so that this holds exactly wherever
// one factor alone is moved.
func TestRanges_Wider_Identity(t *testing.T) {
	gauged := lineHouse()
	gauged.Readings = []Reading{{BlowerInlet: -0.3 * units.InchWater, BlowerOutlet: 0.5 * units.InchWater, SupplyPlenum: 0.2 * units.InchWater}}
	grilled, entered := lineHouse(), least()
	grilled.Returns = []Return{{Grille: duct.Grille{Width: 12 * units.Inch, Height: 20 * units.Inch}}}
	entered.Slot.EntryCoefficient = 1.5
	for _, x := range []struct {
		name string
		job  Job
		of   func(d float64) Deviations
	}{
		{"blower table", lineHouse(), func(d float64) Deviations { return Deviations{BlowerTable: d} }},
		{"rating", lineHouse(), func(d float64) Deviations { return Deviations{Rating: d} }},
		{"gauge", gauged, func(d float64) Deviations { return Deviations{Gauge: d} }},
		{"geometry", grilled, func(d float64) Deviations { return Deviations{Geometry: d} }},
		{"slot entry", entered, func(d float64) Deviations { return Deviations{Geometry: d} }},
		{"assumed", least(), func(d float64) Deviations { return Deviations{Assumed: d} }},
	} {
		last := 0.0
		for _, d := range []float64{0.01, 0.02, 0.05, 0.1, 0.2} {
			w := width(ranged(t, x.job, 60, x.of(d))[1].Airflow)
			assert.Greater(t, w, last, "%s at %g", x.name, d)
			last = w
		}
	}
}

func TestRanges_TypedUncertainty(t *testing.T) {
	j := least()
	rough, err := Ranges(context.Background(), j, 80, 1, nil)
	require.NoError(t, err)
	j.Uncertainty = Uncertainty{Assumed: new(0.02)}
	fine, err := Ranges(context.Background(), j, 80, 1, nil)
	require.NoError(t, err)
	assert.Less(t, width(fine[1].Airflow), 0.5*width(rough[1].Airflow))
	j.Uncertainty = Uncertainty{Gauge: new(0.0), BlowerTable: new(0.0), Rating: new(0.0), Geometry: new(0.0), Assumed: new(0.0)}
	exact, err := Ranges(context.Background(), j, 8, 1, nil)
	require.NoError(t, err)
	assert.Zero(t, width(exact[1].Airflow), "zero is exactly known, not the usual")
}

func TestRanges_Cancel_Identity(t *testing.T) {
	for _, workers := range []int{1, 4} {
		ctx, cancel := context.WithCancel(context.Background())
		var told []int
		_, err := Sampling{Samples: 50, Seed: 1, Workers: workers, Done: func(n int) {
			told = append(told, n)
			if n == 3 {
				cancel()
			}
		}}.Ranges(ctx, least())
		require.ErrorIs(t, err, context.Canceled)
		require.Less(t, len(told), 3+workers)
		for i, n := range told {
			require.Equal(t, i+1, n)
		}
		cancel()
	}
}

// TestRanges_Unsolved: a few samples without a solution are left out, more
// are an error that says so.
func TestRanges_Unsolved(t *testing.T) {
	runs := make([]compare.Sample, 20)
	options := solved(t, withCabinet()).Options
	for i := range runs {
		for k := range options {
			runs[i].Options = append(runs[i].Options, compare.NewHeadline(&options[k]))
		}
	}
	runs[3], runs[7] = compare.Sample{Err: errors.New("no crossing")}, compare.Sample{Err: errors.New("another")}
	ranges, err := sampling.SolvedRanges(runs)
	require.NoError(t, err)
	require.Len(t, ranges, len(options))
	for _, r := range ranges {
		require.Equal(t, [2]int{18, 2}, [2]int{r.Samples, r.Unsolved}, r.Name)
	}
	runs[9].Err = errors.New("a third")
	_, err = sampling.SolvedRanges(runs)
	require.EqualError(t, err, "3 of 20 samples have no solution: no crossing")
}

// TestStanding_Identity: what may be said follows from the samples' agreement.
func TestStanding_Identity(t *testing.T) {
	better, worse, open := Agreement{Better: 0.95}, Agreement{Worse: 1}, Agreement{Better: 0.94, Worse: 0.06}
	for _, x := range []struct {
		air, watts Agreement
		want       Claim
		code       string
	}{
		{better, worse, ClaimBetter, "upgrade_helps"},
		{open, better, ClaimBetter, "upgrade_helps"},
		{open, open, ClaimTooClose, "upgrade_unsure"},
		{open, worse, ClaimWorse, "upgrade_hurts"},
		{worse, open, ClaimWorse, "upgrade_hurts"},
		{worse, better, ClaimMixed, "upgrade_mixed"},
	} {
		r := OptionRange{Name: "a", Kind: KindOption, MoreAir: x.air, FewerWatts: x.watts}
		r.AgainstToday = r.Against()
		require.Equal(t, x.want, r.AgainstToday)
		f := RangeFindings([]OptionRange{r})[0]
		require.Equal(t, x.code, f.Code)
		require.Equal(t, x.code == "upgrade_helps", f.Severity == Good)
		require.NotContains(t, f.In(units.SI), "%!")
	}
	same := compare.Agree(4, func(i int) (float64, float64) { return 1000.0 + float64(i), 1000 })
	require.Equal(t, Agreement{}, same, "a change that no gauge tells is none")
}

func BenchmarkRanges(b *testing.B) {
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			for b.Loop() {
				if _, err := (Sampling{Seed: UsualSeed, Workers: workers}).Ranges(context.Background(), withCabinet()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestAgreementOfPairs_Identity: against today the samples tell of any measure
// what the ranges hold, of an option against itself nothing, and the other way
// round the opposite.
func TestAgreementOfPairs_Identity(t *testing.T) {
	rs := ranged(t, withCabinet(), 60, UsualDeviations())
	held := map[string]func(*OptionRange) Agreement{
		"airflow":      func(r *OptionRange) Agreement { return r.MoreAir },
		"blower_power": func(r *OptionRange) Agreement { return r.FewerWatts },
		"filter_drop":  func(r *OptionRange) Agreement { return r.LessFilter },
		"annual_cost":  func(r *OptionRange) Agreement { return r.CheaperAYear },
	}
	_, drawn := rs[0].Of("filter_drop_loaded")
	require.False(t, drawn, "of the house with no filter")
	for _, m := range Measures() {
		a, known := m.Agreement(&rs[2], &rs[1])
		require.Equal(t, m.Sampled() && m.Sense != Neither, known, m.Key)
		if want := held[m.Key]; want != nil {
			require.Equal(t, want(&rs[2]), a, m.Key)
		}
		if r, drawn := rs[2].Of(m.Key); m.Key == "blower_power" {
			require.True(t, drawn)
			require.Equal(t, Range[float64]{Low: float64(rs[2].BlowerPower.Low), High: float64(rs[2].BlowerPower.High)}, r)
		} else if m.Key == "airflow_loaded" {
			require.Equal(t, Range[float64]{Low: float64(rs[2].LoadedAirflow.Low), High: float64(rs[2].LoadedAirflow.High)}, r)
		}
		if !known {
			continue
		}
		self, _ := m.Agreement(&rs[2], &rs[2])
		require.Zero(t, self, m.Key)
		back, _ := m.Agreement(&rs[1], &rs[2])
		require.InDelta(t, a.Better, back.Worse, 0.05, m.Key)
		require.InDelta(t, a.Worse, back.Better, 0.05, m.Key)
		require.LessOrEqual(t, a.Better+a.Worse, 1.0, m.Key)
	}
}

// TestVerdictIsSampled_Identity: with nothing uncertain each sample judges as
// the Study does, but for the fewer time steps in which its filters load.
func TestVerdictIsSampled_Identity(t *testing.T) {
	s := solved(t, withCabinet())
	for i, r := range ranged(t, withCabinet(), 4, Deviations{}) {
		for _, m := range Measures() {
			v, known := m.Value(&s.Options[i])
			for _, drawn := range r.Drawn[m.Key] {
				if known {
					require.InDelta(t, v, drawn, 1e-3*math.Abs(v), "%s of %s", m.Key, r.Name)
				} else {
					require.True(t, math.IsNaN(drawn), "%s of %s", m.Key, r.Name)
				}
			}
			require.Equal(t, m.Sampled(), len(r.Drawn[m.Key]) == 4)
		}
	}
}

func ExampleSampling_Ranges() {
	job := Job{Schema: Schema, DesignAirflow: 1200 * units.CFM, Options: []Option{
		{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}},
	}}
	ranges, err := Sampling{Seed: UsualSeed}.Ranges(context.Background(), job)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(ranges[2].Name, "is", ranges[2].AgainstToday)
	// Output: cabinet is better
}

// With all else known, what stays of the airflow's range is how the table is
// read between its rows.
func TestRangesHoldBothReadingsOfTheTable(t *testing.T) {
	j := belted(1)
	points := j.Equipment.Blower.Taps[0].Points
	j.Equipment.Blower.Taps[0].Points = []blower.Point{points[0], points[3], points[4]}
	j.Uncertainty = Uncertainty{Gauge: new(0.001), BlowerTable: new(0.001), Rating: new(0.001), Geometry: new(0.001), Assumed: new(0.001)}
	s := solved(t, j)
	c := s.Today().Clean
	spread := solvedHouse(s).Curves[house.AtTableSpeed("belt")].ReadingSpread(c.ExternalStatic)
	require.Greater(t, spread, 20*units.CFM)
	r, err := Ranges(context.Background(), j, 100, 3, nil)
	require.NoError(t, err)
	width := r[1].Airflow.High - r[1].Airflow.Low
	assert.Greater(t, width, 0.4*spread, "a steeper system gives back part of it")
	assert.LessOrEqual(t, width, 1.1*spread)
	steps := s.Working("options[1].clean.airflow").Steps
	assert.Contains(t, steps[len(steps)-2].Text.String(), "straight lines")
}
