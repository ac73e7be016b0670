package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// withoutWatts is the pinned house with a PSC blower whose table tells no watts. It
// runs at 0.634 in. w.c., between rows at 1.2 and 1.4 times the rated 0.5.
func withoutWatts() Job {
	j := pinned()
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "only", Points: []blower.Point{
		{ExternalStatic: 0.6 * units.InchWater, Airflow: 1000.01 * units.CFM}, {ExternalStatic: 0.7 * units.InchWater, Airflow: 999.99 * units.CFM}}}}}
	return j
}

// A table without watts gets the usual ones. By hand: 0.46 W/cfm of 1000 cfm at the
// rated static are 460 W; at 1.2 and 1.4 times that static 0.955 and 0.905 of it, 439
// and 416 W. In air of 0.98354 of the standard the rows stand at 0.590 and 0.688 in. w.c.
// and draw 432.1 and 409.5 W, which makes 422.0 W at 0.634. 1000 h of it at 0.17 $/kWh
// are 72 $ a year in each season, where no watts left nothing.
func TestUsualWattsByHand_Identity(t *testing.T) {
	j := withoutWatts()
	s := solved(t, j)
	today := s.Today()
	assert.InDelta(t, 422.0, today.Clean.BlowerPower.In(units.Watt), 1)
	assert.InDelta(t, 2*72, today.AnnualPower.In(units.Dollar), 4)
	assert.True(t, s.WattsAssumed)
	assert.Equal(t, "The blower's table does not tell all watts. Ten-year cost, pay-back and blower heat count with usual watts, good to about 25 %. Type the watts, or measure them.", said(t, s, "", "watts_assumed"))
	var assumed string
	for _, a := range s.Assumptions {
		if a.Path == "equipment.blower.taps[0].points" {
			assumed = a.In(units.IP)
		}
	}
	assert.Equal(t, "watts of tap only: 0.46 W/cfm at the rated static, good to about 25 %", assumed)

	j.Equipment.Blower.Taps[0].Points[0].Power, j.Equipment.Blower.Taps[0].Points[1].Power = 439, 416
	s = solved(t, j)
	assert.False(t, s.WattsAssumed)
	assert.NotContains(t, codes(s.Findings), "watts_assumed")
}

// A wide range shows that the watts are a usual value: of 25 % either way, nine in ten
// samples lie within 1.645 standard deviations: the ends are exp(2 x 1.645 x 0.25) = 2.28
// apart, where a table leaves next to nothing.
func TestUsualWattsHaveARange_Identity(t *testing.T) {
	j := withoutWatts()
	ranges, err := Ranges(t.Context(), j, 400, 1, nil)
	require.NoError(t, err)
	for _, r := range ranges {
		if r.Kind == KindToday {
			assert.InDelta(t, 2.28, r.BlowerPower.High.In(r.BlowerPower.Low), 0.3)
		}
	}
}

// Rows beyond those with watts get as many per cfm as the nearest row that has them:
// 500 W at 1000 cfm make 450 W at 900 cfm. A tap in use that tells its watts is not said
// to be assumed.
func TestRowsWithoutWatts_Identity(t *testing.T) {
	tap := blower.Tap{Name: "a", Points: []blower.Point{
		{ExternalStatic: 100, Airflow: 1000 * units.CFM, Power: 500}, {ExternalStatic: 150, Airflow: 900 * units.CFM}}}
	full, filled := blower.WithUsualWatts(blower.PSC, tap, 1000*units.CFM, 125)
	require.True(t, filled)
	assert.InDelta(t, 450, full.Points[1].Power.In(units.Watt), 1e-9)
	assert.Zero(t, tap.Points[1].Power, "what was typed stays")
	_, filled = blower.WithUsualWatts(blower.PSC, full, 1000*units.CFM, 125)
	assert.False(t, filled)
}

// Usual watts beside watts of the table prove nothing about cost: the pay-back is not
// known, and a finding says so.
func TestUnlikeWattsAreNotCompared(t *testing.T) {
	j := withoutWatts()
	told := pinnedTap("told", 1001, 400)
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, told)
	j.Equipment.Blower.CoolingTap, j.Equipment.Blower.HeatingTap = "only", "told"
	j.Options = []Option{{Name: "retapped", Tap: "told", Price: 100 * units.Dollar}}
	s := solved(t, j)
	o := s.Option("retapped")
	assert.False(t, o.Payback.Known)
	assert.Contains(t, said(t, s, "retapped", "watts_unlike"), "Do not compare their costs.")
	j.Options[0].Tap = "only"
	s = solved(t, j)
	assert.True(t, s.Option("retapped").Payback.Known)
	assert.NotContains(t, codes(s.Findings), "watts_unlike")
}

// Watts measured are not held against usual ones.
func TestUsualWattsAreNoPrediction(t *testing.T) {
	j := withoutWatts()
	j.Readings = []Reading{{Mode: Cooling, Airflow: 1000 * units.CFM, BlowerPower: 300, ReturnPlenum: -0.18 * units.InchWater, BlowerInlet: -0.43 * units.InchWater, SupplyPlenum: 0.08 * units.InchWater}}
	s := solved(t, j)
	assert.Empty(t, s.Readings[0].OtherQuantities)
	j.Equipment.Blower.Taps[0].Points[0].Power, j.Equipment.Blower.Taps[0].Points[1].Power = 439, 416
	assert.Len(t, solved(t, j).Readings[0].OtherQuantities, 1)
}
