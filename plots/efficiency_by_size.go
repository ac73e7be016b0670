package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
)

// sizeEdges bound the twelve particle size ranges, in micrometres.
// ANSI/ASHRAE 52.2, table of size ranges (from memory).
var sizeEdges = [13]float64{0.30, 0.40, 0.55, 0.70, 1.00, 1.30, 1.60, 2.20, 3.00, 4.00, 5.50, 7.00, 10.00}

// EfficiencyBySize shows what each option's filter holds back of twelve
// particle sizes, and what is left of it with the air that slips round.
func EfficiencyBySize(s *sizing.Study, look Look) *plot.Plot {
	return efficiencyBySize(s, look).done()
}

func efficiencyBySize(s *sizing.Study, look Look) *frame {
	f := newFrame(look, "Particle size, µm", "Held back, %; dashed: with the air that slips round")
	f.X.Scale = plot.LogScale{}
	ticks := plot.ConstantTicks{{Value: 0.3, Label: "0.3"}, {Value: 1, Label: "1"}, {Value: 3, Label: "3"}, {Value: 10, Label: "10"}}
	if f.look.Scale <= 1.2 {
		ticks = append(ticks, plot.Tick{Value: 0.5, Label: "0.5"}, plot.Tick{Value: 2, Label: "2"}, plot.Tick{Value: 5, Label: "5"})
	}
	f.X.Tick.Marker = ticks
	span(&f.X, sizeEdges[0], sizeEdges[12])
	span(&f.Y, 0, 105)
	f.Y.Tick.Marker = plot.ConstantTicks{{Value: 0, Label: "0"}, {Value: 20, Label: "20"}, {Value: 40, Label: "40"},
		{Value: 60, Label: "60"}, {Value: 80, Label: "80"}, {Value: 100, Label: "100"}}
	for i, edge := range []float64{sizeEdges[4], sizeEdges[8]} {
		f.uprightLine(edge, f.look.line(f.look.Faint, 0.75, nil))
		f.rangeWord(fmt.Sprintf("E%d", i+1), []float64{sizeEdges[0], sizeEdges[4]}[i], edge)
	}
	f.rangeWord("E3", sizeEdges[8], sizeEdges[12])
	for i := range s.Options {
		if !noFilter(&s.Options[i]) {
			f.efficiency(i, &s.Options[i])
		}
	}
	return f
}

// rangeWord names a range of the standard at the foot of the chart.
func (f *frame) rangeWord(name string, from, to float64) {
	at := plotter.XY{X: math.Sqrt(from * to), Y: f.Y.Min}
	f.notes.words = append(f.notes.words, note{texts: []string{name}, at: at,
		where: []where{{at: at, shift: up(3), dx: 0.5}}, colour: f.look.Faint, weight: 9})
}

func (f *frame) efficiency(i int, o *sizing.OptionResult) {
	colour := f.look.series(i)
	draw := func(shares [12]float64, installed bool) plotter.XYs {
		var points plotter.XYs
		for k, share := range shares {
			points = append(points, plotter.XY{X: math.Sqrt(sizeEdges[k] * sizeEdges[k+1]), Y: 100 * share})
		}
		points = keepFinite(points)
		style := f.look.line(colour, lineWidth, nil)
		if installed {
			style = f.look.line(colour, lineWidth, dashLoaded)
		}
		f.curve(points, style)
		return points
	}
	if o.Efficiency.BySize == [12]float64{} {
		return
	}
	if o.LeakFraction > 0 {
		draw(o.Efficiency.Installed, true)
	}
	points := draw(o.Efficiency.BySize, false)
	if len(points) == 0 {
		return
	}
	for _, p := range points {
		g := f.look.mark(i, false)
		g.Radius *= 0.8
		f.point(p, g)
	}
	worth := fmt.Sprintf(", MERV %d", o.Efficiency.MERV)
	texts := []string{short(o.Name, 20) + worth, short(o.Name, 16) + worth, short(o.Name, 16), short(o.Name, 10)}
	f.notes.words = append(f.notes.words, note{texts: texts, at: points[len(points)-1], end: true, colour: colour, weight: endWeight(i, false)})
	if f.look.Scale > 1.2 {
		f.notes.keepMargin(texts[2])
	} else {
		f.notes.keepMargin(texts[1])
	}
}
