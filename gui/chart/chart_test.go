package chart

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"

	"returnbench/plots"
	"returnbench/sizing/units"
)

// twoLines is a plot of two straight lines from 800 to 1600 cfm: one falls
// from 1 to 0.2 in. w.c., the other rises from 0.2 to 1.
func twoLines(sys units.Locale) (plots.Chart, bool) {
	lines := []plots.ReadoutLine{{Label: "Blower"}, {Label: "Today"}}
	p := plot.New()
	for i := range lines {
		flow, static, power := plots.Values{Name: "airflow", Kind: units.Flow(0).Kind()}, plots.Values{Name: "external static", Kind: units.Pressure(0).Kind()},
			plots.Values{Name: "power", Kind: units.Power(0).Kind()}
		for j := range 9 {
			q, h := units.Flow(800+100*float64(j))*units.CFM, units.Pressure(0.2+0.1*float64(j))*units.InchWater
			if i == 0 {
				h = units.Pressure(1-0.1*float64(j)) * units.InchWater
			}
			flow.At, static.At, power.At = append(flow.At, q.SI()), append(static.At, h.SI()), append(power.At, 400)
			lines[i].Points = append(lines[i].Points, plotter.XY{X: q.SI() / q.Kind().Usual(sys).Scale, Y: h.SI() / h.Kind().Usual(sys).Scale})
		}
		lines[i].Values = []plots.Values{flow, static, power}
		l, err := plotter.NewLine(lines[i].Points)
		if err != nil {
			panic(err)
		}
		p.Add(l)
	}
	return plots.Chart{Plot: p, Lines: lines}, true
}

func chartOn(t testing.TB, scale float32, sys *units.Locale, drawn *int) (*Chart, test.WindowlessCanvas) {
	t.Helper()
	c := New()
	c.SetLook(func() plots.Look { return plots.Light(*sys) })
	c.SetSource(func() (plots.Chart, bool) {
		*drawn++
		return twoLines(*sys)
	})
	cv := software.NewCanvas()
	cv.SetPadded(false)
	cv.SetScale(scale)
	cv.SetContent(container.NewStack(c))
	cv.Resize(fyne.NewSize(500, 300))
	cv.Capture()
	return c, cv
}

func move(c *Chart, x, y float32) {
	c.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}})
}

// pixel is where a point of the data lies, in units of the widget.
func pixel(c *Chart, q units.Flow, h units.Pressure) (x, y float32) {
	px, py := c.at.DataToPixel(q.In(units.CFM), h.In(units.InchWater))
	return float32(px / c.scale()), float32(py / c.scale())
}

func TestChartReadout(t *testing.T) {
	for _, scale := range []float32{1, 2, 1.5} {
		sys, drawn := units.IP, 0
		c, cv := chartOn(t, scale, &sys, &drawn)
		require.Equal(t, 1, drawn)
		x, y := pixel(c, 1000*units.CFM, 0.8*units.InchWater)
		move(c, x, y-2)
		assert.InDelta(t, 1000, c.hit.At.X, 5, "scale %v", scale)
		assert.InDelta(t, 0.8, c.hit.At.Y, 0.01)
		assert.Contains(t, c.Readout(), "Blower")
		assert.Contains(t, c.Readout(), "in. w.c.")
		cv.Capture()
		assert.Equal(t, 1, drawn, "moving the read-out draws no plot")
		move(c, 2, 2)
		assert.Empty(t, c.Readout(), "nothing to read outside the data")
	}
}

func TestChartIsSharp(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 2, &sys, &drawn)
	assert.Equal(t, image.Pt(1000, 600), cv.Capture().Bounds().Size())
	assert.Equal(t, image.Pt(1000, 600), c.frame.Rect.Size(), "one pixel of the picture is one of the screen")
}

func TestChartUnits(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	sys = units.SI
	c.Refresh()
	cv.Capture()
	assert.Equal(t, 2, drawn)
	test.FocusNext(cv)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Contains(t, c.Readout(), "L/s")
	assert.Contains(t, c.Readout(), "Pa")
	assert.Equal(t, "400 W", c.overlay.words[2].Text)
}

func TestChartKeyboard(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	test.FocusNext(cv)
	require.Equal(t, fyne.Focusable(c), cv.Focused())
	key := func(k fyne.KeyName) { c.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyRight)
	require.Contains(t, c.Readout(), "Blower")
	last := c.hit.At.X
	for range 5 {
		key(fyne.KeyRight)
		assert.Greater(t, c.hit.At.X, last, "right is more airflow")
		last = c.hit.At.X
	}
	key(fyne.KeyLeft)
	assert.Less(t, c.hit.At.X, last)
	key(fyne.KeyEnd)
	assert.InDelta(t, 1600, c.hit.At.X, 1)
	key(fyne.KeyRight)
	assert.InDelta(t, 1600, c.hit.At.X, 1, "no further than the line")
	key(fyne.KeyHome)
	assert.InDelta(t, 800, c.hit.At.X, 1)
	key(fyne.KeyDown)
	assert.Contains(t, c.Readout(), "Today")
	key(fyne.KeyDown)
	assert.Contains(t, c.Readout(), "Blower", "round to the first")
	key(fyne.KeyEscape)
	assert.Empty(t, c.Readout())
	assert.Equal(t, 1, drawn)
}

func TestChartWordsStayInside(t *testing.T) {
	sys, drawn := units.IP, 0
	c, _ := chartOn(t, 1, &sys, &drawn)
	for q := 800.0; q <= 1600; q += 50 {
		for _, h := range []float64{0.2, 0.6, 1} {
			x, y := pixel(c, units.Flow(q)*units.CFM, units.Pressure(h)*units.InchWater)
			move(c, x, y)
			p, s := c.overlay.plate.Position(), c.overlay.plate.Size()
			assert.GreaterOrEqual(t, p.X, float32(0))
			assert.GreaterOrEqual(t, p.Y, float32(0))
			assert.LessOrEqual(t, p.X+s.Width, c.Size().Width)
			assert.LessOrEqual(t, p.Y+s.Height, c.Size().Height)
			for _, w := range c.overlay.words {
				assert.LessOrEqual(t, w.Position().X+w.MinSize().Width, p.X+s.Width)
			}
		}
	}
}

func TestChartWithoutSource(t *testing.T) {
	c := New()
	cv := software.NewCanvas()
	cv.SetContent(c)
	cv.Resize(fyne.NewSize(300, 200))
	cv.Capture()
	move(c, 100, 100)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Empty(t, c.Readout())
}

func BenchmarkChartReadout(b *testing.B) {
	sys, drawn := units.IP, 0
	c, _ := chartOn(b, 2, &sys, &drawn)
	for i := 0; b.Loop(); i++ {
		move(c, float32(100+i%300), 150)
	}
}

func BenchmarkChartDraw(b *testing.B) {
	sys, drawn := units.IP, 0
	c, _ := chartOn(b, 2, &sys, &drawn)
	for b.Loop() {
		c.stale = true
		c.draw(1000, 600)
	}
}

// Pointing at a curve tells whose it is, once a curve; drawing the plot again for
// that leaves the read-out, and leaving the chart ends it.
func TestPointingReportsTheOption(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv := chartOn(t, 1, &sys, &drawn)
	for i, name := range []string{"", "wide slot"} {
		c.lines[i].Option = name
	}
	var told []string
	c.OnOption = func(name string) {
		told = append(told, name)
		c.Redraw()
	}
	x, y := pixel(c, 900*units.CFM, 0.3*units.InchWater) // on the rising line
	move(c, x, y)
	move(c, x+1, y)
	assert.Equal(t, []string{"wide slot"}, told)
	before := drawn
	cv.Capture()
	assert.Equal(t, before+1, drawn, "drawn anew")
	assert.NotEmpty(t, c.Readout())
	c.MouseOut()
	assert.Equal(t, []string{"wide slot", ""}, told)
}
