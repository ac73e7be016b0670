package house

import (
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// LifeSteps is the number of time steps up to the first filter change.
const LifeSteps = 12

// dustSimulation loads the filters of an arrangement together in time steps, each with the
// dust in the air through it, and changes each at its own limit, until every one
// has been changed or the longest time is over. Points end at the first change.
type dustSimulation struct {
	house      *House
	a          *Arrangement
	sys        airpath.System
	limits     []units.Pressure // drop at which each is changed; 0: none
	capacities []units.Mass     // dust that each holds

	time      units.Duration
	now       dustState
	clean     units.Flow
	leftClean []bool // frames that leave their seats when clean
	everLeft  []bool // frames that have left their seats before their first change
	lifetimes []life // of each place
	unchanged int    // places whose filter has not been changed yet
	changes   int
	Points    []study.LifePoint
	First     dustState // at the first change
}

// life is how long the first filter of a place lasted.
type life struct {
	time units.Duration
	end  study.LifeEnd
	dust units.Mass
	leak float64 // at its change
	had  bool
}

// dustState is the house at one time.
type dustState struct {
	dust  []units.Mass
	left  []bool // frames out of their seats
	rates []units.MassRate
	held  []filter.SeatedState
	Flow  units.Flow
	power units.Power
	point airpath.Point // in cooling
}

// LoadToChange loads the filters with the house's dust, each until its own change,
// and leaves them in their state at the first change.
func (h *House) LoadToChange(a *Arrangement, sys airpath.System, r *study.OptionResult) error {
	if len(a.Places) == 0 {
		return nil
	}
	m, err := h.NewDustSimulation(a, sys)
	if err != nil {
		return err
	}
	if err := m.Run(LifeSteps); err != nil {
		return err
	}
	r.LifeCurve = m.Points
	for k := range r.Places {
		p, l := &r.Places[k], m.lifetimes[k]
		p.Life, p.ReplacedBecause, p.Dust, p.LoadedLeak = l.time, l.end, l.dust, l.leak
		p.LeavesSeat = p.LeavesSeat || m.everLeft[k]
		if k == 0 || p.Life < r.Life {
			r.Life, r.ReplacedBecause = p.Life, p.ReplacedBecause.Words()
		}
		if p.Life > 0 {
			p.PerYear = float64(p.Count) * float64(units.Year) / float64(p.Life)
		}
	}
	return h.applyDust(a, m.First.dust, m.First.left)
}

// NewDustSimulation starts the loading of an arrangement with clean filters, solved
// at time zero.
func (h *House) NewDustSimulation(a *Arrangement, sys airpath.System) (*dustSimulation, error) {
	n := len(a.Places)
	m := &dustSimulation{house: h, a: a, sys: sys, limits: make([]units.Pressure, n), capacities: make([]units.Mass, n), lifetimes: make([]life, n), unchanged: n, Points: make([]study.LifePoint, 0, LifeSteps+2)}
	clean := dustState{dust: make([]units.Mass, n), left: make([]bool, n)}
	for i := range a.Places {
		p := &a.Places[i]
		m.limits[i] = h.changeDrop(p)
		m.capacities[i] = p.loading.Holds(units.Area(p.face()))
		clean.left[i] = p.seat.Left
	}
	m.leftClean, m.everLeft = clean.left, make([]bool, n)
	var err error
	m.now, err = m.at(clean.dust, clean.left)
	m.clean = m.now.Flow
	return m, err
}

// at solves the house with the dust given for each filter.
func (m *dustSimulation) at(dust []units.Mass, left []bool) (dustState, error) {
	h := m.house
	s := dustState{dust: dust, left: left, held: make([]filter.SeatedState, len(dust)), rates: make([]units.MassRate, len(dust))}
	if err := h.applyDust(m.a, dust, left); err != nil {
		return s, err
	}
	p, err := h.solvePoint(m.sys, m.a.Tap, h.TableIncludes)
	if err != nil {
		return s, err
	}
	s.Flow, s.point = units.Flow(p.Flow), p
	s.power, _ = h.Curves[m.a.Tap].Power(units.Pressure(p.Static - h.TableCredit(p.Flow)))
	caught := func(k int) float64 { return m.a.Places[k].caught * (1 - s.held[k].Share) }
	for k := range s.held {
		s.held[k] = m.a.Places[k].frameAt(m.a.flowAt(k, p))
	}
	for k := range m.a.Places {
		var reaches float64
		if b := m.a.Places[k].branch; b >= 0 {
			reaches = p.Branches[b] / p.Flow
		} else {
			reaches = m.a.passing(p, func(i int) float64 { return 1 - caught(i) }, false)
		}
		if m.keptClean(k) {
			continue
		}
		s.rates[k] = units.MassRate(float64(h.Site.DustRate) * h.RunShare() * reaches * caught(k))
	}
	return s, nil
}

// RunShare is the share of the year in which the blower runs: its hours of
// cooling, heating and fan alone over those of a year.
func (h *House) RunShare() float64 {
	return float64(h.Site.CoolingHours+h.Site.HeatingHours+h.Site.FanHours) / float64(units.Year)
}

// applyDust puts dust on each filter, and sets whether it has left its seat.
func (h *House) applyDust(a *Arrangement, dust []units.Mass, left []bool) error {
	for i := range a.Places {
		p := &a.Places[i]
		p.SetCurve(p.loading.On(p.Law.Curve, dust[i], units.Area(p.face()), h.Air))
		if p.seat.Left != left[i] {
			if err := p.setSeat(left[i], h.Air); err != nil {
				return h.filterFault(p.Filter, err)
			}
		}
	}
	return nil
}

// flowAt is the airflow through a place, media and gap together.
func (a *Arrangement) flowAt(k int, p airpath.Point) float64 {
	if b := a.Places[k].branch; b >= 0 {
		return p.Branches[b]
	}
	return p.Flow
}

// Run loads until every filter has been changed once, or the longest time is over.
func (m *dustSimulation) Run(steps int) error {
	if err := m.record(); err != nil {
		return err
	}
	for k, limit := range m.limits {
		if limit > 0 && m.now.held[k].Drop >= limit {
			m.end(k, study.OverWhenClean)
		}
	}
	longest := m.house.Limits.ChangeMonths
	noTime := 0 // steps in a row that took none
	step, few := m.firstLife(longest)/units.Duration(steps), true
	for m.unchanged > 0 && m.time < longest {
		if few && m.changes > mostChanges { // the short-lived ones no longer limit the step
			step, few = m.firstLife(longest)/units.Duration(steps), false
		}
		before := m.time
		if err := m.step(min(step, longest-m.time)); err != nil {
			return err
		}
		if m.time > before {
			noTime = 0
		} else if noTime++; noTime > mostChanges { // changing filters does not bring the airflow back
			m.endAll(study.EndsAtAirflow)
		}
	}
	m.endAll(study.EndsAtTime)
	return nil
}

// endAll ends the first life of every filter that was not changed yet.
func (m *dustSimulation) endAll(end study.LifeEnd) {
	for k := range m.lifetimes {
		if !m.lifetimes[k].had {
			m.end(k, end)
		}
	}
}

// firstLife estimates how long it takes from now until the first filter is full.
func (m *dustSimulation) firstLife(longest units.Duration) units.Duration {
	first := longest
	for k, rate := range m.now.rates {
		if m.keptClean(k) {
			continue
		}
		if full := units.Duration(float64(m.capacities[k]-m.now.dust[k]) / float64(rate)); full < first {
			first = full
		}
	}
	return first
}

// step advances by a time, or to the first limit within it: Heun's method for the
// dust, whose rates hardly change, and a bracketed root for the time of a limit.
func (m *dustSimulation) step(by units.Duration) error {
	from := m.now
	next, err := m.at(dustAfter(from, from.rates, float64(by)), from.left)
	if err != nil {
		return err
	}
	after := next.rates
	if corrected := dustAfter(from, mean(from.rates, after), float64(by)); !near(corrected, next.dust) {
		if next, err = m.at(corrected, from.left); err != nil {
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

// dustAfter is the dust after a time at these rates.
func dustAfter(from dustState, rates []units.MassRate, seconds float64) []units.Mass {
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

// solve makes a new state the present one.
func (m *dustSimulation) solve(dust []units.Mass, left []bool) (err error) {
	m.now, err = m.at(dust, left)
	return err
}
