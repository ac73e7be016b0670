package session

import (
	"slices"
	"strings"

	"returnbench/sizing"
)

// ShownFaults are the faults that a person is told of: those of a job as it was read, of
// fields that were left since, and, once another place is entered, all. A field
// still typed into and a row just added are not blamed.
func (s *Session) ShownFaults() sizing.FieldErrors {
	return slices.DeleteFunc(slices.Clone(s.errors), func(f *sizing.FieldError) bool { return !s.told[f.Path] })
}

// ShowAllFaults tells of every fault there is, and of those that a solve under way
// finds.
func (s *Session) ShowAllFaults() {
	s.tell(func(string) bool { return true })
	s.tellNext = s.running
}

// tellTyped tells of the faults of the field typed into last, now that it is left.
func (s *Session) tellTyped() {
	typed := s.typed
	s.typed = ""
	if typed == "" {
		return
	}
	s.tell(func(path string) bool { return within(path, typed) })
	if s.running {
		s.left = append(s.left, typed)
	}
}

// within tells whether one path lies in the other.
func within(a, b string) bool { return strings.HasPrefix(a, b) || strings.HasPrefix(b, a) }

func (s *Session) tell(of func(path string) bool) {
	news := false
	for _, f := range s.errors {
		if !s.told[f.Path] && of(f.Path) {
			s.told[f.Path], news = true, true
		}
	}
	if news {
		s.changed()
	}
}

// settleTold forgets faults that are gone; a job that was just read is told of
// whole.
func (s *Session) settleTold() {
	before := s.told
	s.told = map[string]bool{}
	for _, f := range s.errors {
		left := slices.ContainsFunc(s.left, func(path string) bool { return within(f.Path, path) })
		if before == nil || before[f.Path] || left || s.tellNext {
			s.told[f.Path] = true
		}
	}
	s.left, s.tellNext = nil, false
}
