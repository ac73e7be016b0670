package pleats

import (
	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// SweepAir is the air of a pleat sweep: 75 F and 50 % relative humidity at the
// altitude.
func SweepAir(altitude units.Length) (air.Properties, error) {
	s, err := air.New(altitude, units.Fahrenheit(75), 0.5)
	return s.Properties(), err
}

// SweepPleats calculates drop and media area over the pleat count at each
// depth, with the media of a filter known by its make (else typical of its
// MERV), in a face of its nominal size, at a face velocity, by filter.Pack.
// Counts that leave no open gap are left out. The count of the least drop is
// found exactly; the other counts are as dense as a curve needs. At its own
// nominal depth the filter keeps its own pleat depth, at other depths the usual
// one for that depth. The error names what is missing of the filter.
func SweepPleats(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) ([]study.PleatSweep, error) {
	a, err := SweepAir(altitude)
	if err != nil {
		return nil, err
	}
	if f.Width == 0 || f.Height == 0 {
		f.Width, f.Height = sweepFace, sweepFace
	}
	var out []study.PleatSweep
	for _, depth := range depths {
		g := f
		g.Rating, g.MediaArea = nil, 0
		if depth != f.Depth {
			g.Depth, g.PleatDepth = depth, 0
		}
		s, err := sweepDepth(g, face, a)
		if err != nil {
			return nil, err
		}
		if len(s.Points) > 0 {
			out = append(out, s)
		}
	}
	return out, nil
}

// sweepFace is the side of the square face of a filter without a size.
const sweepFace = 20 * units.Inch

// sweepDepth sweeps the filter's own depth.
func sweepDepth(f filter.Filter, face units.Speed, a air.Properties) (study.PleatSweep, error) {
	s := study.PleatSweep{Depth: f.Depth}
	for n := fewestPleats; n <= mostPleats; n += sweepStep(n) {
		p, err := sweepPoint(f, n, face, a)
		if err != nil {
			if len(s.Points) == 0 {
				return s, err
			}
			break // the pleats touch from here on
		}
		s.Add(p)
	}
	return s, s.Refine(func(n int) (study.PleatPoint, error) { return sweepPoint(f, n, face, a) })
}

func sweepPoint(f filter.Filter, n int, face units.Speed, a air.Properties) (study.PleatPoint, error) {
	f.Pleats = n
	drop, ratio, err := f.MadeDrop(f.Width, f.Height, face, a)
	return study.PleatPoint{Pleats: n, Drop: drop, MediaArea: units.Area(ratio * float64(f.Width) * float64(f.Height))}, err
}

const (
	fewestPleats = 6
	mostPleats   = 140
)

func sweepStep(n int) int {
	switch {
	case n < 30:
		return 3
	case n < 60:
		return 5
	}
	return 10
}
