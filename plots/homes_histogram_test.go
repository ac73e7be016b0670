package plots

import (
	"bytes"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"

	"returnbench/sizing/homes"
	"returnbench/sizing/units"
)

func screened() homes.Summary {
	return homes.Summary{Homes: 29,
		AirflowPerCapacity: homes.Bins{Name: "airflow per cooling capacity", Unit: "cfm/ton", Low: 150, Step: 25, Homes: []int{0, 0, 1, 2, 4, 7, 6, 4, 2, 0, 0, 0}, Under: 1, Over: 2},
		ExternalStatic:     homes.Bins{Name: "external static", Unit: "in. w.c.", Low: 0, Step: 0.1, Homes: []int{0, 0, 0, 1, 3, 5, 6, 6, 4, 3, 1}},
	}
}

// TestHomes: the picture is as large as two charts, and the bars of
// both charts are in it: leaving homes out changes the upper or lower half.
func TestHomes(t *testing.T) {
	look := Print(units.IP)
	draw := func(s homes.Summary) []byte {
		var b bytes.Buffer
		require.NoError(t, WriteHomes(&b, s, look))
		return b.Bytes()
	}
	whole, err := png.Decode(bytes.NewReader(draw(screened())))
	require.NoError(t, err)
	assert.Equal(t, 1800, whole.Bounds().Dx())
	assert.Equal(t, 2000, whole.Bounds().Dy())

	less := screened()
	less.ExternalStatic.Homes[4] = 0
	other, err := png.Decode(bytes.NewReader(draw(less)))
	require.NoError(t, err)
	changed := [2]int{}
	for y := range 2000 {
		for x := range 1800 {
			if whole.At(x, y) != other.At(x, y) {
				changed[y/1000]++
			}
		}
	}
	assert.Zero(t, changed[0], "the airflow is as before")
	assert.Greater(t, changed[1], 1000, "a bar is gone from the static")
}

func TestHomesHeading(t *testing.T) {
	assert.Equal(t, "Homes, of 29; 3 beyond the picture", Look{}.homesHeading(screened().AirflowPerCapacity))
	assert.Equal(t, "Homes, of 29", Look{}.homesHeading(screened().ExternalStatic))
}

// A list of nothing still makes a picture, and ticks are whole homes.
func TestHomesEmpty(t *testing.T) {
	var b bytes.Buffer
	s := screened()
	s.AirflowPerCapacity.Homes = make([]int, 12)
	s.ExternalStatic.Homes = make([]int, 11)
	require.NoError(t, WriteHomes(&b, s, Dark(units.IP)))
	assert.NotEmpty(t, b.Bytes())
	for _, top := range []float64{1.18, 3, 40, 1e6} {
		ticks := wholeTicks{roundTicks{n: 5}}.Ticks(0, top)
		require.NotEmpty(t, ticks)
		for _, tick := range ticks {
			assert.Equal(t, float64(int(tick.Value)), tick.Value)
		}
	}
	assert.Implements(t, (*plot.Ticker)(nil), wholeTicks{})
}
