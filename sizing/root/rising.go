package root

import "math"

// Rising is where f, rising between low and high, is zero, by the Illinois form
// of false position (Dowell and Jarratt 1971). It ends when two successive
// guesses differ by less than within; with 0 it iterates to the last digits.
// Where f has one sign throughout the result is the end at which f is nearer to
// zero, so that a caller gets the limit of a range.
func Rising(f func(float64) float64, low, high, within float64) float64 {
	below, above := f(low), f(high)
	if below >= 0 {
		return low
	}
	if above <= 0 {
		return high
	}
	side := 0
	x := low
	for range 200 {
		previous := x
		x = (low*above - high*below) / (above - below)
		if !(x > low && x < high) {
			x = (low + high) / 2
		}
		y := f(x)
		if y == 0 || math.Abs(x-previous) < within || high-low <= 4e-16*math.Abs(high) {
			break
		}
		if y < 0 {
			low, below = x, y
			if side < 0 {
				above /= 2
			}
			side = -1
		} else {
			high, above = x, y
			if side > 0 {
				below /= 2
			}
			side = 1
		}
	}
	return x
}

// RisingFrom is Rising for a function that gives its slope and its second slope too,
// and a first guess: Halley's steps, kept between the ends. The second slope may be an
// estimate. A step of 1e-6 is the last, for what it leaves is of the order of its
// third power, or of some thousandths of its square by a fair estimate.
func RisingFrom(f func(float64) (y, slope, second float64), low, high, x float64) float64 {
	for range 100 {
		y, slope, second := f(x)
		step := y / slope
		if bent := 1 - step*second/(2*slope); bent > 0.5 {
			step /= bent
		}
		if math.Abs(step) <= 1e-6*math.Abs(x) {
			return x - step
		}
		if y < 0 {
			low = x
		} else {
			high = x
		}
		if x -= step; !(x > low && x < high) {
			x = (low + high) / 2
		}
	}
	return x
}
