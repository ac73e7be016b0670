package duct

import (
	"errors"
	"math"
	"strconv"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Check reports every fault of the run for which it cannot be solved. The other
// methods return NaN or Inf for such a run.
func (r Run) Check() error {
	var faults []error
	positive := func(fault message.ID, v units.Length) {
		if !(v > 0) || math.IsInf(float64(v), 0) {
			faults = append(faults, message.Errorf(fault, "shape", r.Shape, "given", v))
		}
	}
	switch r.Shape {
	case Round, Flex:
		positive("{shape} duct: diameter {given}, want one above zero", r.Diameter)
	case Rectangular:
		positive("{shape} duct: width {given}, want one above zero", r.Width)
		positive("{shape} duct: height {given}, want one above zero", r.Height)
	default:
		faults = append(faults, message.Errorf("duct shape {given}: want round, flex or rectangular", "given", strconv.Quote(string(r.Shape))))
	}
	if !(r.Length >= 0) || math.IsInf(float64(r.Length), 0) {
		faults = append(faults, message.Errorf("duct length {given}: want one not below zero", "given", r.Length))
	}
	if !(r.Compression >= 0 && r.Compression < 1) {
		faults = append(faults, message.Errorf("flex compression {given}: want a share from 0 to below 1", "given", r.Compression))
	}
	if !(r.Roughness >= 0) {
		faults = append(faults, message.Errorf("wall roughness {given}: want one not below zero", "given", r.Roughness))
	}
	return errors.Join(faults...)
}

// Area is the section open to the air, m2 inside, of the actual shape.
func (r Run) Area() units.Area {
	if r.Shape == Rectangular {
		return units.Area(float64(r.Width) * float64(r.Height))
	}
	return circle(r.Diameter)
}

func circle(d units.Length) units.Area { return units.Area(math.Pi / 4 * float64(d) * float64(d)) }

// EquivalentDiameter is the round duct of equal friction at equal airflow: the
// run's own diameter, or Huebscher's for a rectangular one.
func (r Run) EquivalentDiameter() units.Length {
	if r.Shape == Rectangular {
		return Huebscher(r.Width, r.Height)
	}
	return r.Diameter
}

// HydraulicDiameter is 4 x area / perimeter, m inside; of a round run its
// diameter.
func (r Run) HydraulicDiameter() units.Length {
	if r.Shape == Rectangular {
		return 2 * units.Length(float64(r.Width)*float64(r.Height)/float64(r.Width+r.Height))
	}
	return r.Diameter
}

// AspectRatio is the longer side over the shorter; 1 for round duct.
func (r Run) AspectRatio() float64 {
	if r.Shape != Rectangular {
		return 1
	}
	return float64(max(r.Width, r.Height)) / float64(min(r.Width, r.Height))
}

// Velocity is the mean velocity in the run's real section: airflow over Area.
func (r Run) Velocity(q units.Flow) units.Speed {
	return units.Speed(float64(q) / float64(r.Area()))
}

// Reynolds is the Reynolds number rho V De/mu of the equivalent round duct,
// which decides the friction.
func (r Run) Reynolds(q units.Flow, a air.Properties) float64 {
	d := r.EquivalentDiameter()
	v := math.Abs(float64(q)) / float64(circle(d))
	return float64(a.Density) * v * float64(d) / a.Viscosity
}

// VelocityPressure is rho V^2/2, Pa inside.
func VelocityPressure(v units.Speed, density units.Density) units.Pressure {
	return units.Pressure(float64(density) * float64(v) * float64(v) / 2)
}

// The range of CompressionCorrection, with a millimeter or two for rounded sizes.
const (
	LeastFlexDiameter = 150 * units.Millimetre
	MostFlexDiameter  = 16.05 * units.Inch
	MostCompression   = 0.30
)

// CompressionCorrection is the factor on the drop of a fully stretched flex
// when it lies shorter than it could:
//
//	PDCF = 1 + 0.58 K exp(-0.00496 D),  K = 100 x compression, D in mm
//
// Source: ASHRAE Handbook Fundamentals (2021, SI) ch. 21, eqs. 22 and 23, after
// Abushakra, Walker and Sherman 2004. Range: 6 to 16 in., which metric sizes reach as
// 150 and 400 mm, up to 30 % (from memory); outside it the equation is still used and
// inRange is false. Other shapes give 1.
func (r Run) CompressionCorrection() (factor float64, inRange bool) {
	if r.Shape != Flex || r.Compression == 0 {
		return 1, true
	}
	mm := r.Diameter.In(units.Millimetre)
	factor = 1 + 0.58*100*r.Compression*math.Exp(-0.00496*mm)
	return factor, r.Diameter >= LeastFlexDiameter && r.Diameter <= MostFlexDiameter && r.Compression <= MostCompression
}

// Drop is the friction of the run after Darcy and Weisbach,
//
//	dp = PDCF f (L/De) rho Ve^2/2,  Ve = 4 q/(pi De^2)
//
// f by FrictionFactor. For a rectangular run De is Huebscher's and Ve the
// velocity in that round duct, not in the run. The drop has the sign of q.
func (r Run) Drop(q units.Flow, a air.Properties) units.Pressure {
	return units.Pressure(r.Resistance(a).Drop(float64(q)))
}

// Friction is the drop of the run per length, Pa/m inside, at airflow q; see
// Drop.
func (r Run) Friction(q units.Flow, a air.Properties) units.FrictionRate {
	r.Length = units.Metre
	return units.FrictionRate(r.Drop(q, a)) // Pa over 1 m
}

// Resistance is a run with all that does not depend on the airflow worked out.
type Resistance struct {
	reynolds  float64 // Re per m3/s
	scale     float64 // dp = scale f Re^2
	roughness float64 // e/De
}

// Resistance prepares the run for many airflows of the same air.
func (r Run) Resistance(a air.Properties) Resistance {
	d := float64(r.EquivalentDiameter())
	e, _ := r.RoughnessOf()
	correction, _ := r.CompressionCorrection()
	rho := float64(a.Density)
	velocityPerFlow := 4 / (math.Pi * d * d) // 1/m2
	reynolds := rho * velocityPerFlow * d / a.Viscosity
	// dp = PDCF f (L/D) rho (q velocityPerFlow)^2/2 with q = Re/reynolds
	perFlow := velocityPerFlow / reynolds
	return Resistance{
		reynolds:  reynolds,
		scale:     correction * float64(r.Length) / d * rho * perFlow * perFlow / 2,
		roughness: float64(e) / d,
	}
}

// Drop is Run.Drop in Pa at q in m3/s, with the sign of q.
func (r Resistance) Drop(q float64) float64 {
	re := math.Abs(q) * r.reynolds
	var product float64 // f Re^2
	switch {
	case re <= laminarLimit:
		product = 64 * re
	case re < turbulentLimit:
		y, _ := newBridge(r.roughness).at(re)
		product = math.Exp(y)
	default:
		product = colebrook(re, r.roughness) * re * re
	}
	return math.Copysign(r.scale*product, q)
}

// Slope is the derivative of Drop, in Pa per m3/s.
func (r Resistance) Slope(q float64) float64 {
	re := math.Abs(q) * r.reynolds
	if re <= laminarLimit {
		return r.scale * 64 * r.reynolds
	}
	var product, slope float64 // f Re^2 and d ln(f Re^2)/d ln Re
	if re < turbulentLimit {
		product, slope = newBridge(r.roughness).at(re)
		product = math.Exp(product)
	} else {
		f := colebrook(re, r.roughness)
		product, slope = f*re*re, 2+colebrookSlope(re, r.roughness, f)
	}
	return r.scale * product * slope / math.Abs(q)
}
