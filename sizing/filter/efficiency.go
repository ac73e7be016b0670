package filter

import (
	"fmt"
	"math"

	"returnbench/sizing/message"
)

// typicalRow is an invented efficiency at the middle of E1, E2 and E3, and an
// invented arrestance, for a filter of a MERV. Each lies between its own row of
// table 12-1 and the next.
type typicalRow struct{ e1, e2, e3, arrestance float64 }

var typical = [17]typicalRow{
	1:  {0.000, 0.010, 0.050, 0.60},
	2:  {0.000, 0.020, 0.080, 0.67},
	3:  {0.002, 0.030, 0.110, 0.72},
	4:  {0.005, 0.040, 0.150, 0.78},
	5:  {0.02, 0.07, 0.27, 0.82},
	6:  {0.03, 0.10, 0.42, 0.86},
	7:  {0.04, 0.14, 0.60, 0.89},
	8:  {0.06, 0.26, 0.77, 0.92},
	9:  {0.09, 0.41, 0.83, 0.94},
	10: {0.13, 0.56, 0.87, 0.95},
	11: {0.26, 0.71, 0.90, 0.96},
	12: {0.41, 0.83, 0.94, 0.97},
	13: {0.58, 0.88, 0.95, 0.98},
	14: {0.79, 0.935, 0.97, 0.985},
	15: {0.89, 0.945, 0.975, 0.99},
	16: {0.965, 0.975, 0.985, 0.99},
}

// TypicalEfficiency is an invented efficiency by the twelve size ranges for a
// MERV of 1 to 16: -ln(1 - E) is linear in the logarithm of size between the
// middles of the three ranges and constant beyond the outer two. It classifies
// back to its own MERV. Not from any maker; a printed curve replaces it.
func TypicalEfficiency(merv int) ([12]float64, error) {
	var eff [12]float64
	if err := checkMERV(merv); err != nil {
		return eff, err
	}
	row := typical[merv]
	depth := [3]float64{-math.Log1p(-row.e1), -math.Log1p(-row.e2), -math.Log1p(-row.e3)}
	for i, size := range MeanSizes() {
		eff[i] = -math.Expm1(-between(math.Log(size), depth))
	}
	return eff, nil
}

// between reads three values held at the geometric middles of the three ranges.
func between(logSize float64, value [3]float64) float64 {
	var middle [3]float64
	for k := range middle {
		middle[k] = math.Log(sizeEdges[4*k]*sizeEdges[4*k+4]) / 2
	}
	k := 0
	if logSize > middle[1] {
		k = 1
	}
	share := (logSize - middle[k]) / (middle[k+1] - middle[k])
	share = min(max(share, 0), 1)
	return value[k] + share*(value[k+1]-value[k])
}

// TypicalArrestance is an invented share of dust caught by weight for a MERV:
// house dust is mostly of the coarser sizes.
func TypicalArrestance(merv int) (float64, error) {
	if err := checkMERV(merv); err != nil {
		return 0, err
	}
	return typical[merv].arrestance, nil
}

// EfficiencyCurve is the filter's efficiency by size: as printed, else typical
// of its MERV (then assumed).
func (f Filter) EfficiencyCurve() (eff [12]float64, assumed bool, err error) {
	switch n := len(f.Efficiency); {
	case n == 0:
		eff, err = TypicalEfficiency(f.MERV)
		return eff, true, err
	case n != len(eff):
		return eff, false, &FieldError{"efficiency", message.New("{count} numbers", "count", n), message.New("12, one a size range of ASHRAE 52.2, or none")}
	}
	for i, e := range f.Efficiency {
		if !(e >= 0 && e <= 1) {
			return eff, false, &FieldError{fmt.Sprintf("efficiency[%d]", i), e, message.New("a share from 0 to 1")}
		}
		eff[i] = e
	}
	return eff, false, nil
}

// Rated is the filter's MERV: as printed, else as its efficiency classifies.
func (f Filter) Rated() (int, error) {
	if f.MERV != 0 {
		return f.MERV, checkMERV(f.MERV)
	}
	eff, _, err := f.EfficiencyCurve()
	if err != nil {
		return 0, err
	}
	e1, e2, e3 := RangeMeans(eff)
	return Classify(e1, e2, e3, 1), nil
}

// DustCaught is the share of dust by weight that the filter holds back, 0 to 1,
// by its MERV: an estimate for the dust loading (TypicalArrestance). The error
// is that of Rated.
func (f Filter) DustCaught() (float64, error) {
	merv, err := f.Rated()
	if err != nil {
		return 0, err
	}
	return TypicalArrestance(merv)
}
