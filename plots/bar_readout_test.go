package plots

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func drawnBars(t *testing.T, c Chart, look Look) Transform {
	t.Helper()
	_, tr := NewCanvas().Render(c, look, 900, 500, 96)
	require.NotEmpty(t, tr.Bars, c.Key)
	return tr
}

// find is the piece of a label and a part.
func find(tr Transform, label, part string) int {
	for i, p := range tr.Bars {
		if p.Label == label && p.Part == part {
			return i
		}
	}
	return -1
}

// What is read off a bar is the Study's own number, in the units in use.
func TestBarsReadTheStudy(t *testing.T) {
	for house, s := range solvedHouses(t) {
		for _, look := range []Look{Light(units.IP), Dark(units.SI)} {
			pressure, cost, power := drawnBars(t, PressureByPart(s, look), look), drawnBars(t, TenYearCost(s, look), look), drawnBars(t, Watts(s, look), look)
			for i := range s.Options {
				o := &s.Options[i]
				for _, side := range []struct {
					at    *sizing.Condition
					state string
				}{{&o.Clean, ", clean"}, {&o.Loaded, ", loaded"}} {
					label := o.Name + side.state
					if noFilter(o) {
						label = o.Name
					}
					for _, p := range side.at.Parts {
						if n := find(pressure, label, string(p.Name)); n >= 0 {
							assert.Equal(t, []string{string(p.Name) + " " + p.Drop.Show(look.Units), "external static " + side.at.ExternalStatic.Show(look.Units)}, pressure.Bars[n].Values, "%s: %s", house, label)
						} else {
							assert.True(t, p.Internal || p.Drop <= 0, "%s: %s, %s has no bar", house, label, p.Name)
						}
					}
					n := find(power, label, "")
					require.GreaterOrEqual(t, n, 0, "%s: %s", house, label)
					assert.Equal(t, []string{"blower power " + side.at.BlowerPower.Show(look.Units)}, power.Bars[n].Values)
					if noFilter(o) {
						break
					}
				}
				if noFilter(o) {
					continue
				}
				n := find(cost, o.Name, "filters")
				require.GreaterOrEqual(t, n, 0, "%s: %s", house, o.Name)
				assert.Equal(t, []string{"filters " + wholeMoney(o.TenYearFilter, units.IP), "cost over ten years " + wholeMoney(o.TenYearCost, units.IP)}, cost.Bars[n].Values)
			}
		}
	}
}

// A piece lies in the picture where its value says, and is found there.
func TestBarsAreFoundWhereTheyAreDrawn(t *testing.T) {
	s, look := testStudy(3), Light(units.IP)
	for _, dpi := range []float64{96, 192} {
		_, tr := NewCanvas().Render(PressureByPart(s, look), look, int(900*dpi/96), int(500*dpi/96), dpi)
		o := s.Options[1]
		n := find(tr, "Today, clean", "filter")
		require.GreaterOrEqual(t, n, 0)
		low, _ := tr.PixelToData(tr.Bars[n].Box.MinX, 0)
		high, _ := tr.PixelToData(tr.Bars[n].Box.MaxX, 0)
		assert.InEpsilon(t, look.in(o.Clean.Parts[0].Drop), low, 1e-9)
		assert.InEpsilon(t, look.in(o.Clean.FilterDrop), high-low, 1e-9)
		for i, p := range tr.Bars {
			hit, ok := tr.BarAt((p.Box.MinX+p.Box.MaxX)/2, (p.Box.MinY+p.Box.MaxY)/2)
			require.True(t, ok)
			assert.Equal(t, i, hit.Line)
			assert.True(t, tr.Inside(p.Box.MinX, p.Box.MinY) && tr.Inside(p.Box.MaxX, p.Box.MaxY), "%v", p)
		}
		_, ok := tr.BarAt(tr.Area.MaxX, tr.Area.MinY)
		assert.False(t, ok)
	}
	picture, tr := NewCanvas().Render(PressureByPart(s, look), look, 900, 500, 96)
	box := tr.Bars[find(tr, "Today, clean", "filter")].Box
	assert.Equal(t, look.fill(1), picture.At(int(box.MinX)+3, int(box.MinY+box.MaxY)/2), "the fill of the filter")
	assert.Equal(t, "Today, clean: filter "+s.Options[1].Clean.FilterDrop.Show(units.IP)+", external static "+s.Options[1].Clean.ExternalStatic.Show(units.IP), tr.BarHit(find(tr, "Today, clean", "filter")).Show())
}

func TestStepsFromBarToBar(t *testing.T) {
	tr := drawnBars(t, PressureByPart(testStudy(1), Light(units.IP)), Light(units.IP))
	filter := find(tr, "Today, clean", "filter")
	assert.Equal(t, find(tr, "Today, clean", "coil"), tr.BarBeside(filter, 1))
	assert.Equal(t, find(tr, "Today, clean", "return"), tr.BarBeside(filter, -1))
	assert.Equal(t, find(tr, "Today, clean", "supply"), tr.BarEnd(filter, 1))
	assert.Equal(t, find(tr, "Today, clean", "return"), tr.BarEnd(filter, -1))
	assert.Equal(t, find(tr, "Today, clean", "supply"), tr.BarBeside(tr.BarEnd(filter, 1), 1), "no further than the bar")
	assert.Equal(t, find(tr, "Today, loaded", "filter"), tr.BarBelow(filter, 1), "the same part")
	up := tr.BarBelow(filter, -1)
	assert.Equal(t, "No filter", tr.Bars[up].Label, "the nearest piece of a bar without that part")
	last := find(tr, "20x25x1 pleated, loaded", "coil")
	assert.Equal(t, find(tr, "No filter", "coil"), tr.BarBelow(last, 1), "round to the first")
	assert.Equal(t, last, tr.BarBelow(find(tr, "No filter", "coil"), -1))
}
