package airpath

import (
	"errors"
	"fmt"
	"math"

	"returnbench/sizing/root"
)

// Law is the drop of a part against flow: Pa from m3/s, zero at zero, strictly
// increasing, odd.
type Law func(q float64) float64

// Power is the law p = c |q|^n sign(q).
func Power(drop, flow, exponent float64) Law {
	if flow <= 0 {
		return func(float64) float64 { return 0 }
	}
	if exponent == 2 {
		k := drop / (flow * flow)
		return func(q float64) float64 { return k * q * math.Abs(q) }
	}
	return func(q float64) float64 {
		return math.Copysign(drop*math.Pow(math.Abs(q)/flow, exponent), q)
	}
}

// Scale multiplies a law's drop by k.
func (l Law) Scale(k float64) Law {
	return func(q float64) float64 { return k * l(q) }
}

// Part is a named law.
type Part struct {
	Name string
	Law  Law
}

// Branch is parts in series from a room to the return plenum.
type Branch struct {
	Name  string
	Parts []Part
}

// Drop is the branch's drop at flow q.
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

// ErrSplit says that the flow could not be shared out among the branches.
var ErrSplit = errors.New("airpath: the branches do not take the flow")

// Split shares the flow q among the branches so that all have the same drop,
// and gives that drop. flows holds one flow a branch; what it holds on entry,
// where positive, is taken as the first guess, so a search that moves q a
// little pays little.
//
// Each round takes every branch as a straight line through its present flow,
// with the slope of a secant, and meets the sum exactly:
//
//	p = (q - sum(qi - di/si)) / sum(1/si),   qi <- qi + (p - di)/si
func (s System) Split(q float64, flows []float64) (drop float64, err error) {
	switch len(s.Branches) {
	case 0:
		return 0, nil
	case 1:
		flows[0] = q
		return s.Branches[0].Drop(q), nil
	}
	if q <= 0 {
		clear(flows)
		return 0, nil
	}
	guessShares(flows, q)
	if p, ok := s.splitSecant(q, flows); ok {
		return p, nil
	}
	return s.splitBracketed(q, flows)
}

// guessShares scales what is there to the sum q, or shares it evenly.
func guessShares(flows []float64, q float64) {
	sum := 0.0
	for _, f := range flows {
		if !(f > 0) {
			sum = 0
			break
		}
		sum += f
	}
	for i := range flows {
		if sum > 0 {
			flows[i] *= q / sum
		} else {
			flows[i] = q / float64(len(flows))
		}
	}
}

// splitAgreement is how well the branches' drops must agree, relative.
const splitAgreement = 2e-13

func (s System) splitSecant(q float64, flows []float64) (float64, bool) {
	var room [3][8]float64
	n := len(flows)
	drop, lastQ, lastD := s.scratch(room[0][:]), s.scratch(room[1][:]), s.scratch(room[2][:])
	for round := range 40 {
		var inverse, reach, p, spread float64
		low, high := math.Inf(1), math.Inf(-1)
		for i := range n {
			drop[i] = s.Branches[i].Drop(flows[i])
			low, high = math.Min(low, drop[i]), math.Max(high, drop[i])
			slope := s.slope(round, flows[i], drop[i], lastQ[i], lastD[i])
			if !(slope > 0) {
				return 0, false
			}
			lastQ[i], lastD[i] = flows[i], drop[i]
			inverse += 1 / slope
			reach += flows[i] - drop[i]/slope
			drop[i] = slope // the drop itself is kept in lastD
		}
		p = (q - reach) / inverse
		spread = high - low
		if spread <= splitAgreement*high {
			return p, true
		}
		for i := range n {
			next := flows[i] + (p-lastD[i])/drop[i]
			if !(next > flows[i]/8) {
				next = flows[i] / 8
			}
			flows[i] = next
		}
	}
	return 0, false
}

// slope is the secant through the last two flows, or that of a power law where
// there is no usable one.
func (s System) slope(round int, q, d, lastQ, lastD float64) float64 {
	if step := q - lastQ; round > 0 && math.Abs(step) > 1e-9*q {
		if k := (d - lastD) / step; k > 0.3*d/q && k < 4*d/q {
			return k
		}
	}
	return 1.9 * d / q
}

// splitBracketed is the slow and certain way: the common drop by bracketing,
// each branch's flow at that drop by bracketing too.
func (s System) splitBracketed(q float64, flows []float64) (float64, error) {
	guessShares(flows, q)
	total := func(p float64) float64 {
		sum := 0.0
		for i := range s.Branches {
			f, ok := s.inverse(i, p, flows[i])
			if !ok {
				return math.NaN()
			}
			flows[i] = f
			sum += f
		}
		return sum
	}
	guess := s.Branches[0].Drop(flows[0])
	low, high := guess, guess
	for range 60 {
		if total(low) <= q {
			break
		}
		low /= 4
	}
	for range 60 {
		if total(high) >= q {
			break
		}
		high *= 4
	}
	p, err := root.Bracketed(func(p float64) float64 { return total(p) - q }, low, high, 1e-15)
	if err != nil {
		return 0, fmt.Errorf("%w: %w", ErrSplit, err)
	}
	sum := total(p)
	if math.IsNaN(sum) || math.Abs(sum-q) > 1e-9*q {
		return 0, fmt.Errorf("%w: %g of %g m3/s", ErrSplit, sum, q)
	}
	return p, nil
}

// inverse is the flow of branch i at drop p.
func (s System) inverse(i int, p, guess float64) (float64, bool) {
	b := s.Branches[i]
	low, high := guess, guess
	for range 60 {
		if b.Drop(low) <= p {
			break
		}
		low /= 4
	}
	for range 60 {
		if b.Drop(high) >= p {
			break
		}
		high *= 4
	}
	q, err := root.Bracketed(func(q float64) float64 { return b.Drop(q) - p }, low, high, 1e-15)
	return q, err == nil
}

// Static is the whole system's drop at flow q.
func (s System) Static(q float64) (float64, error) {
	var room [8]float64
	return s.static(q, s.scratch(room[:]))
}

// static is Static with a guess of the flows, which it leaves at the answer.
func (s System) static(q float64, flows []float64) (float64, error) {
	p, err := s.Split(q, flows)
	if err != nil {
		return 0, err
	}
	for i := range s.Series {
		p += s.Series[i].Law(q)
	}
	return p, nil
}

func (s System) scratch(room []float64) []float64 {
	if n := len(s.Branches); n > len(room) {
		return make([]float64, n)
	}
	return room[:len(s.Branches)]
}

// Fan is the airflow that a blower gives against an external static pressure,
// falling, and continued past the ends of its table so that a root exists.
type Fan func(static float64) float64

// Point is where system and blower meet.
type Point struct {
	Flow     float64   // m3/s
	Static   float64   // sum of all drops, Pa
	Branches []float64 // flow of each branch
	Return   float64   // drop of the branches
	Series   []float64 // drop of each part of the series
	Residual float64   // (blower static - system static) / static
}

// ErrNoPoint says that system and blower do not meet.
var ErrNoPoint = errors.New("airpath: the system does not meet the blower's curve")

// Solve finds the operating point: the static at which the blower's airflow
// makes just that static in the system. offset is pressure that the blower
// table already holds (a filter it was measured with, say) and gives back.
func (s System) Solve(fan Fan, offset Law) (Point, error) { return s.SolveNear(fan, offset, 0) }

// nearby is how far on either side of a guess SolveNear looks first, relative.
const nearby = 1e-4

// SolveNear is Solve with a guess of the static on the blower's table: a good
// one, as from a tabled return, spares most of the search, a poor one costs two
// looks. Zero is no guess.
func (s System) SolveNear(fan Fan, offset Law, guess float64) (Point, error) {
	var failed error
	flows := make([]float64, len(s.Branches))
	excess := func(static float64) float64 {
		q := fan(static)
		p, err := s.static(q, flows)
		if err != nil {
			failed = err
			return math.NaN()
		}
		if offset != nil {
			p -= offset(q)
		}
		return p - static
	}
	low, high := guess-nearby*math.Abs(guess), guess+nearby*math.Abs(guess)
	var atLow, atHigh float64
	if guess != 0 {
		atLow, atHigh = excess(low), excess(high)
	}
	if !(atLow > 0 && atHigh < 0) {
		low, atLow, high, atHigh = bracket(excess)
	}
	static, err := root.BracketedFrom(excess, low, atLow, high, atHigh, 1e-13)
	if failed != nil {
		return Point{}, failed
	}
	if err != nil {
		return Point{}, fmt.Errorf("%w between %g and %g Pa", ErrNoPoint, low, high)
	}
	q := fan(static)
	point := Point{Flow: q, Branches: flows, Series: make([]float64, len(s.Series))}
	if point.Return, err = s.Split(q, point.Branches); err != nil {
		return Point{}, err
	}
	point.Static = point.Return
	for i := range s.Series {
		point.Series[i] = s.Series[i].Law(q)
		point.Static += point.Series[i]
	}
	external := point.Static
	if offset != nil {
		external -= offset(q)
	}
	if external != 0 {
		point.Residual = (static - external) / external
	}
	return point, nil
}

// bracket widens from the usual range until the excess changes sign: at no
// static the system asks for more than the blower sees, at a high static for
// less.
func bracket(excess func(float64) float64) (low, atLow, high, atHigh float64) {
	high = 150
	atHigh = excess(high)
	for range 12 {
		if !(atHigh > 0) {
			break
		}
		low, atLow = high, atHigh
		high *= 2
		atHigh = excess(high)
	}
	if low == 0 {
		atLow = excess(0)
	}
	for range 12 {
		if !(atLow < 0) {
			break
		}
		low = low*2 - 50
		atLow = excess(low)
	}
	return low, atLow, high, atHigh
}
