package house

import (
	"fmt"
	"math"

	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// lawKey is a make in a face, of which sides of zero stand for all faces.
type lawKey struct {
	name                 string
	depth, width, height units.Length
	trial                bool // not the job's, though it may bear its name
}

// Filter finds a make by its name: the one being tried, else the job's.
func (h *House) Filter(name string) (filter.Filter, bool) {
	if h.tries(name) {
		return *h.Trial, true
	}
	return h.Job.Filter(name)
}

// tries reports whether a name is that of the make being tried.
func (h *House) tries(name string) bool { return h.Trial != nil && h.Trial.Name == name }

// setByGauge reports whether the gauge corrected the law of a make: it is the one in
// today's slot, of the same depth.
func (h *House) setByGauge(f filter.Filter) bool {
	return h.Gauge.FilterScale != 0 && f.Name == h.Slot.Filter && math.Abs(float64(f.Depth-h.Gauge.filterDepth)) < float64(SameDepth)
}

// SameDepth is the difference under which two nominal depths count as the same.
const SameDepth = 0.3 * units.Inch

// law is the clean law of a filter in a face. A make of a known size keeps, in
// every size, the pleat pitch of its own size: its law is carried over without
// rounding the pleat count.
func (h *House) law(f filter.Filter, width, height units.Length) (filter.Law, error) {
	l, err := h.ownLaw(f, width, height)
	return f.InFace(l, width, height), err
}

// ownLaw is the law of a filter in its own size, or in this face where it has no
// size of its own, worked out once a solve: for all faces at once where it is not of a
// make.
func (h *House) ownLaw(f filter.Filter, width, height units.Length) (filter.Law, error) {
	if f.Width > 0 && f.Height > 0 {
		width, height = f.Width, f.Height
	}
	key := lawKey{name: f.Name, depth: f.Depth, trial: h.tries(f.Name)}
	if f.HasMake() {
		key.width, key.height = width, height
	}
	if l, ok := h.laws[key]; ok {
		return l, nil
	}
	l, err := h.lawCache.law(f, width, height, h.Air)
	if err == nil {
		if h.Perturbation != nil {
			switch l.Source {
			case filter.Generic: // one factor for all of a sample: their errors are shared
				l = l.Scale(h.Perturbation.Assumed("generic filters"))
			case filter.FromMake:
				l = l.Scale(h.Perturbation.PleatModel(l.PleatTrust(h.TargetFaceVelocity, h.Air)))
			}
		}
		h.laws[key] = l
	}
	return l, err
}

func (h *House) filterFault(f filter.Filter, err error) error {
	for i, g := range h.Filters {
		if g.Name != f.Name {
			continue
		}
		if fe, ok := err.(*filter.FieldError); ok {
			return job.FieldErrors{job.NewFieldError(fmt.Sprintf("filters[%d].%s", i, fe.Field), fe.Given, message.Verbatim(message.Rounded{Message: fe.Want}))}
		}
		return job.FieldErrors{{Path: fmt.Sprintf("filters[%d]", i), Given: f.Name, Wanted: message.OfError(err)}}
	}
	return err
}
