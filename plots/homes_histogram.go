package plots

import (
	"fmt"
	"io"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"returnbench/sizing/homes"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Reference lines in the histograms of a list of homes: common practice, no
// source.
const (
	usualLowPerCapacity  = 350 * units.CFMPerTon
	usualHighPerCapacity = 450 * units.CFMPerTon
	usualRatedStatic     = 0.5 * units.InchWater
)

// HomesAirflow shows how many homes of a list have how much airflow per
// cooling capacity. The look's units must be those of the screening.
func HomesAirflow(s homes.Summary, look Look) *plot.Plot {
	f := homesHistogram(s.AirflowPerCapacity, "Airflow per cooling capacity, {unit}", look)
	f.usual(f.look.in(usualLowPerCapacity), f.look.say("usual from {airflow}", "airflow", usualLowPerCapacity))
	f.usual(f.look.in(usualHighPerCapacity), f.look.say("to {airflow}", "airflow", usualHighPerCapacity))
	return f.done()
}

// HomesStatic shows how many homes of a list have how much external static.
// The look's units must be those of the screening.
func HomesStatic(s homes.Summary, look Look) *plot.Plot {
	f := homesHistogram(s.ExternalStatic, "External static, {unit}", look)
	f.usual(f.look.in(usualRatedStatic), f.look.say("usual rating {static}", "static", usualRatedStatic))
	return f.done()
}

func homesHistogram(b homes.Bins, axis message.ID, look Look) *frame {
	f := newFrame(look, look.say(axis, "unit", b.Unit), look.homesHeading(b))
	h := &plotter.Histogram{Width: b.Step, FillColor: f.look.fill(2), LineStyle: f.look.line(f.look.Faint, 0.75, nil)}
	top := 1
	for i, n := range b.Homes {
		low := b.Low + float64(i)*b.Step
		h.Bins = append(h.Bins, plotter.HistogramBin{Min: low, Max: low + b.Step, Weight: float64(n)})
		top = max(top, n)
	}
	span(&f.X, b.Low, b.Low+b.Step*float64(len(b.Homes)))
	span(&f.Y, 0, 1.18*float64(top))
	f.Y.Tick.Marker = wholeTicks{roundTicks{n: 5, units: f.look.Units}}
	f.Add(h)
	return f
}

// wholeTicks keeps the ticks of counts.
type wholeTicks struct{ plot.Ticker }

// Ticks gives the ticks of a range.
func (w wholeTicks) Ticks(lo, hi float64) []plot.Tick {
	var out []plot.Tick
	for _, t := range w.Ticker.Ticks(lo, hi) {
		if t.Value == float64(int(t.Value)) {
			t.Label = fmt.Sprint(int(t.Value))
			out = append(out, t)
		}
	}
	return out
}

// homesHeading is the number of homes in the picture and of those beyond its
// range.
func (l Look) homesHeading(b homes.Bins) string {
	within := 0
	for _, n := range b.Homes {
		within += n
	}
	out := b.Under + b.Over
	if out > 0 {
		return l.say("Homes, of {homes}; {beyond} beyond the picture", "homes", within+out, "beyond", out)
	}
	return l.say("Homes, of {homes}", "homes", within)
}

// usual draws a vertical line with a label at its top.
func (f *frame) usual(x float64, word string) {
	f.uprightLine(x, f.look.line(f.look.Limit, thinWidth, dashLimit))
	places := beside(x, f.Y.Max, f.Y.Min)
	f.notes.words = append(f.notes.words, chartLabel{texts: []string{word}, at: plotter.XY{X: x, Y: f.Y.Max}, where: places, colour: f.look.Limit, weight: 5})
}

// WriteHomes draws both histograms of a list of homes, one over the other, as
// PNG.
func WriteHomes(w io.Writer, s homes.Summary, look Look) error {
	look = look.complete()
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(FileWidth, 2*FileHeight), vgimg.UseDPI(pngDPI))}
	paper := draw.New(c)
	paper.SetColor(look.Background)
	paper.Fill(paper.Rectangle.Path())
	for i, p := range []*plot.Plot{HomesAirflow(s, look), HomesStatic(s, look)} {
		top := vg.Length(2-i) * FileHeight
		part := draw.Canvas{Canvas: paper.Canvas, Rectangle: vg.Rectangle{Min: vg.Point{Y: top - FileHeight}, Max: vg.Point{X: FileWidth, Y: top}}}
		drawPlot(p, draw.Crop(part, ground, -ground, ground, -ground))
	}
	_, err := c.WriteTo(w)
	return err
}
