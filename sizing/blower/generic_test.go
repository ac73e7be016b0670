package blower_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

func TestGeneric_Identity(t *testing.T) {
	for _, motor := range blower.Motors() {
		t.Run(string(motor), rapid.MakeCheck(func(t *rapid.T) {
			design := units.Flow(rapid.Float64Range(0.1, 1.2).Draw(t, "design"))
			rated := units.Pressure(rapid.Float64Range(50, 300).Draw(t, "rated"))
			table := blower.Generic(motor, design, rated)
			assert.Equal(t, motor, table.Motor)
			assert.Len(t, table.Taps, 3)
			assert.Empty(t, table.Includes)
			var above units.Flow
			for _, tap := range table.Taps {
				c, err := tap.Curve()
				require.NoError(t, err)
				q, inside := c.Airflow(rated)
				assert.True(t, inside)
				assert.Greater(t, q, above, "taps in rising order")
				above = q
				if tap.Name == table.CoolingTap {
					assert.InEpsilon(t, design.SI(), q.SI(), 1e-14)
				}
			}
			_, ok := table.Tap(table.HeatingTap)
			assert.True(t, ok)
		}))
	}
	assert.Equal(t, blower.Generic(blower.PSC, 0.5, blower.UsualRatedStatic), blower.Generic("", 0.5, 0))
	assert.Empty(t, blower.Generic("treadmill", 0.5, 0).Taps)
	_, ok := blower.Generic(blower.PSC, 0.5, 0).Tap("none such")
	assert.False(t, ok)
}

func efficacy(t *testing.T, c blower.Curve, static units.Pressure) float64 {
	q, inside := c.Airflow(static)
	require.True(t, inside)
	w, known := c.Power(static)
	require.True(t, known)
	return units.FanEfficacy(w.SI() / q.SI()).In(units.WattPerCFM)
}

// California Energy Code, Title 24 part 6, 150.0(m)13, 2019 (Residential
// Compliance Manual 4.1.2): at most 0.58 W/cfm without and 0.45 W/cfm with a
// gas furnace. A plausible blower at its rating lies near: the PSC between the
// two, the ECM kinds under both. These are bounds, not figures to hit.
func TestGenericEfficacy_Plausible(t *testing.T) {
	for motor, bounds := range map[blower.Motor][2]float64{
		blower.PSC: {0.35, 0.58}, blower.ConstantTorque: {0.2, 0.45}, blower.ConstantAirflow: {0.2, 0.45},
	} {
		table := blower.Generic(motor, 1200*units.CFM, blower.UsualRatedStatic)
		tap, _ := table.Tap(table.CoolingTap)
		c := curve(t, tap.Points)
		got := efficacy(t, c, blower.UsualRatedStatic)
		assert.Greater(t, got, bounds[0], motor)
		assert.LessOrEqual(t, got, bounds[1], motor)
	}
}

// How the kinds answer to static: common practice, no source.
func TestGenericKinds(t *testing.T) {
	loss := map[blower.Motor]float64{}
	watts := map[blower.Motor]float64{}
	for _, motor := range blower.Motors() {
		table := blower.Generic(motor, 1200*units.CFM, 0)
		for _, tap := range table.Taps {
			c := curve(t, tap.Points)
			lowStatic, highStatic, _, _ := c.Range()
			for p := lowStatic; p <= highStatic; p += 0.02 * units.InchWater {
				q, _ := c.Airflow(p)
				w, _ := c.Power(p)
				// air power, W = Pa x m3/s
				share := p.SI() * q.SI() / w.SI()
				assert.Less(t, share, 0.45, "%s %s at %s: blower and motor together", motor, tap.Name, p.Show(units.IP))
				if p > 0.3*units.InchWater {
					assert.Greater(t, share, 0.06, "%s %s at %s", motor, tap.Name, p.Show(units.IP))
				}
			}
		}
		tap, _ := table.Tap(table.CoolingTap)
		c := curve(t, tap.Points)
		at := func(inches float64) (float64, float64) {
			q, inside := c.Airflow(units.Pressure(inches) * units.InchWater)
			require.True(t, inside)
			w, _ := c.Power(units.Pressure(inches) * units.InchWater)
			return q.SI(), w.SI()
		}
		q0, w0 := at(0.3)
		q1, w1 := at(0.8)
		loss[motor], watts[motor] = 1-q1/q0, w1/w0-1
	}
	assert.Greater(t, loss[blower.PSC], loss[blower.ConstantTorque])
	assert.Greater(t, loss[blower.ConstantTorque], loss[blower.ConstantAirflow])
	assert.Less(t, loss[blower.ConstantAirflow], 0.02, "holds its airflow to 0.8 in. w.c.")
	assert.Less(t, watts[blower.PSC], -0.1, "watts fall")
	assert.InDelta(t, 0, watts[blower.ConstantTorque], 0.05, "watts near level")
	assert.Greater(t, watts[blower.ConstantAirflow], 0.3, "watts rise")
}

// The whole table of one blower, pinned.
func TestGeneric_Golden(t *testing.T) {
	tap, _ := blower.Generic(blower.PSC, 1200*units.CFM, 0).Tap(blower.HighTap)
	var got [][3]string
	for _, p := range tap.Points {
		got = append(got, [3]string{p.ExternalStatic.Show(units.IP), p.Airflow.Show(units.IP), p.Power.Show(units.IP)})
	}
	assert.Equal(t, [][3]string{
		{"0.000 in. w.c.", "1404 cfm", "635 W"},
		{"0.100 in. w.c.", "1374 cfm", "624 W"},
		{"0.200 in. w.c.", "1338 cfm", "610 W"},
		{"0.300 in. w.c.", "1297 cfm", "593 W"},
		{"0.400 in. w.c.", "1252 cfm", "574 W"},
		{"0.500 in. w.c.", "1200 cfm", "552 W"},
		{"0.600 in. w.c.", "1136 cfm", "527 W"},
		{"0.700 in. w.c.", "1056 cfm", "500 W"},
		{"0.800 in. w.c.", "954 cfm", "466 W"},
		{"0.900 in. w.c.", "828 cfm", "428 W"},
		{"1.000 in. w.c.", "672 cfm", "381 W"},
	}, got)
}
