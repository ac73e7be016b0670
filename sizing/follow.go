package sizing

// deferred keeps the solved house for what a Study works out later.
type deferred struct {
	house  *house
	sized  *sized
	sweeps *pleatStudies
}

func newDeferred(h *house, job Job, memo *lawMemo, sweeps *pleatStudies) *deferred {
	return &deferred{house: h, sized: &sized{job: job.Clone(), memo: memo}, sweeps: sweeps}
}

func (d *deferred) With(s *Study, z Size) (*OptionResult, error) { return d.sized.with(s, z) }

func (d *deferred) Pleats(s *Study, option string) (*PleatStudy, error) {
	return d.sweeps.of(s, option, d.house)
}

func (d *deferred) Workings(s *Study) []Working {
	return calculations(s, d.house, d.sized.job.DesignAirflow > 0)
}
