package house

import "returnbench/sizing/study"

// AssumedShare is how much of today's external static nobody typed or measured.
func (h *House) AssumedShare(s *study.Study) (share float64, blowerAssumed bool) {
	clean := s.Today().Clean
	for _, p := range clean.Parts {
		if p.Basis == "assumed" {
			share += float64(p.Drop)
		}
	}
	return share / float64(clean.ExternalStatic), s.Assumed("equipment.blower.taps")
}
