package air

import (
	"math"

	"returnbench/sizing/units"
)

// The temperatures between which the saturation formulas hold.
const (
	LowestTemperature  units.Temperature = 173.15 // -100 C
	HighestTemperature units.Temperature = 473.15 // 200 C
)

// triplePoint of water, K: where the formulas over ice and over water meet.
const triplePoint = 273.16

// moleMassRatio is the mole mass of water over that of dry air.
const moleMassRatio = 0.621945

// SaturationPressure is the vapor pressure over ice below 0.01 C and over
// water above:
//
//	ln pws = C1/T + C2 + C3 T + C4 T^2 + C5 T^3 + C6 T^4 + C7 ln T
//
// with pws in Pa and T in K. Source: Hyland and Wexler 1983, as eqs. 5 and 6 of
// ASHRAE Handbook Fundamentals (2017, SI) ch. 1. Range -100 to 200 C; outside it
// the nearer end is taken, and New refuses such a temperature.
func SaturationPressure(t units.Temperature) units.Pressure {
	p, _ := saturation(float64(t))
	return units.Pressure(p)
}

// saturation gives pws, Pa, and its slope in T, Pa/K.
func saturation(k float64) (p, slope float64) {
	k = min(max(k, float64(LowestTemperature)), float64(HighestTemperature))
	var ln, dln float64
	if k < triplePoint {
		ln = -5.6745359e3/k + 6.3925247 + k*(-9.6778430e-3+k*(6.2215701e-7+k*(2.0747825e-9+k*-9.4840240e-13))) + 4.1635019*math.Log(k)
		dln = 5.6745359e3/(k*k) - 9.6778430e-3 + k*(2*6.2215701e-7+k*(3*2.0747825e-9+k*4*-9.4840240e-13)) + 4.1635019/k
	} else {
		ln = -5.8002206e3/k + 1.3914993 + k*(-4.8640239e-2+k*(4.1764768e-5+k*-1.4452093e-8)) + 6.5459673*math.Log(k)
		dln = 5.8002206e3/(k*k) - 4.8640239e-2 + k*(2*4.1764768e-5+k*3*-1.4452093e-8) + 6.5459673/k
	}
	p = math.Exp(ln)
	return p, p * dln
}

// SaturationHumidityRatio is Ws = 0.621945 pws/(p - pws), kg water per kg dry
// air (ASHRAE Handbook Fundamentals ch. 1). It is +Inf where water boils.
func SaturationHumidityRatio(t units.Temperature, p units.Pressure) float64 {
	return humidityRatio(float64(SaturationPressure(t)), float64(p))
}

func humidityRatio(vapour, total float64) float64 {
	if vapour >= total {
		return math.Inf(1)
	}
	return moleMassRatio * vapour / (total - vapour)
}

// SaturatedAtEnthalpy is the saturated air at pressure p that holds h joules
// per kilogram of dry air: the inverse of Enthalpy on the saturation line.
// Below -100 C it gives the air at -100 C.
func SaturatedAtEnthalpy(h float64, p units.Pressure) State {
	// Dry air of that enthalpy is warmer: the upper end, unless water is near boiling there.
	low, high := LowestTemperature, min(max(units.Celsius(h/heatOfDryAir), LowestTemperature), HighestTemperature)
	if SaturationPressure(high) > 0.9*p {
		high = boilingLimit(p)
	}
	t := min(max(units.Celsius(h/heatOfDryAir*0.4), low), high)
	for range 60 {
		pws, slope := saturation(float64(t))
		s := State{Temperature: t, Pressure: p, HumidityRatio: humidityRatio(pws, float64(p))}
		vapour := float64(p) - pws
		// dWs/dT = 0.621945 p pws'/(p - pws)^2
		dw := moleMassRatio * float64(p) * slope / (vapour * vapour)
		dh := heatOfDryAir + s.HumidityRatio*heatOfVapour + dw*(heatOfEvaporation+heatOfVapour*units.ToCelsius(t))
		excess := s.Enthalpy() - h
		if excess > 0 {
			high = t
		} else {
			low = t
		}
		next := t - units.Temperature(excess/dh)
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(float64(next-t)) < 1e-10 {
			return saturatedState(next, p)
		}
		t = next
	}
	return saturatedState(t, p)
}

func saturatedState(t units.Temperature, p units.Pressure) State {
	return State{Temperature: t, Pressure: p, HumidityRatio: SaturationHumidityRatio(t, p)}
}

// boilingLimit is a temperature safely below boiling: where pws is 0.9 p, by
// the slope of the vapor curve near it (about 1 K for 3.5 %).
func boilingLimit(p units.Pressure) units.Temperature {
	return vapourTemperature(0.9 * float64(p))
}

// vapourTemperature is the temperature at which water's saturation pressure is
// pw, Pa. The logarithm of pws is close to linear in 1/T, so Newton's method on
// it converges in a few steps. Outside the range of the formulas the nearer end.
func vapourTemperature(pw float64) units.Temperature {
	low, high := float64(LowestTemperature), float64(HighestTemperature)
	if first, _ := saturation(low); !(pw > first) {
		return LowestTemperature
	}
	if last, _ := saturation(high); pw >= last {
		return HighestTemperature
	}
	k := 1 / (1/273.16 - math.Log(pw/611.657)/5420)
	for range 60 {
		k = min(max(k, low), high)
		p, slope := saturation(k)
		step := math.Log(p/pw) * p / slope
		next := k * k / (k + step) // Newton in 1/T
		if math.Abs(next-k) < 1e-10 {
			return units.Temperature(next)
		}
		k = next
	}
	return units.Temperature(k)
}
