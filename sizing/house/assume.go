package house

import (
	"math"

	"returnbench/sizing/study"
)

// AssumedShare is how much of what today's parts take nobody typed or measured.
func (h *House) AssumedShare(s *study.Study) (share float64, blowerAssumed bool) {
	assumed, all := 0.0, 0.0
	for _, p := range s.Today().Clean.Parts {
		size := math.Abs(float64(p.Drop)) // what the blower table holds counts too
		if all += size; p.Basis == "assumed" {
			assumed += size
		}
	}
	if all > 0 {
		share = assumed / all
	}
	return share, s.Assumed("equipment.blower.taps")
}
