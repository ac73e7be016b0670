package duct

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Huebscher is the diameter of the round duct with the same drop at the same
// airflow as a rectangular one of sides a and b, m inside:
//
//	De = 1.30 (a b)^0.625/(a + b)^0.25
//
// Source: R. G. Huebscher 1948, as in ASHRAE Handbook Fundamentals ch. 21.
// Range: aspect ratio up to about 8 (the printed tables); with Colebrook-White at the hydraulic
// diameter it agrees within 0.2 % in usual sizes. The powers are taken as square
// roots: (a b)^0.625 = sqrt(a b) (sqrt(a b))^0.25.
func Huebscher(a, b units.Length) units.Length {
	root := math.Sqrt(float64(a) * float64(b))
	return units.Length(1.30 * root * math.Sqrt(math.Sqrt(root/(float64(a)+float64(b)))))
}

// RectangleFor is the width that makes a rectangular duct of a given height
// equal to a round one by Huebscher. The equivalent diameter rises as a power
// of the width between 0.375 and 0.625, so Newton's method in logarithms
// converges from any start. A very low duct gives an aspect ratio far outside the
// range of Huebscher: compare with MaxAspectRatio.
func RectangleFor(round, height units.Length) (width units.Length, err error) {
	if !(round > 0 && height > 0) || math.IsInf(float64(round+height), 0) {
		return 0, message.Errorf("rectangle for a {round} round duct, {height} high: both must be above zero", "round", round, "height", height)
	}
	b := float64(height)
	a := float64(round)
	for range 100 {
		short := math.Log(float64(round) / float64(Huebscher(units.Length(a), height)))
		a *= math.Exp(short / (0.625 - 0.25*a/(a+b)))
		if math.Abs(short) < 1e-14 {
			break
		}
	}
	return units.Length(a), nil
}

// MaxAspectRatio is the longest side over the shortest up to which the printed
// tables of equivalent diameters run (common practice, no source).
const MaxAspectRatio = 8

// EquivalentLength is the length of straight round duct of usual metal, of the
// fitting's own section, with the same drop as all Count fittings: n zeta D/f, f the
// Darcy friction factor of that duct. branch is the section used where the fitting
// gives none. It is zero without airflow, and NaN where Drop is.
func (f Fitting) EquivalentLength(q units.Flow, branch units.Area, a air.Properties) units.Length {
	if q == 0 {
		return 0
	}
	straight := Run{Shape: Round, Diameter: units.Length(math.Sqrt(4 * float64(f.Section(branch)) / math.Pi)), Length: units.Metre}
	return units.Length(float64(f.Drop(q, branch, a)) / float64(straight.Drop(q, a)))
}
