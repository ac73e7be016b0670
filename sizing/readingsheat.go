package sizing

import (
	"math"

	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// temperatureLeast is how far two temperature differences may lie apart and
// still agree, where a tenth of them is less (common practice, no source).
const temperatureLeast = 3 * units.FahrenheitDegree

const byRise = "temperature rise"

// change is how much warmer the air left in heating, or colder in cooling, where
// both temperatures were read.
func (r *Reading) change() (units.TemperatureDifference, bool) {
	if r.ReturnTemperature == 0 || r.SupplyTemperature == 0 {
		return 0, false
	}
	d := units.TemperatureDifference(r.SupplyTemperature - r.ReturnTemperature)
	if r.Mode != Heating {
		d = -d
	}
	return d, d > 0
}

// flowByRise is the airflow that warms by the rise read, taking up the heating
// output of the nameplate; false where either is not known.
func (h *house) flowByRise(r *Reading) (units.Flow, bool) {
	rise, read := r.change()
	if !read || r.Mode != Heating || h.Equipment.HeatingOutput == 0 || h.assumes("equipment.heating_output") {
		return 0, false
	}
	entering := h.heated
	entering.Temperature = r.ReturnTemperature
	return thermal.AirflowForRise(h.Equipment.HeatingOutput, rise, entering), true
}

// others holds what a round read beside pressures against the prediction.
func (h *house) others(r *Reading, predicted Condition) ([]ReadingMatch, error) {
	var out []ReadingMatch
	add := func(name string, measured, predicted units.Quantity, least float64) {
		off := math.Abs(measured.SI() - predicted.SI())
		out = append(out, ReadingMatch{Name: name, Measured: measured, Predicted: predicted,
			Agrees: off <= math.Max(least, ReadingShare*math.Abs(predicted.SI()))})
	}
	if change, read := r.change(); read {
		name, expected, err := h.expectedChange(r, predicted.Airflow)
		if err != nil {
			return nil, err
		}
		if expected > 0 {
			add(name, change, expected, float64(temperatureLeast))
		}
	}
	if q, known := h.flowByRise(r); known {
		add("airflow by the "+byRise, q, predicted.Airflow, 0)
	}
	if r.BlowerPower > 0 {
		add("blower power", r.BlowerPower, predicted.BlowerPower, 0)
	}
	return out, nil
}

// expectedChange is the rise of the furnace, or what the coil takes off the
// return air as it was read, at an airflow; zero where there is neither.
func (h *house) expectedChange(r *Reading, q units.Flow) (name string, change units.TemperatureDifference, err error) {
	if r.Mode == Heating {
		if h.Equipment.HeatingOutput > 0 {
			change = thermal.TemperatureRise(h.Equipment.HeatingOutput, q, h.heated)
		}
		return byRise, change, nil
	}
	name = "temperature drop"
	if h.Equipment.Kind == Furnace {
		return name, 0, nil
	}
	entering := h.state
	entering.Temperature = r.ReturnTemperature
	if entering.RelativeHumidity() >= 1 {
		return name, 0, nil // the design's moisture would condense in air so cold
	}
	coil, err := h.coil.Run(q, entering)
	return name, units.TemperatureDifference(entering.Temperature - coil.Leaving.Temperature), err
}
