package house

import (
	"errors"

	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

func (h *House) coolingCoil() (thermal.Coil, error) {
	coil, err := thermal.RatedCoil(h.Equipment.CoolingCapacity, h.Equipment.SensibleHeatRatio)
	var ratio *thermal.RatioError
	if errors.As(err, &ratio) {
		return coil, job.FieldErrors{job.NewFieldError("equipment.sensible_heat_ratio", ratio.Ratio, ratio.Wanted)}
	}
	return coil, err
}

// Cooling solves the coil at the condition's airflow.
func (h *House) Cooling(c *study.Condition) error {
	if h.Equipment.Kind == job.Furnace {
		return nil
	}
	if h.wetBulb == 0 {
		var err error
		if h.wetBulb, err = thermal.EnteringWetBulb(h.CoolingAir); err != nil {
			return message.Errorf("cooling coil: {fault}", "fault", err)
		}
	}
	r, err := h.CoolingCoil.RunAt(c.Airflow, h.CoolingAir, h.wetBulb)
	if err != nil {
		return message.Errorf("cooling coil: {fault}", "fault", err)
	}
	c.TotalCapacity, c.SensibleCapacity = r.Total, r.Sensible
	c.CoilAirLeaving, c.ApparatusDewPt = r.Leaving.Temperature, r.ApparatusDewPoint
	c.SupplyAir = units.Warmer(c.CoilAirLeaving, h.BlowerHeat(c.BlowerPower, c.Airflow))
	c.Frost = Freezes(c)
	return nil
}
