package homes

import (
	"errors"
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Names of the upgrades that the screening proposes by itself.
const (
	LargerSlot    = "larger slot"
	DeeperCabinet = "deeper cabinet"
)

// What stands in place of an upgrade's name.
const (
	NoneNeeded = "none needed"
	NoneHelps  = "none helps"
)

// solve studies a home. A home that keeps its limits needs no upgrade; where
// the row names none to compare, the sizes that the study finds are put in.
func (h *home) solve() (*sizing.Study, error) {
	study, err := sizing.Solve(h.Job)
	if err != nil || len(h.Options) > 0 || study.Today().Verdict == sizing.Good {
		return study, err
	}
	job := h.Job
	h.propose(&job, LargerSlot, study.SuggestedSizes.Slot)
	h.propose(&job, DeeperCabinet, study.SuggestedSizes.Cabinet)
	if len(job.Options) == 0 {
		return study, nil
	}
	return sizing.Solve(job)
}

// propose adds a size at the equipment as an option, in the MERV that it was
// found with.
func (h *home) propose(job *sizing.Job, name string, s *sizing.Size) {
	if s == nil {
		return
	}
	f := filter.Filter{Depth: s.Depth, MERV: s.MERV}
	for _, own := range h.Filters {
		if own.Name == s.Filter {
			f = own
		}
	}
	f.Name = "filter of the " + name
	job.Filters = append(job.Filters[:len(job.Filters):len(job.Filters)], f)
	job.Options = append(job.Options, sizing.Option{Name: name, Filter: f.Name,
		Slot: sizing.SlotOf(s, f.Name)})
}

func slotName(s sizing.Slot) string {
	return stock.Size{Width: s.Width, Height: s.Height, Depth: s.Depth}.String()
}

// errSolver is a fault of the program; it must not end a long run.
var errSolver = errors.New("the study failed; this is a fault of the program")

// safely turns a panic of the engine into a fault of the row.
func (h *home) safely() (study *sizing.Study, err error) {
	defer func() {
		if p := recover(); p != nil {
			study, err = nil, fmt.Errorf("%w: %v", errSolver, p)
		}
	}()
	return h.solve()
}

// bestSize is the first of the ranked sizes where it meets every limit.
func bestSize(study *sizing.Study) string {
	if len(study.Sizes) == 0 || !study.Sizes[0].MeetsAll {
		return ""
	}
	return string(study.Sizes[0].Place) + " " + study.Sizes[0].Label
}

// show is a quantity rounded for a file, empty where it has no value.
func show(q units.Quantity, sys units.Locale) string {
	n := q.Kind().Fixed(q.SI(), sys)
	if n == "–" || n == "∞" {
		return ""
	}
	return n
}
