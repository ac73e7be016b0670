package airpath

import (
	"fmt"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/root"
)

// ErrSplit: the flow could not be divided among the branches.
var ErrSplit = message.Errorf("airpath: the flow cannot be divided among the branches")

// Split divides the flow q, m3/s, among the branches so that all have the same
// drop, and returns that drop, Pa. flows holds one flow per branch; positive
// values on entry are the first guess, so that a search that changes q a little
// needs few iterations. The drops of the branches then differ by at most 2e-13
// of it; ErrSplit where no such division is found.
func (s System) Split(q float64, flows []float64) (drop float64, err error) {
	var buffer [8]line
	return s.split(q, flows, linesIn(buffer[:], len(s.Branches)), splitTolerance)
}

// split is Split to a relative tolerance, with the lines of an earlier split of these
// branches.
func (s System) split(q float64, flows []float64, lines []line, tolerance float64) (drop float64, err error) {
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
	if p, ok := s.splitByLines(q, flows, lines, tolerance); ok {
		return p, nil
	}
	return s.splitBracketed(q, flows)
}

// guessShares scales the flows to the sum q, or divides q evenly.
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

// splitTolerance is the relative difference allowed between the branches' drops.
const splitTolerance = 2e-13

// splitByLines replaces every branch by a straight line through its present flow and
// divides q among the lines, iteration by iteration.
func (s System) splitByLines(q float64, flows []float64, lines []line, tolerance float64) (float64, bool) {
	last := 1.0
	for range 40 {
		for i := range lines {
			if !lines[i].move(flows[i], s.Branches[i].Drop(flows[i])) {
				return 0, false
			}
		}
		p := inParallel(lines).at(q)
		miss := worstImbalance(lines, p)
		share(lines, p, flows)
		if miss <= tolerance || leftOf(miss, last) <= tolerance {
			return p, true
		}
		last = miss
	}
	return 0, false
}

// splitBracketed is the slow method that always converges: the common drop by bracketing,
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

// Static is the drop of the whole system, Pa, at a flow in m3/s: of the
// branches in parallel, and then of the series. The error is that of Split.
func (s System) Static(q float64) (float64, error) {
	p, err := s.Statics([]float64{q})
	if err != nil {
		return 0, err
	}
	return p[0], nil
}

// Statics is Static at many flows, best in order: each split starts from the
// previous one.
func (s System) Statics(flows []float64) ([]float64, error) {
	shares, lines := make([]float64, len(s.Branches)), make([]line, len(s.Branches))
	out := make([]float64, len(flows))
	for i, q := range flows {
		p, err := s.static(q, shares, lines)
		if err != nil {
			return nil, err
		}
		out[i] = p
	}
	return out, nil
}

func (s System) static(q float64, flows []float64, lines []line) (float64, error) {
	p, err := s.split(q, flows, lines, splitTolerance)
	if err != nil {
		return 0, err
	}
	for i := range s.Series {
		p += s.Series[i].Law(q)
	}
	return p, nil
}
