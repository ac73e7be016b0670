package airpath

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func quadratic(k float64) Law { return func(q float64) float64 { return k * q * math.Abs(q) } }

// Resistances k q^2: in series they add; in parallel 1/sqrt(k) adds.
func TestSeriesAndParallel_Identity(t *testing.T) {
	k := []float64{100, 400, 900}
	var s System
	conductance := 0.0
	for _, v := range k {
		s.Branches = append(s.Branches, Branch{Parts: []Part{{Law: quadratic(v)}}})
		conductance += 1 / math.Sqrt(v)
	}
	s.Series = []Part{{Law: quadratic(50)}, {Law: quadratic(25)}}
	const q = 0.5
	p, err := s.Static(q)
	require.NoError(t, err)
	parallel := 1 / (conductance * conductance)
	assert.InEpsilon(t, (parallel+75)*q*q, p, 1e-12)
	flows := make([]float64, 3)
	drop, err := s.Split(q, flows)
	require.NoError(t, err)
	for i, v := range k {
		assert.InEpsilon(t, math.Sqrt(drop/v), flows[i], 1e-12)
	}
}

func TestSolve_Identity(t *testing.T) {
	// A fan falling in a straight line, static = 300 - 200 q, on k q^2.
	s := System{Series: []Part{{Law: quadratic(150)}}}
	p, err := s.Solve(func(static float64) float64 { return math.Max(0, (300-static)/200) }, nil)
	require.NoError(t, err)
	want := (-200 + math.Sqrt(200*200+4*150*300)) / (2 * 150)
	assert.InEpsilon(t, want, p.Flow, 1e-12)
	assert.Less(t, math.Abs(p.Residual), 1e-12)
}

func TestSolveReportsThatThereIsNoPoint(t *testing.T) {
	s := System{Series: []Part{{Law: func(float64) float64 { return 1e30 }}}}
	_, err := s.Solve(func(float64) float64 { return 0.5 }, nil)
	assert.ErrorIs(t, err, ErrNoPoint)
}

// The quick way to the operating point and the certain one agree, wherever the
// quick one starts.
func TestSolveNearAgreesWithBracketing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSystem(t)
		s.Series = []Part{{Law: Power(40, 0.3, rapid.Float64Range(1, 2).Draw(t, "serving"))}}
		most, fall := rapid.Float64Range(0.1, 2).Draw(t, "most"), rapid.Float64Range(0, 5e-3).Draw(t, "fall")
		fan := func(static float64) float64 { return math.Max(0, most-fall*static) }
		var offset Law
		if rapid.Bool().Draw(t, "offset") {
			offset = Power(20, 0.5, 1.5)
		}
		want, err := s.solveBracketed(fan, offset, &Memory{})
		if err != nil {
			return // off any blower's table
		}
		near, err := s.Solve(func(static float64) float64 { return 2 * fan(static) }, offset)
		if err != nil {
			return
		}
		for _, from := range []Point{{}, near, {Flow: 1, onTable: 1e4}} {
			got, err := s.SolveNear(fan, offset, from, &Memory{})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got.Flow-want.Flow) > 1e-11*want.Flow || math.Abs(got.Static-want.Static) > 1e-11*want.Static || math.Abs(got.Residual) > 1e-11 {
				t.Fatalf("%+v, bracketed %+v", got, want)
			}
		}
	})
}

func TestStaticsIsStaticAtEach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSystem(t)
		flows := rapid.SliceOfN(rapid.Float64Range(1e-3, 3), 1, 8).Draw(t, "flows")
		flows = append([]float64{0}, flows...)
		all, err := s.Statics(flows)
		if err != nil {
			t.Fatal(err)
		}
		for i, q := range flows {
			if one, err := s.Static(q); err != nil || math.Abs(one-all[i]) > 1e-11*one {
				t.Fatalf("at %g: %g, alone %g (%v)", q, all[i], one, err)
			}
		}
	})
}

func drawSystem(t *rapid.T) System {
	var s System
	for range rapid.IntRange(1, 6).Draw(t, "branches") {
		b := Branch{}
		for range rapid.IntRange(1, 3).Draw(t, "parts") {
			drop := math.Pow(10, rapid.Float64Range(0, 3).Draw(t, "decade"))
			b.Parts = append(b.Parts, Part{Law: Power(drop, 0.3, rapid.Float64Range(1, 2).Draw(t, "exponent"))})
		}
		s.Branches = append(s.Branches, b)
	}
	return s
}

func TestSplitIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSystem(t)
		q := math.Pow(10, rapid.Float64Range(-3, 1).Draw(t, "flow"))
		flows := make([]float64, len(s.Branches))
		p, err := s.Split(q, flows)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, f := range flows {
			sum += f
			if d := s.Branches[i].Drop(f); math.Abs(d-p) > 1e-9*p {
				t.Fatalf("branch %d drops %g, the plenum %g", i, d, p)
			}
		}
		if math.Abs(sum-q) > 1e-12*q {
			t.Fatalf("flows make %g of %g", sum, q)
		}
	})
}

func TestTableFollowsTheSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSystem(t)
		law, err := s.Table(0.5, 10)
		if err != nil {
			t.Fatal(err)
		}
		// Near its ends the table is a natural spline's, and coarser.
		q := 0.5 * math.Pow(10, rapid.Float64Range(-0.6, 0.6).Draw(t, "flow"))
		want, err := s.Static(q)
		if err != nil {
			t.Fatal(err)
		}
		if got := law(q); math.Abs(got-want) > 1e-5*want {
			t.Fatalf("table %g, split %g", got, want)
		}
	})
}

func BenchmarkSolveTwoBranches(b *testing.B) {
	s := System{
		Branches: []Branch{{Parts: []Part{{Law: quadratic(200)}}}, {Parts: []Part{{Law: Power(60, 0.3, 1.85)}}}},
		Series:   []Part{{Law: quadratic(150)}},
	}
	fan := func(static float64) float64 { return math.Max(0, 0.75-static/900) }
	for b.Loop() {
		if _, err := s.Solve(fan, nil); err != nil {
			b.Fatal(err)
		}
	}
}
