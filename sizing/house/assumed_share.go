package house

import (
	"math"

	"returnbench/sizing/study"
)

// AssumedShare is the share, 0 to 1, of the drop of today's parts that was neither
// typed nor measured. It reads the Study's assumptions.
func (h *House) AssumedShare(s *study.Study) (share float64, blowerAssumed bool) {
	assumed, all := 0.0, 0.0
	for _, p := range s.Today().Clean.Parts {
		size := math.Abs(float64(p.Drop)) // what the blower table includes counts too
		if all += size; p.Basis == "assumed" {
			assumed += size
		}
	}
	if all > 0 {
		share = assumed / all
	}
	return share, s.Assumed("equipment.blower.taps")
}
