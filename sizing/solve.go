package sizing

import (
	"slices"

	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/option"
	"returnbench/sizing/pleats"
	"returnbench/sizing/readings"
	"returnbench/sizing/recommend"
	"returnbench/sizing/sampling"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Solve works out all that follows from a job. A faulty job gives FieldErrors
// with every fault and no Study.
//
// A program that solves one house again and again as it is edited keeps a
// Solver instead.
func Solve(job Job) (*Study, error) {
	s, _, err := solveWith(job, nil, &pleats.Studies{})
	return s, err
}

// solveWith returns the house beside its Study. memo may be nil.
func solveWith(job Job, memo *house.LawCache, sweeps *pleats.Studies) (*Study, *house.House, error) {
	if faults := job.Check(); faults != nil {
		return nil, nil, faults
	}
	h, err := house.New(assume.Job(job), memo)
	if err != nil {
		return nil, nil, err
	}
	s, err := solveHouse(h, job, newDeferred(h, job, memo, sweeps))
	return s, h, err
}

// solveHouse fills a Study from a house in which nothing is left open. The order
// counts: house.New noted what it assumed of the equipment, NoteFilters adds to the
// same list in h what was assumed of filters, once the search has solved all their
// depths, and only then is the list copied into the Study. AssumedShare reads that
// list; bands and findings read the share.
func solveHouse(h *house.House, job Job, later Deferred) (*Study, error) {
	var err error
	s := &Study{
		Name:                job.Name,
		Air:                 h.AirResult(),
		DesignAirflow:       h.DesignAirflow,
		HeatingAirflow:      h.HeatingAirflow,
		AirflowPerCapacity:  h.AirflowPerCapacity,
		TargetFaceVelocity:  h.TargetFaceVelocity,
		NeededFace:          units.Area(float64(h.DesignAirflow) / float64(h.TargetFaceVelocity)),
		RatedExternalStatic: h.Equipment.RatedExternalStatic,
	}
	if err := option.SolveAll(h, s); err != nil {
		return nil, err
	}
	s.Blower = h.BlowerResult()
	if s.Taps, err = search.TapAdvices(h); err != nil {
		return nil, err
	}
	if s.Sizes, s.SuggestedSizes, err = search.FindSizes(h); err != nil {
		return nil, err
	}
	s.Casing = h.Limits.Casing()
	s.ReturnComponents = search.ReturnComponents(h, s.Today())
	s.Ducts = search.DuctSizes(h, s.Today(), s.ReturnComponents)
	if s.Readings, err = readings.CompareRounds(h, s); err != nil {
		return nil, err
	}
	if s.AsFound, err = readings.FindAsFound(h); err != nil {
		return nil, err
	}
	s.AfterWorkComparisons = readings.CompareAfterWork(h, s)
	h.NoteFilters()
	s.Assumptions = h.List
	s.AssumedShare, s.BlowerAssumed = h.AssumedShare(s)
	s.WattsAssumed = slices.ContainsFunc(s.Options, func(o study.OptionResult) bool { return o.WattsAssumed })
	s.Bands = sampling.FindBands(h, s)
	recommend.JudgeAndRecommend(h, s)
	s.Deferred = later
	return s, nil
}
