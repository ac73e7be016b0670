package airpath

import "math"

// line is a law as a straight line through the flow at which it was last evaluated,
// with the slope there of the power law through it and the flow before.
type line struct {
	flow, drop float64
	slope      float64
	// exponent is d(ln drop)/d(ln flow), used where there is no usable secant.
	exponent float64
}

// usualExponent is between that of duct, media and open ends.
const usualExponent = 1.9

// move puts the line through another point of its law; false where the point is not
// one of a rising law.
func (l *line) move(flow, drop float64) bool {
	if !(flow > 0 && drop > 0) || math.IsInf(drop, 0) {
		return drop == 0 && l.flat(flow)
	}
	ray := drop / flow
	if l.exponent == 0 {
		l.exponent = usualExponent
	}
	if step := flow - l.flow; l.flow > 0 && math.Abs(step) > 1e-7*flow {
		// Of a power law this is its exponent but for the third order of the step.
		if n := (drop - l.drop) / (drop + l.drop) * (flow + l.flow) / step; n > 0.3 && n < 4 {
			l.exponent = n
		}
	}
	l.flow, l.drop, l.slope = flow, drop, l.exponent*ray
	return true
}

// flat is the line of a part without drop.
func (l *line) flat(flow float64) bool {
	*l = line{flow: flow}
	return true
}

// leftOf is the error that an iteration leaves, all relative, where it began with one
// and the iteration before with another: of laws without kinks a hundredth to a
// thousandth of their product. Errors that do not fall that fast leave as much again.
func leftOf(error, last float64) float64 {
	if error > last/100 {
		return error
	}
	return error * last / 100
}

// at is the drop of the line at a flow.
func (l line) at(flow float64) float64 { return l.drop + l.slope*(flow-l.flow) }

// inParallel is the line of all lines together, over the sum of their flows: at a
// drop p each has the flow flow + (p - drop)/slope.
func inParallel(lines []line) line {
	if len(lines) == 0 {
		return line{}
	}
	var all line
	conductance := 0.0 // flow per drop
	for i := range lines {
		l := &lines[i]
		all.flow += l.flow - l.drop/l.slope
		conductance += 1 / l.slope
	}
	all.slope = 1 / conductance
	return all
}

// inSeries is the drop and the slope of all lines at the flow that they share; an
// offset, the last, is subtracted.
func inSeries(lines []line, offset bool) (drop, slope float64) {
	for i := range lines {
		sign := 1.0
		if offset && i == len(lines)-1 {
			sign = -1
		}
		drop += sign * lines[i].drop
		slope += sign * lines[i].slope
	}
	return drop, slope
}

// worstImbalance is the largest difference of a line from the drop p, relative. Lines
// may meet at a drop below zero while their flows are far off.
func worstImbalance(lines []line, p float64) float64 {
	miss := 0.0
	for i := range lines {
		miss = math.Max(miss, math.Abs(lines[i].drop-p))
	}
	if miss == 0 {
		return 0
	}
	return miss / math.Abs(p)
}

// share finds each line's flow at the drop p. None falls below an eighth of its
// value in one iteration.
func share(lines []line, p float64, flows []float64) {
	for i := range lines {
		l := &lines[i]
		flows[i] = math.Max(l.flow+(p-l.drop)/l.slope, l.flow/8)
	}
}

func linesIn(buffer []line, n int) []line {
	if n > len(buffer) {
		return make([]line, n)
	}
	return buffer[:n]
}
