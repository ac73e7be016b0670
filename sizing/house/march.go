package house

import (
	"math"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/root"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// LifeSteps is how many steps the first life of an arrangement is cut into.
const LifeSteps = 12

// mostChanges is how often the short-lived filters of an arrangement are
// changed while a long-lived one loads; after that they load no further.
const mostChanges = 40

// march loads the filters of an arrangement together, each with the dust of the
// air that it carries, and changes each at its own limit, until every one has had
// a life or the longest time is over. The points are of the first life.
type march struct {
	house  *House
	a      *Arrangement
	sys    airpath.System
	limits []units.Pressure // drop at which each is changed; 0: none
	most   []units.Mass     // that each holds

	time     units.Duration
	now      marchState
	clean    units.Flow
	fresh    []bool // frames that leave their seats when clean
	everLeft []bool // frames that have left their seats before their first change
	lives    []life // of each place
	left     int    // places that have had none
	changes  int
	Points   []study.LifePoint
	First    marchState // at the first change
}

// life is that of one place.
type life struct {
	time units.Duration
	end  study.LifeEnd
	dust units.Mass
	leak float64 // at its change
	had  bool
}

// marchState is the house at one time of the march.
type marchState struct {
	dust  []units.Mass
	left  []bool // frames out of their seats
	rates []units.MassRate
	held  []filter.Held
	Flow  units.Flow
	power units.Power
	point airpath.Point // in cooling
}

func (h *House) NewMarch(a *Arrangement, sys airpath.System) (*march, error) {
	n := len(a.Places)
	m := &march{house: h, a: a, sys: sys, limits: make([]units.Pressure, n), most: make([]units.Mass, n), lives: make([]life, n), left: n}
	clean := marchState{dust: make([]units.Mass, n), left: make([]bool, n)}
	for i := range a.Places {
		p := &a.Places[i]
		m.limits[i] = h.changeDrop(p)
		m.most[i] = p.loading.Holds(units.Area(p.face()))
		clean.left[i] = p.seat.Left
	}
	m.fresh, m.everLeft = clean.left, make([]bool, n)
	var err error
	m.now, err = m.at(clean.dust, clean.left)
	m.clean = m.now.Flow
	return m, err
}

// at solves the house with so much dust on each filter.
func (m *march) at(dust []units.Mass, left []bool) (marchState, error) {
	h := m.house
	s := marchState{dust: dust, left: left, held: make([]filter.Held, len(dust)), rates: make([]units.MassRate, len(dust))}
	if err := h.applyDust(m.a, dust, left); err != nil {
		return s, err
	}
	p, err := h.meet(m.sys, m.a.Tap, h.TableIncludes)
	if err != nil {
		return s, err
	}
	s.Flow, s.point = units.Flow(p.Flow), p
	s.power, _ = h.Curves[m.a.Tap].Power(units.Pressure(p.Static - h.TableCredit(p.Flow)))
	caught := func(k int) float64 { return m.a.Places[k].held * (1 - s.held[k].Share) }
	for k := range s.held {
		s.held[k] = m.a.Places[k].heldAt(m.a.flowAt(k, p))
	}
	for k := range m.a.Places {
		reaches := 1.0
		if b := m.a.Places[k].branch; b >= 0 {
			reaches = p.Branches[b] / p.Flow
		} else {
			reaches = m.a.past(p, func(i int) float64 { return 1 - caught(i) }, false)
		}
		s.rates[k] = units.MassRate(float64(h.Site.DustRate) * h.RunShare() * reaches * caught(k))
	}
	return s, nil
}

// applyDust puts so much dust on each filter, and each into its seat or out of it.
func (h *House) applyDust(a *Arrangement, dust []units.Mass, left []bool) error {
	for i := range a.Places {
		p := &a.Places[i]
		p.Become(p.loading.On(p.Law.Curve, dust[i], units.Area(p.face()), h.Air))
		if p.seat.Left != left[i] {
			if err := p.sit(left[i], h.Air); err != nil {
				return h.filterFault(p.Filter, err)
			}
		}
	}
	return nil
}

// flowAt is the air through a place, media and gap together.
func (a *Arrangement) flowAt(k int, p airpath.Point) float64 {
	if b := a.Places[k].branch; b >= 0 {
		return p.Branches[b]
	}
	return p.Flow
}

// past is the share of something in the return air that gets past the filters,
// where each lets its own share of what reaches it past: in the branches side by
// side, by the air that each carries, then in the slot.
func (a *Arrangement) past(p airpath.Point, passes func(place int) float64, slot bool) float64 {
	share := 1.0
	if len(p.Branches) > 0 {
		share = 0
	}
	for i, q := range p.Branches {
		each := 1.0
		if k := slices.IndexFunc(a.Places, func(p place) bool { return p.branch == i }); k >= 0 {
			each = passes(k)
		}
		share += q / p.Flow * each
	}
	for k := range a.Places {
		if slot && a.Places[k].branch < 0 {
			share *= passes(k)
		}
	}
	return share
}

// Run marches to the end.
func (m *march) Run(steps int) error {
	if err := m.record(); err != nil {
		return err
	}
	for k, limit := range m.limits {
		if limit > 0 && m.now.held[k].Drop >= limit {
			m.end(k, study.OverWhenClean)
		}
	}
	longest := m.house.Limits.ChangeMonths
	step := m.firstLife(longest) / units.Duration(steps)
	for m.left > 0 && m.time < longest {
		if err := m.step(min(step, longest-m.time)); err != nil {
			return err
		}
	}
	for k := range m.lives {
		if !m.lives[k].had {
			m.end(k, study.EndsAtTime)
		}
	}
	return nil
}

// firstLife is about when the first place is full at the clean rates.
func (m *march) firstLife(longest units.Duration) units.Duration {
	first := longest
	for k, rate := range m.now.rates {
		if full := units.Duration(float64(m.most[k]) / float64(rate)); full < first {
			first = full
		}
	}
	return first
}

// step goes on by a time, or to the first limit on the way: Heun's steps in the
// dust, whose rates hardly change, and a bracketed root for the time of a limit.
func (m *march) step(by units.Duration) error {
	from := m.now
	next, err := m.at(gathered(from, from.rates, float64(by)), from.left)
	if err != nil {
		return err
	}
	after := next.rates
	if settled := gathered(from, mean(from.rates, after), float64(by)); !near(settled, next.dust) {
		if next, err = m.at(settled, from.left); err != nil {
			return err
		}
	}
	if m.over(next) > 0 {
		if next, by, err = m.limit(from, after, by, m.over(next)); err != nil {
			return err
		}
	}
	m.now = next
	m.time += by
	return m.reached()
}

// gathered is the dust after a time at the rates given.
func gathered(from marchState, rates []units.MassRate, seconds float64) []units.Mass {
	out := make([]units.Mass, len(rates))
	for k := range out {
		out[k] = from.dust[k] + units.Mass(float64(rates[k])*seconds)
	}
	return out
}

func mean(a, b []units.MassRate) []units.MassRate {
	out := make([]units.MassRate, len(a))
	for k := range out {
		out[k] = (a[k] + b[k]) / 2
	}
	return out
}

func near(a, b []units.Mass) bool {
	for k := range a {
		if math.Abs(float64(a[k]-b[k])) > 1e-7*float64(a[k]) {
			return false
		}
	}
	return true
}

// limitShare is how closely the time of a limit is found, of a step.
const limitShare = 1e-7

// limit finds the time within a step at which the first limit is reached.
func (m *march) limit(from marchState, after []units.MassRate, by units.Duration, over float64) (marchState, units.Duration, error) {
	var state marchState
	var failed error
	at := func(share float64) float64 {
		rates := make([]units.MassRate, len(after))
		for k := range rates {
			rates[k] = from.rates[k] + (after[k]-from.rates[k])*units.MassRate(share/2)
		}
		s, err := m.at(gathered(from, rates, share*float64(by)), from.left)
		if err != nil {
			failed = err
			return math.NaN()
		}
		state = s
		return m.over(s)
	}
	before := m.over(from)
	if before >= 0 { // at its limit already: it is changed now
		return from, 0, nil
	}
	share, err := root.BracketedFrom(at, 0, before, 1, over, limitShare)
	if failed != nil {
		return state, by, failed
	}
	if err != nil {
		return state, by, err
	}
	at(share)
	return state, by * units.Duration(share), failed
}

// over is how far the state is past the first of its limits, as a share of it;
// under zero it is within all of them.
func (m *march) over(s marchState) float64 {
	worst := m.lost(s)
	for k := range m.a.Places {
		worst = max(worst, m.full(s, k), m.dropped(s, k), m.loose(s, k))
	}
	return worst
}

func (m *march) lost(s marchState) float64 {
	if most := m.house.Limits.ChangeAirflowLoss; most > 0 {
		return float64(1-s.Flow/m.clean)/most - 1
	}
	return -1
}

func (m *march) full(s marchState, k int) float64 { return float64(s.dust[k]/m.most[k]) - 1 }

func (m *march) dropped(s marchState, k int) float64 {
	if m.limits[k] == 0 || m.lives[k].end == study.OverWhenClean {
		return -1
	}
	return float64(s.held[k].Drop/m.limits[k]) - 1
}

func (m *march) loose(s marchState, k int) float64 {
	if s.left[k] {
		return -1
	}
	return s.held[k].Seat - 1
}

// reachedWithin is how near to its limit a place that has reached it may be.
const reachedWithin = 1e-6

// reached ends the lives of the places that are at a limit, changes their
// filters, and lets frames go that leave their seats.
func (m *march) reached() error {
	loose, changed := false, false
	left := append([]bool(nil), m.now.left...)
	for k := range m.a.Places {
		if m.loose(m.now, k) > -reachedWithin {
			left[k], loose = true, true
			m.everLeft[k] = m.everLeft[k] || !m.lives[k].had
		}
	}
	if err := m.record(); err != nil {
		return err
	}
	if loose {
		return m.solve(m.now.dust, left)
	}
	due := make([]study.LifeEnd, len(m.a.Places))
	for k := range due {
		switch {
		case m.full(m.now, k) > -reachedWithin:
			due[k], changed = study.EndsAtCapacity, true
		case m.dropped(m.now, k) > -reachedWithin:
			due[k], changed = study.EndsAtDrop, true
		}
	}
	if !changed && m.lost(m.now) > -reachedWithin {
		due[m.heaviest()], changed = study.EndsAtAirflow, true
	}
	if !changed {
		return nil
	}
	dust := append([]units.Mass(nil), m.now.dust...)
	for k, end := range due {
		if end == "" {
			continue
		}
		if !m.lives[k].had {
			m.end(k, end)
		}
		m.changes++
		dust[k], left[k] = 0, m.fresh[k]
	}
	if m.left == 0 {
		return nil
	}
	return m.solve(dust, left)
}

// solve takes a state up at once.
func (m *march) solve(dust []units.Mass, left []bool) (err error) {
	m.now, err = m.at(dust, left)
	if m.changes > mostChanges {
		for k := range m.now.rates {
			if m.lives[k].had {
				m.now.rates[k] = 0
			}
		}
	}
	return err
}

// heaviest is the place whose filter has gained the most drop, of those that
// hold dust.
func (m *march) heaviest() int {
	worst, most := 0, math.Inf(-1)
	for k := range m.a.Places {
		p := &m.a.Places[k]
		v := units.Speed(float64(m.now.held[k].Media) / p.frame())
		if gain := float64(p.curve.Drop(v) - p.Law.Drop(v)); m.now.dust[k] > 0 && gain > most {
			worst, most = k, gain
		}
	}
	return worst
}

func (m *march) end(k int, end study.LifeEnd) {
	dust := min(m.now.dust[k], m.most[k])
	if m.left == len(m.lives) {
		m.First = m.now
	}
	m.lives[k] = life{time: m.time, end: end, dust: dust, leak: m.now.held[k].Share, had: true}
	m.left--
}

// record keeps a point until the first change is over.
func (m *march) record() error {
	if m.left < len(m.lives) {
		return nil
	}
	p := study.LifePoint{Time: m.time, Airflow: m.now.Flow, Power: m.now.power}
	if err := m.seasons(&p); err != nil {
		return err
	}
	for k, held := range m.now.held {
		p.Dust += min(m.now.dust[k], m.most[k])
		through := units.Pressure(m.a.Places[k].frames()) * units.Pressure(held.Media+held.Leak)
		p.Drop += held.Drop * through / units.Pressure(m.now.Flow)
	}
	if n := len(m.Points); n > 0 && m.Points[n-1].Time == p.Time {
		m.Points[n-1] = p
		return nil
	}
	m.Points = append(m.Points, p)
	return nil
}

// seasons fills in what the year's cost needs of a point: the watts in heating
// and of the blower alone, and what the coil does.
func (m *march) seasons(p *study.LifePoint) error {
	h := m.house
	if err := h.applyDust(m.a, m.now.dust, m.now.left); err != nil {
		return err
	}
	var c study.Condition
	if err := h.otherSeasons(m.a, m.sys, m.now.point, &c); err != nil {
		return err
	}
	c.Airflow, c.BlowerPower = p.Airflow, p.Power
	if err := h.Cooling(&c); err != nil {
		return err
	}
	p.HeatingPower, p.FanPower, p.SensibleCapacity = c.HeatingPower, c.FanPower, c.SensibleCapacity
	return nil
}
