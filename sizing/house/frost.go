package house

import (
	"returnbench/sizing/assume"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Limits of frost. The refrigerant is colder than the apparatus dew point, so they
// are above the freezing point.
var (
	CoolSurface    = units.Fahrenheit(40)
	ColdestSurface = units.Fahrenheit(36)
	ColdestLeaving = units.Fahrenheit(38)
)

const (
	LeastPerCapacity = 300 * units.CFMPerTon
	FrostSource      = "caution under an apparatus dew point of 40 °F (4.4 °C) or 300 cfm per ton (40 L/s per kW), stop at 36 °F (2.2 °C) or with air leaving under 38 °F (3.3 °C): " + assume.CommonPractice
)

// Freezes reports whether a cooling coil will frost.
func Freezes(c *study.Condition) bool {
	return c.ApparatusDewPt <= ColdestSurface || c.CoilAirLeaving < ColdestLeaving
}
