package air

import (
	"returnbench/sizing/message"
	"returnbench/sizing/root"
	"returnbench/sizing/units"
)

// wetBulbHumidityRatio is the humidity ratio of air at dry bulb t and wet bulb
// wet, both in C:
//
//	over water  W = ((2501 - 2.326 t*) Ws* - 1.006 (t - t*))/(2501 + 1.86 t - 4.186 t*)
//	over ice    W = ((2830 - 0.24 t*) Ws* - 1.006 (t - t*))/(2830 + 1.86 t - 2.1 t*)
//
// Source: ASHRAE Handbook Fundamentals (2017, SI) ch. 1, eqs. 33 and 35.
func wetBulbHumidityRatio(t, wet, p float64, ice bool) float64 {
	saturated := SaturationHumidityRatio(units.Celsius(wet), units.Pressure(p))
	if ice {
		return ((heatOfSublimation-240*wet)*saturated - heatOfDryAir*(t-wet)) / (heatOfSublimation + heatOfVapour*t - 2100*wet)
	}
	return ((heatOfEvaporation-2326*wet)*saturated - heatOfDryAir*(t-wet)) / (heatOfEvaporation + heatOfVapour*t - 4186*wet)
}

// WetBulb is the thermodynamic wet-bulb temperature, to 1e-9 K:
// wetBulbHumidityRatio solved for t*. Near freezing the formulas over water and
// over ice overlap; a wet bulb that can be liquid is given as liquid. Fog and
// temperatures outside -100 to 200 C are errors.
func (s State) WetBulb() (units.Temperature, error) {
	if err := checkTemperature("dry bulb", s.Temperature, s.Pressure); err != nil {
		return 0, err
	}
	if !(s.HumidityRatio >= 0) {
		return 0, message.Errorf("humidity ratio {ratio}: want one not below zero", "ratio", s.HumidityRatio)
	}
	if phi := s.RelativeHumidity(); phi > 1+1e-9 {
		return 0, message.Errorf("wet bulb: the air holds more water than saturated air (relative humidity {humidity})", "humidity", message.Fixed(phi, 4))
	}
	t, p := units.ToCelsius(s.Temperature), float64(s.Pressure)
	low, ice := 0.0, false
	if t < 0 || s.HumidityRatio < wetBulbHumidityRatio(t, 0, p, false) {
		low, ice = units.ToCelsius(LowestTemperature), true
	}
	high := t
	if ice {
		high = min(t, 0)
	}
	excess := func(wet float64) float64 { return wetBulbHumidityRatio(t, wet, p, ice) - s.HumidityRatio }
	return units.Celsius(root.Rising(excess, low, high, 1e-10)), nil
}
