package session

import (
	"slices"
	"strings"

	"returnbench/sizing"
)

// ShownFaults are the faults that are shown: those of a job as it was read, of fields
// that were left since, and, once another place is entered, all. A field being typed
// into and a row just added show none.
func (s *Session) ShownFaults() sizing.FieldErrors {
	return slices.DeleteFunc(slices.Clone(s.errors), func(f *sizing.FieldError) bool { return !s.shown[f.Path] })
}

// ShowAllFaults shows every fault, and those that a running solve finds.
func (s *Session) ShowAllFaults() {
	s.showFaults(func(string) bool { return true })
	s.showNext = s.running
}

// showTyped shows the faults of the field typed into last, now that it is left.
func (s *Session) showTyped() {
	typed := s.typed
	s.typed = ""
	if typed == "" {
		return
	}
	s.showFaults(func(path string) bool { return within(path, typed) })
	if s.running {
		s.left = append(s.left, typed)
	}
}

// within reports whether one path is inside the other.
func within(a, b string) bool { return strings.HasPrefix(a, b) || strings.HasPrefix(b, a) }

func (s *Session) showFaults(of func(path string) bool) {
	changed := false
	for _, f := range s.errors {
		if !s.shown[f.Path] && of(f.Path) {
			s.shown[f.Path], changed = true, true
		}
	}
	if changed {
		s.changed()
	}
}

// updateShown forgets the paths without a fault; of a job that was just read
// all faults are shown.
func (s *Session) updateShown() {
	before := s.shown
	s.shown = map[string]bool{}
	for _, f := range s.errors {
		left := slices.ContainsFunc(s.left, func(path string) bool { return within(f.Path, path) })
		if before == nil || before[f.Path] || left || s.showNext {
			s.shown[f.Path] = true
		}
	}
	s.left, s.showNext = nil, false
}
