package air

import (
	"errors"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// New is the moist air at an altitude (-2000 to 11 000 m), a dry-bulb
// temperature (-100 to 200 C, below boiling) and a relative humidity (0 to 1).
// A value outside its range is an error.
func New(altitude units.Length, dryBulb units.Temperature, relativeHumidity float64) (State, error) {
	if err := checkAltitude(altitude); err != nil {
		return State{}, err
	}
	return AtPressure(PressureAtAltitude(altitude), dryBulb, relativeHumidity)
}

// AtPressure is New at a barometric pressure instead of an altitude.
func AtPressure(p units.Pressure, dryBulb units.Temperature, relativeHumidity float64) (State, error) {
	if !(relativeHumidity >= 0 && relativeHumidity <= 1) {
		return State{}, message.Errorf("relative humidity {humidity}: want one from 0 to 1", "humidity", relativeHumidity)
	}
	if err := checkTemperature("dry bulb", dryBulb, p); err != nil {
		return State{}, err
	}
	w := humidityRatio(relativeHumidity*float64(SaturationPressure(dryBulb)), float64(p))
	return State{Temperature: dryBulb, Pressure: p, HumidityRatio: w}, nil
}

// FromWetBulb is the moist air at an altitude whose dry and wet bulb were read.
// A wet bulb below freezing is taken as covered with ice.
func FromWetBulb(altitude units.Length, dryBulb, wetBulb units.Temperature) (State, error) {
	if err := checkAltitude(altitude); err != nil {
		return State{}, err
	}
	p := PressureAtAltitude(altitude)
	if err := errors.Join(checkTemperature("dry bulb", dryBulb, p), checkTemperature("wet bulb", wetBulb, p)); err != nil {
		return State{}, err
	}
	if wetBulb > dryBulb {
		return State{}, message.Errorf("wet bulb {wet}: want one not above the dry bulb, {dry}", "wet", wetBulb, "dry", dryBulb)
	}
	t, wet := units.ToCelsius(dryBulb), units.ToCelsius(wetBulb)
	w := wetBulbHumidityRatio(t, wet, float64(p), wet < 0)
	if w < -1e-9 {
		return State{}, message.Errorf("wet bulb {wet}: too low, even dry air at {dry} reads more", "wet", wetBulb, "dry", dryBulb)
	}
	return State{Temperature: dryBulb, Pressure: p, HumidityRatio: max(w, 0)}, nil
}

func checkTemperature(name message.ID, t units.Temperature, p units.Pressure) error {
	if !(p > 0) || math.IsInf(float64(p), 0) {
		return message.Errorf("barometric pressure {pressure} Pa: want one above zero", "pressure", p.SI())
	}
	if !(t >= LowestTemperature && t <= HighestTemperature) {
		return message.Errorf("{thermometer} {reading}: want one from -148 °F to 392 °F (-100 °C to 200 °C)", "thermometer", name, "reading", t)
	}
	if SaturationPressure(t) >= p {
		return message.Errorf("{thermometer} {reading}: water boils there at a pressure of {pressure} Pa", "thermometer", name, "reading", t, "pressure", message.Fixed(p.SI(), 0))
	}
	return nil
}
