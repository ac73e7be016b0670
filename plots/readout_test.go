package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestReadoutLines(t *testing.T) {
	s := testStudy(1)
	var labels []string
	for _, l := range FanAndSystemLines(s) {
		labels = append(labels, l.Label)
		assert.NotEmpty(t, l.Points, l.Label)
	}
	assert.Equal(t, []string{"Blower, tap low", "Blower, tap medium", "Blower, tap high", "No filter",
		"Today, clean", "Today, loaded", "20x25x1 pleated, clean", "20x25x1 pleated, loaded"}, labels)
}

func TestNearestReadsTheLine(t *testing.T) {
	for _, sys := range []units.System{units.IP, units.SI} {
		s, look := testStudy(1), Light(sys)
		_, tr := NewCanvas().Render(FanAndSystem(s, look), look, 900, 500, 96)
		lines := FanAndSystemLines(s)
		today := s.Options[1]

		// A little below the clean line, short of the operating point.
		at := today.Clean.Airflow * 0.8
		want := float64(today.Clean.ExternalStatic) * 0.8 * 0.8 // system lines of the fixture are quadratic
		px, py := tr.DataToPixel(look.in(at), look.in(units.Pressure(want)))
		hit, ok := Nearest(lines, tr, px, py+1)
		require.True(t, ok)
		assert.Equal(t, "Today, clean", hit.Label)
		assert.InEpsilon(t, float64(at), float64(hit.Point.Airflow), 0.01)
		assert.InEpsilon(t, want, float64(hit.Point.Static), 0.01)
		assert.Less(t, hit.Distance, 2.0)
		x, y := tr.DataToPixel(look.in(hit.Point.Airflow), look.in(hit.Point.Static))
		assert.InDelta(t, hit.X, x, 1e-6)
		assert.InDelta(t, hit.Y, y, 1e-6)
		assert.Contains(t, hit.Show(sys), "Today, clean: ")

		// Beyond its drawn end a system line cannot be read.
		px, py = tr.DataToPixel(look.in(today.Clean.Airflow*1.2), look.in(today.Clean.ExternalStatic*1.44))
		hit, ok = Nearest(lines, tr, px, py)
		require.True(t, ok)
		assert.Greater(t, hit.Distance, 5.0)
	}
}

func TestNearestOfNothing(t *testing.T) {
	_, ok := Nearest(nil, Transform{}, 1, 1)
	assert.False(t, ok)
	_, tr := NewCanvas().Render(FanAndSystem(&sizing.Study{}, Look{}), Look{}, 900, 500, 96)
	_, ok = Nearest(FanAndSystemLines(&sizing.Study{}), tr, 100, 100)
	assert.False(t, ok)
	bad := []ReadoutLine{{"bad", []sizing.CurvePoint{{Airflow: units.Flow(math.NaN())}}}}
	_, ok = Nearest(bad, tr, 100, 100)
	assert.False(t, ok)
}

func TestUpTo_Identity(t *testing.T) {
	curve := []sizing.CurvePoint{{Airflow: 0, Static: 0}, {Airflow: 2, Static: 4}, {Airflow: 4, Static: 8}}
	assert.Equal(t, []sizing.CurvePoint{{Airflow: 0}, {Airflow: 2, Static: 4}, {Airflow: 3, Static: 6}}, upTo(curve, 3))
	assert.Equal(t, curve, upTo(curve, 0))
	assert.Equal(t, curve, upTo(curve, 9))
	assert.Empty(t, upTo(curve, -1)[3:])
}
