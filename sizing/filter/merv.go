package filter

import (
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// sizeEdges are the edges of the twelve particle size ranges of ASHRAE 52.2, in
// micrometers. Ranges 1-4 average to E1, 5-8 to E2, 9-12 to E3.
var sizeEdges = [13]float64{0.30, 0.40, 0.55, 0.70, 1.00, 1.30, 1.60, 2.20, 3.00, 4.00, 5.50, 7.00, 10.0}

// SizeEdges are the edges of the twelve size ranges, micrometers.
func SizeEdges() [13]float64 { return sizeEdges }

// MeanSizes are the geometric means of the ranges' edges, micrometers.
func MeanSizes() (mean [12]float64) {
	for i := range mean {
		mean[i] = math.Sqrt(sizeEdges[i] * sizeEdges[i+1])
	}
	return mean
}

// mervRow is a row of ASHRAE 52.2-2017 table 12-1: least average efficiency by
// range, least average arrestance, least final resistance of the test.
type mervRow struct {
	e1, e2, e3, arrestance float64
	final                  units.Pressure
}

// Table 12-1 of ASHRAE 52.2-2017, read in secondary text (two sources agree).
// Before 2017 the rows differed: MERV 13 had no least E1.
var mervTable = [17]mervRow{
	1:  {final: 0.3 * units.InchWater},
	2:  {arrestance: 0.65, final: 0.3 * units.InchWater},
	3:  {arrestance: 0.70, final: 0.3 * units.InchWater},
	4:  {arrestance: 0.75, final: 0.3 * units.InchWater},
	5:  {e3: 0.20, final: 0.6 * units.InchWater},
	6:  {e3: 0.35, final: 0.6 * units.InchWater},
	7:  {e3: 0.50, final: 0.6 * units.InchWater},
	8:  {e2: 0.20, e3: 0.70, final: 0.6 * units.InchWater},
	9:  {e2: 0.35, e3: 0.75, final: 1.0 * units.InchWater},
	10: {e2: 0.50, e3: 0.80, final: 1.0 * units.InchWater},
	11: {e1: 0.20, e2: 0.65, e3: 0.85, final: 1.0 * units.InchWater},
	12: {e1: 0.35, e2: 0.80, e3: 0.90, final: 1.0 * units.InchWater},
	13: {e1: 0.50, e2: 0.85, e3: 0.90, final: 1.4 * units.InchWater},
	14: {e1: 0.75, e2: 0.90, e3: 0.95, final: 1.4 * units.InchWater},
	15: {e1: 0.85, e2: 0.90, e3: 0.95, final: 1.4 * units.InchWater},
	16: {e1: 0.95, e2: 0.95, e3: 0.95, final: 1.4 * units.InchWater},
}

// checkMERV refuses what is not on the scale of ASHRAE 52.2.
func checkMERV(merv int) error {
	switch {
	case merv >= 17 && merv <= 20:
		return &FieldError{"merv", merv, message.New("1 to 16: ASHRAE 52.2 has no row above 16 (older trade talk counts to 20); finer filters are rated by other standards")}
	case merv < 1 || merv > 16:
		return &FieldError{"merv", merv, message.New("1 to 16")}
	}
	return nil
}

// RangeMeans are the means of an efficiency curve, 0 to 1, over the ranges E1,
// E2 and E3 of ASHRAE 52.2.
func RangeMeans(eff [12]float64) (e1, e2, e3 float64) {
	mean := func(e []float64) float64 { return (e[0] + e[1] + e[2] + e[3]) / 4 }
	return mean(eff[0:4]), mean(eff[4:8]), mean(eff[8:12])
}

// classifyTolerance allows for the rounding of an average of four.
const classifyTolerance = 1e-9

// Classify is the highest MERV whose least efficiencies are all met, by table
// 12-1 of ASHRAE 52.2-2017. Efficiencies and arrestance are 0 to 1; arrestance
// counts only where E3 is under 20 %.
func Classify(e1, e2, e3, arrestance float64) int {
	reaches := func(got, least float64) bool { return got >= least-classifyTolerance }
	for merv := 16; merv >= 5; merv-- {
		r := mervTable[merv]
		if reaches(e1, r.e1) && reaches(e2, r.e2) && reaches(e3, r.e3) {
			return merv
		}
	}
	for merv := 4; merv > 1; merv-- {
		if reaches(arrestance, mervTable[merv].arrestance) {
			return merv
		}
	}
	return 1
}

// FinalResistance is the lowest final resistance, Pa inside, of the test of
// ASHRAE 52.2 (table 12-1, from secondary text) for MERV 1 to 16: how far a
// filter is loaded when it is rated, not when it should be changed.
func FinalResistance(merv int) (units.Pressure, error) {
	if err := checkMERV(merv); err != nil {
		return 0, err
	}
	return mervTable[merv].final, nil
}
