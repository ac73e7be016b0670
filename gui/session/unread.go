package session

import (
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
)

// Unread is the text of a field that cannot be read. The Job holds the value
// that the field had before it was typed into.
type Unread struct {
	Path, Name  string // of the field
	Text, Fault string
	Typing      bool // the person has not left the field since
}

// Unread are all texts that cannot be read, oldest first.
func (s *Session) Unread() []Unread { return s.unread }

// UnreadAt is the text of a field that cannot be read; the Path is empty where
// there is none.
func (s *Session) UnreadAt(path string) Unread {
	if i := s.unreadIndex(path); i >= 0 {
		return s.unread[i]
	}
	return Unread{}
}

func (s *Session) unreadIndex(path string) int {
	return slices.IndexFunc(s.unread, func(u Unread) bool { return u.Path == path })
}

// CannotRead notes a text that cannot be read. What was typed into the field before it
// is undone, since "12x" is not 12 and emptying a field to type another number does not
// mean to leave it open. A field that was left stays reported while it is typed into
// again.
func (s *Session) CannotRead(u Unread) {
	i := s.unreadIndex(u.Path)
	if i < 0 {
		s.unread = append(s.unread, u)
	} else {
		u.Typing = u.Typing && s.unread[i].Typing
		if s.unread[i] == u {
			return
		}
		s.unread[i] = u
	}
	if job, ok := s.history.revert(u.Path); ok {
		s.job = job
		s.resolve()
		return
	}
	s.changed()
}

// CanRead notes that the text of a field can be read again.
func (s *Session) CanRead(path string) {
	if i := s.unreadIndex(path); i >= 0 {
		s.unread = slices.Delete(s.unread, i, i+1)
		s.changed()
	}
}

// leaveUnread marks the fields with texts that cannot be read as left.
func (s *Session) leaveUnread() {
	changed := false
	for i := range s.unread {
		changed = changed || s.unread[i].Typing
		s.unread[i].Typing = false
	}
	if changed {
		s.changed()
	}
}

// revert undoes typing into a field that is not finished yet.
func (h *history) revert(field string) (sizing.Job, bool) {
	if h.sealed || h.applied == 0 || h.applied != len(h.steps) || h.steps[h.applied-1].field != field {
		return sizing.Job{}, false
	}
	h.applied--
	before := h.steps[h.applied].before
	h.steps = h.steps[:h.applied]
	h.sealed = true
	return before, true
}

// follow keeps each unread text with its field where a list has changed, and
// drops those whose field is gone.
func (s *Session) follow(before, after *sizing.Job) {
	for i := range s.unread {
		s.unread[i].Path = fieldpath.Follow(s.unread[i].Path, before, after)
	}
	s.unread = slices.DeleteFunc(s.unread, func(u Unread) bool { return u.Path == "" })
}
