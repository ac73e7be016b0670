package filter

import (
	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// The two terms of PleatTrust: for any pack, and by the velocity pressure in its mouths.
const (
	LeastPleatTrust = 0.05
	trustPerHead    = 0.45
)

// PleatTrust is how far the drop of a pack by all terms may lie from what a resolved
// flow would give, as a share k of the drop, and the velocity pressure q in the mouths
// of its pleats, from which it follows:
//
//	k = 0.05, or 0.45 q/drop where that is more,  q = rho/2 (V/s)^2
//
// with s the mouth's share of the pitch. Of the six packs in plane laminar flow by
// general-purpose software four are off by 1.2 % and less, one by 4.3 %, and the one
// with the most open pleats in the fastest air, where q is a fifth of the drop, reads
// 7.9 % high (see the tests). The six share one width, media thickness and fold gap;
// the first five were known when the terms were chosen. A real pack's media, folds and
// spacers differ by more. The share 0.45 is an estimate of this project that holds the
// sixth.
func (p Pack) PleatTrust(face units.Speed, drop units.Pressure, a air.Properties) (k float64, head units.Pressure) {
	g, err := p.geometry()
	if err != nil || !(drop > 0) {
		return LeastPleatTrust, 0
	}
	v := float64(face) * g.pitch / g.mouth
	head = units.Pressure(float64(a.Density) * v * v / 2)
	return max(LeastPleatTrust, trustPerHead*float64(head/drop)), head
}

// PleatTrust is that of the law's pack at a face velocity; 0.05 where the pack is not
// known.
func (l Law) PleatTrust(face units.Speed, a air.Properties) float64 {
	if l.Pack == nil {
		return LeastPleatTrust
	}
	k, _ := l.Pack.PleatTrust(face, l.Drop(face), a)
	return k
}
