package study

import "returnbench/sizing/message"

// ErrUnsolved says that a Study was put together by hand: only Solve knows the house behind it.
var ErrUnsolved = message.Errorf("this study was not solved, so nothing more can be worked out of it")

// Deferred works out what is too slow for every solve: a listed size judged as
// an option, a sweep over pleats, and the calculations behind the numbers. It is
// safe for use from several goroutines.
type Deferred interface {
	With(s *Study, z Size) (*OptionResult, error)
	Pleats(s *Study, option string) (*PleatStudy, error)
	Workings(s *Study) []Working
}

// With is the house with a size of the Study put in, judged as it is once
// search.AddSize has made the size an option of the job. It is worked out when first asked for.
func (s *Study) With(z Size) (*OptionResult, error) {
	if s.Deferred == nil {
		return nil, ErrUnsolved
	}
	return s.Deferred.With(s, z)
}

// Pleats sweeps the filter of an option over pleat count and depth, at the
// target face velocity. An option whose filter has no make gives way to the
// first that has one, today first; where none has, typical media of today's
// MERV stands in and MediaAssumed says so. The sweep is kept.
func (s *Study) Pleats(option string) (*PleatStudy, error) {
	if s.Deferred == nil {
		return nil, ErrUnsolved
	}
	return s.Deferred.Pleats(s, option)
}

// Workings gives the steps behind every headline number: those of the house,
// then those of each option.
func (s *Study) Workings() []Working {
	if s.Deferred == nil {
		return nil
	}
	return s.Deferred.Workings(s)
}

// Working finds the steps behind one number by its path; nil where it has none.
func (s *Study) Working(key string) *Working {
	for _, w := range s.Workings() {
		if w.Key == key {
			return &w
		}
	}
	return nil
}
