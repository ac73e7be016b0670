package study

import (
	"slices"

	"returnbench/sizing/message"
)

// EmptiedGrilles are the returns that stay and whose grille holds a filter today, but
// none with the option.
func (s *Study) EmptiedGrilles(o *OptionResult) message.List {
	if o.Kind != KindOption {
		return nil
	}
	var out message.List
	for _, p := range s.Today().Places {
		if p.Branch < 0 {
			continue
		}
		stays := slices.ContainsFunc(o.Clean.Branches, func(b BranchFlow) bool { return b.Name == p.Return })
		holds := slices.ContainsFunc(o.Places, func(q FilterPlace) bool { return q.Branch >= 0 && q.Return == p.Return })
		if stays && !holds {
			out = append(out, p.Return)
		}
	}
	return out
}

// EmptiedWords say which grilles the option leaves without their filter, and why; empty
// where there is none.
func (s *Study) EmptiedWords(o *OptionResult) message.Message {
	names := s.EmptiedGrilles(o)
	unit := slices.ContainsFunc(o.Places, func(p FilterPlace) bool { return p.Branch < 0 })
	switch n := len(names); {
	case n == 0:
		return message.Message{}
	case !unit && n == 1:
		return message.New("The filter comes out of the grille of {names}: its air is then not filtered.", "names", names)
	case !unit:
		return message.New("The filters come out of the grilles of {names}: their air is then not filtered.", "names", names)
	case n == 1:
		return message.New("The filter comes out of the grille of {names}: all air then passes the filter at the unit, and two filters in a row cost their drop twice.", "names", names)
	}
	return message.New("The filters come out of the grilles of {names}: all air then passes the filter at the unit, and two filters in a row cost their drop twice.", "names", names)
}
