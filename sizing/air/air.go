package air

import "returnbench/sizing/units"

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
