package sizing

import "cmp"

// Best is the option with the mildest verdict and, among equals, the least
// external static; today where there is no option.
func (s *Study) Best() *OptionResult {
	rank := map[Severity]int{Good: 0, Caution: 1, Stop: 2}
	out := s.Today()
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind != "option" {
			continue
		}
		better := cmp.Or(cmp.Compare(rank[o.Verdict], rank[out.Verdict]), cmp.Compare(o.Clean.ExternalStatic, out.Clean.ExternalStatic)) < 0
		if out.Kind == "today" || better {
			out = o
		}
	}
	return out
}
