package chart

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"

	"returnbench/plots"
	"returnbench/sizing/units"
)

func at(x, y float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, y)} }

func wheel(c *Chart, x, y, by float32) {
	c.Scrolled(&fyne.ScrollEvent{PointEvent: at(x, y), Scrolled: fyne.Delta{DY: by}})
}

func TestTheWheelLooksCloserAtWhatIsUnderIt(t *testing.T) {
	for _, scale := range []float32{1, 1.5, 2} {
		sys, drawn := units.IP, 0
		c, cv := chartOn(t, scale, &sys, &drawn)
		x, y := pixel(c, 1000*units.CFM, 0.8*units.InchWater)
		heard := 0
		c.OnView = func() { heard++ }
		wheel(c, x, y, 20)
		assert.False(t, c.View().IsWhole())
		assert.Equal(t, 1, heard)
		assert.Equal(t, 2, drawn, "drawn anew, not stretched")
		cv.Capture()
		assert.Equal(t, 2, drawn, "and once only")
		nx, ny := pixel(c, 1000*units.CFM, 0.8*units.InchWater)
		// Other numbers at the axes take other room, hence some slack.
		assert.InDelta(t, x, nx, 8, "the point stays under the pointer")
		assert.InDelta(t, y, ny, 8)
		assert.Equal(t, int(500*scale), c.frame.Rect.Dx(), "one pixel of the picture is one of the screen")

		move(c, nx, ny-2)
		assert.Contains(t, c.Readout(), "Blower: ")
		assert.InDelta(t, 1000, c.hit.At.X, 3)
		for range 40 {
			wheel(c, x, y, -20)
		}
		assert.True(t, c.View().IsWhole(), "and back")
	}
}

func TestAFrameIsLookedAt(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	x0, y0 := pixel(c, 1000*units.CFM, 0.9*units.InchWater)
	x1, y1 := pixel(c, 1200*units.CFM, 0.6*units.InchWater)
	drag := func(fromX, fromY, toX, toY float32) {
		for i := 1; i <= 4; i++ {
			s := float32(i) / 4
			c.Dragged(&fyne.DragEvent{PointEvent: at(fromX+s*(toX-fromX), fromY+s*(toY-fromY)), Dragged: fyne.NewDelta((toX-fromX)/4, (toY-fromY)/4)})
		}
	}
	drag(x1, y1, x0, y0) // from any corner
	box := c.drag.frame()
	assert.True(t, box.Visible())
	assert.InDelta(t, x1-x0, box.Size().Width, 0.01)
	c.DragEnd()
	assert.False(t, box.Visible())
	cv.Capture()
	nx, ny := pixel(c, 1000*units.CFM, 0.9*units.InchWater)
	assert.InDelta(t, c.at.Area.MinX, nx, 0.02)
	assert.InDelta(t, c.at.Area.MinY, ny, 0.02)
	nx, ny = pixel(c, 1200*units.CFM, 0.6*units.InchWater)
	assert.InDelta(t, c.at.Area.MaxX, nx, 0.02)
	assert.InDelta(t, c.at.Area.MaxY, ny, 0.02)

	view := c.View()
	drag(100, 100, 103, 180)
	c.DragEnd()
	assert.Equal(t, view, c.View(), "a slip of the hand is no frame")
	c.DragEnd()
	c.ResetZoom()
	assert.True(t, c.View().IsWhole())
}

func TestAFrameTakesTheKeyboard(t *testing.T) {
	c := New()
	sys := units.IP
	c.SetSource(func() (plots.Chart, bool) { return twoLines(sys) })
	w := test.NewWindow(c)
	defer w.Close()
	w.Resize(fyne.NewSize(400, 300))
	w.Canvas().Capture()
	c.Dragged(&fyne.DragEvent{PointEvent: at(200, 150), Dragged: fyne.NewDelta(60, 60)})
	c.DragEnd()
	assert.False(t, c.View().IsWhole())
	assert.True(t, w.Canvas().Focused() == fyne.Focusable(c), "plus, minus and zero go on from here")
}

func TestZoomByKey(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	test.FocusNext(cv)
	key := func(k fyne.KeyName) { c.TypedKey(&fyne.KeyEvent{Name: k}) }
	shifted := func(k fyne.KeyName) {
		c.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		key(k)
		c.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	}
	key(fyne.KeyRight)
	for range 6 {
		key(fyne.KeyRight)
	}
	was := c.Readout()
	require.NotEmpty(t, was)
	for range 3 {
		c.TypedRune('+')
	}
	assert.Less(t, c.View().Right-c.View().Left, 0.6)
	assert.Equal(t, was, c.Readout(), "the read-out stays on its point")
	last := c.hit.At.X
	key(fyne.KeyRight)
	assert.Greater(t, c.hit.At.X, last, "and goes on along its curve, in smaller steps")
	assert.Less(t, c.hit.At.X-last, 20.0)
	key(fyne.KeyEnd)
	a := c.at.Area
	assert.True(t, c.hit.X <= a.MaxX+0.01 && c.hit.Y <= a.MaxY+0.01, "no further than what is in view")

	before := c.View()
	shifted(fyne.KeyRight)
	assert.Greater(t, c.View().Left, before.Left)
	shifted(fyne.KeyUp)
	assert.Greater(t, c.View().Top, before.Top)
	shifted(fyne.KeyLeft)
	shifted(fyne.KeyDown)
	assert.InDelta(t, before.Left, c.View().Left, 1e-9)
	c.TypedRune('-')
	assert.Greater(t, c.View().Right-c.View().Left, before.Right-before.Left)
	c.TypedRune('0')
	assert.True(t, c.View().IsWhole())
	c.TypedRune('+')
	key(fyne.KeyEscape) // the read-out, where there is one
	key(fyne.KeyEscape)
	assert.True(t, c.View().IsWhole(), "escape goes back to the whole chart")
}

// The part in view outlives new results and other units.
func TestTheViewStaysWhileResultsComeIn(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	c.TypedRune('+')
	left, _ := c.at.PixelToData(c.at.Area.MinX, 0)
	c.Refresh()
	cv.Capture()
	again, _ := c.at.PixelToData(c.at.Area.MinX, 0)
	assert.InDelta(t, left, again, 1e-9)
	sys = units.SI
	c.Refresh()
	cv.Capture()
	si, _ := c.at.PixelToData(c.at.Area.MinX, 0)
	assert.InDelta(t, left, units.Flow(si*units.LitrePerSecond.SI()).In(units.CFM), 0.5)
}

func TestAChartWithoutCurvesStaysWhole(t *testing.T) {
	c := New()
	c.SetSource(func() (plots.Chart, bool) { return plots.Chart{Plot: plot.New()}, true })
	w := test.NewWindow(c)
	defer w.Close()
	w.Resize(fyne.NewSize(400, 300))
	w.Canvas().Capture()
	wheel(c, 100, 100, 20)
	c.TypedRune('+')
	c.Dragged(&fyne.DragEvent{PointEvent: at(200, 200), Dragged: fyne.NewDelta(50, 50)})
	c.DragEnd()
	assert.True(t, c.View().IsWhole())
}

// What a person waits for at each turn of the wheel.
func BenchmarkChartZoom(b *testing.B) {
	sys, drawn := units.IP, 0
	c, _ := chartOn(b, 2, &sys, &drawn)
	for i := 0; b.Loop(); i++ {
		by := float32(20)
		if i%2 == 1 {
			by = -20
		}
		wheel(c, 250, 150, by)
	}
}
