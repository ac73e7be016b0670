package filter

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

const standard522 = "ASHRAE 52.2-2017"

func TestMeanSizes_Published(t *testing.T) {
	want := []float64{0.35, 0.47, 0.62, 0.84, 1.14, 1.44, 1.88, 2.57, 3.46, 4.69, 6.20, 8.37}
	for i, got := range MeanSizes() {
		published.Check(t, published.Row{Name: fmt.Sprintf("range %d", i+1), Source: standard522 + ", size ranges, read in secondary text",
			Got: got, Want: want[i], Tolerance: 0.0051, Why: "two decimals printed"})
	}
}

// The rows of table 12-1 (edition 2017), each tried at its own least values and
// just under them.
func TestClassify_Published(t *testing.T) {
	rows := []struct {
		merv                   int
		e1, e2, e3, arrestance float64
	}{
		{2, 0, 0, 0.1, 0.65}, {3, 0, 0, 0.1, 0.70}, {4, 0, 0, 0.1, 0.75},
		{5, 0, 0, 0.20, 1}, {6, 0, 0, 0.35, 1}, {7, 0, 0, 0.50, 1}, {8, 0, 0.20, 0.70, 1},
		{9, 0, 0.35, 0.75, 1}, {10, 0, 0.50, 0.80, 1}, {11, 0.20, 0.65, 0.85, 1}, {12, 0.35, 0.80, 0.90, 1},
		{13, 0.50, 0.85, 0.90, 1}, {14, 0.75, 0.90, 0.95, 1}, {15, 0.85, 0.90, 0.95, 1}, {16, 0.95, 0.95, 0.95, 1},
	}
	check := func(name string, got, want int) {
		published.Check(t, published.Row{Name: name, Source: standard522 + " table 12-1, read in secondary text, two sources",
			Got: float64(got), Want: float64(want), Tolerance: 0.1, Why: "a whole number"})
	}
	for _, r := range rows {
		check("at the least", Classify(r.e1, r.e2, r.e3, r.arrestance), r.merv)
		const under = 0.001
		if r.merv <= 4 {
			check("less arrestance", Classify(r.e1, r.e2, r.e3, r.arrestance-under), r.merv-1)
			continue
		}
		assert.Less(t, Classify(r.e1, r.e2, r.e3-under, 0.76), r.merv)
		if r.e2 > 0 {
			assert.Less(t, Classify(r.e1, r.e2-under, r.e3, 0.76), r.merv)
		}
		if r.e1 > 0 {
			assert.Less(t, Classify(r.e1-under, r.e2, r.e3, 0.76), r.merv)
		}
	}
	check("under every row", Classify(0, 0, 0.1, 0.5), 1)
	for merv, want := range map[int]float64{4: 0.3, 8: 0.6, 11: 1.0, 13: 1.4} {
		got, err := FinalResistance(merv)
		require.NoError(t, err)
		published.Check(t, published.Row{Name: "final resistance", Source: standard522 + " table 12-1, read in secondary text",
			Got: got.In(units.InchWater), Want: want, Tolerance: 1e-9, Why: "exact in the table"})
	}
}

func TestTypicalEfficiency_Identity(t *testing.T) {
	for merv := 1; merv <= 16; merv++ {
		eff, err := TypicalEfficiency(merv)
		require.NoError(t, err)
		arrestance, err := TypicalArrestance(merv)
		require.NoError(t, err)
		e1, e2, e3 := RangeMeans(eff)
		assert.Equal(t, merv, Classify(e1, e2, e3, arrestance), "E %.3f %.3f %.3f", e1, e2, e3)
		for i := 1; i < len(eff); i++ {
			assert.GreaterOrEqual(t, eff[i], eff[i-1])
			assert.Less(t, eff[i], 1.0)
		}
	}
}

func TestRangeMeans_Identity(t *testing.T) {
	e1, e2, e3 := RangeMeans([12]float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.5, 0.5, 0.5, 0.6, 0.7, 0.8, 0.9})
	assert.InDelta(t, 0.25, e1, 1e-15)
	assert.InDelta(t, 0.5, e2, 1e-15)
	assert.InDelta(t, 0.75, e3, 1e-15)
}

func TestClassify_Rising(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(0, 1)
		e1, e2, e3, a := share.Draw(t, "e1"), share.Draw(t, "e2"), share.Draw(t, "e3"), share.Draw(t, "a")
		more := share.Draw(t, "more")
		assert.GreaterOrEqual(t, Classify(e1+(1-e1)*more, e2, e3, a), Classify(e1, e2, e3, a))
		assert.GreaterOrEqual(t, Classify(e1, e2+(1-e2)*more, e3, a), Classify(e1, e2, e3, a))
		assert.GreaterOrEqual(t, Classify(e1, e2, e3+(1-e3)*more, a), Classify(e1, e2, e3, a))
	})
}

func TestEfficiencyCurve_Identity(t *testing.T) {
	f := Filter{MERV: 11}
	eff, assumed, err := f.EfficiencyCurve()
	require.NoError(t, err)
	assert.True(t, assumed)
	f.MERV, f.Efficiency = 0, eff[:]
	same, assumed, err := f.EfficiencyCurve()
	require.NoError(t, err)
	assert.False(t, assumed)
	assert.Equal(t, eff, same)
	merv, err := f.Rated()
	require.NoError(t, err)
	assert.Equal(t, 11, merv)
	caught, err := f.DustCaught()
	require.NoError(t, err)
	assert.Equal(t, 0.96, caught)
}

func TestMERV_Faults(t *testing.T) {
	for _, merv := range []int{-1, 0, 17, 20, 21} {
		_, err := TypicalEfficiency(merv)
		require.ErrorContains(t, err, "merv")
		_, err = FinalResistance(merv)
		require.ErrorContains(t, err, "1 to 16")
		_, err = TypicalArrestance(merv)
		require.Error(t, err)
	}
	_, err := TypicalEfficiency(18)
	require.ErrorContains(t, err, "no row above 16")
	_, _, err = Filter{Efficiency: []float64{1}}.EfficiencyCurve()
	require.ErrorContains(t, err, "efficiency")
	_, _, err = Filter{Efficiency: []float64{2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}.EfficiencyCurve()
	require.ErrorContains(t, err, "efficiency[0]")
	_, err = Filter{}.Rated()
	require.ErrorContains(t, err, "merv")
	_, err = Filter{MERV: 17}.DustCaught()
	require.Error(t, err)
}

func ExampleClassify() {
	fmt.Println(Classify(0.55, 0.86, 0.93, 1))
	// Output: 13
}
