package study

import "returnbench/sizing/units"

// PleatStudy is the effect of more or fewer pleats, and of a deeper pack, with
// the media of one of the house's filters.
type PleatStudy struct {
	Filter string `json:"filter"`
	// MediaAssumed is true where the media is assumed from the filter's MERV,
	// because its make is not known.
	MediaAssumed bool                  `json:"media_assumed"`
	MERV         int                   `json:"merv,omitzero"`
	Resistance   units.MediaResistance `json:"media_resistance"` // Pa s/m, of the media: its drop over the velocity through it
	Width        units.Length          `json:"width"`            // nominal face swept
	Height       units.Length          `json:"height"`           // m, nominal, along the pleats
	FaceVelocity units.Speed           `json:"face_velocity"`    // m/s, at which the drops are
	Depths       []PleatSweep          `json:"depths"`
	// Own is the filter as it is made, in its own depth; nil where its pleats
	// are not known.
	Own      *PleatPoint  `json:"own,omitzero"`
	OwnDepth units.Length `json:"own_depth,omitzero"` // m, nominal
}

// PleatSweep is the drop and media of one depth of pack over pleat counts.
type PleatSweep struct {
	Depth  units.Length // m, nominal
	Points []PleatPoint
	// Best is the index of the least drop.
	Best int
}

// PleatPoint is one pleat count of a sweep.
type PleatPoint struct {
	Pleats    int
	Drop      units.Pressure // Pa, clean, at the study's face velocity
	MediaArea units.Area     // m2, of the pleats laid flat
}

// Add puts a point in the order of the counts and keeps Best on the least drop.
func (s *PleatSweep) Add(p PleatPoint) {
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

// Refine halves the gaps on both sides of the least drop until its neighbors
// are the next whole counts. The drop has one minimum: it falls with the media
// and rises as the gaps close.
func (s *PleatSweep) Refine(at func(pleats int) (PleatPoint, error)) error {
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
		s.Add(p)
	}
}
