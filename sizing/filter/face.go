package filter

import (
	"math"

	"returnbench/sizing/units"
)

// WithFace is the same make in another nominal face: its media area, the dust that it
// holds and the airflows of its rating follow the area of the face, its pleats the
// width. A filter without a size just takes the one given.
func (f Filter) WithFace(width, height units.Length) Filter {
	before := f.Width.SI() * f.Height.SI()
	if width <= 0 || height <= 0 {
		return f
	}
	if before > 0 {
		share := width.SI() * height.SI() / before
		f.MediaArea *= units.Area(share)
		f.DustCapacity *= units.Mass(share)
		f.Pleats = int(math.Round(float64(f.Pleats) * width.SI() / f.Width.SI()))
		rating := make([]RatingPoint, len(f.Rating))
		for i, p := range f.Rating {
			p.Airflow *= units.Flow(share)
			rating[i] = p
		}
		f.Rating = rating
	}
	f.Width, f.Height, f.ActualWidth, f.ActualHeight = width, height, 0, 0
	return f
}
