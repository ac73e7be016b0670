package plots

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"returnbench/sizing/units"
)

// spanish are readers of Spanish with a decimal comma, in either family of units.
var spanish = []units.Locale{
	{System: units.InchPound, Comma: true, Language: "es"},
	{System: units.Metric, Comma: true, Language: "es"},
}

var (
	pointInNumber = regexp.MustCompile(`\d\.\d`)
	thousands     = regexp.MustCompile(`\$\d{1,3}(\.\d{3})+\b`) // of money, set apart by a point here
)

// TestDecimalComma: no number of a chart has a decimal point for a reader with
// a decimal comma: neither on its axes, nor in its words, nor as it is read or copied.
func TestDecimalComma(t *testing.T) {
	commas := 0
	held := func(key, text string) {
		t.Helper()
		commas += strings.Count(text, ",")
		for _, line := range strings.Split(text, "\n") {
			assert.NotRegexp(t, pointInNumber, thousands.ReplaceAllString(line, ""), key)
		}
	}
	for _, sys := range spanish {
		for _, n := range []int{0, 2, 5} {
			s := testStudy(n)
			for _, look := range []Look{Light(sys), Page(sys)} {
				charts := All(s, look)
				today := Side{Name: "start", Study: s, Option: s.Options[1].Name}
				after := today
				after.Loaded, after.Name = true, "dirty"
				charts = append(charts, BeforeAfter(FanAndSystemKey, today, after, nil, look),
					Trace{Name: "drop", Unit: "Pa", Move: "depth", From: "a", To: "b", Positions: 3, At: []int{0, 1, 2}, Values: []float64{0.1, 0.25, 0.3}}.Chart(look))
				for _, c := range charts {
					for _, size := range [][2]float64{{900, 500}, {560, 330}} {
						held(c.Key, texts(words(t, c, px(size[0]), px(size[1]))))
					}
					held(c.Key, c.Numbers().Text())
					_, tr := NewCanvas().Render(c, look, 900, 500, 96)
					for i := range tr.Bars {
						held(c.Key, tr.BarHit(i).Show())
					}
					for _, l := range c.Lines {
						if l.Hidden {
							continue
						}
						x, y := tr.DataToPixel(l.Points[len(l.Points)/2].X, l.Points[len(l.Points)/2].Y)
						if hit, ok := Nearest([]ReadoutLine{l}, tr, x, y); ok {
							held(c.Key, hit.Show())
						}
					}
				}
			}
		}
		for name, s := range solvedHouses(t) {
			for _, c := range All(s, Light(sys)) {
				held(name+", "+c.Key, texts(words(t, c, px(900), px(500))))
			}
		}
		homes := screened()
		for _, p := range []*plot.Plot{HomesAirflow(homes, Light(sys)), HomesStatic(homes, Light(sys))} {
			var log recorder.Canvas
			require.True(t, drawPlot(p, draw.NewCanvas(&log, FileWidth, FileHeight)))
			for _, a := range log.Actions {
				if f, ok := a.(*recorder.FillString); ok {
					held("homes", f.String)
				}
			}
		}
	}
	assert.Greater(t, commas, 1000, "numbers were read")
}
