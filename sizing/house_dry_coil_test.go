package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

func coilDrop(c Condition) (units.Pressure, bool) {
	for _, p := range c.Parts {
		if p.Name == "coil" {
			return p.Drop, true
		}
	}
	return 0, false
}

// A coil read at one airflow, at the house's own airflow: its drop goes with the
// power 1.8, and 0.8 of it is left when it is dry.
func TestCoilDrop_Identity(t *testing.T) {
	j := least()
	j.Coil = Part{Drop: 0.3 * units.InchWater, Airflow: 1600 * units.CFM}
	s := solved(t, j)
	drop, ok := coilDrop(s.Today().Clean)
	require.True(t, ok)
	flow := float64(s.Today().Clean.Airflow / j.Coil.Airflow)
	assert.InDelta(t, 1.8, math.Log(float64(drop/j.Coil.Drop))/math.Log(flow), 1e-9)
	a, err := solvedHouse(s).Arrange(Option{Name: TodayName}, KindToday)
	require.NoError(t, err)
	wet, err := solvedHouse(s).System(a)
	require.NoError(t, err)
	sys, _, changed := solvedHouse(s).DryCoil(wet)
	require.True(t, changed)
	share := 0.0
	for i := range wet.Series {
		if wet.Series[i].Name == "coil" {
			share = wet.Series[i].Law(0.5) / sys.Series[i].Law(0.5)
		}
	}
	assert.InDelta(t, 1/0.8, share, 1e-9)
}

func TestHeatingRunsWithADryCoil(t *testing.T) {
	j := least()
	j.Equipment.Blower = blower.Generic(blower.PSC, 1200*units.CFM, 0.5*units.InchWater)
	j.Equipment.Blower.HeatingTap = blower.HighTap
	c := solved(t, j).Today().Clean
	assert.Greater(t, c.HeatingAirflow, c.Airflow, "one tap, less drop")
	j.Equipment.CoilDryShare = 1
	c = solved(t, j).Today().Clean
	assert.Equal(t, c.Airflow, c.HeatingAirflow)
	require.NotNil(t, solved(t, j).Working("options[1].clean.heating_airflow"))
}

// A table measured with a wet coil leaves the coil out of the external static,
// and in heating gives back what the water took: the airflow is that of a table
// without, less the coil.
func TestTableWithAWetCoil(t *testing.T) {
	j := least()
	j.Equipment.Blower = blower.Generic(blower.PSC, 1200*units.CFM, 0.5*units.InchWater)
	j.Equipment.Blower.HeatingTap = blower.HighTap
	j.Coil = Part{Drop: 0.2 * units.InchWater, Airflow: 1200 * units.CFM}
	outside := solved(t, j).Today().Clean
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesWetCoil}
	s := solved(t, j)
	inside := s.Today().Clean
	_, counted := coilDrop(inside)
	assert.False(t, counted)
	assert.Greater(t, inside.Airflow, outside.Airflow)
	assert.Greater(t, inside.HeatingAirflow, inside.Airflow)
	checkBalance(t, s)

	// With a filter inside the table its usual drop is credited.
	j = least()
	without := solved(t, j).Today().Clean
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesFilter}
	s = solved(t, j)
	assert.Greater(t, s.Today().Clean.Airflow, without.Airflow)
	checkBalance(t, s)
	credit := units.Pressure(0)
	for _, p := range s.Today().Clean.Parts {
		if p.Name == "in the blower table" {
			credit = -p.Drop
		}
	}
	assert.InDelta(t, float64(solvedHouse(s).TableCredit(float64(s.Today().Clean.Airflow))), float64(credit), 1e-12)
	assert.Positive(t, float64(credit))
}

// Read in heating, a coil is dry; its drop wet follows.
func TestReadInHeatingTheCoilIsDry(t *testing.T) {
	j := least()
	j.Readings = []Reading{{Mode: Heating, BlowerOutlet: 0.28 * units.InchWater, SupplyPlenum: 0.12 * units.InchWater, Airflow: 1000 * units.CFM}}
	s := solved(t, j)
	assert.InEpsilon(t, 0.16/assume.UsualDryShare, solvedHouse(s).Coil.Drop.In(units.InchWater), 1e-12)
	for _, row := range s.Readings[0].Parts {
		if row.Name == "coil" {
			assert.True(t, row.Agrees)
			assert.InEpsilon(t, float64(row.Measured), float64(row.Predicted), 1e-9, "at the round's airflow the dry coil is as read")
		}
	}
}
