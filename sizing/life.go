package sizing

import (
	"fmt"
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// describe fills in what the filters of an arrangement are: where they sit,
// how much media they hold, what they catch.
func (h *house) describe(a *arrangement, r *OptionResult) {
	if len(a.places) == 0 {
		return
	}
	first := a.places[0]
	face, media := a.areas()
	r.Places = a.filterPlaces()
	r.Place, r.Filter, r.LawSource = h.placeName(r.Places), first.filter.Name, first.law.Source
	r.FaceArea, r.MediaArea = units.Area(face), units.Area(media)
	if first.law.Pack != nil {
		r.Pleats, r.pack = first.law.Pack.Pleats, first.law.Pack
		if own := first.filter.Width; own > 0 {
			r.Pleats = int(math.Round(float64(r.Pleats) * float64(first.width/own)))
		}
	}
	for _, p := range a.places {
		r.filterPrice += units.Money(p.frames()) * h.filterPrice(p.filter)
	}
	r.filterDepth = r.Places[0].Depth
	if c := a.central(); c != nil && !a.slot.AtGrilles {
		box := h.assembly(a.slot)
		r.Assembly = &box
	}
	r.designDrop = first.law.Drop(units.Speed(float64(h.DesignAirflow) / face))
	r.LeakFraction, r.FramePush, r.FrameBow = r.Clean.LeakFraction, r.Clean.FramePush, r.Clean.FrameBow
	r.Efficiency = efficiency(first.filter, r.LeakFraction)
	for i := 1; i <= curvePoints; i++ {
		v := 2 * h.TargetFaceVelocity * units.Speed(i) / curvePoints
		r.FilterCurve = append(r.FilterCurve, FaceDrop{FaceVelocity: v, Drop: first.law.Drop(v)})
	}
}

// placeName says where filters sit and how large, for reading alone: the places
// themselves are data.
func (h *house) placeName(places []FilterPlace) string {
	p := places[len(places)-1] // the place before the blower is the last
	size := stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.sizeSystem()}
	switch n := len(places); {
	case p.Count > 1:
		return fmt.Sprintf("%s %d x %s", p.Where, p.Count, size)
	case p.Branch >= 0 && n > 1:
		p = places[0]
		return fmt.Sprintf("%d grilles, first %s", n, stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: h.sizeSystem()})
	}
	return fmt.Sprintf("%s %s", p.Where, size)
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

func efficiency(f filter.Filter, leak float64) Efficiency {
	curve, assumedCurve, err := f.EfficiencyCurve()
	if err != nil {
		return Efficiency{}
	}
	e := Efficiency{BySize: curve, Installed: filter.LeakyEfficiency(curve, leak), Assumed: assumedCurve, MERV: f.MERV}
	e.E1, e.E2, e.E3 = filter.RangeMeans(curve)
	if e.MERV, err = f.Rated(); err != nil {
		return e
	}
	arrestance, err := filter.TypicalArrestance(e.MERV)
	if err != nil {
		return e
	}
	e.InstalledMERV = min(e.MERV, filter.InstalledMERV(curve, arrestance, leak))
	return e
}

// leak is the share of all return air that passes no media: round the frame of
// the central filter, or through a branch without a filter.
func (h *house) leak(a *arrangement, c *Condition) float64 {
	if p := a.central(); p != nil {
		return float64(p.frames()) * float64(p.crack.Flow(c.FilterDrop, h.air)) / float64(c.Airflow)
	}
	if len(a.places) == 0 || len(c.Branches) == 0 {
		return 0
	}
	unfiltered := 0.0
	for i, b := range c.Branches {
		if a.inBranch(i) == nil {
			unfiltered += float64(b.Airflow)
		}
	}
	return unfiltered / float64(c.Airflow)
}

// live loads the filters with the house's dust until the change limit and
// leaves them in that state.
func (h *house) live(a *arrangement, sys airpath.System, r *OptionResult) error {
	if len(a.places) == 0 {
		return nil
	}
	face, _ := a.areas()
	curve := h.curves[a.tap]
	held, err := a.places[0].filter.DustCaught()
	if err != nil {
		return h.filterFault(a.places[0].filter, err)
	}
	var dust units.Mass
	statics := map[units.Mass]float64{}
	in := filter.MarchInput{
		Face: units.Area(face), DustRate: h.Site.DustRate, RunShare: h.runShare(), Caught: held * (1 - r.LeakFraction),
		Longest: h.Limits.ChangeMonths, Step: h.Limits.ChangeMonths / lifeSteps, AirflowLimit: h.Limits.ChangeAirflowLoss,
	}
	in.DropLimit = h.changeDrop(a, r)
	in.Loaded = func(m units.Mass) (filter.Curve, error) {
		dust = m
		err := h.load(a, m, face)
		return a.places[0].curve, err
	}
	in.Airflow = func(filter.Curve) (units.Flow, error) {
		p, err := h.meet(sys, a.tap, h.offset)
		statics[dust] = p.Static - h.given(p.Flow)
		return units.Flow(p.Flow), err
	}
	m := filter.March(in)
	if m.Err != nil {
		return m.Err
	}
	r.Life, r.LifeEnds = m.Life, lifeEnds[m.End]
	for _, p := range m.Points {
		w, _ := curve.Power(units.Pressure(statics[p.Dust]))
		r.LifeCurve = append(r.LifeCurve, LifePoint{Time: p.Time, Dust: p.Dust, Airflow: p.Airflow, Drop: p.Drop, Power: w})
	}
	return h.load(a, m.Points[len(m.Points)-1].Dust, face)
}

// lifeSteps is how many steps a filter's longest life is cut into.
const lifeSteps = 12

var lifeEnds = map[filter.End]string{
	filter.AtDropLimit:    "its drop reaches the change limit",
	filter.AtAirflowLimit: "the airflow has fallen as far as allowed",
	filter.AtTimeLimit:    "the longest time between changes is over",
}

// load spreads dust evenly over the faces of all places.
func (h *house) load(a *arrangement, dust units.Mass, face float64) error {
	for i := range a.places {
		p := &a.places[i]
		own := dust * units.Mass(p.face()/face)
		c, err := p.filter.Loaded(p.law, own, units.Area(p.face()), h.air)
		if err != nil {
			return h.filterFault(p.filter, err)
		}
		p.unsealed = c
		if p.curve, err = c.WithCrack(units.Area(p.frame()), p.crack, h.air); err != nil {
			return h.filterFault(p.filter, err)
		}
	}
	return nil
}

// settleRounds is how often gap and airflow are brought to agree: a filter
// bows, the gap it opens lets air by, and the drop that bows it falls.
const settleRounds = 4

// settle finds the push on the central filter, its bow, the gap that the bow
// opens and the operating point that goes with them.
func (h *house) settle(a *arrangement, sys airpath.System, point *airpath.Point) (seated filter.Seated, err error) {
	p := a.central()
	if p == nil {
		return seated, nil
	}
	rest := filter.FrameCrack(p.width, p.height, a.slot.Depth, a.slot.Gap, a.slot.GapBends)
	for range settleRounds {
		seated, err = p.filter.Seat(p.unsealed, p.width, p.height, filter.Seat{Crack: rest, Cover: h.edgeCover(a.slot)}, units.Flow(point.Flow/float64(p.frames())), h.air)
		if err != nil {
			return seated, h.filterFault(p.filter, err)
		}
		before := p.crack.Gap
		p.crack = rest
		p.crack.Gap = seated.Gap
		if math.Abs(float64(seated.Gap-before)) < 1e-9 {
			break
		}
		if p.curve, err = p.unsealed.WithCrack(units.Area(p.frame()), p.crack, h.air); err != nil {
			return seated, h.filterFault(p.filter, err)
		}
		if *point, err = h.meet(sys, a.tap, h.offset); err != nil {
			return seated, err
		}
	}
	return seated, nil
}

// frames tells the push on the filters, how they bow, and what slips round them.
func (h *house) frames(a *arrangement, seated filter.Seated, c *Condition) {
	c.FramePush, c.FrameBow = seated.Push, seated.Bow
	if a.central() == nil {
		for i := range a.places {
			p := &a.places[i]
			drop := c.Branches[p.branch].FilterDrop
			if push := filter.Push(drop, units.Area(p.frame())); push > c.FramePush {
				c.FramePush = push
				c.FrameBow, _ = p.filter.Bow(p.width, p.height, drop)
			}
		}
	}
	c.LeakFraction = h.leak(a, c)
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

// changeDrop is the drop at which the filter is changed.
func (h *house) changeDrop(a *arrangement, r *OptionResult) units.Pressure {
	if h.Limits.ChangeDrop > 0 {
		return h.Limits.ChangeDrop
	}
	p := a.places[0]
	limit, _ := p.filter.ChangeLimit(p.law, r.Clean.FaceVelocity)
	return limit
}

// runShare is the share of the year that the blower runs.
func (h *house) runShare() float64 {
	return float64(h.Site.CoolingHours+h.Site.HeatingHours+h.Site.FanHours) / float64(units.Year)
}
