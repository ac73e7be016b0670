package plots

import (
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// Trace is a number along a move, for the positions solved so far.
type Trace struct {
	Name, Unit     string // of the number
	Move, From, To string // what moves, and its ends in words
	Positions      int    // of the move
	At             []int  // the positions solved, rising
	Values         []float64
	Now            int // position in view
}

// Chart draws the trace: a dot at each position solved, and the one in view large.
func (t Trace) Chart(look Look) Chart {
	return newChart(Kind{Key: "trace"}, look, t.frame)
}

func (t Trace) frame(look Look) *frame {
	title := t.Name
	if t.Unit != "" {
		title = look.say("{quantity}, {unit}", "quantity", t.Name, "unit", t.Unit)
	}
	f := newFrame(look, t.Move, title)
	lo, hi := slices.Min(t.Values), slices.Max(t.Values)
	pad := max(0.15*(hi-lo), 0.02*max(hi, -hi), 1e-9)
	span(&f.X, 0, float64(max(t.Positions-1, 1)))
	span(&f.Y, lo-pad, hi+pad)
	f.X.Tick.Marker = plot.ConstantTicks{{Value: 0, Label: t.From}, {Value: f.X.Max, Label: t.To}}
	line := ReadoutLine{Label: t.Name, Values: []Values{plain(t.Name, t.Unit, t.Values)}}
	for i, at := range t.At {
		line.Points = append(line.Points, plotter.XY{X: float64(at), Y: t.Values[i]})
	}
	f.layer = layerChosen
	f.readable(line, f.look.stroke(rankChosen, nil))
	for i, p := range line.Points {
		glyph := f.look.marker(0, rankChosen, true)
		glyph.Radius *= 0.5
		if t.At[i] == t.Now {
			glyph = f.look.marker(0, rankChosen, false)
		}
		f.point(p, glyph)
	}
	f.least = 2
	return f
}
