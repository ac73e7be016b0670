package sampling

import (
	"math"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// BandReach is how many standard deviations hold the middle nine tenths of a
// normal distribution: its quantile at 0.95.
const BandReach = 1.6448536269514722

// FindBands moves the blower's curve in airflow and today's system curve in
// static by the uncertainty of the job's inputs, both lognormal as in Ranges.
func FindBands(h *house.House, s *study.Study) study.Bands {
	var b study.Bands
	d := h.Uncertainty.Deviations()
	b.Blower.Deviation = d.BlowerTable
	if s.BlowerAssumed {
		b.Blower.Deviation = d.Assumed
	}
	for _, t := range s.Blower.Taps {
		if t.Name == s.Blower.CoolingTap {
			spread(&b.Blower, t.Curve, func(p *study.CurvePoint, k float64) { p.Airflow *= units.Flow(k) })
		}
	}
	today := s.Today()
	b.System.Deviation = SystemDeviation(today.Clean.Parts, d)
	spread(&b.System, today.SystemClean, func(p *study.CurvePoint, k float64) { p.Static *= units.Pressure(k) })
	return b
}

func spread(b *study.Band, curve []study.CurvePoint, move func(*study.CurvePoint, float64)) {
	low, high := math.Exp(-BandReach*b.Deviation), math.Exp(BandReach*b.Deviation)
	b.Low, b.High = slices.Clone(curve), slices.Clone(curve)
	for i := range curve {
		move(&b.Low[i], low)
		move(&b.High[i], high)
	}
}

// SystemDeviation is the relative standard deviation of the sum of the parts'
// drops, each part with the uncertainty of its basis, independent of the
// others:
//
//	u = sqrt(sum (ui di)^2) / sum di
//
// Symbols: di drop of part i, Pa; ui its relative standard deviation. Source:
// ISO/IEC Guide 98-3 (GUM), 5.1.2, the law of propagation of uncertainty for
// uncorrelated inputs (clause from memory). A return of several parts counts as
// one, so that its band is no narrower than the samples of Ranges.
func SystemDeviation(parts []study.PartDrop, known job.Deviations) float64 {
	var sum, squares float64
	for _, p := range parts {
		if p.Internal {
			continue
		}
		d := float64(p.Drop)
		sum += d
		squares += square(of(known, p) * d)
	}
	if !(sum > 0) {
		return 0
	}
	return math.Sqrt(squares) / sum
}

// of is the relative standard deviation of a part's drop, by its basis.
func of(d job.Deviations, p study.PartDrop) float64 {
	switch {
	case p.Drop < 0:
		return 0 // the credit for parts in the blower table is fixed
	case p.Basis == "gauge":
		return d.Gauge
	case p.Basis == "assumed":
		return d.Assumed
	case p.Basis == "geometry" && p.Name != airpath.PartFilter, p.Name == airpath.PartSlotEntry:
		return d.Geometry
	}
	return d.Rating
}

func square(v float64) float64 { return v * v }
