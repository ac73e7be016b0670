package plots

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/processor"
	"returnbench/sizing/units"
)

func TestTransform_Identity(t *testing.T) {
	s := testStudy(3)
	for _, k := range All(s, Dark(units.SI)) {
		for _, size := range [][3]int{{900, 500, 96}, {1800, 1000, 192}, {620, 380, 96}} {
			_, tr := NewCanvas().Render(k, Dark(units.SI), size[0], size[1], float64(size[2]))
			require.True(t, tr.Valid(), k.Key)
			assert.Equal(t, units.SI, tr.Units)
			assert.True(t, tr.Area.MinX >= 0 && tr.Area.MinY >= 0 && tr.Area.MaxX <= float64(size[0]) && tr.Area.MaxY <= float64(size[1]), "%v", tr.Area)
			x, y := tr.PixelToData(tr.Area.MinX, tr.Area.MaxY)
			assert.InDelta(t, k.Plot.X.Min, x, 1e-9)
			assert.InDelta(t, k.Plot.Y.Min, y, 1e-9)
			x, y = tr.PixelToData(tr.Area.MaxX, tr.Area.MinY)
			assert.InDelta(t, k.Plot.X.Max, x, 1e-9*k.Plot.X.Max)
			assert.InDelta(t, k.Plot.Y.Max, y, 1e-9*k.Plot.Y.Max)
			rapid.Check(t, func(r *rapid.T) {
				px, py := rapid.Float64Range(tr.Area.MinX, tr.Area.MaxX).Draw(r, "px"), rapid.Float64Range(tr.Area.MinY, tr.Area.MaxY).Draw(r, "py")
				bx, by := tr.DataToPixel(tr.PixelToData(px, py))
				if d := max(bx-px, px-bx, by-py, py-by); d > 1e-8 {
					r.Fatalf("%g off", d)
				}
			})
		}
	}
}

// The mark of an operating point is where the Transform says.
func TestTransformFindsTheMark(t *testing.T) {
	s, look := testStudy(1), Light(units.IP)
	for _, dpi := range []float64{96, 144, 192} {
		picture, tr := NewCanvas().Render(FanAndSystem(s, look), look, int(900*dpi/96), int(500*dpi/96), dpi)
		o := s.Options[1]
		px, py := tr.DataToPixel(look.in(o.Clean.Airflow), look.in(o.Clean.ExternalStatic))
		assert.Equal(t, look.Series[0], color.Color(picture.RGBAAt(int(px), int(py))), "today's mark at %g dots per inch", dpi)
		assert.True(t, tr.Inside(px, py))
		assert.False(t, tr.Inside(-1, py))
	}
}

func TestCanvasKeepsItsPicture(t *testing.T) {
	c := NewCanvas()
	look := Light(units.IP)
	p := FanAndSystem(testStudy(2), look)
	a, _ := c.Render(p, look, 620, 380, 96)
	first := append([]uint8{}, a.Pix...)
	b, _ := c.Render(Watts(testStudy(2), look), look, 620, 380, 96)
	assert.Same(t, a, b)
	assert.NotEqual(t, first, b.Pix)
	again, _ := c.Render(p, look, 620, 380, 96)
	assert.Equal(t, first, again.Pix, "nothing of the last picture shows through")
	fresh, _ := NewCanvas().Render(p, look, 620, 380, 96)
	assert.Equal(t, first, fresh.Pix)
	wide, _ := c.Render(p, look, 900, 380, 96)
	assert.Equal(t, 900, wide.Rect.Dx())
	assert.Equal(t, color.Color(look.Background), color.Color(wide.RGBAAt(899, 0)))
}

func TestCanvasWithoutRoomIsBlank(t *testing.T) {
	look := Dark(units.IP)
	picture, tr := NewCanvas().Render(FanAndSystem(testStudy(2), look), look, 60, 40, 96)
	assert.False(t, tr.Valid())
	assert.False(t, tr.Inside(30, 20))
	for i := 0; i < len(picture.Pix); i += 4 {
		require.Equal(t, []uint8{0x17, 0x18, 0x1C, 0xFF}, picture.Pix[i:i+4])
	}
}

// A person drags an entry and waits for this: chart made again and drawn.
func BenchmarkCurvesChart(b *testing.B) {
	s, look, c := testStudy(4), Light(units.IP), NewCanvas()
	defer processor.Report(b)()
	for b.Loop() {
		c.Render(FanAndSystem(s, look), look, 900, 500, 96)
	}
}

func BenchmarkCurvesChartAtTwice(b *testing.B) {
	s, look, c := testStudy(4), Light(units.IP), NewCanvas()
	for b.Loop() {
		c.Render(FanAndSystem(s, look), look, 1800, 1000, 192)
	}
}

func BenchmarkCurvesChartBuild(b *testing.B) {
	s, look := testStudy(4), Light(units.IP)
	for b.Loop() {
		FanAndSystem(s, look)
	}
}

func BenchmarkEveryChart(b *testing.B) {
	s, look, c := testStudy(4), Light(units.IP), NewCanvas()
	for b.Loop() {
		for _, k := range All(s, look) {
			c.Render(k, look, 900, 500, 96)
		}
	}
}
