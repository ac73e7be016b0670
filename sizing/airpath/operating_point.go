package airpath

import (
	"fmt"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/root"
)

// Fan is the airflow of a blower, m3/s, at an external static pressure, Pa:
// falling, and continued past the ends of its table so that a root exists.
type Fan func(static float64) float64

// Point is the operating point of system and blower.
type Point struct {
	Flow     float64   // m3/s
	Static   float64   // sum of all drops, Pa
	Branches []float64 // flow of each branch
	Return   float64   // drop of the branches
	Series   []float64 // drop of each part of the series
	Residual float64   // (blower static - system static) / static

	onTable float64 // static on the blower's table: less what the table includes
	// exponents are those of the lines of the branches, the series and the offset,
	// after the last iteration.
	exponents []float64
}

// ErrNoPoint: system and blower have no operating point.
var ErrNoPoint = message.Errorf("airpath: system and blower have no operating point")

// Solve finds the operating point: the static at which the blower's airflow
// causes that same static in the system. offset is the drop that the blower
// table already includes, of a filter that it was measured with for example; it
// is subtracted, and may be nil. The error is ErrNoPoint, or ErrSplit of the
// branches.
func (s System) Solve(fan Fan, offset Law) (Point, error) {
	return s.SolveNear(fan, offset, Point{}, &Memory{})
}

// SolveNear is Solve started at the operating point of a similar system, which saves
// an iteration or two; a Point of another house costs an iteration or two. The numbers
// of the Point stand in memory.
func (s System) SolveNear(fan Fan, offset Law, near Point, memory *Memory) (Point, error) {
	if p, ok := s.solveByLines(fan, offset, near, memory); ok {
		return p, nil
	}
	return s.solveBracketed(fan, offset, memory)
}

// Memory holds the numbers of many points, allocated a block at a time: a house has
// hundreds of operating points with a few numbers each. It belongs to one goroutine.
type Memory struct{ free []float64 }

const memoryBlock = 256

// take is n numbers, all zero.
func (m *Memory) take(n int) []float64 {
	if n > len(m.free) {
		m.free = make([]float64, max(n, memoryBlock))
	}
	out := m.free[:n:n]
	m.free = m.free[n:]
	return out
}

// usualStatic is the static at which a search without a start point begins, Pa.
const usualStatic = 125

const (
	solveTolerance  = 1e-13 // of blower and system, relative
	solveIterations = 25
	greatestStatic  = 150 << 12 // no house has such a static, Pa
)

// solveByLines replaces the branches, the series, the offset and the blower by
// straight lines through their present flow and intersects these, iteration by
// iteration: with static s on the blower's table, Q(s) its airflow and p(q) the
// system's drop,
//
//	p(Q(s)) - s = 0
//
// The left side falls by at least 1 per Pa, since Q falls and p rises.
func (s System) solveByLines(fan Fan, offset Law, near Point, memory *Memory) (Point, bool) {
	p := s.start(near, offset, memory)
	n, static := len(s.Branches), p.onTable
	var buffer [usualLines]line
	lines := linesIn(buffer[:], len(p.exponents))
	for i := range lines {
		lines[i].exponent = p.exponents[i]
	}
	p.Flow = fan(static)
	guessShares(p.Branches, p.Flow)
	lastError := 1.0
	for range solveIterations {
		if !(p.Flow > 0 && math.Abs(static) < greatestStatic) || !s.evaluate(&p, lines, offset) {
			return p, false
		}
		joined := inParallel(lines[:n])
		rest, restSlope := inSeries(lines[n:], offset != nil)
		p.Return = joined.at(p.Flow)
		excess, miss := p.Return+rest-static, worstImbalance(lines[:n], p.Return)
		if miss <= splitTolerance && math.Abs(excess) <= solveTolerance*(p.Return+rest) {
			p.complete(static, lines, offset)
			return p, true
		}
		relative := miss + math.Abs(excess)/math.Abs(p.Return+rest)
		enough := leftOf(relative, lastError) <= solveTolerance // so that it need not be evaluated
		lastError = relative
		fall := (fan(static+probe) - p.Flow) / probe
		static -= excess / ((joined.slope+restSlope)*fall - 1)
		p.Flow = fan(static)
		share(lines[:n], joined.at(p.Flow), p.Branches)
		if enough && p.Flow > 0 {
			p.Return = joined.at(p.Flow)
			for i := range p.Series {
				p.Series[i] = lines[n+i].at(p.Flow)
			}
			p.complete(static, lines, offset)
			return p, true
		}
	}
	return p, false
}

// probe is the step over which the blower's slope is read, Pa.
const probe = 1e-4

// What the system of most houses needs.
const usualLines = 8

// start is the point to iterate from: near, where it is of a system of this form.
func (s System) start(near Point, offset Law, memory *Memory) Point {
	n, all := len(s.Branches), len(s.Branches)+len(s.Series)
	if offset != nil {
		all++
	}
	parts := n + len(s.Series)
	numbers := memory.take(parts + all)
	p := Point{Branches: numbers[:n:n], Series: numbers[n:parts:parts], exponents: numbers[parts:]}
	p.onTable = usualStatic
	if near.Flow > 0 {
		p.onTable = near.onTable
		if len(near.Branches) == n {
			copy(p.Branches, near.Branches)
		}
		if len(near.exponents) == all {
			copy(p.exponents, near.exponents)
		}
	}
	return p
}

// evaluate finds the drop of every part at the flows of a point; false where a law
// gives no usable number.
func (s System) evaluate(p *Point, lines []line, offset Law) bool {
	n := len(s.Branches)
	sound := true
	for i := range s.Branches {
		sound = lines[i].move(p.Branches[i], s.Branches[i].Drop(p.Branches[i])) && sound
	}
	for i := range s.Series {
		p.Series[i] = s.Series[i].Law(p.Flow)
		sound = lines[n+i].move(p.Flow, p.Series[i]) && sound
	}
	if offset != nil {
		sound = lines[len(lines)-1].move(p.Flow, offset(p.Flow)) && sound
	}
	return sound
}

// complete computes the statics and the residual of a solved point from its flows and
// drops, and keeps what a search near it starts from.
func (p *Point) complete(static float64, lines []line, offset Law) {
	p.onTable = static
	for i := range lines {
		p.exponents[i] = lines[i].exponent
	}
	p.Static = p.Return
	for _, d := range p.Series {
		p.Static += d
	}
	external := p.Static
	if offset != nil {
		external -= offset(p.Flow)
	}
	if external != 0 {
		p.Residual = (static - external) / external
	}
}

// solveBracketed is the slow method that always converges.
func (s System) solveBracketed(fan Fan, offset Law, memory *Memory) (Point, error) {
	var failed error
	point := s.start(Point{}, offset, memory)
	lines := make([]line, len(s.Branches))
	excess := func(static float64) float64 {
		q := fan(static)
		p, err := s.static(q, point.Branches, lines)
		if err != nil {
			failed = err
			return math.NaN()
		}
		if offset != nil {
			p -= offset(q)
		}
		return p - static
	}
	low, atLow, high, atHigh := bracket(excess)
	static, err := root.BracketedFrom(excess, low, atLow, high, atHigh, 1e-13)
	if failed != nil {
		return Point{}, failed
	}
	if err != nil {
		return Point{}, fmt.Errorf("%w between %g and %g Pa", ErrNoPoint, low, high)
	}
	point.Flow = fan(static)
	if point.Return, err = s.Split(point.Flow, point.Branches); err != nil {
		return Point{}, err
	}
	for i := range s.Series {
		point.Series[i] = s.Series[i].Law(point.Flow)
	}
	point.complete(static, nil, offset)
	return point, nil
}

// widest is the number of times a bracket is doubled.
const widest = 40

// bracket widens from the usual range until the excess changes sign: at zero static
// the system needs more than the blower delivers, at a high static less.
//
// With a table measured with a wet coil or a filter the credit may be larger than
// the drop of all parts, so the bracket also widens below zero.
func bracket(excess func(float64) float64) (low, atLow, high, atHigh float64) {
	high = 150
	atHigh = excess(high)
	for range widest {
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
	for range widest {
		if !(atLow < 0) {
			break
		}
		low = low*2 - 50
		atLow = excess(low)
	}
	return low, atLow, high, atHigh
}
