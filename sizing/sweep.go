package sizing

import (
	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// PleatSweep is the drop and media of one depth of pack over pleat counts.
type PleatSweep struct {
	Depth  units.Length
	Points []PleatPoint
	// Best is the index of the least drop.
	Best int
}

// PleatPoint is one pleat count of a sweep.
type PleatPoint struct {
	Pleats    int
	Drop      units.Pressure
	MediaArea units.Area
}

// SweepPleats shows how drop and media area answer to the pleat count at each
// depth: the media of a filter known by its make (else typical of its MERV), in
// a face of its nominal size, at a face velocity. Counts that leave no open gap
// are left out. The least drop is sought to the whole pleat; the other counts
// are as close as a curve needs. At its own nominal depth the filter keeps its
// own pleat depth, at others it takes the usual one. An error names what the
// filter lacks.
func SweepPleats(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) ([]PleatSweep, error) {
	a, err := sweepAir(altitude)
	if err != nil {
		return nil, err
	}
	if f.Width == 0 || f.Height == 0 {
		f.Width, f.Height = sweepFace, sweepFace
	}
	var out []PleatSweep
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

// sweepFace is the side of the square face of a filter of no size.
const sweepFace = 20 * units.Inch

// sweepDepth sweeps the filter's own depth.
func sweepDepth(f filter.Filter, face units.Speed, a air.Properties) (PleatSweep, error) {
	s := PleatSweep{Depth: f.Depth}
	for n := fewestPleats; n <= mostPleats; n += sweepStep(n) {
		p, err := sweepPoint(f, n, face, a)
		if err != nil {
			if len(s.Points) == 0 {
				return s, err
			}
			break // the pleats touch from here on
		}
		s.add(p)
	}
	return s, s.refine(func(n int) (PleatPoint, error) { return sweepPoint(f, n, face, a) })
}

func sweepPoint(f filter.Filter, n int, face units.Speed, a air.Properties) (PleatPoint, error) {
	f.Pleats = n
	drop, ratio, err := f.MadeDrop(f.Width, f.Height, face, a)
	return PleatPoint{Pleats: n, Drop: drop, MediaArea: units.Area(ratio * float64(f.Width) * float64(f.Height))}, err
}

// add puts a point in the order of the counts and keeps Best on the least drop.
func (s *PleatSweep) add(p PleatPoint) {
	i := len(s.Points)
	for i > 0 && s.Points[i-1].Pleats > p.Pleats {
		i--
	}
	s.Points = append(s.Points, PleatPoint{})
	copy(s.Points[i+1:], s.Points[i:])
	s.Points[i] = p
	for i, q := range s.Points {
		if q.Drop < s.Points[s.Best].Drop {
			s.Best = i
		}
	}
}

// refine halves the gaps beside the least drop till its neighbours are the next
// whole counts. The drop has one minimum: it falls with the media and rises as
// the gaps close.
func (s *PleatSweep) refine(at func(pleats int) (PleatPoint, error)) error {
	for {
		n := 0
		best := s.Points[s.Best].Pleats
		if s.Best > 0 && best-s.Points[s.Best-1].Pleats > 1 {
			n = (best + s.Points[s.Best-1].Pleats) / 2
		} else if s.Best+1 < len(s.Points) && s.Points[s.Best+1].Pleats-best > 1 {
			n = (best + s.Points[s.Best+1].Pleats) / 2
		}
		if n == 0 {
			return nil
		}
		p, err := at(n)
		if err != nil {
			return err
		}
		s.add(p)
	}
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
