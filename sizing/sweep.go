package sizing

import (
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
// are left out. An error names what the filter lacks.
func SweepPleats(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) ([]PleatSweep, error) {
	a, err := sweepAir(altitude)
	if err != nil {
		return nil, err
	}
	if f.Width == 0 {
		f.Width, f.Height = 20*units.Inch, 20*units.Inch
	}
	var out []PleatSweep
	for _, depth := range depths {
		s := PleatSweep{Depth: depth}
		for n := fewestPleats; n <= mostPleats; n += sweepStep(n) {
			g := f
			g.Rating, g.Depth, g.PleatDepth, g.MediaArea, g.Pleats = nil, depth, 0, 0, n
			law, err := g.Law(f.Width, f.Height, a)
			if err != nil {
				break // the pleats touch from here on
			}
			s.Points = append(s.Points, PleatPoint{
				Pleats: n, Drop: law.Drop(face),
				MediaArea: units.Area(law.MediaAreaRatio * float64(f.Width) * float64(f.Height)),
			})
			if s.Points[s.Best].Drop > law.Drop(face) {
				s.Best = len(s.Points) - 1
			}
		}
		if len(s.Points) > 0 {
			out = append(out, s)
		}
	}
	return out, nil
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
