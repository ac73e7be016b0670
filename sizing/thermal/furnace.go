package thermal

import (
	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// TemperatureRise is how much an airflow q of the state s warms when it takes
// up the output of a furnace:
//
//	dT = output/(rho cp q)
//
// with rho and cp of the moist air, so that rho q is the mass flow at the place
// where q is measured. In standard air this is the trade's Btu/h = 1.08 cfm dT.
// Without airflow the rise is +Inf.
func TemperatureRise(output units.HeatRate, q units.Flow, s air.State) units.TemperatureDifference {
	return units.TemperatureDifference(float64(output) / (heatCapacity(s) * float64(q)))
}

// AirflowForRise is the airflow that a furnace's output warms by a given rise:
// TemperatureRise solved for q. It is +Inf at a rise of zero.
func AirflowForRise(output units.HeatRate, rise units.TemperatureDifference, s air.State) units.Flow {
	return units.Flow(float64(output) / (heatCapacity(s) * float64(rise)))
}

// heatCapacity is rho cp in J/(m3 K).
func heatCapacity(s air.State) float64 { return float64(s.Density()) * s.SpecificHeat() }
