package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

func warm() Job {
	j := least()
	j.Equipment.Kind = FurnaceWithCoil
	j.Equipment.HeatingOutput = 60000 * units.BtuPerHour
	j.Equipment.RiseLow, j.Equipment.RiseHigh = 30*units.FahrenheitDegree, 70*units.FahrenheitDegree
	return j
}

func match(t *testing.T, r ReadingResult, name message.ID) ReadingMatch {
	t.Helper()
	for _, m := range r.OtherQuantities {
		if m.Name == name {
			return m
		}
	}
	require.Fail(t, "nothing read of the "+string(name))
	return ReadingMatch{}
}

// The rise that the study predicts, read back, makes the airflow it predicts.
func TestTemperatureRiseRead_Identity(t *testing.T) {
	j := warm()
	today := solved(t, j).Today().Clean
	from := solvedHouse(solved(t, j)).Site.HeatingIndoor
	j.Readings = []Reading{{Mode: Heating, ReturnTemperature: from, SupplyTemperature: units.Warmer(from, today.TemperatureRise)}}
	r := solved(t, j).Readings[0]
	assert.EqualValues(t, "temperature rise", r.AirflowBasis)
	assert.InEpsilon(t, float64(today.HeatingAirflow), float64(r.Airflow), 1e-6)
	assert.True(t, match(t, r, "temperature rise").Agrees)
	assert.InEpsilon(t, float64(today.TemperatureRise), match(t, r, "temperature rise").Predicted.SI(), 1e-9)
	assert.Equal(t, Good, r.Verdict)

	j.Readings[0].SupplyTemperature += units.Temperature(8 * units.FahrenheitDegree)
	s := solved(t, j)
	assert.False(t, match(t, s.Readings[0], "temperature rise").Agrees)
	assert.Equal(t, Caution, s.Readings[0].Verdict)
}

// An output that nobody typed makes no airflow.
func TestAssumedOutputMakesNoAirflow(t *testing.T) {
	j := warm()
	j.Equipment.HeatingOutput = 0
	j.Readings = []Reading{{Mode: Heating, ReturnTemperature: units.Fahrenheit(70), SupplyTemperature: units.Fahrenheit(120)}}
	r := solved(t, j).Readings[0]
	assert.Zero(t, r.Airflow)
	assert.Len(t, r.OtherQuantities, 1)
}

func TestAirflowByTemperatureRise_Plausible(t *testing.T) {
	j := warm()
	j.Site.HeatingIndoor = units.Fahrenheit(70)
	j.Readings = []Reading{{Mode: Heating, ReturnTemperature: units.Fahrenheit(70), SupplyTemperature: units.Fahrenheit(120), BlowerPower: 500 * units.Watt}}
	published.Check(t, published.Row{
		Name: "60,000 Btu/h and 500 W, rise 50 °F", Source: "cfm = Btu/h / (1.08 dT), the sensible heat rule of thumb for standard air (common practice, no source)",
		Got: solved(t, j).Readings[0].Airflow.In(units.CFM), Want: (60000 + 3.412*500) / (1.08 * 50), Tolerance: 0.02 * 1111,
		Why: "1.08 stands for dry air of 0.075 lb/ft3; the house's air is at 70 °F and holds some moisture",
	})
}

// In cooling, the air that the study predicts, read back, agrees; a coil that
// cools far less is reported.
func TestTemperatureDropRead(t *testing.T) {
	j := warm()
	s := solved(t, j)
	today := s.Today().Clean
	at := solvedHouse(s).Site.IndoorDryBulb
	j.Readings = []Reading{{ReturnTemperature: at, SupplyTemperature: today.SupplyAir, Airflow: today.Airflow, BlowerPower: today.BlowerPower}}
	s = solved(t, j)
	assert.True(t, match(t, s.Readings[0], "temperature drop").Agrees)
	assert.True(t, match(t, s.Readings[0], "blower power").Agrees)
	assert.Equal(t, Good, s.Readings[0].Verdict)

	j.Readings[0].SupplyTemperature += units.Temperature(6 * units.FahrenheitDegree)
	s = solved(t, j)
	assert.False(t, match(t, s.Readings[0], "temperature drop").Agrees)
	assert.Equal(t, Caution, codes(s.Findings)["reading_other"])

	j.Readings[0].SupplyTemperature = today.SupplyAir
	j.Readings[0].BlowerPower *= 1.3
	s = solved(t, j)
	assert.False(t, match(t, s.Readings[0], "blower power").Agrees)
	assert.Equal(t, Caution, codes(s.Findings)["reading_other"])
}
