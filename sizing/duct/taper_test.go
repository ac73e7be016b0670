package duct

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// Hand-worked: 20 x 20 in to 20 x 25 in is 2.5 in each way, at 1 in 4 a piece of
// 10 in. 400 / 500 = 0.8; (1 - 0.8)^2 = 0.04; half the angle is atan(1/4), its sine
// 0.24254, times 2.6 is 0.63060: zeta 0.025224. 1200 cfm is 0.566337 m3/s, through
// 0.258064 m2 is 2.19456 m/s; at 1.2 kg/m3 2.88967 Pa: 0.07289 Pa.
func TestTaper_Identity(t *testing.T) {
	in := units.Inch
	w := NewTaper(20*in, 20*in, 20*in, 25*in)
	assert.InDelta(t, 10, float64(w.Length/in), 1e-9)
	assert.Equal(t, GradualExpansion, w.Fitting.Kind)
	drop, err := w.Drop(1200*units.CFM, 1.2)
	require.NoError(t, err)
	assert.InDelta(t, 0.07289, drop.SI(), 1e-5)

	back := NewTaper(20*in, 25*in, 20*in, 20*in)
	assert.Equal(t, w.Length, back.Length)
	assert.Equal(t, GradualContraction, back.Fitting.Kind)

	same := NewTaper(20*in, 20*in, 20*in, 20*in)
	drop, err = same.Drop(1200*units.CFM, 1.2)
	require.NoError(t, err)
	assert.Zero(t, same.Length)
	assert.Zero(t, drop)
}
