package sizing

import (
	"context"
	"math"
	"returnbench/sizing/message"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"returnbench/sizing/published"
	"returnbench/sizing/sampling"
	"returnbench/sizing/units"
)

func TestBandReach_Published(t *testing.T) {
	published.Check(t, published.Row{Name: "quantile 0.95", Source: "gonum stat/distuv, UnitNormal.Quantile",
		Got: sampling.BandReach, Want: distuv.UnitNormal.Quantile(0.95), Tolerance: 1e-9, Why: "a general-purpose library in double precision"})
}

func TestSystemDeviation_Identity(t *testing.T) {
	u := UsualDeviations()
	part := func(name PartName, basis message.ID, drop float64) PartDrop {
		return PartDrop{Name: name, Basis: basis, Drop: units.Pressure(drop)}
	}
	assert.InDelta(t, u.Gauge, sampling.SystemDeviation([]PartDrop{part("supply", "gauge", 40)}, u), 1e-15, "one part has its own")
	assert.InDelta(t, u.Rating/math.Sqrt2, sampling.SystemDeviation([]PartDrop{part("coil", "typed", 30), part("filter", "geometry", 30)}, u), 1e-15, "two alike, apart from each other")
	assert.InDelta(t, math.Hypot(u.Assumed, u.Geometry)/2, sampling.SystemDeviation([]PartDrop{part("coil", "assumed", 30), part("return", "geometry", 30)}, u), 1e-15)
	assert.InDelta(t, u.Geometry, sampling.SystemDeviation([]PartDrop{part("slot entry", "typed", 9)}, u), 1e-15, "a coefficient of the place")
	assert.Zero(t, sampling.SystemDeviation(nil, u))
	inner := part("coil", "assumed", 30)
	inner.Internal = true
	assert.InDelta(t, u.Gauge, sampling.SystemDeviation([]PartDrop{part("supply", "gauge", 40), inner}, u), 1e-15)
}

// Low and high lie on either side at the same ratio, and no uncertainty gives
// the curve itself.
func TestBands_Identity(t *testing.T) {
	s := solved(t, least())
	for i, p := range s.Today().SystemClean {
		low, high := s.Bands.System.Low[i], s.Bands.System.High[i]
		assert.Equal(t, p.Airflow, low.Airflow)
		assert.InDelta(t, float64(p.Static)*float64(p.Static), float64(low.Static)*float64(high.Static), 1e-9*(1+float64(p.Static)*float64(p.Static)))
	}
	require.Len(t, s.Bands.Blower.Low, len(s.Bands.Blower.High))
	for i := range s.Bands.Blower.Low {
		assert.Less(t, s.Bands.Blower.Low[i].Airflow, s.Bands.Blower.High[i].Airflow)
		assert.Equal(t, s.Bands.Blower.Low[i].Static, s.Bands.Blower.High[i].Static)
	}
	j := least()
	j.Uncertainty.Assumed = new(0.01)
	assert.Less(t, solved(t, j).Bands.System.Deviation, s.Bands.System.Deviation)
}

// The spread that sampling finds at the operating point lies within the corners
// where the ends of the two bands meet, three standard errors of the ends of 400
// samples aside: a ninth of the airflow's deviation of some 8 %, three times.
func TestBandsHoldTheRanges(t *testing.T) {
	for name, j := range map[string]Job{"least": least(), "two returns": twoReturns(), "pleated": pleated()} {
		s := solved(t, j)
		ranges, err := Ranges(context.Background(), j, 400, 3, nil)
		require.NoError(t, err)
		today := ranges[1]
		low := crossing(s.Bands.Blower.Low, s.Bands.System.High)
		high := crossing(s.Bands.Blower.High, s.Bands.System.Low)
		assert.LessOrEqual(t, float64(low), float64(today.Airflow.Low)*1.03, "%s: %v to %v, sampled %v to %v", name, low, high, today.Airflow.Low, today.Airflow.High)
		assert.GreaterOrEqual(t, float64(high), float64(today.Airflow.High)*0.97, "%s: %v to %v, sampled %v to %v", name, low, high, today.Airflow.Low, today.Airflow.High)
	}
}

// crossing is where a falling and a rising curve meet; the nearest point where
// the table ends before.
func crossing(fan, system []CurvePoint) units.Flow {
	best, at := math.Inf(1), units.Flow(0)
	for _, f := range fan {
		for i := 1; i < len(system); i++ {
			a, b := system[i-1], system[i]
			if f.Airflow < a.Airflow || f.Airflow > b.Airflow {
				continue
			}
			static := a.Static + (b.Static-a.Static)*units.Pressure((f.Airflow-a.Airflow)/(b.Airflow-a.Airflow))
			if d := math.Abs(float64(static - f.Static)); d < best {
				best, at = d, f.Airflow
			}
		}
	}
	return at
}

// Of two taps the cooling one's band is reported, exp(1.645 x 0.04) = 1.068 to either side of
// its airflow, and of the pinned house's system the parts' u together, each by what it
// rests on: the return's geometry, the ratings of the others.
func TestBandsByHand_Identity(t *testing.T) {
	j := pinned()
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("high", 1250, 600))
	for tap, cfm := range map[string]float64{"only": 1000, "high": 1250} {
		j.Equipment.Blower.CoolingTap = tap
		b := solved(t, j).Bands
		assert.InDelta(t, 0.04, b.Blower.Deviation, 1e-12)
		require.Len(t, b.Blower.Low, 40)
		for i := range b.Blower.Low {
			assert.InEpsilon(t, cfm/1.068, b.Blower.Low[i].Airflow.In(units.CFM), 1e-3)
			assert.InEpsilon(t, cfm*1.068, b.Blower.High[i].Airflow.In(units.CFM), 1e-3)
		}
	}
	j.Equipment.Blower.CoolingTap = "only"
	s := solved(t, j)
	sum, squares := 0.0, 0.0
	for i, part := range s.Today().Clean.Parts {
		d := part.Drop.In(units.InchWater)
		u := []float64{0.15, 0.05, 0.05, 0.05}[i] // return, filter, coil, supply
		sum += d
		squares += u * u * d * d
	}
	assert.InEpsilon(t, math.Sqrt(squares)/sum, s.Bands.System.Deviation, 1e-9)
	k := math.Exp(1.6448536 * s.Bands.System.Deviation)
	for i, p := range s.Today().SystemClean {
		assert.InDelta(t, float64(p.Static)*k, float64(s.Bands.System.High[i].Static), 1e-6)
		assert.InDelta(t, float64(p.Static)/k, float64(s.Bands.System.Low[i].Static), 1e-6)
	}
	j.Readings = []Reading{{SupplyPlenum: 0.08 * units.InchWater, Airflow: 1000 * units.CFM}}
	assert.Less(t, solved(t, j).Bands.System.Deviation, s.Bands.System.Deviation, "a gauge is surer than a rating")
	bare := pinned()
	bare.Equipment.Blower.Taps = nil
	assert.InDelta(t, 0.25, solved(t, bare).Bands.Blower.Deviation, 1e-12)
	credit := sampled(t, -30, "in the blower table")
	assert.InDelta(t, 0.03*40/10, credit, 1e-12, "a credit is fixed: of 40 read it leaves 10")
}

// sampled is the deviation of 40 Pa read and another part beside them.
func sampled(t *testing.T, drop units.Pressure, name PartName) float64 {
	t.Helper()
	return sampling.SystemDeviation([]PartDrop{{Name: "supply", Basis: "gauge", Drop: 40}, {Name: name, Basis: "assumed", Drop: drop}}, UsualDeviations())
}
