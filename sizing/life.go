package sizing

import (
	"fmt"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// FilterPlace is one spot that holds a filter, and what becomes of it.
type FilterPlace struct {
	Kind   string       `json:"kind"`            // InGrille, InSlot or InCabinet
	Return string       `json:"return,omitzero"` // of a grille: the branch's name
	Filter string       `json:"filter"`
	Width  units.Length `json:"width"` // nominal
	Height units.Length `json:"height"`
	Depth  units.Length `json:"depth"`
	Count  int          `json:"count"` // filters side by side

	FaceArea         units.Area `json:"face_area"`
	MediaArea        units.Area `json:"media_area"`
	MediaAreaAssumed bool       `json:"media_area_assumed,omitzero"`
	AirShare         float64    `json:"air_share"`            // of all return air, clean
	LeakFraction     float64    `json:"leak_fraction"`        // of the air through this place, clean
	LoadedLeak       float64    `json:"loaded_leak"`          // the same at its change
	LeavesSeat       bool       `json:"leaves_seat,omitzero"` // the frame buckles out before its change

	Life            units.Duration `json:"life"` // calendar time to its change
	Ends            LifeEnd        `json:"ends"`
	Dust            units.Mass     `json:"dust"` // held at its change
	Capacity        units.Mass     `json:"capacity"`
	CapacityAssumed bool           `json:"capacity_assumed,omitzero"`
	ChangeDrop      units.Pressure `json:"change_drop,omitzero"` // zero: none
	PerYear         float64        `json:"per_year"`             // filters
	Price           units.Money    `json:"price"`                // of one
}

// Size is the place's nominal size.
func (p *FilterPlace) Size(sys units.System) stock.Size {
	return stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: sys}
}

// describe fills in what the filters of an arrangement are: where they sit,
// how much media they hold, what they catch.
func (h *house) describe(a *arrangement, r *OptionResult) {
	if len(a.places) == 0 {
		return
	}
	first := a.places[0]
	face, media := a.areas()
	r.Place, r.Filter, r.LawSource = h.placeName(a), first.filter.Name, first.law.Source
	r.FaceArea, r.MediaArea = units.Area(face), units.Area(media)
	if first.law.Pack != nil {
		r.Pleats, r.pack = first.law.Pack.Pleats, first.law.Pack
	}
	for k := range a.places {
		r.Places = append(r.Places, h.filterPlace(a, k))
	}
	r.filterDepth = first.filter.Depth
	r.LeakFraction, r.FramePush, r.FrameBow = r.Clean.LeakFraction, r.Clean.FramePush, r.Clean.FrameBow
	r.Efficiency = a.efficiency()
	for i := 1; i <= curvePoints; i++ {
		v := 2 * h.TargetFaceVelocity * units.Speed(i) / curvePoints
		r.FilterCurve = append(r.FilterCurve, FaceDrop{v, first.law.Drop(v)})
	}
}

// filterPlace tells a place with its filter clean.
func (h *house) filterPlace(a *arrangement, k int) FilterPlace {
	p := &a.places[k]
	face := units.Area(p.face())
	out := FilterPlace{
		Kind: InGrille, Filter: p.filter.Name, Width: p.width, Height: p.height, Depth: p.filter.Depth, Count: 1,
		FaceArea: face, MediaArea: face * units.Area(p.law.MediaAreaRatio), MediaAreaAssumed: p.law.AreaAssumed,
		AirShare: a.shares[k], LeakFraction: a.leaks[k], LeavesSeat: p.seat.Left,
		Capacity: p.loading.Holds(face), CapacityAssumed: p.loading.Assumed, ChangeDrop: h.changeDrop(p),
		Price: h.filterPrice(p.filter),
	}
	if out.Depth == 0 {
		out.Depth = units.Inch
	}
	if p.branch >= 0 {
		out.Return = branchName(a.returns[p.branch], p.branch)
		return out
	}
	out.Kind, out.Depth = InSlot, a.slot.Depth
	if out.Depth > thickest {
		out.Kind = InCabinet
	}
	return out
}
func (h *house) placeName(a *arrangement) string {
	if p := a.central(); p != nil {
		return "slot " + stock.Size{Width: p.width, Height: p.height, Depth: a.slot.Depth, System: h.sizeSystem()}.String()
	}
	p := a.places[0]
	if n := len(a.places); n > 1 {
		return fmt.Sprintf("%d grilles, first %s", n, stock.Size{Width: p.width, Height: p.height, Depth: p.filter.Depth, System: h.sizeSystem()}.String())
	}
	return "grille " + stock.Size{Width: p.width, Height: p.height, Depth: p.filter.Depth, System: h.sizeSystem()}.String()
}

func (h *house) filterPrice(f filter.Filter) units.Money {
	if f.Price > 0 {
		return f.Price
	}
	depth := f.Depth
	if depth == 0 {
		depth = units.Inch
	}
	return units.Money(depth.In(units.Inch)) * filterPricePerInch
}

// efficiency is that of the first place's filter, and of all return air past
// every filter and gap.
func (a *arrangement) efficiency() Efficiency {
	e := Efficiency{}
	curves := make([][12]float64, len(a.places))
	arrestance := make([]float64, len(a.places))
	best := 0
	for k := range a.places {
		f := a.places[k].filter
		curve, assumedCurve, err := f.EfficiencyCurve()
		if err != nil {
			return Efficiency{}
		}
		merv, err := f.Rated()
		if err != nil {
			return Efficiency{}
		}
		curves[k], best = curve, max(best, merv)
		arrestance[k], _ = filter.TypicalArrestance(merv)
		if k == 0 {
			e = Efficiency{BySize: curve, Assumed: assumedCurve, MERV: merv}
			e.E1, e.E2, e.E3 = filter.RangeMeans(curve)
		}
	}
	all := func(of func(k int) float64) float64 {
		return 1 - a.past(a.point, func(k int) float64 { return 1 - (1-a.leaks[k])*of(k) }, true)
	}
	for i := range e.Installed {
		e.Installed[i] = all(func(k int) float64 { return curves[k][i] })
	}
	e1, e2, e3 := filter.RangeMeans(e.Installed)
	e.InstalledMERV = filter.Classify(e1, e2, e3, all(func(k int) float64 { return arrestance[k] }))
	if len(a.places) == 1 {
		e.InstalledMERV = min(e.MERV, e.InstalledMERV)
	}
	return e
}

// live loads the filters with the house's dust, each until its own change, and
// leaves them as they are at the first.
func (h *house) live(a *arrangement, sys airpath.System, r *OptionResult) error {
	if len(a.places) == 0 {
		return nil
	}
	m, err := h.newMarch(a, sys)
	if err != nil {
		return err
	}
	if err := m.run(lifeSteps); err != nil {
		return err
	}
	r.LifeCurve = m.points
	for k := range r.Places {
		p, l := &r.Places[k], m.lives[k]
		p.Life, p.Ends, p.Dust, p.LoadedLeak = l.time, l.end, l.dust, l.leak
		p.LeavesSeat = p.LeavesSeat || m.everLeft[k]
		if k == 0 || p.Life < r.Life {
			r.Life, r.LifeEnds = p.Life, p.Ends.String()
		}
		if p.Life > 0 {
			p.PerYear = float64(p.Count) * float64(units.Year) / float64(p.Life)
		}
	}
	return h.soil(a, m.first.dust, m.first.left)
}

// settle meets the blower with each frame in its seat, or out of it where its
// push draws it out.
func (h *house) settle(a *arrangement, sys airpath.System, p airpath.Point) (airpath.Point, error) {
	for range a.places {
		loose := false
		for k := range a.places {
			place := &a.places[k]
			if !place.seat.Left && place.seated.At(units.Flow(a.flowAt(k, p))).Seat > 1 {
				if err := place.sit(true, h.air); err != nil {
					return p, h.filterFault(place.filter, err)
				}
				loose = true
			}
		}
		if !loose {
			break
		}
		var err error
		if p, err = h.meet(sys, a.tap, h.offset); err != nil {
			return p, err
		}
	}
	return p, nil
}

// frames tells the push on the filters, how they bow, and what slips round them.
func (h *house) frames(a *arrangement, p airpath.Point, c *Condition) {
	a.point, a.leaks, a.shares = p, make([]float64, len(a.places)), make([]float64, len(a.places))
	for k := range a.places {
		held := a.places[k].seated.At(units.Flow(a.flowAt(k, p)))
		a.leaks[k], a.shares[k] = held.Share, a.flowAt(k, p)/p.Flow
		c.LeftSeat = c.LeftSeat || held.Left
		if held.Push > c.FramePush {
			c.FramePush, c.FrameBow = held.Push, held.Bow
		}
	}
	if len(a.places) > 0 {
		c.LeakFraction = max(0, a.past(p, func(k int) float64 { return a.leaks[k] }, true))
	}
}

// usualEdgeCover is how far a filter track overlaps the frame where nobody
// said: common practice, no source.
const usualEdgeCover = 0.5 * units.Inch

func (h *house) edgeCover(s Slot) units.Length {
	if s.EdgeCover > 0 {
		return s.EdgeCover
	}
	return usualEdgeCover
}

// changeDrop is the drop at which a filter is changed: its own final drop, or
// the one that the job sets, whichever is less; zero: none.
func (h *house) changeDrop(p *place) units.Pressure {
	own, set := p.filter.FinalDrop, h.Limits.ChangeDrop
	if own == 0 || set > 0 && set < own {
		return set
	}
	return own
}

// runShare is the share of the year that the blower runs.
func (h *house) runShare() float64 {
	return float64(h.Site.CoolingHours+h.Site.HeatingHours+h.Site.FanHours) / float64(units.Year)
}

// judgeSeat says where a frame buckles out of its seat.
func (h *house) judgeSeat(o *OptionResult) *Finding {
	const source = "draw-in (4/3) w^2/L of a bowed plate's edges; the bow is an estimate by bracing"
	switch {
	case o.Clean.LeftSeat:
		return finding(Caution, "frame_leaves_seat", source,
			"The filter bows %v under a push of %v, and its frame can buckle out of its seat: a braced filter, or more cover of the edge.", o.Clean.FrameBow, o.Clean.FramePush)
	case o.Loaded.LeftSeat:
		return finding(Caution, "frame_leaves_seat", source,
			"Before it is changed the filter bows %v under a push of %v, and its frame can buckle out of its seat: a braced filter, more cover of the edge, or an earlier change.",
			o.Loaded.FrameBow, o.Loaded.FramePush)
	}
	return nil
}

// noteFilters says what is assumed of the filters in use.
func (h *house) noteFilters() {
	used := map[string]bool{h.Slot.Filter: true}
	names := func(returns []Return) {
		for _, r := range returns {
			used[r.Filter] = true
		}
	}
	names(h.Returns)
	for _, o := range h.Options {
		used[o.Filter], used[o.Slot.Filter] = true, true
		names(o.Returns)
	}
	for i, f := range h.Filters {
		if !used[f.Name] {
			continue
		}
		at := func(field string) string {
			if f.Name == GenericFilterName {
				return "slot.filter"
			}
			return fmt.Sprintf("filters[%d].%s", i, field)
		}
		for key, law := range h.laws {
			if key.name == f.Name && law.AreaAssumed {
				h.note(at("media_area"), "invented ratio by depth", "%s: media %.1f times the face, by its depth", f.Name, law.MediaAreaRatio)
				break
			}
		}
		if f.DustCapacity == 0 {
			h.note(at("dust_capacity"), "invented estimate", "%s: it holds %.0f g of dust per square metre of media", f.Name, 1000*filter.GenericCapacity)
		}
		if f.Price == 0 {
			h.value(at("price"), commonPractice, h.filterPrice(f), "%s: a price of %v by its depth", f.Name, h.filterPrice(f))
		}
	}
}
