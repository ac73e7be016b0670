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
// output of the nameplate and the blower's watts, as read or of its table; false
// where rise or output is not known.
func (h *house) flowByRise(r *Reading) (units.Flow, bool) {
	rise, read := r.change()
	if !read || r.Mode != Heating || h.Equipment.HeatingOutput == 0 || h.assumes("equipment.heating_output") {
		return 0, false
	}
	entering := h.heated
	entering.Temperature = r.ReturnTemperature
	flow := func(watts units.Power) units.Flow {
		return thermal.AirflowForRise(h.delivered()+units.HeatRate(watts), rise, entering)
	}
	q := flow(r.BlowerPower)
	tap, err := h.sped(h.readingTap(r), h.speedRatio(r.Option))
	curve, ok := h.curves[tap]
	if r.BlowerPower > 0 || err != nil || !ok {
		return q, true
	}
	// The watts are a few hundredths of the output, so this settles at once.
	for range riseRounds {
		static, _ := curve.Static(q)
		watts, _ := curve.Power(static)
		q = flow(watts)
	}
	return q, true
}

// riseRounds is how often the airflow and the blower's watts that go with it
// are brought to agree.
const riseRounds = 20

// others holds what a round read beside pressures against the prediction.
func (h *house) others(r *Reading, predicted Condition) ([]ReadingMatch, error) {
	var out []ReadingMatch
	add := func(name string, measured, predicted units.Quantity, least float64) {
		off := math.Abs(measured.SI() - predicted.SI())
		out = append(out, ReadingMatch{Name: name, Measured: measured, Predicted: predicted,
			Agrees: off <= math.Max(least, ReadingShare*math.Abs(predicted.SI()))})
	}
	if change, read := r.change(); read {
		name, expected, err := h.expectedChange(r, predicted)
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

// expectedChange is the rise in heating, or what the coil takes off the return
// air as it was read, less what the blower's watts add, at the airflow
// predicted; zero where there is neither.
func (h *house) expectedChange(r *Reading, at Condition) (name string, change units.TemperatureDifference, err error) {
	if r.Mode == Heating {
		if h.Equipment.HeatingOutput > 0 {
			change = h.rise(at.BlowerPower, at.Airflow)
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
	coil, err := h.coil.Run(at.Airflow, entering)
	return name, units.TemperatureDifference(entering.Temperature-coil.Leaving.Temperature) - h.blowerHeat(at.BlowerPower, at.Airflow), err
}
