package blower

import "math"

// cubic is a piecewise cubic in Hermite form: values y and slopes d at rising
// places x. The zero cubic covers nothing.
type cubic struct {
	x, y, d []float64
	// straight is the share of the straight lines between the points in the
	// values, 0 (the cubic) to 1 (straight lines).
	straight float64
}

func (k *cubic) covers(x float64) bool {
	return len(k.x) > 0 && x >= k.x[0] && x <= k.x[len(k.x)-1]
}

func (k *cubic) first() float64 {
	if len(k.x) == 0 {
		return 0
	}
	return k.x[0]
}

func (k *cubic) last() float64 {
	if len(k.x) == 0 {
		return 0
	}
	return k.x[len(k.x)-1]
}

// interval is the last i with x[i] <= x; x lies inside. Tables are short, so a
// plain walk beats halving.
func (k *cubic) interval(x float64) int {
	i := 0
	for i < len(k.x)-2 && x >= k.x[i+1] {
		i++
	}
	return i
}

// at is the value at x, outside the points that of the nearer end; NaN stays
// NaN.
func (k *cubic) at(x float64) float64 {
	n := len(k.x)
	switch {
	case n == 0:
		return 0
	case x <= k.x[0]:
		return k.y[0]
	case x >= k.x[n-1]:
		return k.y[n-1]
	}
	i := k.interval(x)
	h := k.x[i+1] - k.x[i]
	c1, c2, c3 := k.coefficients(i, h)
	t := (x - k.x[i]) / h
	return k.y[i] + t*(c1+t*(c2+t*c3))
}

// coefficients of y[i] + c1 t + c2 t^2 + c3 t^3 on interval i of width h.
func (k *cubic) coefficients(i int, h float64) (c1, c2, c3 float64) {
	dy := k.y[i+1] - k.y[i]
	c1 = h * k.d[i]
	end := h * k.d[i+1]
	c2, c3 = 3*dy-2*c1-end, c1+end-2*dy
	curved := 1 - k.straight
	return curved*c1 + k.straight*dy, curved * c2, curved * c3
}

func (k *cubic) linear(x float64) float64 {
	n := len(k.x)
	switch {
	case n == 0:
		return 0
	case x <= k.x[0]:
		return k.y[0]
	case x >= k.x[n-1]:
		return k.y[n-1]
	}
	i := k.interval(x)
	return k.y[i] + (k.y[i+1]-k.y[i])*(x-k.x[i])/(k.x[i+1]-k.x[i])
}

// inverse of a falling cubic: the greatest x whose value is at or over y. The
// cubic is monotone in each interval, so a Newton step kept inside a shrinking
// bracket finds it.
func (k *cubic) inverse(y float64) (x float64, inside bool) {
	n := len(k.x)
	switch {
	case n == 0:
		return 0, false
	case !(y <= k.y[0]):
		return k.x[0], false
	case y < k.y[n-1]:
		return k.x[n-1], false
	case y == k.y[n-1]:
		return k.x[n-1], true
	}
	i := 0
	for k.y[i+1] >= y {
		i++
	}
	h := k.x[i+1] - k.x[i]
	c1, c2, c3 := k.coefficients(i, h)
	t := fallingRoot(k.y[i]-y, k.y[i+1]-k.y[i], c1, c2, c3)
	return k.x[i] + t*h, true
}

// fallingRoot finds t in [0, 1] where c0 + c1 t + c2 t^2 + c3 t^3, falling from
// c0 >= 0 by dy, is zero.
func fallingRoot(c0, dy, c1, c2, c3 float64) float64 {
	low, high := 0.0, 1.0
	t := -c0 / dy
	// Halving alone would converge in 53 steps; Newton mostly takes five.
	for range 60 {
		f := c0 + t*(c1+t*(c2+t*c3))
		if f == 0 {
			return t
		}
		if f > 0 {
			low = t
		} else {
			high = t
		}
		next := t - f/(c1+t*(2*c2+3*t*c3))
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-t) <= 1e-16 {
			return next
		}
		t = next
	}
	return t
}
