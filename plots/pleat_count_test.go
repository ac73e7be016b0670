package plots

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"returnbench/plots/labels"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

func testPleats() *sizing.PleatStudy {
	p := &sizing.PleatStudy{Filter: "pleated 11", MERV: 11, Width: 20 * units.Inch, Height: 25 * units.Inch, FaceVelocity: 300 * units.FPM,
		Own: &sizing.PleatPoint{Pleats: 28, Drop: 0.14 * units.InchWater, MediaArea: 20 * units.SquareFoot}, OwnDepth: 4 * units.Inch}
	for _, depth := range []float64{1, 2, 4, 5} {
		s := sizing.PleatSweep{Depth: units.Length(depth) * units.Inch}
		for n := 6; n <= 60; n += 6 {
			x := float64(n)
			q := sizing.PleatPoint{Pleats: n, Drop: units.Pressure(4/(x*depth)+x*x/30000) * units.InchWater, MediaArea: units.Area(x*depth/6) * units.SquareFoot}
			if s.Points = append(s.Points, q); q.Drop < s.Points[s.Best].Drop {
				s.Best = len(s.Points) - 1
			}
		}
		p.Depths = append(p.Depths, s)
	}
	return p
}

func pleatChart(p *sizing.PleatStudy, look Look) Chart {
	return newChart(Kind{}, look, func(l Look) *frame { return pleatCount(p, l) })
}

func TestPleatCountNamesWhatItShows(t *testing.T) {
	p := testPleats()
	all := texts(words(t, pleatChart(p, Light(units.IP)), px(900), px(500)))
	for _, want := range []string{"Pleats in 20x25, media of pleated 11", "Drop, in. w.c., at 300 fpm", "Media area, in2", "1 in", "5 in", "least at", "as made: 28"} {
		assert.Contains(t, all, want)
	}
	all = texts(words(t, pleatChart(p, Dark(units.SI)), px(900), px(500)))
	for _, want := range []string{"Drop, Pa, at 1.52 m/s", "101.6 mm"} {
		assert.Contains(t, all, want)
	}
	p.MediaAssumed, p.Own = true, nil
	all = texts(words(t, pleatChart(p, Light(units.IP)), px(900), px(500)))
	assert.Contains(t, all, "media assumed, typical of MERV 11")
	assert.NotContains(t, all, "as made")
}

// The least drop of every depth is marked where it is, in both tiers, and lies
// in the picture.
func TestPleatCountMarksTheOptimum(t *testing.T) {
	p := testPleats()
	c := pleatChart(p, Light(units.IP))
	f := c.frame
	require.Len(t, f.notes.obstacles, 2*len(p.Depths)+2)
	for i, d := range p.Depths {
		for _, s := range f.notes.obstacles[2*i : 2*i+2] {
			assert.InDelta(t, d.Points[d.Best].Pleats, s.at.X, 1e-9)
			assert.True(t, s.at.Y > f.Y.Min && s.at.Y < f.Y.Max)
		}
	}
	// Read off, the mark gives the sweep's own numbers.
	_, tr := NewCanvas().Render(c, f.look, 900, 500, 96)
	best := p.Depths[2].Points[p.Depths[2].Best]
	x, y := tr.DataToPixel(f.notes.obstacles[4].at.X, f.notes.obstacles[4].at.Y)
	hit, ok := Nearest(c.Lines[4:5], tr, x, y)
	require.True(t, ok)
	assert.Equal(t, "4 in deep", hit.Label)
	assert.Equal(t, best.Drop.Show(units.IP), hit.Values[1])
	assert.Equal(t, best.MediaArea.Show(units.IP), hit.Values[2])
}

// Depths part without color: no two lines have one dash.
func TestDepthsPartByDash(t *testing.T) {
	for i, a := range depthDashes {
		for _, b := range depthDashes[:i] {
			assert.NotEqual(t, a, b)
		}
	}
}

func TestPleatCountOfNothing(t *testing.T) {
	all := texts(words(t, PleatCount(&sizing.Study{}, "", Light(units.IP)), px(900), px(500)))
	assert.Contains(t, all, "no filter with pleats")
}

func TestPleatCountFollowsTheOption(t *testing.T) {
	s := solvedHouses(t)["constant-airflow.job.json"]
	seen := map[string]bool{}
	for _, o := range s.Options {
		seen[PleatCount(s, o.Name, Light(units.IP)).Plot.X.Label.Text] = true
	}
	assert.Greater(t, len(seen), 1, "%v", seen)
}

// The bands lie under the lines, within the chart, and say how wide they are.
func TestBandsAreDrawnAndNamed(t *testing.T) {
	s := testStudy(1)
	all := texts(words(t, FanAndSystem(s, Light(units.IP)), px(900), px(500)))
	assert.Contains(t, all, "bands hold 9 in 10: blower ± 7 %, today ± 5 %")
	all = texts(words(t, FanAndSystem(s, scaled(Light(units.IP), 1.5)), px(620), px(380)))
	assert.Contains(t, all, "blower ± 7 %, today ± 5 %")
	assert.NotContains(t, all, "9 in 10:…")

	s.Bands = sizing.Bands{}
	assert.NotContains(t, texts(words(t, FanAndSystem(s, Light(units.IP)), px(900), px(500))), "±")

	for _, v := range []View{WholeView(), {0.3, 0.5, 0.3, 0.6}} {
		var log recorder.Canvas
		c := draw.NewCanvas(&log, px(900), px(500))
		chart := FanAndSystem(testStudy(1), Light(units.IP))
		v.Set(chart.Plot)
		drawn, ok := chart.Draw(c)
		require.True(t, ok)
		area := drawn.Data
		grounds, ink := 0, color.Color(nil)
		for _, a := range log.Actions {
			switch a := a.(type) {
			case *recorder.SetColor:
				ink = a.Color
			case *recorder.Fill:
				if ink != Light(units.IP).blend(Light(units.IP).Ink, bandShare) {
					continue
				}
				grounds++
				for _, q := range a.Path {
					if q.Type != vg.CloseComp {
						at := vg.Rectangle{Min: q.Pos, Max: q.Pos}
						assert.True(t, labels.Inside(at, vg.Rectangle{Min: area.Min.Sub(vg.Point{X: 0.01, Y: 0.01}), Max: area.Max.Add(vg.Point{X: 0.01, Y: 0.01})}), "%v leaves the chart", q.Pos)
					}
				}
			}
		}
		assert.Equal(t, 1, grounds, "the blower's band, %v", v)
	}
}

// A band stands out from the ground and leaves the lines on it readable.
func TestBandsDoNotDrownTheLines(t *testing.T) {
	for name, l := range looks() {
		ground := l.blend(l.Ink, bandShare)
		assert.Greater(t, contrast(ground, l.Background), 1.15, name)
		for _, c := range append([]color.Color{l.Ink, l.Faint, l.Limit}, l.Series...) {
			assert.GreaterOrEqual(t, contrast(c, ground), 3.0, "%s: %v on the band", name, c)
		}
	}
}
