package air

import (
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

const (
	// StandardDensity is that of standard air in inch-pound work.
	StandardDensity units.Density = 0.075 * units.PoundPerCubicFoot
	// SeaLevel is the standard pressure at sea level (ISO 2533).
	SeaLevel units.Pressure = 101325
)

// The altitudes between which ISO 2533 has one constant lapse rate.
const (
	LowestAltitude  units.Length = -2000
	HighestAltitude units.Length = 11000
)

// Constants of ISO 2533:1975.
const (
	earthRadius      = 6356766.0 // m
	gravity          = 9.80665   // m/s2
	lapseRate        = 0.0065    // K/m
	seaLevelKelvin   = 288.15    // K
	isoGasConstant   = 287.05287 // J/(kg K)
	pressureExponent = gravity / (isoGasConstant * lapseRate)
)

// PressureAtAltitude is the pressure of the standard atmosphere:
//
//	H = r z/(r + z)        p = 101325 (1 - 0.0065 H/288.15)^5.25588
//
// with z in m and r = 6356766 m. Source: ISO 2533:1975; with H = z it is the
// handbook's 101325 (1 - 2.25577e-5 z)^5.2559, which differs by less than
// 0.02 % up to 10 000 ft. Range -2000 to 11 000 m; an altitude outside is taken
// at the nearer end, and New refuses it.
func PressureAtAltitude(z units.Length) units.Pressure {
	m := float64(min(max(z, LowestAltitude), HighestAltitude))
	h := earthRadius * m / (earthRadius + m)
	return SeaLevel * units.Pressure(math.Pow(1-lapseRate*h/seaLevelKelvin, pressureExponent))
}

func checkAltitude(z units.Length) error {
	if !(z >= LowestAltitude && z <= HighestAltitude) {
		return message.Errorf("altitude {altitude} m: want one from {lowest} m to {highest} m",
			"altitude", message.Fixed(z.SI(), 0), "lowest", message.Fixed(LowestAltitude.SI(), 0), "highest", message.Fixed(HighestAltitude.SI(), 0))
	}
	return nil
}
