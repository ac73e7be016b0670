package blower

import (
	"slices"

	"returnbench/sizing/units"
)

// AtSpeed is the tap with its wheel turned ratio times as fast, by the fan
// laws
//
//	q ~ n    p ~ n^2    P ~ n^3
//
// (the fan laws of any fan textbook, for the same wheel in the same air and
// system). They hold for the air side and the shaft; the motor's own
// efficiency is taken as unchanged, which is fair for a ratio near one and
// flatters a slow motor far below it.
func (t Tap) AtSpeed(ratio float64) Tap {
	points := slices.Clone(t.Points)
	for i := range points {
		p := &points[i]
		p.ExternalStatic *= units.Pressure(ratio * ratio)
		p.Airflow *= units.Flow(ratio)
		p.Power *= units.Power(ratio * ratio * ratio)
		p.Speed *= units.Rotation(ratio)
	}
	t.Points = points
	return t
}

// AtDensity is the curve in air whose density is ratio times the table's
// standard air: static and power scale with density, the volume flow and the
// speed stay (fan laws p ~ rho, P ~ rho).
func (c Curve) AtDensity(ratio float64) Curve {
	return Curve{
		flow:  c.flow.scaled(ratio, 1),
		power: c.power.scaled(ratio, ratio),
		speed: c.speed.scaled(ratio, 1),
	}
}

// scaled multiplies places by x and values by y.
func (k cubic) scaled(x, y float64) cubic {
	return cubic{times(k.x, x), times(k.y, y), times(k.d, y/x), k.straight}
}

func times(vs []float64, factor float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = v * factor
	}
	return out
}

// Tap finds a tap by its name.
func (t Table) Tap(name string) (Tap, bool) {
	i := slices.IndexFunc(t.Taps, func(tap Tap) bool { return tap.Name == name })
	if i < 0 {
		return Tap{}, false
	}
	return t.Taps[i], true
}
