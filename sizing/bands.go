package sizing

import (
	"math"

	"returnbench/sizing/units"
)

// Band is a curve moved to either end of what is known of it. Between the two
// lie nine tenths of the curves that what went in allows.
type Band struct {
	// Deviation is the relative standard deviation: of the airflow of a blower's
	// curve, of the static of a system's.
	Deviation float64      `json:"deviation"`
	Low       []CurvePoint `json:"low,omitempty"`
	High      []CurvePoint `json:"high,omitempty"`
}

// Bands are how well the two curves that meet at the operating point are known.
type Bands struct {
	Blower Band `json:"blower"` // of the cooling tap
	System Band `json:"system"` // of today's house, filter clean
}

// bandReach is how many standard deviations hold the middle nine tenths of a
// normal distribution: its quantile at 0.95.
const bandReach = 1.6448536269514722

// bands moves the blower's curve along the airflow and today's system curve
// along the static by what the job says of its uncertainty, both lognormal as
// in Ranges.
func (h *house) bands(s *Study) Bands {
	var b Bands
	d := h.Uncertainty.Deviations()
	b.Blower.Deviation = d.BlowerTable
	if s.BlowerAssumed {
		b.Blower.Deviation = d.Assumed
	}
	for _, t := range s.Blower.Taps {
		if t.Name == s.Blower.CoolingTap {
			b.Blower.spread(t.Curve, func(p *CurvePoint, k float64) { p.Airflow *= units.Flow(k) })
		}
	}
	today := s.Today()
	b.System.Deviation = systemDeviation(today.Clean.Parts, d)
	b.System.spread(today.SystemClean, func(p *CurvePoint, k float64) { p.Static *= units.Pressure(k) })
	return b
}

func (b *Band) spread(curve []CurvePoint, move func(*CurvePoint, float64)) {
	low, high := math.Exp(-bandReach*b.Deviation), math.Exp(bandReach*b.Deviation)
	for _, p := range curve {
		l, h := p, p
		move(&l, low)
		move(&h, high)
		b.Low, b.High = append(b.Low, l), append(b.High, h)
	}
}

// systemDeviation is the relative standard deviation of the sum of the parts'
// drops, each part with the uncertainty of what it rests on and apart from the
// others:
//
//	u = sqrt(sum (ui di)^2) / sum di
//
// Symbols: di drop of part i, Pa; ui its relative standard deviation. Source:
// ISO/IEC Guide 98-3 (GUM), 5.1.2, the law of propagation of uncertainty for
// uncorrelated inputs (clause from memory). A return of several parts counts as
// one, so that its band is no narrower than the samples of Ranges.
func systemDeviation(parts []PartDrop, known Deviations) float64 {
	var sum, squares float64
	for _, p := range parts {
		if p.Internal {
			continue
		}
		d := float64(p.Drop)
		sum += d
		squares += square(known.of(p) * d)
	}
	if !(sum > 0) {
		return 0
	}
	return math.Sqrt(squares) / sum
}

// of is how well a part's drop is known.
func (d Deviations) of(p PartDrop) float64 {
	switch {
	case p.Drop < 0:
		return 0 // what the blower table already holds is a fixed credit
	case p.Basis == "gauge":
		return d.Gauge
	case p.Basis == "assumed":
		return d.Assumed
	case p.Basis == "geometry" && p.Name != "filter", p.Name == "slot entry":
		return d.Geometry
	}
	return d.Rating
}

func square(v float64) float64 { return v * v }
