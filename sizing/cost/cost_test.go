package cost_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/cost"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

func TestPresentWorthFactor_Plausible(t *testing.T) {
	const source = "uniform-series present-worth factors (P/A, i, n) of the interest tables in any engineering economy textbook (from memory)"
	for _, r := range []struct {
		name  string
		i     float64
		years int
		want  float64
	}{
		{"5 %, 10 years", 0.05, 10, 7.7217},
		{"6 %, 10 years", 0.06, 10, 7.3601},
		{"8 %, 5 years", 0.08, 5, 3.9927},
		{"8 %, 10 years", 0.08, 10, 6.7101},
		{"10 %, 5 years", 0.10, 5, 3.7908},
		{"10 %, 10 years", 0.10, 10, 6.1446},
		{"10 %, 20 years", 0.10, 20, 8.5136},
		{"12 %, 10 years", 0.12, 10, 5.6502},
	} {
		published.Check(t, published.Row{
			Name: r.name, Source: source, Got: cost.PresentWorthFactor(r.i, r.years), Want: r.want,
			Tolerance: 0.00005001, Why: "printed to four decimals",
		})
	}
}

func TestPayback_Plausible(t *testing.T) {
	// The same tables read backwards: an upgrade of (P/A, i, n) times the
	// saving pays back in n years.
	for _, r := range []struct{ i, factor, years float64 }{
		{0.05, 7.7217, 10}, {0.10, 6.1446, 10}, {0.10, 3.7908, 5},
	} {
		years, pays := cost.Payback(units.Money(r.factor*100), 100, r.i)
		assert.True(t, pays)
		published.Check(t, published.Row{
			Name: "discounted payback", Source: "(P/A, i, n) of the interest tables in any engineering economy textbook (from memory)",
			Got: years, Want: r.years, Tolerance: 0.0005,
			Why: "half the last printed digit of the factor, over its growth of at least 0.38 a year",
		})
	}
}

func draw(t *rapid.T) (money units.Money, discount float64, years int) {
	return units.Money(rapid.Float64Range(1, 1e5).Draw(t, "money")),
		rapid.SampledFrom([]float64{0, 1e-12, 1e-6, 0.01, 0.05, 0.2, -0.02}).Draw(t, "discount"),
		rapid.IntRange(1, 40).Draw(t, "years")
}

func TestPresentValue_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, i, n := draw(t)
		sum := 0.0
		for k := 1; k <= n; k++ {
			sum += a.SI() / math.Pow(1+i, float64(k))
		}
		assert.InEpsilon(t, sum, cost.PresentValue(a, i, n).SI(), 1e-12, "each payment brought back by itself")
	})
	assert.Zero(t, cost.PresentValue(100, 0.05, 0))
	assert.True(t, math.IsNaN(cost.PresentWorthFactor(-1, 10)))
}

func TestPayback_Identity(t *testing.T) {
	t.Run("there and back", rapid.MakeCheck(func(t *rapid.T) {
		s, i, n := draw(t)
		years, pays := cost.Payback(cost.PresentValue(s, i, n), s, i)
		assert.True(t, pays)
		// Near i n = large, the factor hardly grows and the years lose digits.
		assert.InEpsilon(t, float64(n), years, 1e-9)
	}))
	t.Run("dearer takes longer", rapid.MakeCheck(func(t *rapid.T) {
		s, i, _ := draw(t)
		u := units.Money(rapid.Float64Range(0.1, 1e5).Draw(t, "upgrade"))
		a, _ := cost.Payback(u, s, i)
		b, _ := cost.Payback(u*1.01, s, i)
		assert.LessOrEqual(t, a, b)
	}))
	for name, c := range map[string]struct {
		upgrade, saving units.Money
		discount        float64
		years           float64
		pays            bool
	}{
		"no interest":              {500, 100, 0, 5, true},
		"nothing saved":            {500, 0, 0.05, math.Inf(1), false},
		"costs more to run":        {500, -20, 0.05, math.Inf(1), false},
		"interest eats the saving": {500, 25, 0.05, math.Inf(1), false},
		"free":                     {0, 20, 0.05, 0, true},
		"free and nothing saved":   {0, 0, 0.05, 0, true},
		"free but costs to run":    {0, -20, 0.05, math.Inf(1), false},
		"no number":                {units.Money(math.NaN()), 20, 0.05, math.Inf(1), false},
		"absurd discount":          {100, 20, -1, math.Inf(1), false},
	} {
		t.Run(name, func(t *testing.T) {
			years, pays := cost.Payback(c.upgrade, c.saving, c.discount)
			assert.Equal(t, c.pays, pays)
			assert.Equal(t, c.years, years)
		})
	}
}

func TestAnnual_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, high float64) float64 { return rapid.Float64Range(1, high).Draw(t, name) }
		watts, hours, price := f("watts", 2000), f("hours", 8000), f("price", 3)
		changes, each := f("changes", 12), f("each", 200)
		a := cost.Annual(cost.AnnualInput{
			Hours:        cost.Hours{Cooling: units.Duration(hours) * units.Hour, Fan: units.Hour, Heating: 2 * units.Hour},
			CoolingPower: units.Power(watts), HeatingPower: units.Power(watts), FanPower: units.Power(watts),
			Price:          units.EnergyPrice(price) * units.MoneyPerKilowattHour,
			FiltersPerYear: changes, FilterPrice: units.Money(each),
		})
		kWh := watts * (hours + 3) / 1000
		assert.InEpsilon(t, kWh, a.Energy.In(units.KilowattHour), 1e-12)
		assert.InEpsilon(t, kWh*price, a.Power.SI(), 1e-12)
		assert.InEpsilon(t, changes*each, a.Filters.SI(), 1e-12)
		assert.InEpsilon(t, kWh*price+changes*each, a.Total.SI(), 1e-12)
		assert.InEpsilon(t, 2*a.FanEnergy.SI(), a.HeatingEnergy.SI(), 1e-12)

		n := rapid.IntRange(1, 20).Draw(t, "years")
		total, parts := cost.TenYear(a, 250, 0, n)
		assert.InEpsilon(t, 250+float64(n)*a.Total.SI(), total.SI(), 1e-12, "no discount: just the sum")
		assert.Equal(t, parts.Total(), total)
		less, _ := cost.TenYear(a, 250, 0.05, n)
		assert.Less(t, less, total)
	})
	require.Zero(t, cost.Annual(cost.AnnualInput{}))
}

// 1.1552 - 0.1808 f + 0.0256 f^2, worked by hand.
func TestOutdoorPower_Identity(t *testing.T) {
	// The three coefficients sum to 1.0000 at the rated airflow; 36000 Btu/h at EER 12 are 3000 W.
	assert.InEpsilon(t, 3000, cost.OutdoorPower(3*units.Ton, 12, 1).SI(), 1e-6)
	assert.InEpsilon(t, 1.1552-0.14464+0.016384, cost.FlowEIR(0.8), 1e-9)
}
