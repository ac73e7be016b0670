package forms

import (
	"context"
	"errors"
	"time"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// patience is how long a search runs before its progress is shown: a shorter
// one needs no bar.
const patience = 100 * time.Millisecond

// search runs one search at a time; the newest wins. Its fields belong to the
// window's thread.
type search struct {
	tasks *session.Tasks
	reach reachFunc
	began func()
	part  func(float64)
	ended func(*sizing.UpgradeSearch, error)

	edition int
	end     context.CancelFunc
	overdue bool // the search has run for longer than patience
}

// running reports whether a search is running.
func (s *search) running() bool { return s.end != nil }

// slow reports whether it has been running for longer than patience.
func (s *search) slow() bool { return s.running() && s.overdue }

// stop ends the search that runs.
func (s *search) stop() {
	s.edition++
	if s.end != nil {
		s.end()
		s.end = nil
	}
	s.overdue = false
}

// start begins a search in place of any other.
func (s *search) start(job sizing.Job, target units.Flow) {
	s.stop()
	ctx, end := context.WithCancel(s.tasks.Context())
	s.end = end
	edition := s.edition
	s.began()
	var got *sizing.UpgradeSearch
	s.tasks.Go(func(context.Context) (err error) {
		got, err = s.reach(ctx, job, target, s.watch(edition))
		return err
	}, func(err error) {
		end()
		if edition != s.edition || errors.Is(err, context.Canceled) {
			return
		}
		s.end, s.overdue = nil, false
		s.ended(got, err)
	})
}

// watch passes on how far the search is, no more often than an eye can follow.
func (s *search) watch(edition int) func(float64) {
	last := time.Now()
	return func(part float64) {
		if time.Since(last) < patience {
			return
		}
		last = time.Now()
		s.tasks.Post(func() {
			if edition == s.edition && s.running() {
				s.overdue = true
				s.part(part)
			}
		})
	}
}
