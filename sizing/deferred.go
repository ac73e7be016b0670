package sizing

import (
	"returnbench/sizing/calculations"
	"returnbench/sizing/house"
	"returnbench/sizing/pleats"
	"returnbench/sizing/search"
)

// deferred keeps the solved house for what a Study works out later.
type deferred struct {
	house  *house.House
	sized  *search.SizeOptions
	sweeps *pleats.Studies
}

func newDeferred(h *house.House, job Job, memo *house.LawCache, sweeps *pleats.Studies) *deferred {
	return &deferred{house: h, sized: &search.SizeOptions{Job: job.Clone(), Memo: memo}, sweeps: sweeps}
}

func (d *deferred) With(s *Study, z Size) (*OptionResult, error) { return d.sized.With(s, z) }

func (d *deferred) Pleats(s *Study, option string) (*PleatStudy, error) {
	return d.sweeps.Of(s, option, d.house)
}

func (d *deferred) Workings(s *Study) []Working {
	return calculations.All(s, d.house, d.sized.Job.DesignAirflow > 0)
}
