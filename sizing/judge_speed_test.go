package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// belted is a furnace on a system of static = k Q^2 alone, whose belt-driven
// blower is known by a table with watts and speeds.
func belted(ratio float64) Job {
	j := Job{Schema: Schema, DesignAirflow: 1200 * units.CFM, Equipment: Equipment{Kind: Furnace}}
	var points []blower.Point
	for _, r := range []struct{ static, flow, watts, speed float64 }{
		{0.1, 1500, 620, 690}, {0.3, 1380, 590, 700}, {0.5, 1230, 560, 712}, {0.7, 1020, 520, 725}, {0.9, 700, 470, 740},
	} {
		points = append(points, blower.Point{ExternalStatic: units.Pressure(r.static) * units.InchWater, Airflow: units.Flow(r.flow) * units.CFM,
			Power: units.Power(r.watts), Speed: units.Rotation(r.speed) * units.RPM})
	}
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "belt", Points: points}}}
	j.Slot.None = true
	j.Supply = Part{Drop: 0.25 * units.InchWater, Airflow: 1200 * units.CFM, Exponent: 2}
	j.Options = []Option{{Name: "pulley", SpeedRatio: ratio}}
	return j
}

// The fan laws, on a system of static = k Q^2: a fifth more speed is a fifth more
// air, 1.44 times the static and 1.728 times the power.
func TestSpeedRatio_Identity(t *testing.T) {
	s := solved(t, belted(1.2))
	before, after := s.Today().Clean, s.Option("pulley").Clean
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"airflow", float64(after.Airflow / before.Airflow), 6000.0 / 5000},
		{"static", float64(after.ExternalStatic / before.ExternalStatic), 0.72 / 0.50},
		{"watts", float64(after.BlowerPower / before.BlowerPower), 1.728},
		{"speed", float64(after.BlowerSpeed / before.BlowerSpeed), 1200.0 / 1000},
		{"watts in heating", float64(after.HeatingPower / before.HeatingPower), 1.728},
	} {
		assert.InEpsilon(t, row.want, row.got, 1e-9, row.name)
	}
}

// Two options whose speeds differ by a hundredth move air that differs by as much.
func TestSpeedsOfTwoOptions_Identity(t *testing.T) {
	j := belted(1.21)
	j.Options = append(j.Options, Option{Name: "faster", SpeedRatio: 1.22})
	s := solved(t, j)
	assert.InEpsilon(t, 1.22/1.21, float64(s.Option("faster").Clean.Airflow/s.Option("pulley").Clean.Airflow), 1e-9)
}

func TestSpeedRatioIsReported(t *testing.T) {
	s := solved(t, belted(1.3))
	o := s.Option("pulley")
	found := codes(o.Findings)
	assert.Contains(t, found, "speed_up")
	assert.Contains(t, found, "speed_far")
	assert.Equal(t, "belt", o.Tap)
	require.Len(t, s.Blower.Taps, 2)
	assert.True(t, s.Blower.Taps[1].IsOf(o), "its curve can be drawn")
	assert.False(t, s.Blower.Taps[0].IsOf(o))
	assert.Equal(t, "toma belt a 1.30 veces la velocidad", s.Blower.TapAtSpeed(o.Tap, o.SpeedRatio).In(units.Locale{Language: "es"}))
	w := s.Working("options[2].clean.airflow")
	require.NotNil(t, w)
	assert.Contains(t, w.Steps[0].Formula, "n^3")
	assert.Contains(t, w.Steps[0].Numbers, "rpm")
	assert.NotContains(t, s.Working("options[1].clean.airflow").Steps[0].Formula, "n^3")

	slow := solved(t, belted(0.9)).Option("pulley")
	assert.Less(t, slow.Clean.Airflow, s.Today().Clean.Airflow)
	assert.NotContains(t, codes(slow.Findings), "speed_up")

	j := belted(1.1)
	j.Equipment.Blower.Motor = blower.ConstantAirflow
	assert.NotNil(t, j.Check().At("options[0].speed_ratio"), "such a motor sets its own speed")
	assert.NotNil(t, belted(3).Check().At("options[0].speed_ratio"))
}

// A round read after a pulley was changed takes its airflow off the moved table.
func TestReadingAfterASpeedChange(t *testing.T) {
	j := belted(1.2)
	s := solved(t, j)
	want := s.Option("pulley").Clean
	in, out := Port{}, Port{}
	for _, p := range want.Ports {
		switch p.Name {
		case PortInlet:
			in = p
		case PortSupply:
			out = p
		}
	}
	j.Readings = []Reading{{Option: "pulley", BlowerInlet: in.Static, SupplyPlenum: out.Static}}
	r := solved(t, j).Readings
	require.Len(t, r, 1)
	assert.InEpsilon(t, float64(want.Airflow), float64(r[0].Airflow), 1e-9)
}
