package pleats

import (
	"fmt"
	"math"
	"slices"
	"sync"

	lru "github.com/hashicorp/golang-lru/v2"

	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// ErrNoMedia says that nothing is known of the media of any filter.
var ErrNoMedia = message.Errorf("no filter of the house has pleats, media or a MERV to sweep")

// Of sweeps the filter of an option.
func (p *Studies) Of(s *study.Study, option string, h *house.House) (*study.PleatStudy, error) {
	f, ok := sweptFilter(s, option, h)
	if !ok {
		return nil, ErrNoMedia
	}
	return p.study(f, s, sweptDepths(f.Depth, h))
}

// sweptFilter picks the filter to sweep.
func sweptFilter(s *study.Study, option string, h *house.House) (filter.Filter, bool) {
	var typical filter.Filter
	found := false
	order := []*study.OptionResult{s.Option(option)}
	for i := range s.Options {
		order = append(order, &s.Options[i])
	}
	for _, o := range order {
		if o == nil || o.Filter == "" {
			continue
		}
		f, ok := h.Filter(o.Filter)
		switch {
		case !ok:
		case isMade(f):
			return f, true
		case !found && f.MERV > 0:
			typical, found = f, true
		}
	}
	return typical, found
}

// isMade reports whether a filter's media is known, so that its pleats can be
// varied.
func isMade(f filter.Filter) bool { return f.MediaResistance > 0 || f.MediaPermeability > 0 }

// Studies are the sweeps already worked out, by filter, velocity and
// altitude. Those of a Solver serve study after study.
type Studies struct {
	mu   sync.Mutex
	kept *lru.Cache[string, *study.PleatStudy]
}

// keptSweeps are a house's worth of filters, edited a few times.
const keptSweeps = 32

func (p *Studies) study(f filter.Filter, s *study.Study, depths []units.Length) (*study.PleatStudy, error) {
	key := fmt.Sprint(f, float64(s.TargetFaceVelocity), float64(s.Air.Altitude), depths)
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.kept == nil {
		cache, err := lru.New[string, *study.PleatStudy](keptSweeps)
		if err != nil {
			panic(err) // the size is a constant above zero
		}
		p.kept = cache
	}
	if made, ok := p.kept.Get(key); ok {
		return made, nil
	}
	made, err := newStudy(f, s.TargetFaceVelocity, s.Air.Altitude, depths)
	if err != nil {
		return nil, err
	}
	p.kept.Add(key, made)
	return made, nil
}

func newStudy(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) (*study.PleatStudy, error) {
	if f.Width == 0 || f.Height == 0 {
		f.Width, f.Height = sweepFace, sweepFace
	}
	made := &study.PleatStudy{Filter: f.Name, MediaAssumed: !isMade(f), MERV: f.MERV, Width: f.Width, Height: f.Height, FaceVelocity: face}
	var err error
	if made.Resistance, err = mediaResistance(f); err != nil {
		return nil, err
	}
	if made.Depths, err = SweepPleats(f, face, altitude, depths); err != nil {
		return nil, err
	}
	if f.Pleats > 0 && f.Depth > 0 && !made.MediaAssumed {
		a, err := SweepAir(altitude)
		if err != nil {
			return nil, err
		}
		p, err := sweepPoint(f, f.Pleats, face, a)
		if err != nil {
			return nil, err
		}
		made.Own, made.OwnDepth = &p, f.Depth
	}
	return made, nil
}

func mediaResistance(f filter.Filter) (units.MediaResistance, error) {
	switch {
	case f.MediaResistance > 0:
		return f.MediaResistance, nil
	case f.MediaPermeability > 0:
		return filter.ResistanceFromPermeability(f.MediaPermeability), nil
	}
	return filter.TypicalMediaResistance(f.MERV)
}

// deepestSwept excludes the bag filters of commercial systems.
const deepestSwept = 6 * units.Inch

// sweptDepths are the nominal depths of filters for houses, the filter's own and those
// that the job's supplier has.
func sweptDepths(own units.Length, h *house.House) []units.Length {
	var out []units.Length
	if own > 0 {
		out = append(out, own)
	}
	add := func(s stock.Size, apart float64) {
		near := func(d units.Length) bool { return math.Abs(float64(d-s.Depth)) < apart*float64(s.Depth) }
		if s.System == h.SizeSystem() && s.Depth > 0 && s.Depth <= deepestSwept && !slices.ContainsFunc(out, near) {
			out = append(out, s.Depth)
		}
	}
	for _, s := range stock.Filters() {
		add(s, listedApart)
	}
	for _, s := range h.StockSizes {
		add(s.Nominal(), stockApart)
	}
	slices.Sort(out)
	return out
}

// Depths nearer to each other than these shares of one are swept once. What a supplier
// has was named on purpose.
const (
	listedApart = 0.2
	stockApart  = 0.05
)
