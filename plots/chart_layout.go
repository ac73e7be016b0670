package plots

import (
	"returnbench/plots/labels"
	"returnbench/sizing/message"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// How a chart is laid out in its room. First in type of the size asked for,
// with every curve named at its line; a name that is too long there is broken
// over two lines. Where that does not fit, in smaller type, down to namedFloor.
// Then with the curves named in a legend above the chart, in type down to
// typeFloor. Names without room even then are counted in the legend, and a
// chart without room for its data shows a message instead.
const (
	typeStep   = 0.05 // of the size asked for
	namedFloor = 0.75
	typeFloor  = 0.60 // 7 points at the usual size
	keyHeight  = 0.45 // the largest share of a chart's height for its legend
	dataHeight = 0.4  // the least that a legend in larger type leaves for the data
)

// noRoom is shown in place of a chart that has no room.
const noRoom message.ID = "There is too little room for this chart."

// attempts are the ways to lay a chart out, best first. Bars have their names and
// their legend in any case.
func (c Chart) attempts() []Look {
	bars := c.bars != nil
	smallest := c.look.Least / (textSize * c.look.Scale)
	var out []Look
	for _, inLegend := range []bool{false, true} {
		floor := namedFloor
		if inLegend || bars {
			floor = typeFloor
		}
		for n := 0; 1-float64(n)*typeStep > floor-typeStep/2; n++ {
			if n > 0 && 1-float64(n)*typeStep < smallest {
				break
			}
			out = append(out, Look{share: 1 - float64(n)*typeStep, inLegend: inLegend})
		}
		if bars {
			break
		}
	}
	return out
}

// fit makes the chart again in the best layout that a canvas has room for. It is
// nil where there is no room for the data. A part of the chart is shown in the
// layout of the whole chart, so that nothing moves while a person zooms.
func (c Chart) fit(paper draw.Canvas) *frame {
	f := c.fitWhole(paper)
	if view := c.view(); f != nil && !view.IsWhole() {
		view.Set(f.Plot)
		f.lay(paper)
	}
	return f
}

func (c Chart) fitWhole(paper draw.Canvas) *frame {
	var last *frame
	size := paper.Max.Sub(paper.Min)
	first := c.memory.begin(c.Key, size, len(c.frame.lines))
	for i, layout := range c.attempts() {
		if i < first {
			continue
		}
		f := c.frame
		if view := c.view(); i > 0 || !view.IsWhole() {
			look := c.look
			look.share, look.inLegend = layout.share, layout.inLegend
			f = c.make(look)
			f.Title.Text = c.Plot.Title.Text
		}
		f.notes.memory = c.memory
		all, some := f.fits(paper)
		if all {
			c.memory.setLayout(i)
			return f
		}
		if some && (layout.inLegend || c.bars != nil) { // else a name would be missing without a note
			last = f
		}
	}
	return last
}

// view is the part of the chart that its plot shows.
func (c Chart) view() View {
	return View{c.x.share(c.Plot.X.Min), c.x.share(c.Plot.X.Max), c.y.share(c.Plot.Y.Min), c.y.share(c.Plot.Y.Max)}
}

// Drawn is a chart as it was drawn on a canvas.
type Drawn struct {
	Plot *plot.Plot
	Data vg.Rectangle // where its data lies
	bars *bars
}

// Draw draws the chart on a canvas, without a background. It is false where
// there was no room for it.
func (c Chart) Draw(paper draw.Canvas) (Drawn, bool) {
	if !(paper.Max.X > paper.Min.X) || !(paper.Max.Y > paper.Min.Y) {
		return Drawn{}, false
	}
	if c.frame == nil {
		return Drawn{Plot: c.Plot, Data: c.Plot.DataCanvas(paper).Rectangle}, drawPlot(c.Plot, paper)
	}
	f := c.fit(paper)
	if f == nil {
		c.look.drawNoRoom(paper)
		return Drawn{}, false
	}
	if !drawPlot(f.Plot, f.room.chart) {
		return Drawn{}, false
	}
	f.key.draw(paper, f.room.key, vg.Point{X: f.room.keyAt, Y: f.room.chart.Min.Y})
	return Drawn{Plot: f.Plot, Data: f.room.data, bars: f.bars}, true
}

// drawNoRoom writes that there is no room, where that much fits.
func (l Look) drawNoRoom(paper draw.Canvas) {
	for l.share = 1; l.share > typeFloor-typeStep/2; l.share -= typeStep {
		s := l.words(l.Faint, false)
		lines := wrap(s, l.say(noRoom), paper.Max.X-paper.Min.X)
		y := (paper.Min.Y+paper.Max.Y)/2 + l.em()*vg.Length(len(lines))/2
		if y > paper.Max.Y || narrowest(s, l.say(noRoom), len(lines)) > paper.Max.X-paper.Min.X {
			continue
		}
		for _, line := range lines {
			y -= l.em()
			write(paper, s, vg.Point{X: (paper.Min.X + paper.Max.X - s.Width(line)) / 2, Y: y}, line)
		}
		return
	}
}

// room is how a chart is laid out on a canvas.
type room struct {
	chart draw.Canvas // all but the legend
	data  vg.Rectangle
	key   legendLayout
	keyAt vg.Length // its left edge
}

// lay divides a canvas between chart and legend and breaks the title of the
// horizontal axis to the width. It is false where the data has less room than
// it needs.
func (f *frame) lay(paper draw.Canvas) bool {
	em := f.look.em()
	tall := paper.Max.Y - paper.Min.Y
	const round = 4 // lines of text above and below the data
	most := keyHeight * tall / em
	if f.bars == nil {
		most = min(most, tall/em-vg.Length(f.least+round))
	}
	r := room{key: f.key.plan(paper.Max.X-paper.Min.X, int(most))}
	r.chart = draw.Crop(paper, 0, 0, f.key.height(r.key.rows), 0)
	f.X.Label.Text = f.axis
	if !(r.chart.Max.Y-r.chart.Min.Y > 3*em) {
		return false
	}
	data := f.makeMargin(r.chart)
	const across = 7 // lines of text
	if data.Max.X-data.Min.X < across*em {
		return false
	}
	half := min(paper.Max.X-(data.Min.X+data.Max.X)/2, (data.Min.X+data.Max.X)/2-paper.Min.X)
	if s := f.X.Label.TextStyle; s.Width(f.axis) > 2*half {
		f.X.Label.Text = strings.Join(wrap(s, f.axis, 2*half), "\n")
		data = f.DataCanvas(r.chart).Rectangle
	}
	if k, tiers := f.Y.Tick.Marker.(tierTicks); tiers {
		k.lines = float64((data.Max.Y - data.Min.Y) / em)
		f.Y.Tick.Marker = k
		data = f.DataCanvas(r.chart).Rectangle // the ticks' numbers may be as many letters or not
	}
	r.data, r.keyAt = data, paper.Min.X
	if w := vg.Length(len(r.key.cells)) * r.key.column; r.key.rows == 1 && data.Min.X+w < paper.Max.X {
		r.keyAt = data.Min.X
	}
	f.room = r
	return data.Max.Y-data.Min.Y >= vg.Length(f.least)*em
}

// makeMargin makes the room right of the data wide enough for the names beside
// it, over two lines where one would leave the data too little.
func (f *frame) makeMargin(chart draw.Canvas) vg.Rectangle {
	const share = 0.55 // of the width, for the data
	n := f.notes
	widest := func(two bool) (w vg.Length) {
		for _, word := range n.beside {
			if two {
				word = labels.TwoLines(word)
			}
			w = max(w, textBox(f.look.words(f.look.Ink, false), word).X)
		}
		return w + labels.Gap + 2
	}
	if len(n.beside) > 0 {
		n.margin = widest(false)
	}
	data := f.DataCanvas(chart).Rectangle
	if len(n.beside) > 0 && data.Max.X-data.Min.X < share*(chart.Max.X-chart.Min.X) {
		n.margin = widest(true)
		data = f.DataCanvas(chart).Rectangle
	}
	return data
}

// fits reports whether everything has room on a canvas (all), or at least the
// data (some).
func (f *frame) fits(paper draw.Canvas) (all, some bool) {
	if !f.lay(paper) {
		return false, false
	}
	if f.bars != nil {
		all = f.bars.fits(f, paper)
		return all, all || f.look.share < typeFloor+typeStep/2 && f.bars.fitsSome(f, paper)
	}
	if _, ok := f.notes.headingIn(f.room.data); !ok || !f.room.key.whole {
		return false, true
	}
	if tall := f.room.data.Max.Y - f.room.data.Min.Y; f.look.inLegend && tall < dataHeight*(paper.Max.Y-paper.Min.Y) {
		return false, true
	}
	c := draw.Canvas{Canvas: paper.Canvas, Rectangle: f.room.data}
	return f.notes.arrange(&c, f.Plot).complete, true
}
