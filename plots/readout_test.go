package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/plotter"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestReadoutLines(t *testing.T) {
	var labels []string
	for _, l := range Kinds()[0].Chart(testStudy(1), Light(units.IP)).Lines {
		labels = append(labels, l.Label)
		assert.NotEmpty(t, l.Points, l.Label)
	}
	assert.ElementsMatch(t, []string{"Blower, tap low", "Blower, tap medium", "Blower, tap high", "No filter",
		"Today, clean", "Today, loaded", "20x25x1 pleated, clean", "20x25x1 pleated, loaded"}, labels)
}

// Every chart with curves can be read, in the units in use, and a value read
// back lies where the line is drawn.
func TestEveryCurveCanBeRead(t *testing.T) {
	for name, s := range solvedHouses(t) {
		for _, look := range []Look{Light(units.IP), Dark(units.SI)} {
			for _, k := range Kinds() {
				c := k.Chart(s, look)
				if c.bars != nil {
					assert.Empty(t, c.Lines, "%s: bars carry their numbers", k.Key)
					continue
				}
				require.NotEmpty(t, c.Lines, "%s: %s", name, k.Key)
				_, tr := NewCanvas().Render(c, look, 900, 500, 96)
				for n, l := range c.Lines {
					for _, v := range l.Values {
						require.Len(t, v.At, len(l.Points), "%s: %s: %s", k.Key, l.Label, v.Name)
					}
					if l.Hidden {
						_, ok := Nearest(c.Lines[n:n+1], tr, 450, 250)
						assert.False(t, ok, "%s: %s is not drawn", k.Key, l.Label)
						continue
					}
					i := len(l.Points) / 2
					px, py := tr.DataToPixel(l.Points[i].X, l.Points[i].Y)
					if !tr.Inside(px, py) {
						continue
					}
					hit, ok := Nearest(c.Lines[n:n+1], tr, px, py)
					require.True(t, ok, "%s: %s", k.Key, l.Label)
					assert.Less(t, hit.Distance, 1e-6)
					require.Len(t, hit.Values, len(l.Values))
					for j, v := range l.Values {
						assert.Equal(t, v.show(v.At[i], look.Units), hit.Values[j], "%s: %s", k.Key, l.Label)
					}
				}
			}
		}
	}
}

func TestReadoutSpeaksTheUnits(t *testing.T) {
	s := testStudy(1)
	read := func(key string, sys units.Locale) string {
		for _, k := range Kinds() {
			if k.Key == key {
				look := Light(sys)
				c := k.Chart(s, look)
				_, tr := NewCanvas().Render(c, look, 900, 500, 96)
				hit, ok := Nearest(c.Lines[:1], tr, (tr.Area.MinX+tr.Area.MaxX)/2, tr.Area.MaxY)
				require.True(t, ok, key)
				return hit.Show()
			}
		}
		return ""
	}
	for key, want := range map[string][2][]string{
		"fan-and-system":     {{"cfm", "in. w.c.", "W"}, {"L/s", "Pa"}},
		"filter-drop":        {{"fpm", "in. w.c."}, {"m/s", "Pa"}},
		"filter-life":        {{"month", "cfm", "in. w.c.", "W"}, {"month", "L/s", "Pa", "W"}},
		"efficiency-by-size": {{"µm", "%"}, {"µm", "%"}},
	} {
		for sys, words := range want {
			got := read(key, units.Locale{System: units.System(sys)})
			for _, w := range words {
				assert.Contains(t, got, w, key)
			}
		}
	}
}

func TestNearestReadsTheLine(t *testing.T) {
	for _, sys := range []units.Locale{units.IP, units.SI} {
		s, look := testStudy(1), Light(sys)
		c := Kinds()[0].Chart(s, look)
		_, tr := NewCanvas().Render(c, look, 900, 500, 96)
		today := s.Options[1]

		// A little below the clean line, short of the operating point.
		at := today.Clean.Airflow * 0.8
		want := float64(today.Clean.ExternalStatic) * 0.8 * 0.8 // system lines of the fixture are quadratic
		px, py := tr.DataToPixel(look.in(at), look.in(units.Pressure(want)))
		hit, ok := Nearest(c.Lines, tr, px, py+1)
		require.True(t, ok)
		assert.Equal(t, "Today, clean", hit.Label)
		assert.Equal(t, c.Lines[hit.Line].Label, hit.Label)
		assert.InEpsilon(t, look.in(at), hit.At.X, 0.01)
		assert.InEpsilon(t, look.in(units.Pressure(want)), hit.At.Y, 0.01)
		assert.Less(t, hit.Distance, 2.0)
		x, y := tr.DataToPixel(hit.At.X, hit.At.Y)
		assert.InDelta(t, hit.X, x, 1e-6)
		assert.InDelta(t, hit.Y, y, 1e-6)
		assert.Contains(t, hit.Show(), "Today, clean: ")

		// Beyond its drawn end a system line cannot be read.
		px, py = tr.DataToPixel(look.in(today.Clean.Airflow*1.2), look.in(today.Clean.ExternalStatic*1.44))
		hit, ok = Nearest(c.Lines, tr, px, py)
		require.True(t, ok)
		assert.Greater(t, hit.Distance, 5.0)
	}
}

func TestNearestOfNothing(t *testing.T) {
	_, ok := Nearest(nil, Transform{}, 1, 1)
	assert.False(t, ok)
	c := Kinds()[0].Chart(&sizing.Study{}, Look{})
	_, tr := NewCanvas().Render(c, Look{}, 900, 500, 96)
	_, ok = Nearest(c.Lines, tr, 100, 100)
	assert.False(t, ok)
	bad := []ReadoutLine{{Label: "bad", Points: plotter.XYs{{X: math.NaN()}}}}
	_, ok = Nearest(bad, tr, 100, 100)
	assert.False(t, ok)
}

func TestPartOfALine_Identity(t *testing.T) {
	line := ReadoutLine{Label: "l", Points: plotter.XYs{{X: 0, Y: 0}, {X: 2, Y: 4}, {X: 4, Y: 8}}, Values: []Values{plain("v", "", []float64{0, 20, 40})}}
	cut := line.part(1, 3)
	assert.Equal(t, plotter.XYs{{X: 1, Y: 2}, {X: 2, Y: 4}, {X: 3, Y: 6}}, cut.Points)
	assert.Equal(t, []float64{10, 20, 30}, cut.Values[0].At)
	assert.Equal(t, line.Points, line.part(0, 9).Points)
	assert.Empty(t, line.part(5, 9).Points)
	assert.Equal(t, []float64{0, 20, 40}, line.Values[0].At, "the line itself stays")
	assert.Equal(t, plotter.XYs{{X: 0, Y: 0}, {X: 2, Y: 4}, {X: 3, Y: 6}}, line.under(6).Points)
	assert.Equal(t, 0.6, Values{At: []float64{0.3, 1.2}, Ratios: true}.between(1, 0.5))
}

// What is inside lies inside, and a piece that passes through is not lost.
func TestInsidePieces_Identity(t *testing.T) {
	tr := Transform{Area: Area{MinX: 10, MinY: 20, MaxX: 110, MaxY: 220}}
	rapid.Check(t, func(r *rapid.T) {
		at := func(n string) float64 { return rapid.Float64Range(-300, 500).Draw(r, n) }
		ax, ay, bx, by := at("ax"), at("ay"), at("bx"), at("by")
		lo, hi, ok := tr.inside(ax, ay, bx, by)
		if !ok {
			for k := range 101 {
				s := float64(k) / 100
				x, y := ax+s*(bx-ax), ay+s*(by-ay)
				if x > 10.001 && x < 109.999 && y > 20.001 && y < 219.999 {
					r.Fatalf("%g, %g is inside", x, y)
				}
			}
			return
		}
		for _, s := range []float64{lo, (lo + hi) / 2, hi} {
			x, y := ax+s*(bx-ax), ay+s*(by-ay)
			if x < 9.99 || x > 110.01 || y < 19.99 || y > 220.01 {
				r.Fatalf("%g, %g is outside", x, y)
			}
		}
	})
}
