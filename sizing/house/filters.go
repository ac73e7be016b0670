package house

import (
	"fmt"
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// DescribeFilters fills in what the filters of an arrangement are: where they sit,
// how much media they hold, what they catch.
func (h *House) DescribeFilters(a *Arrangement, r *study.OptionResult) {
	if len(a.Places) == 0 {
		return
	}
	first := a.Places[0]
	face, media := a.Areas()
	for k := range a.Places {
		r.Places = append(r.Places, h.filterPlace(a, k))
	}
	r.Place, r.Filter, r.LawSource = h.placeName(r.Places), first.Filter.Name, first.Law.Source
	r.FaceArea, r.MediaArea = units.Area(face), units.Area(media)
	if first.Law.Pack != nil {
		r.Pleats, r.Pack = first.Law.Pack.Pleats, first.Law.Pack
		if own := first.Filter.Width; own > 0 {
			r.Pleats = int(math.Round(float64(r.Pleats) * float64(first.width/own)))
		}
	}
	r.FilterDepth = r.Places[0].Depth
	if c := a.Central(); c != nil && !a.Slot.AtGrilles {
		box := Assembly(&h.CompleteJob.Job, a.Slot)
		r.Assembly = &box
	}
	r.DesignDrop = h.DesignDrop(first.Law, r.FaceArea, r.Clean.Airflow, r.Clean.FilterDrop)
	r.LeakFraction, r.FramePush, r.FrameBow = r.Clean.LeakFraction, r.Clean.FramePush, r.Clean.FrameBow
	r.Efficiency = a.efficiency()
	for i := 1; i <= curvePoints; i++ {
		v := 2 * h.TargetFaceVelocity * units.Speed(i) / curvePoints
		r.FilterCurve = append(r.FilterCurve, study.FaceDrop{FaceVelocity: v, Drop: first.Law.Drop(v)})
	}
}

// placeName says where filters sit and how large, for reading alone: the places
// themselves are data.
func (h *House) placeName(places []study.FilterPlace) string {
	p := places[len(places)-1] // the place before the blower is the last
	size := stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.SizeSystem()}
	switch n := len(places); {
	case p.Count > 1:
		return fmt.Sprintf("%s %d x %s", p.Where, p.Count, size)
	case p.Branch >= 0 && n > 1:
		p = places[0]
		return fmt.Sprintf("%d grilles, first %s", n, stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.SizeSystem()})
	}
	return fmt.Sprintf("%s %s", p.Where, size)
}

func (h *House) filterPrice(f filter.Filter) units.Money {
	if f.Price > 0 {
		return f.Price
	}
	depth := f.Depth
	if depth == 0 {
		depth = units.Inch
	}
	return units.Money(depth.In(units.Inch)) * filterPricePerInch
}

// DesignDrop is what clean filters drop at the design airflow over a face. Filters
// that share the air unevenly drop more than one that carries the mean: where the
// house moves less than the design airflow, they drop at least what they do now.
func (h *House) DesignDrop(law filter.Law, face units.Area, airflow units.Flow, drop units.Pressure) units.Pressure {
	design := law.Drop(units.Speed(float64(h.DesignAirflow) / float64(face)))
	if airflow <= h.DesignAirflow {
		design = max(design, drop)
	}
	return design
}

// efficiency is that of the first place's filter, and of all return air past
// every filter and gap.
func (a *Arrangement) efficiency() study.Efficiency {
	e := study.Efficiency{}
	curves := make([][12]float64, len(a.Places))
	arrestance := make([]float64, len(a.Places))
	best := 0
	for k := range a.Places {
		f := a.Places[k].Filter
		curve, assumedCurve, err := f.EfficiencyCurve()
		if err != nil {
			return study.Efficiency{}
		}
		merv, err := f.Rated()
		if err != nil {
			return study.Efficiency{}
		}
		curves[k], best = curve, max(best, merv)
		arrestance[k], _ = filter.TypicalArrestance(merv)
		if k == 0 {
			e = study.Efficiency{BySize: curve, Assumed: assumedCurve, MERV: merv}
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
	if len(a.Places) == 1 {
		e.InstalledMERV = min(e.MERV, e.InstalledMERV)
	}
	return e
}

// LoadToChange loads the filters with the house's dust, each until its own change, and
// leaves them as they are at the first.
func (h *House) LoadToChange(a *Arrangement, sys airpath.System, r *study.OptionResult) error {
	if len(a.Places) == 0 {
		return nil
	}
	m, err := h.NewMarch(a, sys)
	if err != nil {
		return err
	}
	if err := m.Run(LifeSteps); err != nil {
		return err
	}
	r.LifeCurve = m.Points
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
	return h.applyDust(a, m.First.dust, m.First.left)
}

// seatFilters meets the blower with each frame in its seat, or out of it where its
// push draws it out.
func (h *House) seatFilters(a *Arrangement, sys airpath.System, p airpath.Point) (airpath.Point, error) {
	for range a.Places {
		loose := false
		for k := range a.Places {
			place := &a.Places[k]
			if !place.seat.Left && place.heldAt(a.flowAt(k, p)).Seat > 1 {
				if err := place.sit(true, h.Air); err != nil {
					return p, h.filterFault(place.Filter, err)
				}
				loose = true
			}
		}
		if !loose {
			break
		}
		var err error
		if p, err = h.meet(sys, a.Tap, h.TableIncludes); err != nil {
			return p, err
		}
	}
	return p, nil
}

// frameResults tells the push on the filters, how they bow, and what slips round them.
func (h *House) frameResults(a *Arrangement, p airpath.Point, c *study.Condition) {
	a.point, a.leaks, a.shares = p, make([]float64, len(a.Places)), make([]float64, len(a.Places))
	for k := range a.Places {
		held := a.Places[k].heldAt(a.flowAt(k, p))
		a.leaks[k], a.shares[k] = held.Share, min(1, a.flowAt(k, p)/p.Flow)
		c.LeftSeat = c.LeftSeat || held.Left
		if held.Push > c.FramePush {
			c.FramePush, c.FrameBow = held.Push, held.Bow
		}
	}
	if len(a.Places) > 0 {
		c.LeakFraction = min(1, max(0, a.past(p, func(k int) float64 { return a.leaks[k] }, true)))
	}
}

func (h *House) edgeCover(s job.Slot) units.Length {
	if s.EdgeCover > 0 {
		return s.EdgeCover
	}
	return assume.UsualEdgeCover
}

// changeDrop is the drop at which a filter is changed: its own final drop, or
// the one that the job sets, whichever is less; zero: none.
func (h *House) changeDrop(p *place) units.Pressure {
	own, set := p.Filter.FinalDrop, h.Limits.ChangeDrop
	if own == 0 || set > 0 && set < own {
		return set
	}
	return own
}

// RunShare is the share of the year that the blower runs.
func (h *House) RunShare() float64 {
	return float64(h.Site.CoolingHours+h.Site.HeatingHours+h.Site.FanHours) / float64(units.Year)
}

// NoteFilters says what is assumed of the filters in use.
func (h *House) NoteFilters() {
	used := map[string]bool{h.Slot.Filter: true}
	names := func(returns []job.Return) {
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
			if f.Name == assume.GenericFilterName {
				return "slot.filter"
			}
			return fmt.Sprintf("filters[%d].%s", i, field)
		}
		if ratio, ok := h.assumedArea(f); ok {
			h.Note(at("media_area"), "invented ratio by depth", "%s: media %.1f times the face, by its depth", f.Name, ratio)
		}
		if f.DustCapacity == 0 {
			h.Note(at("dust_capacity"), "invented estimate", "%s: it holds %.0f g of dust per square metre of media", f.Name, 1000*filter.GenericCapacity)
		}
		if f.Price == 0 {
			h.Value(at("price"), assume.CommonPractice, h.filterPrice(f), "%s: a price of %v by its depth", f.Name, h.filterPrice(f))
		}
	}
}

// assumedArea is the media area per face area that was assumed of a filter. The
// search tries it in other depths too; what is told is of the one nearest its own.
func (h *House) assumedArea(f filter.Filter) (ratio float64, ok bool) {
	var nearest units.Length
	for key, law := range h.laws {
		off := units.Length(math.Abs(float64(key.depth - f.Depth)))
		if key.name == f.Name && law.AreaAssumed && (!ok || off < nearest || off == nearest && law.MediaAreaRatio < ratio) {
			ratio, nearest, ok = law.MediaAreaRatio, off, true
		}
	}
	return ratio, ok
}

const filterPricePerInch = 9 * units.Dollar
