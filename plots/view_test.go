package plots

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"returnbench/plots/labels"
	"returnbench/sizing/units"
)

func TestView_Identity(t *testing.T) {
	v := WholeView().Zoom(0.5, 0.25, 1)
	assert.Equal(t, View{0.125, 0.625, 0.5, 1}, v)
	assert.Equal(t, WholeView(), v.Zoom(2, 0.25, 1))
	assert.Equal(t, WholeView(), WholeView().Zoom(2, 0.3, 0.3), "no further out than the chart")
	assert.Equal(t, WholeView(), WholeView().Pan(0.3, -0.3))
	assert.Equal(t, View{0.5, 1, 0.5, 1}, View{0.25, 0.75, 0.25, 0.75}.Pan(5, 5))
	assert.Equal(t, View{0.25, 0.5, 0.5, 0.75}, WholeView().Part(0.5, 0.5, 0.25, 0.75), "corners in any order")
	rapid.Check(t, func(r *rapid.T) {
		v := WholeView()
		share := rapid.Float64Range(0, 1)
		for range rapid.IntRange(1, 12).Draw(r, "steps") {
			switch rapid.IntRange(0, 2).Draw(r, "what") {
			case 0:
				v = v.Zoom(rapid.Float64Range(0.2, 5).Draw(r, "by"), share.Draw(r, "x"), share.Draw(r, "y"))
			case 1:
				v = v.Pan(rapid.Float64Range(-2, 2).Draw(r, "dx"), rapid.Float64Range(-2, 2).Draw(r, "dy"))
			case 2:
				v = v.Part(share.Draw(r, "x0"), share.Draw(r, "y0"), share.Draw(r, "x1"), share.Draw(r, "y1"))
			}
			if v.Left < 0 || v.Right > 1 || v.Bottom < 0 || v.Top > 1 || v.Right-v.Left < closest-1e-9 || v.Top-v.Bottom < closest-1e-9 {
				r.Fatalf("%+v", v)
			}
		}
	})
}

// A zoom keeps what is under the pointer under it, on an axis of ratios too.
func TestZoomKeepsThePoint(t *testing.T) {
	for _, k := range Kinds() {
		c := k.Chart(testStudy(2), Light(units.IP))
		if c.bars != nil {
			continue
		}
		_, tr := NewCanvas().Render(c, Light(units.IP), 900, 500, 96)
		px, py := 0.3*tr.Area.MinX+0.7*tr.Area.MaxX, 0.6*tr.Area.MinY+0.4*tr.Area.MaxY
		x, y := tr.PixelToData(px, py)
		sx, sy := tr.Share(px, py)
		v := WholeView().Zoom(0.5, sx, sy)
		z := k.Chart(testStudy(2), Light(units.IP))
		v.Set(z.Plot)
		_, near := NewCanvas().Render(z, Light(units.IP), 900, 500, 96)
		nx, ny := near.DataToPixel(x, y)
		mx, my := near.Share(nx, ny)
		assert.InDelta(t, sx, mx, 1e-9, k.Key)
		assert.InDelta(t, sy, my, 1e-9, k.Key)
	}
}

// Close up, words keep to the paper and to themselves, lines in view are named,
// and every axis can be read.
func TestZoomedChartsAreDrawn(t *testing.T) {
	for name, s := range solvedHouses(t) {
		for _, look := range []Look{Light(units.IP), scaled(Dark(units.SI), 1.5)} {
			for _, k := range Kinds() {
				for _, v := range []View{{0.2, 0.5, 0.3, 0.6}, {0.4, 0.45, 0.4, 0.5}, {0, 0.5, 0, 1}, {0.7, 1, 0.7, 1}} {
					c := k.Chart(s, look)
					if c.bars != nil {
						continue
					}
					v.Set(c.Plot)
					where := fmt.Sprintf("%s, %s, %v", name, k.Key, v)
					paper := vg.Rectangle{Max: vg.Point{X: px(620), Y: px(380)}}
					ws := words(t, c, paper.Max.X, paper.Max.Y)
					for i, w := range ws {
						assert.True(t, labels.Inside(w.box, paper), "%s: %q leaves the paper", where, w.text)
						for _, o := range ws[:i] {
							assert.False(t, labels.Overlap(shrunk(w.box), shrunk(o.box)), "%s: %q lies on %q", where, w.text, o.text)
						}
					}
					assert.GreaterOrEqual(t, len(c.Plot.X.Tick.Marker.Ticks(c.Plot.X.Min, c.Plot.X.Max)), 2, where)
				}
			}
		}
	}
}

// A line that passes through the view is named although its end is not in it.
func TestALineThroughTheViewIsNamed(t *testing.T) {
	c := Kinds()[0].Chart(testStudy(0), Light(units.IP))
	View{0, 0.3, 0, 0.6}.Set(c.Plot)
	all := texts(words(t, c, px(900), px(500)))
	assert.Contains(t, all, "Today, clean")
	assert.NotContains(t, all, "design 1200 cfm", "what is out of view is not named")
}

// What a person waits for at each turn of the wheel.
func BenchmarkZoomedChart(b *testing.B) {
	s, look, canvas := testStudy(4), Light(units.IP), NewCanvas()
	for b.Loop() {
		c := Kinds()[0].Chart(s, look)
		View{0.2, 0.6, 0.3, 0.7}.Set(c.Plot)
		_, tr := canvas.Render(c, look, 900, 500, 96)
		require.True(b, tr.Valid())
	}
}
