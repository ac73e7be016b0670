package duct

import (
	"math"

	"returnbench/sizing/units"
)

// TaperSlope is the length of a taper along the air over the offset of each
// side. Common practice, no source: a longer taper drops less, in a shorter one
// the flow separates from the wall.
const TaperSlope = 4

// Taper is the piece of duct that joins two rectangles on one center line.
type Taper struct {
	Length  units.Length // along the air, at the usual slope
	Fitting Fitting      // its loss, on the velocity in the smaller section
	Section units.Area   // the smaller of the two
}

// NewTaper joins a section to the next one downstream. Between equal sections
// its length is zero.
func NewTaper(fromWidth, fromHeight, toWidth, toHeight units.Length) Taper {
	offset := max(math.Abs(float64(toWidth-fromWidth)), math.Abs(float64(toHeight-fromHeight))) / 2
	from, to := float64(fromWidth)*float64(fromHeight), float64(toWidth)*float64(toHeight)
	t := Taper{Length: units.Length(TaperSlope * offset), Section: units.Area(min(from, to))}
	if offset == 0 {
		return t
	}
	t.Fitting = Fitting{Kind: GradualContraction, Angle: 2 * math.Atan(1.0/TaperSlope) * 180 / math.Pi, AreaRatio: min(from, to) / max(from, to)}
	if to > from {
		t.Fitting.Kind = GradualExpansion
	}
	return t
}

// Drop is the total-pressure drop of the taper at an airflow, its loss
// coefficient on the velocity in the smaller section; zero at a length of zero.
// The error is that of Fitting.Loss.
func (t Taper) Drop(q units.Flow, density units.Density) (units.Pressure, error) {
	if t.Length == 0 {
		return 0, nil
	}
	zeta, _, err := t.Fitting.LossCoefficient()
	if err != nil {
		return 0, err
	}
	v := q.SI() / t.Section.SI()
	return units.Pressure(zeta * density.SI() * v * v / 2), nil
}
