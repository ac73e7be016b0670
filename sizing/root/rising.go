package root

import "math"

// Rising is where f, rising between low and high, is zero, by the Illinois form
// of false position (Dowell and Jarratt 1971). It ends when two guesses lie
// within of each other; within 0 goes to the last digits. Where f has one sign
// throughout it is the nearer end, so a caller may ask for the limit of a range.
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
