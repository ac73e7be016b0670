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

// RisingFrom is Rising for a function that gives its slope too, and a first
// guess: Newton's steps, kept between the ends. A step of 1e-9 is the last, for
// what it leaves is of the order of its square.
func RisingFrom(f func(float64) (y, slope float64), low, high, x float64) float64 {
	for range 100 {
		y, slope := f(x)
		step := y / slope
		if math.Abs(step) <= 1e-9*math.Abs(x) {
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
