package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
	"returnbench/sizing/filter"
)

// EfficiencyBySize shows the share of twelve particle sizes that each option's
// filter holds back, by itself and as installed, with the air that bypasses it.
func EfficiencyBySize(s *sizing.Study, look Look) Chart { return efficiencyBySizeKind.Chart(s, look) }

var efficiencyBySizeKind = Kind{"efficiency-by-size", "What the filter holds back", efficiencyBySize}

func efficiencyBySize(s Subject, look Look) *frame {
	f := newFrame(look, look.say("Particle size, µm"), look.say("Held back, %; dashed: with the air that slips round"))
	f.notes.heading = append(f.notes.heading, f.look.say("Held back, %; dashed: with the leak"))
	f.X.Scale = plot.LogScale{}
	f.X.Tick.Marker = ratioTicks{n: int(8 / f.look.Scale), units: f.look.Units}
	sizeEdges := filter.SizeEdges()
	span(&f.X, sizeEdges[0], sizeEdges[12])
	span(&f.Y, 0, 105)
	for i, edge := range []float64{sizeEdges[4], sizeEdges[8]} {
		f.uprightLine(edge, f.look.line(f.look.Faint, 0.75, nil))
		f.rangeWord(fmt.Sprintf("E%d", i+1), []float64{sizeEdges[0], sizeEdges[4]}[i], edge)
	}
	f.rangeWord("E3", sizeEdges[8], sizeEdges[12])
	for i := range s.Options {
		if !noFilter(&s.Options[i]) {
			f.efficiency(i, s.rank(i), &s.Options[i])
		}
	}
	return f
}

// rangeWord names a range of the standard at the foot of the chart.
func (f *frame) rangeWord(name string, from, to float64) {
	at := plotter.XY{X: math.Sqrt(from * to), Y: f.Y.Min}
	f.notes.words = append(f.notes.words, chartLabel{texts: []string{name}, at: at,
		where: []position{{at: at, shift: up(3), dx: 0.5}}, colour: f.look.Faint, weight: 9})
}

// efficiencyLine is what is held back of the twelve sizes as a line of the
// chart.
func (l Look) efficiencyLine(label string, shares [12]float64) ReadoutLine {
	sizes := filter.MeanSizes()
	size, held := plain(l.say("particle size"), "µm", sizes[:]), plain(l.say("held back"), "%", nil)
	size.Ratios = true
	out := ReadoutLine{Label: label}
	for k, share := range shares {
		out.Points = append(out.Points, plotter.XY{X: sizes[k], Y: 100 * share})
		held.At = append(held.At, 100*share)
	}
	out.Values = []Values{size, held}
	return out.finite()
}

func (f *frame) efficiency(i int, r rank, o *sizing.OptionResult) {
	colour := f.look.series(r)
	f.layer = r.layer()
	draw := func(shares [12]float64, installed bool) plotter.XYs {
		style, label := f.look.stroke(r, nil), sizing.OptionName(o.Name).Show(f.look.Units)
		if installed {
			style, label = f.look.stroke(r, dashLoaded), f.look.say("{option}, with the air that slips round", "option", label)
		}
		line := f.look.efficiencyLine(label, shares)
		line.Option = o.Name
		if installed && !r.strong() {
			f.hiddenLine(line)
			return nil
		}
		f.readable(line, style)
		return line.Points
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
		g := f.look.marker(i, r, false)
		g.Radius *= 0.8
		f.point(p, g)
	}
	worth := f.look.say("{option}, MERV {merv}", "option", f.look.name(o.Name), "merv", o.Efficiency.MERV)
	f.nameBeside(r, chartLabel{texts: []string{worth}, at: points[len(points)-1], end: true, line: points, colour: colour, weight: endWeight(i, false)},
		sample{line: f.look.stroke(r, nil), mark: f.look.marker(i, r, false)})
}
