package filter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/units"
)

// Without friction and with even jets the mouths are a grid of thick bars:
// zeta = (0.5 (1-f)^0.75 + (1-f)^2)/f^2 (Idelchik, thick grid with sharp edges,
// from memory), worked by hand to three digits.
func TestMouths_Identity(t *testing.T) {
	for _, row := range []struct{ open, want float64 }{{0.4, 4.38}, {0.5, 2.19}, {0.6, 1.14}, {0.8, 0.296}} {
		sharp := 0.5 * math.Pow(1-row.open, 0.75)
		assert.InEpsilon(t, row.want, float64(mouths(row.open, sharp, 1, 1, 2)), 0.005) // face velocity pressure 1 Pa
	}
}

// The sizes that the comment of LeftOut states, over usual packs and speeds.
func TestLeftOut_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawUsualPack(t)
		v := units.Speed(rapid.Float64Range(0.3, 2.6).Draw(t, "v"))
		out, err := p.LeftOut(v, standard)
		require.NoError(t, err)
		require.LessOrEqual(t, out.MouthsLow, out.MouthsHigh)
		r, err := p.Solve(v, standard)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(p.Resistance)*float64(r.MediaVelocity), float64(out.MediaDrop), 1e-12)
		back, err := p.LeftOut(-v, standard)
		require.NoError(t, err)
		assert.Equal(t, out, back)
	})
	_, err := Pack{}.LeftOut(1, standard)
	assert.Error(t, err)
}
