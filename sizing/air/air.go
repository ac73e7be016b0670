package air

import (
	"math"

	"returnbench/sizing/units"
)

// Properties are what the flow formulas need of the air.
type Properties struct {
	Density   units.Density
	Viscosity float64 // dynamic, Pa s
}

// State is moist air at a total pressure.
type State struct {
	Temperature   units.Temperature
	Pressure      units.Pressure // absolute
	HumidityRatio float64        // kg water per kg dry air
}

// Standard is standard air: 0.075 lb/ft3 with the viscosity of air at 70 F. Makers'
// ratings of filters are assumed to be for it.
func Standard() Properties {
	return Properties{Density: StandardDensity, Viscosity: Viscosity(units.Fahrenheit(70))}
}

// Constants of moist air in SI: ASHRAE Handbook Fundamentals (2017, SI) ch. 1.
const (
	gasConstant       = 287.042 // of dry air, J/(kg K)
	heatOfDryAir      = 1006.0  // J/(kg K)
	heatOfVapour      = 1860.0  // J/(kg K)
	heatOfEvaporation = 2.501e6 // at 0 C, J/kg
	heatOfSublimation = 2.830e6 // at 0 C, J/kg
)

// SpecificVolume is v = R T (1 + 1.607858 W)/p in m3 per kg of dry air
// (ASHRAE Handbook Fundamentals ch. 1; 1.607858 is 1/0.621945).
func (s State) SpecificVolume() float64 {
	return gasConstant * float64(s.Temperature) * (1 + s.HumidityRatio/moleMassRatio) / float64(s.Pressure)
}

// Density is the density of the moist air, kg/m3, rho = (1 + W)/v: the vapor
// counts in the mass.
func (s State) Density() units.Density {
	return units.Density((1 + s.HumidityRatio) / s.SpecificVolume())
}

// Viscosity is the dynamic viscosity of air in Pa s after Sutherland:
//
//	mu = 1.458e-6 T^1.5/(T + 110.4),  T in K
//
// Source: ISO 2533:1975. Humidity is left out: at house conditions it lowers
// the viscosity by less than 1 %.
func Viscosity(t units.Temperature) float64 {
	k := float64(t)
	return 1.458e-6 * k * math.Sqrt(k) / (k + 110.4)
}

// Viscosity is the dynamic viscosity of the air at its temperature, in Pa s;
// see the function.
func (s State) Viscosity() float64 { return Viscosity(s.Temperature) }

// Properties are the density and viscosity for the flow formulas.
func (s State) Properties() Properties {
	return Properties{Density: s.Density(), Viscosity: s.Viscosity()}
}

// SpecificHeat is at constant pressure, in J/(K kg of moist air):
//
//	cp = (1006 + 1860 W)/(1 + W)
//
// Density x SpecificHeat x flow is the heat capacity rate of an airflow.
func (s State) SpecificHeat() float64 {
	return (heatOfDryAir + heatOfVapour*s.HumidityRatio) / (1 + s.HumidityRatio)
}

// Enthalpy is h = 1006 t + W (2 501 000 + 1860 t) in J per kg of dry air, t in
// C: zero for dry air at 0 C (ASHRAE Handbook Fundamentals, SI, ch. 1). The
// inch-pound edition counts from 0 F, so only differences compare.
func (s State) Enthalpy() float64 {
	t := units.ToCelsius(s.Temperature)
	return heatOfDryAir*t + s.HumidityRatio*(heatOfEvaporation+heatOfVapour*t)
}

// AtEnthalpy is the air with the pressure and humidity ratio of s that holds h
// joules per kilogram of dry air.
func (s State) AtEnthalpy(h float64) State {
	s.Temperature = units.Celsius((h - s.HumidityRatio*heatOfEvaporation) / (heatOfDryAir + s.HumidityRatio*heatOfVapour))
	return s
}

// VapourPressure is the partial pressure of the water vapor, Pa, pw = p
// W/(0.621945 + W).
func (s State) VapourPressure() units.Pressure {
	return s.Pressure * units.Pressure(s.HumidityRatio/(moleMassRatio+s.HumidityRatio))
}

// RelativeHumidity is pw/pws as a share, 0 to 1, with pws over ice below
// freezing; above 1 the air contains fog. pws is SaturationPressure.
func (s State) RelativeHumidity() float64 {
	return float64(s.VapourPressure()) / float64(SaturationPressure(s.Temperature))
}

// DewPoint is the temperature at which the air begins to lose water (frost
// point below freezing), by Newton's method on the formulas of
// SaturationPressure: SaturationPressure(DewPoint) is the vapor pressure. Air
// drier than saturated air at -100 C, the end of the formulas, gives -100 C.
func (s State) DewPoint() units.Temperature {
	return vapourTemperature(float64(s.VapourPressure()))
}
