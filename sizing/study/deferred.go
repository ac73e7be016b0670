package study

import "returnbench/sizing/message"

// ErrUnsolved: the Study does not come from Solve, so the house behind it is not known.
var ErrUnsolved = message.Errorf("this study was not solved, so nothing more can be worked out of it")

// Deferred calculates what is too slow for every solve: a listed size judged as
// an option, a sweep over pleats, and the calculations behind the numbers. It is
// safe for use from several goroutines.
type Deferred interface {
	With(s *Study, z Size) (*OptionResult, error)
	Pleats(s *Study, option string) (*PleatStudy, error)
	Workings(s *Study) []Working
}

// With is the result of the house with a size of the Study, judged as after search.AddSize.
// It is calculated when first asked for.
func (s *Study) With(z Size) (*OptionResult, error) {
	if s.Deferred == nil {
		return nil, ErrUnsolved
	}
	return s.Deferred.With(s, z)
}

// Pleats sweeps the filter of an option over pleat count and depth, at the
// target face velocity. Where the make of the option's filter is not known the
// first option with a known make is used, today first; where there is none,
// typical media of today's MERV is assumed and MediaAssumed is true. The sweep
// is kept.
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
