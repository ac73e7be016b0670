package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Crack is a straight or bent gap through which air leaks past the frame.
type Crack struct {
	Gap     units.Length // width of the opening, d
	Breadth units.Length // length of the opening round the frame, W
	Path    units.Length // along the flow, z
	Bends   int          // right-angled, n
}

// darcy and inertia are the coefficients of dp = darcy Q + inertia Q^2:
//
//	darcy = 12 mu z/(W d^3)   inertia = rho (1.5 + n)/(2 d^2 W^2)
//
// Q in m3/s, dp in Pa. Source: Baker, Sharples and Ward 1987, Building and
// Environment 22(4), for cracks of rooms' walls and windows; straight, L-shaped
// and double-bend gaps. More bends extrapolate.
func (c Crack) coefficients(a air.Properties) (darcy, inertia float64) {
	d, w := float64(c.Gap), float64(c.Breadth)
	darcy = 12 * a.Viscosity * float64(c.Path) / (w * d * d * d)
	inertia = float64(a.Density) * (1.5 + float64(c.Bends)) / (2 * d * d * w * w)
	return darcy, inertia
}

// closed is a gap so narrow that it passes nothing; its third power would underflow.
const closed = 1e-9 * units.Metre

func (c Crack) open() bool { return c.Gap > closed && c.Breadth > 0 }

// Flow is the air through the crack at a pressure difference: the positive root
// of inertia Q^2 + darcy Q = dp in the form that loses no digits; odd in dp. A
// crack of no gap or no breadth passes nothing.
func (c Crack) Flow(dp units.Pressure, a air.Properties) units.Flow {
	if !c.open() || dp == 0 {
		return 0
	}
	darcy, inertia := c.coefficients(a)
	return units.Flow(2 * float64(dp) / (darcy + math.Sqrt(darcy*darcy+4*inertia*math.Abs(float64(dp)))))
}

// Drop is the pressure difference that drives an airflow through the crack, the
// inverse of Flow; infinite where the crack is closed.
func (c Crack) Drop(q units.Flow, a air.Properties) units.Pressure {
	if q == 0 {
		return 0
	}
	if !c.open() {
		return units.Pressure(math.Inf(1) * math.Copysign(1, float64(q)))
	}
	darcy, inertia := c.coefficients(a)
	return units.Pressure(float64(q) * (darcy + inertia*math.Abs(float64(q))))
}

func (c Crack) check() error {
	for _, f := range []struct {
		name  string
		value units.Length
	}{{"gap", c.Gap}, {"gap breadth", c.Breadth}, {"gap path", c.Path}} {
		if !(f.value >= 0) || math.IsInf(float64(f.value), 0) {
			return &FieldError{f.name, f.value, message.New("zero or more")}
		}
	}
	if c.Bends < 0 {
		return &FieldError{"gap_bends", c.Bends, message.New("zero or more")}
	}
	return nil
}

// FrameCrack is the gap all round a filter's frame in its slot: as broad as the
// frame's edges together and as long as the frame is deep.
func FrameCrack(width, height, depth, gap units.Length, bends int) Crack {
	return Crack{Gap: gap, Breadth: 2 * (width + height), Path: depth, Bends: bends}
}

// Bypass is a filter and the crack round it at one airflow.
type Bypass struct {
	Drop  units.Pressure // shared by both
	Media units.Flow     // through the media, m3/s inside
	Leak  units.Flow     // through the crack, m3/s inside
	Share float64        // of the air that leaks, 0 to 1
}

// NewBypass splits an airflow between a filter and the crack round it, which
// share one pressure difference:
//
//	face v + Q_crack(dp(v)) = total
//
// found by Halley's steps on v in [0, total/face]; both terms rise with v, so
// there is one root.
func NewBypass(law Curve, face units.Area, crack Crack, total units.Flow, a air.Properties) (Bypass, error) {
	if err := crack.check(); err != nil {
		return Bypass{}, err
	}
	if err := checkAir(a); err != nil {
		return Bypass{}, err
	}
	if !(face > 0) {
		return Bypass{}, &FieldError{"face", face, message.New("more than zero")}
	}
	if !(total >= 0) || math.IsInf(float64(total), 0) {
		return Bypass{}, &FieldError{"airflow", total, message.New("zero or more")}
	}
	return law.bypass(float64(face), crack, float64(total), a), nil
}

func (c Curve) bypass(face float64, crack Crack, total float64, a air.Properties) Bypass {
	return newSeated(c, face, Seat{Crack: crack}, a).split(total)
}

// LeakyEfficiency is the efficiency by size for all the air where a share of it
// bypasses the filter. Nothing in the bypass air is caught: particles of
// breathable size pass such gaps with a penetration of about 1 (read in
// secondary text).
func LeakyEfficiency(eff [12]float64, share float64) [12]float64 {
	for i := range eff {
		eff[i] *= 1 - share
	}
	return eff
}

// InstalledMERV is the MERV of an installation where a share of the air
// bypasses a filter of the given efficiency and arrestance (Classify of
// LeakyEfficiency).
func InstalledMERV(eff [12]float64, arrestance, share float64) int {
	e1, e2, e3 := RangeMeans(LeakyEfficiency(eff, share))
	return Classify(e1, e2, e3, arrestance*(1-share))
}
