package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// Each kind of uncertainty moves what rests on it and nothing else: of 60 lognormal
// samples nine in ten lie within exp(+-1.645 u), within the chance of so few. In the
// pinned house airflow is the table's, the filter's drop its rating's, coil and supply
// are ratings too, and the returns are geometry, 0.183 of 0.634 in. w.c.
func TestEachUncertaintyMovesItsOwn_Identity(t *testing.T) {
	generic := pinned()
	generic.Filters[0].Rating = nil
	made := pinned()
	made.Filters[0] = filter.Filter{Name: "own", Depth: units.Inch, MERV: 8, Width: 20 * units.Inch, Height: 25 * units.Inch, Pleats: 24, MediaResistance: 60}
	bare := pinned()
	bare.Returns, bare.Coil, bare.Supply = nil, Part{}, Part{}
	entry := pinned()
	entry.Slot.EntryCoefficient = 20
	gauged := pinned()
	gauged.Readings = []Reading{{SupplyPlenum: 0.2 * units.InchWater, Airflow: 1000 * units.CFM}}
	for name, c := range map[string]struct {
		job                       Job
		known                     Deviations
		airflow, filter, external float64 // relative deviation
	}{
		"nothing":             {pinned(), Deviations{}, 0, 0, 0},
		"gauge, nothing read": {pinned(), Deviations{Gauge: 0.1}, 0, 0, 0},
		"assumed, all typed":  {pinned(), Deviations{Assumed: 0.25}, 0, 0, 0},
		"rating":              {pinned(), Deviations{Rating: 0.05}, 0, 0.05, math.Hypot(math.Hypot(0.05*0.251, 0.05*0.12), 0.05*0.08) / 0.634},
		"geometry":            {pinned(), Deviations{Geometry: 0.15}, 0, 0, 0.15 * 0.16 / 0.634}, // of two returns side by side, moved apart
		"slot entry":          {entry, Deviations{Geometry: 0.15}, 0, 0, math.Hypot(0.15*0.102, 0.15*0.16) / 0.736},
		"generic filter":      {generic, Deviations{Assumed: 0.25}, 0, 0.25, -1},
		"made filter":         {made, Deviations{Rating: 0.05}, 0, math.Hypot(0.05, filter.LeastPleatTrust/2), -1},
		"assumed parts":       {bare, Deviations{Assumed: 0.25}, 0, 0, -1},
		"gauge":               {gauged, Deviations{Gauge: 0.1}, 0, 0, -1},
	} {
		r := ranged(t, c.job, 60, c.known)[1]
		hold := func(what string, low, high, deviation float64) {
			t.Helper()
			if deviation < 0 {
				assert.Greater(t, high, 1.01*low, "%s, %s", name, what)
				return
			}
			if deviation == 0 {
				assert.InEpsilon(t, low, high, 1e-4, "%s, %s", name, what)
				return
			}
			assert.InEpsilon(t, 2*1.645*deviation, math.Log(high/low), 0.4, "%s, %s", name, what)
		}
		hold("airflow", float64(r.Airflow.Low), float64(r.Airflow.High), c.airflow)
		hold("filter", float64(r.FilterDrop.Low), float64(r.FilterDrop.High), c.filter)
		hold("static", float64(r.ExternalStatic.Low), float64(r.ExternalStatic.High), c.external)
	}
	j := pinned()
	r := ranged(t, j, 60, Deviations{BlowerTable: 0.04})[1]
	assert.InEpsilon(t, 2*1.645*0.04, math.Log(float64(r.Airflow.High/r.Airflow.Low)), 0.4)
	require.Positive(t, r.Airflow.Low)
	// An EER that nobody typed moves the cost of cooling; one typed does not.
	saved := func(eer float64) float64 {
		j := pinned()
		j.Equipment.EER, j.Filters[0].Price, j.Site.PowerPrice = eer, 9, 0.2*units.MoneyPerKilowattHour
		r := ranged(t, j, 30, Deviations{Assumed: 0.25})[1]
		return float64(r.AnnualCost.High - r.AnnualCost.Low)
	}
	assert.Greater(t, saved(0), 50.0)
	assert.InDelta(t, 0, saved(12), 1e-6)
}
