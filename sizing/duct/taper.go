package duct

import (
	"math"

	"returnbench/sizing/units"
)

// TaperSlope is how far each side of a taper runs along the air for
// one of its own offset. Common practice, no source: gentler loses less, steeper
// makes the air leave the wall.
const TaperSlope = 4

// Taper is the piece of duct that joins two rectangles on one center line.
type Taper struct {
	Length  units.Length // along the air, at the usual slope
	Fitting Fitting      // its loss, on the velocity in the smaller section
	Section units.Area   // the smaller of the two
}

// NewTaper joins a section to the next one downstream. Of sections alike it
// is nothing: length zero.
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

// Drop is the pressure that the taper takes of an airflow.
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
