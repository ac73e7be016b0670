package house

import (
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// Rise is the temperature rise in heating. The blower's power ends as heat in
// the air:
//
//	rise = (output + watts) / (rho cp Q)
func (h *House) Rise(watts units.Power, q units.Flow) units.TemperatureDifference {
	return thermal.TemperatureRise(h.Delivered()+units.HeatRate(watts), q, h.HeatingAir)
}

// BlowerHeat is the temperature rise by the blower's power in cooling:
// thermal.TemperatureRise in the cooling air.
func (h *House) BlowerHeat(watts units.Power, q units.Flow) units.TemperatureDifference {
	return thermal.TemperatureRise(units.HeatRate(watts), q, h.CoolingAir)
}
