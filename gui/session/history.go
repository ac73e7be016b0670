package session

import (
	"reflect"

	"returnbench/sizing"
)

// longest is how many steps are kept: more than in any session, and small in
// memory.
const longest = 1000

// step is one edit: the Job before and after it. Neither is ever changed.
type step struct {
	name          string
	field         string // path typed into; empty: a step that nothing joins
	before, after sizing.Job
}

// history is the steps made, and how many of them are in effect.
type history struct {
	steps   []step
	applied int
	sealed  bool // no further typing joins the newest step
}

func (h *history) add(s step) {
	h.steps = h.steps[:h.applied]
	if !h.sealed && s.field != "" && h.applied > 0 && h.steps[h.applied-1].field == s.field {
		h.join(s)
		return
	}
	h.sealed = false
	h.steps = append(h.steps, s)
	if len(h.steps) > longest {
		h.steps = append([]step(nil), h.steps[len(h.steps)-longest:]...)
	}
	h.applied = len(h.steps)
}

// join adds typing to the newest step, which vanishes where the typing came
// back to where it began.
func (h *history) join(s step) {
	last := &h.steps[h.applied-1]
	last.after = s.after
	if reflect.DeepEqual(last.before, last.after) {
		h.applied--
		h.steps = h.steps[:h.applied]
		h.sealed = true
	}
}

func (h *history) seal() { h.sealed = true }

func (h *history) back() (sizing.Job, bool) {
	if h.applied == 0 {
		return sizing.Job{}, false
	}
	h.applied--
	h.sealed = true
	return h.steps[h.applied].before, true
}

func (h *history) forward() (sizing.Job, bool) {
	if h.applied == len(h.steps) {
		return sizing.Job{}, false
	}
	h.applied++
	h.sealed = true
	return h.steps[h.applied-1].after, true
}

func (h *history) backName() string {
	if h.applied == 0 {
		return ""
	}
	return h.steps[h.applied-1].name
}

func (h *history) forwardName() string {
	if h.applied == len(h.steps) {
		return ""
	}
	return h.steps[h.applied].name
}
