package readings

import (
	"math"
	"slices"

	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// temperatureLeast is how much two temperature differences may differ and still
// agree, where a tenth of them is less (common practice, no source).
const temperatureLeast = 3 * units.FahrenheitDegree

// others compares the readings of a round other than pressures with the prediction.
func others(h *house.House, r *job.Reading, predicted study.Condition) ([]study.ReadingMatch, error) {
	var out []study.ReadingMatch
	add := func(name message.ID, measured, predicted units.Quantity, least float64) {
		off := math.Abs(measured.SI() - predicted.SI())
		out = append(out, study.ReadingMatch{Name: name, Measured: measured, Predicted: predicted,
			Agrees: off <= math.Max(least, judge.ReadingShare*math.Abs(predicted.SI()))})
	}
	if change, read := house.TemperatureChange(r); read {
		name, expected, err := expectedChange(h, r, predicted)
		if err != nil {
			return nil, err
		}
		if expected > 0 {
			add(name, change, expected, float64(temperatureLeast))
		}
	}
	if q, known := h.FlowByRise(r); known {
		add("airflow by the "+house.ByRise, q, predicted.Airflow, 0)
	}
	if r.BlowerPower > 0 && !slices.Contains(h.WattsAssumed, h.ReadingTap(r)) {
		add("blower power", r.BlowerPower, predicted.BlowerPower, 0)
	}
	return out, nil
}

// expectedChange is the predicted temperature rise in heating, or in cooling
// the drop over the coil for the return air as it was read, less the blower's
// heat, at the predicted airflow; zero where there is neither.
func expectedChange(h *house.House, r *job.Reading, at study.Condition) (name message.ID, change units.TemperatureDifference, err error) {
	if r.Mode == job.Heating {
		if h.Equipment.HeatingOutput > 0 {
			change = h.Rise(at.BlowerPower, at.Airflow)
		}
		return house.ByRise, change, nil
	}
	name = "temperature drop"
	if h.Equipment.Kind == job.Furnace {
		return name, 0, nil
	}
	entering := h.CoolingAir
	entering.Temperature = r.ReturnTemperature
	if entering.RelativeHumidity() >= 1 {
		return name, 0, nil // at this temperature the moisture assumed for the design would condense
	}
	coil, err := h.CoolingCoil.Run(at.Airflow, entering)
	return name, units.Rise(coil.Leaving.Temperature, entering.Temperature) - h.BlowerHeat(at.BlowerPower, at.Airflow), err
}
