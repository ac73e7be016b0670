package house

import (
	"returnbench/sizing/air"
	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// place is a filter place: the slot, or one grille.
type place struct {
	branch        int // -1: the central slot
	Filter        filter.Filter
	width, height units.Length // of one filter
	count         int          // filters of that size; zero is one
	Law           filter.Law
	loading       filter.Loading
	caught        float64      // share of the dust in its air
	curve         filter.Curve // in its present state, without the gap
	seat          filter.Seat
	seated        filter.Seated // the present state in its seat
}

// frames is how many filters the place holds.
func (p *place) frames() int { return max(p.count, 1) }

// frame is the nominal face of one filter, m2.
func (p *place) frame() float64 { return float64(p.width) * float64(p.height) }

// face is that of all filters of the place, m2.
func (p *place) face() float64 { return float64(p.frames()) * p.frame() }

// drop is the filter's drop at flow q, with media and gap in parallel and the bow
// that this drop causes.
func (p *place) drop(q float64) float64 {
	return float64(p.seated.Drop(units.Flow(q / float64(p.frames()))))
}

// frameAt is the state of one frame where all filters of the place carry a flow.
func (p *place) frameAt(q float64) filter.SeatedState {
	return p.seated.At(units.Flow(q / float64(p.frames())))
}

// SetCurve replaces the drop curve of the filter, for another state of it.
func (p *place) SetCurve(c filter.Curve) {
	p.curve, p.seated = c, p.seated.With(c)
}

// setSeat puts the frame into its seat, or out of it.
func (p *place) setSeat(left bool, a air.Properties) (err error) {
	p.seat.Left = left
	p.seated, err = p.Filter.Seat(p.curve, p.width, p.height, p.seat, a)
	return err
}

// fillPlace puts a filter into a slot, or behind a grille, where its frame is assumed
// sealed. p is where the place stands: it is large, and the search fills thousands.
func (h *House) fillPlace(p *place, branch int, name string, s job.Slot) (err error) {
	*p = place{branch: branch, width: s.Width, height: s.Height}
	f := &p.Filter
	var ok bool
	if *f, ok = h.Filter(name); !ok {
		*f = filter.Filter{Name: name, Depth: s.Depth, MERV: 8}
	}
	if s.Depth > 0 && (f.Depth == 0 || name == assume.GenericFilterName) {
		f.Depth = s.Depth
	}
	if p.Law, err = h.law(*f, s.Width, s.Height); err != nil {
		return h.filterFault(*f, err)
	}
	if branch < 0 && h.setByGauge(*f) {
		p.Law = p.Law.Scale(h.Gauge.FilterScale)
		p.Law.Source = "gauge"
	}
	p.curve = p.Law.Curve
	path := s.Depth
	if path == 0 {
		path = f.Depth
	}
	p.seat = filter.Seat{Crack: filter.FrameCrack(p.width, p.height, path, s.Gap, s.GapBends), Cover: h.edgeCover(s)}
	if p.loading, err = f.Loading(p.Law); err == nil {
		p.caught, err = f.DustCaught()
	}
	if err == nil {
		err = p.setSeat(false, h.Air)
	}
	if err != nil {
		return h.filterFault(*f, err)
	}
	return nil
}

func (h *House) edgeCover(s job.Slot) units.Length {
	if s.EdgeCover > 0 {
		return s.EdgeCover
	}
	return assume.UsualEdgeCover
}
