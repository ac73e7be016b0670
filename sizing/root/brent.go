// Package root finds where a function of one number is zero. It knows nothing
// of air: the parts of the engine share it.
package root

import (
	"errors"
	"math"
)

// ErrNoBracket: the function has the same sign at both ends.
var ErrNoBracket = errors.New("root: no sign change between the ends")

// Bracketed finds x between a and b with f(x) = 0 by Brent's method to a relative
// tolerance on x. The ends must bracket the root.
//
// Source: Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4.
func Bracketed(f func(float64) float64, a, b, tolerance float64) (float64, error) {
	return BracketedFrom(f, a, f(a), b, f(b), tolerance)
}

// BracketedFrom is Bracketed for ends whose values are known.
func BracketedFrom(f func(float64) float64, a, fa, b, fb, tolerance float64) (float64, error) {
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	if math.Signbit(fa) == math.Signbit(fb) || math.IsNaN(fa) || math.IsNaN(fb) {
		return math.NaN(), ErrNoBracket
	}
	c, fc := a, fa
	d := b - a
	e := d
	for range 200 {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		near := 2*0x1p-53*math.Abs(b) + 0.5*tolerance*math.Abs(b)
		m := 0.5 * (c - b)
		if math.Abs(m) <= near || fb == 0 {
			return b, nil
		}
		if math.Abs(e) < near || math.Abs(fa) <= math.Abs(fb) {
			d, e = m, m
		} else {
			var p, q float64
			s := fb / fa
			if a == c {
				p, q = 2*m*s, 1-s
			} else {
				t, r := fa/fc, fb/fc
				p = s * (2*m*t*(t-r) - (b-a)*(r-1))
				q = (t - 1) * (r - 1) * (s - 1)
			}
			if p > 0 {
				q = -q
			} else {
				p = -p
			}
			if 2*p < math.Min(3*m*q-math.Abs(near*q), math.Abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = m, m
			}
		}
		a, fa = b, fb
		if math.Abs(d) > near {
			b += d
		} else {
			b += math.Copysign(near, m)
		}
		fb = f(b)
		if math.Signbit(fb) == math.Signbit(fc) {
			c, fc = a, fa
			d = b - a
			e = d
		}
	}
	return b, nil
}
