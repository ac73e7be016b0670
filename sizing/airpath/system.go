package airpath

import "math"

// Law is the pressure drop of a part, Pa, at a flow in m3/s: zero at zero,
// strictly increasing, odd.
type Law func(q float64) float64

// Power is the law p = c |q|^n sign(q) that has a drop, Pa, at a flow, m3/s; a
// flow of zero or less gives no drop.
func Power(drop, flow, exponent float64) Law {
	if flow <= 0 {
		return func(float64) float64 { return 0 }
	}
	if exponent == 2 {
		k := drop / (flow * flow)
		return func(q float64) float64 { return k * q * math.Abs(q) }
	}
	// Inside of root finders: math.Pow, with its special cases, takes twice as long.
	return func(q float64) float64 {
		if q == 0 {
			return 0
		}
		return math.Copysign(drop*math.Exp(exponent*math.Log(math.Abs(q)/flow)), q)
	}
}

// Scale is the law with its drop multiplied by k.
func (l Law) Scale(k float64) Law {
	return func(q float64) float64 { return k * l(q) }
}

// Branch is parts in series from a room to the return plenum.
type Branch struct {
	Name  string
	Parts []Part
}

// Drop is the branch's drop, Pa, at a flow in m3/s: the sum of its parts.
func (b Branch) Drop(q float64) float64 {
	p := 0.0
	for i := range b.Parts {
		p += b.Parts[i].Law(q)
	}
	return p
}

// System is return branches in parallel and what follows them in series.
// Without branches the return is whatever the series holds.
type System struct {
	Branches []Branch
	Series   []Part
}

// After is the system with more parts before its series.
func (s System) After(parts ...Part) System {
	s.Series = append(parts[:len(parts):len(parts)], s.Series...)
	return s
}
