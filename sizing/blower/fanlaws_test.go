package blower_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

func TestFanLaws_Identity(t *testing.T) {
	t.Run("speed", rapid.MakeCheck(func(t *rapid.T) {
		tap := blower.Tap{Name: "a", Points: drawTable(t)}
		ratio := rapid.Float64Range(0.3, 2).Draw(t, "ratio")
		slow, err := tap.Curve()
		assert.NoError(t, err)
		fast, err := tap.AtSpeed(ratio).Curve()
		assert.NoError(t, err)
		low, high, _, _ := slow.Range()
		p := units.Pressure(rapid.Float64Range(low.SI(), high.SI()).Draw(t, "static"))
		q, _ := slow.Airflow(p)
		got := fast.Extended(p.SI() * ratio * ratio)
		assert.InEpsilon(t, q.SI()*ratio, got, 1e-9, "the curve itself scales, not its rows alone")
		w, _ := fast.Power(p * units.Pressure(ratio*ratio))
		assert.InEpsilon(t, 300*ratio*ratio*ratio, w.SI(), 1e-12)
		n, _ := fast.Speed(p * units.Pressure(ratio*ratio))
		assert.InEpsilon(t, 15*ratio, n.SI(), 1e-12)
	}))
	t.Run("there and back", rapid.MakeCheck(func(t *rapid.T) {
		tap := blower.Tap{Points: drawTable(t)}
		ratio := rapid.Float64Range(0.3, 2).Draw(t, "ratio")
		back := tap.AtSpeed(ratio).AtSpeed(1 / ratio)
		for i, p := range tap.Points {
			assert.InDelta(t, p.ExternalStatic.SI(), back.Points[i].ExternalStatic.SI(), 1e-11)
			assert.InEpsilon(t, p.Airflow.SI(), back.Points[i].Airflow.SI(), 1e-14)
			assert.InEpsilon(t, p.Power.SI(), back.Points[i].Power.SI(), 1e-14)
		}
		assert.Equal(t, tap, tap.AtSpeed(1))
	}))
	t.Run("density", rapid.MakeCheck(func(t *rapid.T) {
		c := curve(t, drawTable(t))
		ratio := rapid.Float64Range(0.6, 1.2).Draw(t, "ratio")
		thin := c.AtDensity(ratio)
		low, high, lowFlow, highFlow := c.Range()
		p := units.Pressure(rapid.Float64Range(low.SI(), high.SI()).Draw(t, "static"))
		q, _ := c.Airflow(p)
		assert.InEpsilon(t, q.SI(), thin.Extended(p.SI()*ratio), 1e-9)
		w, known := thin.Power(p * units.Pressure(ratio))
		assert.True(t, known)
		assert.InEpsilon(t, 300*ratio, w.SI(), 1e-12)
		n, _ := thin.Speed(p * units.Pressure(ratio))
		assert.InEpsilon(t, 15, n.SI(), 1e-12)
		_, _, thinLow, thinHigh := thin.Range()
		assert.Equal(t, lowFlow, thinLow)
		assert.Equal(t, highFlow, thinHigh)
		assert.Equal(t, c, c.AtDensity(1))
	}))
}

func TestAtSpeedLeavesTheTapAlone(t *testing.T) {
	tap := blower.Tap{Points: syntheticTable()}
	tap.AtSpeed(2)
	assert.Equal(t, syntheticTable(), tap.Points)
}
