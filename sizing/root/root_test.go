package root

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRoot_Identity(t *testing.T) {
	cube := func(x float64) float64 { return x*x*x - 2 }
	x, err := Bracketed(cube, 0, 2, 1e-15)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Cbrt(2), x, 1e-14)
	_, err = Bracketed(func(x float64) float64 { return x*x + 1 }, -1, 1, 1e-12)
	assert.ErrorIs(t, err, ErrNoBracket)

	assert.InEpsilon(t, math.Cbrt(2), Rising(cube, 0, 2, 0), 1e-14)
	assert.InDelta(t, math.Cbrt(2), Rising(cube, 0, 2, 1e-6), 1e-6)
	sloped := func(x float64) (y, slope, second float64) { return cube(x), 3 * x * x, 6 * x }
	for _, from := range []float64{1e-9, 0.3, 1.2, 2} {
		assert.InEpsilon(t, math.Cbrt(2), RisingFrom(sloped, 0, 2, from), 1e-15, "from %g", from)
	}
	wrong := func(x float64) (y, slope, second float64) { return cube(x), 3 * x * x, -100 }
	assert.InEpsilon(t, math.Cbrt(2), RisingFrom(wrong, 0, 2, 2), 1e-10, "a second slope that misleads")
	flat := func(x float64) (y, slope, second float64) { return cube(x), 0, 0 }
	assert.InEpsilon(t, math.Cbrt(2), RisingFrom(flat, 0, 2, 2), 1e-14, "no slope: halving")
	assert.Equal(t, 2.0, Rising(cube, 2, 3, 0), "positive throughout: the low end")
	assert.Equal(t, 1.0, Rising(cube, 0, 1, 0), "negative throughout: the high end")
}
