package session

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing"
)

// Unread is what stands in a field and cannot be read. The Job holds the value
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

// CannotRead notes such a text. What was typed into the field up to it is taken
// back: "12x" is no 12, and a field emptied before it is not left open. A field
// once left stays told of while it is typed into again.
func (s *Session) CannotRead(u Unread) {
	i := s.unreadIndex(u.Path)
	switch {
	case i < 0:
		s.unread = append(s.unread, u)
	default:
		u.Typing = u.Typing && s.unread[i].Typing
		if s.unread[i] == u {
			return
		}
		s.unread[i] = u
	}
	if job, ok := s.history.giveUp(u.Path); ok {
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

// tellUnread marks every such text as left.
func (s *Session) tellUnread() {
	news := false
	for i := range s.unread {
		news = news || s.unread[i].Typing
		s.unread[i].Typing = false
	}
	if news {
		s.changed()
	}
}

// giveUp takes back typing into a field that nothing has ended yet.
func (h *history) giveUp(field string) (sizing.Job, bool) {
	if h.sealed || h.stand == 0 || h.stand != len(h.steps) || h.steps[h.stand-1].field != field {
		return sizing.Job{}, false
	}
	h.stand--
	before := h.steps[h.stand].before
	h.steps = h.steps[:h.stand]
	h.sealed = true
	return before, true
}

// follow keeps each unread text with its field where a list has changed, and
// drops those whose field is gone.
func (s *Session) follow(before, after *sizing.Job) {
	s.unread = slices.DeleteFunc(s.unread, func(u Unread) bool { return follow(u.Path, before, after) == "" })
	for i := range s.unread {
		s.unread[i].Path = follow(s.unread[i].Path, before, after)
	}
}

var pathPart = regexp.MustCompile(`\[(\d+)\]|[^.\[\]]+`)

// follow finds where the field of a path stands in a later Job; empty: nowhere.
func follow(path string, before, after *sizing.Job) string {
	was, is, out := reflect.ValueOf(before).Elem(), reflect.ValueOf(after).Elem(), ""
	for _, part := range pathPart.FindAllStringSubmatch(path, -1) {
		if part[1] == "" {
			was, is = member(was, part[0]), member(is, part[0])
			out += "." + part[0]
		} else {
			i, _ := strconv.Atoi(part[1])
			k := place(was, is, i)
			if k < 0 {
				return ""
			}
			was, is = was.Index(i), is.Index(k)
			out += fmt.Sprintf("[%d]", k)
		}
		if !was.IsValid() || !is.IsValid() {
			return path // no field of the Job, and so none that moves
		}
	}
	return strings.TrimPrefix(out, ".")
}

func member(v reflect.Value, name string) reflect.Value {
	if v.Kind() != reflect.Struct {
		return reflect.Value{}
	}
	for i := range v.NumField() {
		if tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ","); tag == name {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}

// place finds where the i-th thing of a list stands in a later list, -1 where it
// is gone.
func place(was, is reflect.Value, i int) int {
	if was.Kind() != reflect.Slice || i >= was.Len() {
		return -1
	}
	same := func(k int) bool {
		return k < is.Len() && reflect.DeepEqual(was.Index(i).Interface(), is.Index(k).Interface())
	}
	if same(i) {
		return i
	}
	for k := range is.Len() {
		swapped := k < was.Len() && i < is.Len() && reflect.DeepEqual(was.Index(k).Interface(), is.Index(i).Interface())
		if same(k) && (swapped || was.Len() != is.Len()) {
			return k
		}
	}
	if was.Len() == is.Len() {
		return i // it has changed where it stands
	}
	return -1
}
