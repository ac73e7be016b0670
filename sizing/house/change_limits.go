package house

import (
	"math"
	"slices"

	"returnbench/sizing/root"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// mostChanges bounds the changes of short-lived filters while a long-lived one
// loads; after that many they collect no more dust.
const mostChanges = 40

// keptClean reports whether a filter collects no more dust, so that a long-lived one
// is not followed through thousands of changes of a short-lived one.
func (m *dustSimulation) keptClean(k int) bool { return m.changes > mostChanges && m.lifetimes[k].had }

// changeDrop is the drop at which a filter is changed: its own final drop or
// the job's limit, whichever is less; zero: none.
func (h *House) changeDrop(p *place) units.Pressure {
	own, set := p.Filter.FinalDrop, h.Limits.ChangeDrop
	if own == 0 || set > 0 && set < own {
		return set
	}
	return own
}

// limitShare is the accuracy of the time of a limit, as a share of a step.
const limitShare = 1e-7

// limit finds the time within a step at which the first limit is reached.
func (m *dustSimulation) limit(from dustState, then []dustyFilter, by units.Duration, over float64) (dustState, units.Duration, error) {
	var state dustState
	var failed error
	solved := 0.0 // the share that state is of
	at := func(share float64) float64 {
		s, err := m.at(m.after(&from, by*units.Duration(share), func(k int) units.MassRate {
			rate := from.filters[k].rate
			return rate + (then[k].rate-rate)*units.MassRate(share/2)
		}))
		if err != nil {
			failed = err
			return math.NaN()
		}
		state, solved = s, share
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
	if share != solved {
		at(share)
	}
	return state, by * units.Duration(share), failed
}

// over is how far the state is past the first of its limits, as a share of that
// limit; below zero it is within all of them.
func (m *dustSimulation) over(s dustState) float64 {
	worst := m.pastAirflowLoss(s)
	for k := range m.a.Places {
		worst = max(worst, m.pastCapacity(s, k), m.pastDrop(s, k), m.pastSeat(s, k))
	}
	return worst
}

func (m *dustSimulation) pastAirflowLoss(s dustState) float64 {
	if most := m.house.Limits.ChangeAirflowLoss; most > 0 {
		return float64(1-s.Flow/m.clean)/most - 1
	}
	return -1
}

func (m *dustSimulation) pastCapacity(s dustState, k int) float64 {
	return float64(s.filters[k].dust/m.capacities[k]) - 1
}

func (m *dustSimulation) pastDrop(s dustState, k int) float64 {
	if m.limits[k] == 0 || m.lifetimes[k].end == study.OverWhenClean {
		return -1
	}
	return float64(s.filters[k].held.Drop/m.limits[k]) - 1
}

// A frame out of its seat uses no cover.
func (m *dustSimulation) pastSeat(s dustState, k int) float64 {
	return s.filters[k].held.CoverUsed - 1
}

// reachedWithin is how close to a limit counts as reached, as a share of it.
const reachedWithin = 1e-6

// reached changes the filters that are at a limit, and takes frames that leave
// their seats out of them.
func (m *dustSimulation) reached() error {
	if err := m.record(); err != nil {
		return err
	}
	if !(m.over(m.now) > -reachedWithin) {
		return nil
	}
	then, loose := slices.Clone(m.now.filters), false
	for k := range then {
		if m.pastSeat(m.now, k) > -reachedWithin {
			then[k].left, loose = true, true
			m.everLeft[k] = m.everLeft[k] || !m.lifetimes[k].had
		}
	}
	if loose {
		return m.solve(then)
	}
	for k, end := range m.due() {
		if end == "" {
			continue
		}
		if !m.lifetimes[k].had {
			m.end(k, end)
		}
		m.changes++
		then[k].dust, then[k].left = 0, m.leftClean[k]
	}
	if m.unchanged == 0 {
		return nil
	}
	return m.solve(then)
}

// due is why each filter is changed now, at a limit; empty where it is not. Of those that
// together take the airflow it is the heaviest.
func (m *dustSimulation) due() []study.LifeEnd {
	due, changed := make([]study.LifeEnd, len(m.a.Places)), false
	for k := range due {
		switch {
		case m.pastCapacity(m.now, k) > -reachedWithin:
			due[k], changed = study.EndsAtCapacity, true
		case m.pastDrop(m.now, k) > -reachedWithin:
			due[k], changed = study.EndsAtDrop, true
		}
	}
	if !changed {
		due[m.heaviest()] = study.EndsAtAirflow
	}
	return due
}

// heaviest is the place whose filter has gained the most drop from dust.
func (m *dustSimulation) heaviest() int {
	worst, most := 0, math.Inf(-1)
	for k := range m.a.Places {
		p := &m.a.Places[k]
		v := units.Speed(float64(m.now.filters[k].held.Media) / p.frame())
		if gain := float64(p.curve.Drop(v) - p.Law.Drop(v)); m.now.filters[k].dust > 0 && gain > most {
			worst, most = k, gain
		}
	}
	return worst
}

func (m *dustSimulation) end(k int, end study.LifeEnd) {
	dust := min(m.now.filters[k].dust, m.capacities[k])
	if m.unchanged == len(m.lifetimes) {
		m.First = m.now
	}
	m.lifetimes[k] = life{time: m.time, end: end, dust: dust, leak: m.now.filters[k].held.Share, had: true}
	m.unchanged--
}
