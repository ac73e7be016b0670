package house

import (
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// The number of time steps up to the first filter change: enough to draw the life of
// a filter; and in a sample, of which only the spread is shown, as many as keep life
// and cost of the examples within 0.15 %.
const (
	LifeSteps       = 12
	sampleLifeSteps = 4
)

// statesAtOnce is for how many states memory is allocated at once.
const statesAtOnce = 16

func (h *House) lifeSteps() int {
	if h.Perturbation != nil {
		return sampleLifeSteps
	}
	return LifeSteps
}

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
	spare     []dustyFilter // memory for the next states
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
	filters []dustyFilter // of each place
	Flow    units.Flow
	power   units.Power
	point   airpath.Point // in cooling
}

// dustyFilter is the filter of a place at one time.
type dustyFilter struct {
	dust units.Mass
	left bool           // its frame is out of its seat
	rate units.MassRate // at which it collects dust
	held filter.SeatedState
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
	if err := m.Run(h.lifeSteps()); err != nil {
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
	return h.applyDust(a, m.First.filters)
}

// NewDustSimulation starts the loading of an arrangement with clean filters, solved
// at time zero.
func (h *House) NewDustSimulation(a *Arrangement, sys airpath.System) (*dustSimulation, error) {
	n := len(a.Places)
	m := &dustSimulation{house: h, a: a, sys: sys, limits: make([]units.Pressure, n), capacities: make([]units.Mass, n), lifetimes: make([]life, n), unchanged: n, Points: make([]study.LifePoint, 0, h.lifeSteps()+2)}
	clean := make([]dustyFilter, n)
	m.leftClean, m.everLeft = make([]bool, n), make([]bool, n)
	for i := range a.Places {
		p := &a.Places[i]
		m.limits[i] = h.changeDrop(p)
		m.capacities[i] = p.loading.Holds(units.Area(p.face()))
		clean[i].left, m.leftClean[i] = p.seat.Left, p.seat.Left
	}
	err := m.solve(clean)
	m.clean = m.now.Flow
	return m, err
}

// at solves the house with filters of which dust and seat are given, and adds what
// follows to them.
func (m *dustSimulation) at(filters []dustyFilter) (dustState, error) {
	h := m.house
	s := dustState{filters: filters}
	if err := h.applyDust(m.a, filters); err != nil {
		return s, err
	}
	p, err := h.solvePoint(m.sys, m.a.Tap, h.TableIncludes)
	if err != nil {
		return s, err
	}
	s.Flow, s.point = units.Flow(p.Flow), p
	s.power, _ = h.Curves[m.a.Tap].Power(units.Pressure(p.Static - h.TableCredit(p.Flow)))
	caught := func(k int) float64 { return m.a.Places[k].caught * (1 - filters[k].held.Share) }
	for k := range filters {
		filters[k].held = m.a.Places[k].frameAt(m.a.flowAt(k, p))
	}
	for k := range m.a.Places {
		var reaches float64
		if b := m.a.Places[k].branch; b >= 0 {
			reaches = p.Branches[b] / p.Flow
		} else {
			reaches = m.a.passing(p, func(i int) float64 { return 1 - caught(i) }, false)
		}
		if filters[k].rate = 0; m.keptClean(k) {
			continue
		}
		filters[k].rate = units.MassRate(float64(h.Site.DustRate) * h.RunShare() * reaches * caught(k))
	}
	return s, nil
}

// RunShare is the share of the year in which the blower runs: its hours of
// cooling, heating and fan alone over those of a year.
func (h *House) RunShare() float64 {
	return float64(h.Site.CoolingHours+h.Site.HeatingHours+h.Site.FanHours) / float64(units.Year)
}

// applyDust puts dust on each filter, and sets whether it has left its seat.
func (h *House) applyDust(a *Arrangement, filters []dustyFilter) error {
	for i, f := range filters {
		p := &a.Places[i]
		p.SetCurve(p.loading.On(p.Law.Curve, f.dust, units.Area(p.face()), h.Air))
		if p.seat.Left != f.left {
			if err := p.setSeat(f.left, h.Air); err != nil {
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
		if limit > 0 && m.now.filters[k].held.Drop >= limit {
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
	for k, f := range m.now.filters {
		if m.keptClean(k) {
			continue
		}
		if full := units.Duration(float64(m.capacities[k]-f.dust) / float64(f.rate)); full < first {
			first = full
		}
	}
	return first
}

// step advances by a time, or to the first limit within it: Heun's method for the
// dust, whose rates hardly change, and a bracketed root for the time of a limit.
func (m *dustSimulation) step(by units.Duration) error {
	from := m.now
	next, err := m.at(m.after(&from, by, func(k int) units.MassRate { return from.filters[k].rate }))
	if err != nil {
		return err
	}
	then := next.filters
	corrected := m.after(&from, by, func(k int) units.MassRate { return (from.filters[k].rate + then[k].rate) / 2 })
	if !near(corrected, then) {
		if next, err = m.at(corrected); err != nil {
			return err
		}
	}
	if over := m.over(next); over > 0 {
		if next, by, err = m.limit(from, then, by, over); err != nil {
			return err
		}
	}
	m.now = next
	m.time += by
	return m.reached()
}

// after is each filter of a state with the dust that it holds after a time at a rate.
func (m *dustSimulation) after(s *dustState, by units.Duration, rate func(k int) units.MassRate) []dustyFilter {
	n := len(s.filters)
	if n > len(m.spare) {
		m.spare = make([]dustyFilter, n*statesAtOnce)
	}
	out := m.spare[:n:n]
	m.spare = m.spare[n:]
	for k, f := range s.filters {
		out[k] = dustyFilter{dust: f.dust + units.Mass(float64(rate(k))*float64(by)), left: f.left}
	}
	return out
}

// near reports whether filters hold the same dust but for what changes nothing.
func near(a, b []dustyFilter) bool {
	for k := range a {
		if math.Abs(float64(a[k].dust-b[k].dust)) > 1e-7*float64(a[k].dust) {
			return false
		}
	}
	return true
}

// solve makes filters the present ones.
func (m *dustSimulation) solve(filters []dustyFilter) (err error) {
	m.now, err = m.at(filters)
	return err
}
