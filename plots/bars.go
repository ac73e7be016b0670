package plots

import (
	"image/color"
	"math"
	"returnbench/plots/labels"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// bars is a plotter of horizontal bars: a group for each option, a bar for each
// state, a piece for each part. Names are at the left, the sum at the end of
// each bar.
type bars struct {
	look   Look
	groups []barGroup
	key    []legendEntry // what the pieces are
	total  message.ID    // what a bar's length is, with its unit
	whole  message.ID    // a bar's length as it is read off
	unit   string        // in use
	limit  float64       // a vertical line, 0 for none
	word   string        // of the limit
	names  [][]string    // of the groups, broken to their column
	shown  int           // groups that have room
}

type barGroup struct {
	name string
	rows []bar
}

type bar struct {
	state  message.ID
	pieces []piece
	sum    string // word at the end
	read   string // the sum as it is read off, with its unit
	total  float64
	reach  [2]float64 // the range that holds nine in ten; equal where it is not known
}

// reach is a range in the units of the chart.
func reach[T interface {
	~float64
	units.Quantity
}](r sizing.Range[T], look Look) [2]float64 {
	return [2]float64{look.in(r.Low), look.in(r.High)}
}

// known reports whether the bar has a range.
func (r bar) known() bool { return finite(r.reach[0], r.reach[1]) && r.reach[1] > r.reach[0] }

type piece struct {
	name   string // as in the legend
	value  float64
	text   string // in the bar
	read   string // as it is read off, with its unit
	fill   color.Color
	hollow bool // outlined, for the loaded state
}

// newBarFrame makes the chart of a set of bars.
func newBarFrame(look Look, b *bars) *frame {
	f := newFrame(look, look.say(b.total, "unit", b.unit), "")
	b.look = f.look
	top, ranged := b.limit, false
	for _, g := range b.groups {
		for _, r := range g.rows {
			if end := r.end(); finite(end) {
				top = max(top, end)
			}
			if r.known() {
				top, ranged = max(top, r.reach[1]), true
			}
		}
	}
	if ranged {
		f.axis = f.look.say("{axis}; the whisker holds 9 in 10", "axis", f.axis)
		f.X.Label.Text = f.axis
	}
	span(&f.X, 0, top*1.02)
	span(&f.Y, 0, 1)
	f.Y.Tick.Marker = plot.ConstantTicks{}
	f.Y.LineStyle.Width = 0
	// Long numbers leave room for fewer ticks.
	f.X.Tick.Marker = roundTicks{n: int(min(6, 24/max(1, math.Log10(top)+1)) / f.look.Scale), units: f.look.Units}
	f.Add(b)
	f.bars = b
	f.key.entries = slices.Clone(b.key)
	b.show(len(b.groups))
	return f
}

// show keeps the first groups, with their names in a narrow column until the
// width is known.
func (b *bars) show(groups int) {
	b.shown = groups
	b.breakNames(func(int) int { return 4 }, 0)
}

// inView are the groups that have room.
func (b *bars) inView() []barGroup { return b.groups[:b.shown] }

// breakNames breaks the name of each group into lines no wider than a width,
// and into no more lines than the group has room for.
func (b *bars) breakNames(most func(group int) int, width vg.Length) {
	s := b.look.words(b.look.Ink, true)
	column := vg.Length(0)
	for i, g := range b.inView() {
		n := 1
		for n < most(i) && narrowest(s, b.look.name(g.name), n) > width {
			n++
		}
		column = max(column, narrowest(s, b.look.name(g.name), n))
	}
	b.names = nil
	for _, g := range b.inView() {
		b.names = append(b.names, wrap(s, b.look.name(g.name), column+0.01))
	}
}

// Shares of the width: the most for names that can be broken, and the least for
// the bars.
const (
	namesShare = 0.3
	barsShare  = 0.25
)

// fits breaks the names to the available width and reports whether all texts
// have room.
func (b *bars) fits(f *frame, paper draw.Canvas) bool {
	if b.shown == 0 {
		return true
	}
	em, width := b.look.em(), paper.Max.X-paper.Min.X
	pitch, gap := b.pace(f.room.data)
	if pitch < em {
		return false
	}
	lines := func(i int) int { return int((pitch*vg.Length(len(b.groups[i].rows)) + gap) / em) }
	b.breakNames(lines, namesShare*width)
	for i, name := range b.names {
		if len(name) > max(lines(i), 1) {
			return false
		}
	}
	if !f.lay(paper) { // the column of names has changed
		return false
	}
	data := f.room.data
	return data.Max.X-data.Min.X >= barsShare*width && b.look.words(b.look.Limit, false).Width(b.word) <= width
}

// fitsSome leaves out the last groups until the others have room, and says how
// many are left out.
func (b *bars) fitsSome(f *frame, paper draw.Canvas) bool {
	entries := f.key.entries
	for n := len(b.groups) - 1; n > 0; n-- {
		b.show(n)
		f.key.entries = append(slices.Clone(entries), legendEntry{word: b.look.more(len(b.groups) - n)})
		if f.lay(paper) && b.fits(f, paper) {
			return true
		}
	}
	return false
}

// pace is the height of a row and the gap between groups in the data area.
func (b *bars) pace(data vg.Rectangle) (pitch, gap vg.Length) {
	const leastGap = 0.7 // in rows
	rows, groups := 0, b.inView()
	for _, g := range groups {
		rows += len(g.rows)
	}
	high := data.Max.Y - data.Min.Y
	pitch = min(high/(vg.Length(rows)+leastGap*vg.Length(len(groups))), 2.5*b.look.em())
	return pitch, (high - pitch*vg.Length(rows)) / vg.Length(len(groups))
}

func (r bar) end() float64 {
	sum := 0.0
	for _, p := range r.pieces {
		if finite(p.value) && p.value > 0 {
			sum += p.value
		}
	}
	return sum
}

// nameWidth and stateWidth are the columns left of the bars, sumWidth the one
// at their right.
func (b *bars) nameWidth() (w vg.Length) {
	s := b.look.words(b.look.Ink, true)
	for _, name := range b.names {
		for _, line := range name {
			w = max(w, s.Width(line))
		}
	}
	return w
}

func (b *bars) stateWidth() (w vg.Length) {
	s := b.look.words(b.look.Ink, false)
	for _, g := range b.groups {
		for _, r := range g.rows {
			w = max(w, s.Width(b.look.say(r.state)))
		}
	}
	return w
}

func (b *bars) sumWidth() (w vg.Length) {
	s := b.look.words(b.look.Ink, true)
	for _, g := range b.groups {
		for _, r := range g.rows {
			w = max(w, s.Width(r.sum))
		}
	}
	return w
}

func (b *bars) left() vg.Length { return b.nameWidth() + b.stateWidth() + 3*labels.Gap }

func (b *bars) right() vg.Length { return b.sumWidth() + 2*labels.Gap }

// GlyphBoxes keeps room for names, sums and the word of the limit.
func (b *bars) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	head := vg.Length(4)
	if b.limit > 0 {
		head += b.look.em() + 4
	}
	return []plot.GlyphBox{
		{X: 0, Rectangle: vg.Rectangle{Min: vg.Point{X: -b.left()}}},
		{X: 1, Rectangle: vg.Rectangle{Max: vg.Point{X: b.right()}}},
		{Y: 1, Rectangle: vg.Rectangle{Max: vg.Point{Y: head}}},
	}
}

// Plot draws the bars.
func (b *bars) Plot(c draw.Canvas, p *plot.Plot) {
	b.drawLimitWord(c, p)
	if b.shown == 0 {
		return
	}
	pitch, gap := b.pace(c.Rectangle)
	y := c.Max.Y
	b.eachRow(y, pitch, gap, func(r bar, middle vg.Length) { b.drawBar(c, p, r, middle, pitch) })
	if b.limit > 0 {
		x := c.X(p.X.Norm(b.limit))
		c.StrokeLine2(b.look.line(b.look.Limit, lineWidth, dashLimit), x, c.Min.Y, x, c.Max.Y)
	}
	b.eachRow(y, pitch, gap, func(r bar, middle vg.Length) { b.drawRowWords(c, p, r, middle, pitch) })
	for i, g := range b.inView() {
		top := y - gap/2
		y = top - pitch*vg.Length(len(g.rows))
		b.drawName(c, b.names[i], (y+top)/2)
		y -= gap / 2
	}
	c.StrokeLine2(b.look.line(b.look.Faint, 1, nil), c.Min.X, c.Min.Y, c.Min.X, c.Max.Y)
}

// eachRow calls draw with every bar and the height of its middle, from y down.
func (b *bars) eachRow(y, pitch, gap vg.Length, draw func(bar, vg.Length)) {
	for _, g := range b.inView() {
		y -= gap / 2
		for _, r := range g.rows {
			draw(r, y-pitch/2)
			y -= pitch
		}
		y -= gap / 2
	}
}

// drawLimitWord writes the limit's word over the bars.
func (b *bars) drawLimitWord(c draw.Canvas, p *plot.Plot) {
	if b.limit > 0 {
		s := b.look.words(b.look.Limit, false)
		lo, hi := c.Min.X-b.left(), c.Max.X+b.right()
		x := c.X(p.X.Norm(b.limit)) - s.Width(b.word)/2
		write(c, s, vg.Point{X: max(lo, min(x, hi-s.Width(b.word))), Y: c.Max.Y + 4}, b.word)
	}
}

func (b *bars) drawBar(c draw.Canvas, p *plot.Plot, r bar, middle, pitch vg.Length) {
	b.eachPiece(c, p, r, middle, pitch, func(q piece, box vg.Rectangle) { b.drawPiece(c, q, box) })
}

// eachPiece calls draw with every piece of a bar and its box.
func (b *bars) eachPiece(c draw.Canvas, p *plot.Plot, r bar, middle, pitch vg.Length, draw func(piece, vg.Rectangle)) {
	half := pitch * 0.42
	at := 0.0
	for _, q := range r.pieces {
		if !finite(q.value) || q.value <= 0 {
			continue
		}
		draw(q, vg.Rectangle{
			Min: vg.Point{X: c.X(p.X.Norm(at)), Y: middle - half},
			Max: vg.Point{X: c.X(p.X.Norm(at + q.value)), Y: middle + half},
		})
		at += q.value
	}
}

// drawRowWords writes the state before a bar, the values in it and the sum
// behind it.
func (b *bars) drawRowWords(c draw.Canvas, p *plot.Plot, r bar, middle, pitch vg.Length) {
	b.eachPiece(c, p, r, middle, pitch, func(q piece, box vg.Rectangle) {
		if r.known() { // no value is written over the whisker
			box.Max.X = min(box.Max.X, c.X(p.X.Norm(r.reach[0]))-2)
		}
		b.writeValue(c, q, b.clearOfLimit(c, p, q, box))
	})
	b.drawReach(c, p, r, middle, pitch)
	if pitch < b.look.em()*0.99 {
		return
	}
	sum := b.look.words(b.look.Ink, true)
	// The sums are in a column right of the data, where there are no lines.
	box := labels.BoxAt(labels.Anchor{At: vg.Point{X: c.Max.X + b.right() - labels.Gap/2, Y: middle}, DX: 1, DY: 0.5}, textBox(sum, r.sum))
	write(c, sum, box.Min, r.sum)
	faint, state := b.look.words(b.look.Faint, false), b.look.say(r.state)
	write(c, faint, vg.Point{X: c.Min.X - labels.Gap - faint.Width(state), Y: box.Min.Y}, state)
}

func (b *bars) drawPiece(c draw.Canvas, q piece, box vg.Rectangle) {
	c.SetColor(q.fill)
	c.Fill(box.Path())
	inner := vg.Rectangle{Min: box.Min.Add(vg.Point{X: 1.5, Y: 1.5}), Max: box.Max.Sub(vg.Point{X: 1.5, Y: 1.5})}
	if q.hollow && inner.Max.X > inner.Min.X && inner.Max.Y > inner.Min.Y {
		c.SetColor(b.look.Background)
		c.Fill(inner.Path())
		hatch(c, inner, b.look.line(q.fill, 1.5, nil))
		return
	}
	// A thin line in the color of the paper separates neighbors of similar
	// lightness.
	c.StrokeLine2(b.look.line(b.look.Background, 1, nil), box.Max.X, box.Min.Y, box.Max.X, box.Max.Y)
}

// writeValue writes a piece's value into it where it fits.
func (b *bars) writeValue(c draw.Canvas, q piece, box vg.Rectangle) {
	s := b.look.words(b.look.on(q.fill), false)
	if q.text == "" || 0.8*b.look.em() > box.Max.Y-box.Min.Y || s.Width(q.text) > box.Max.X-box.Min.X-4 {
		return
	}
	sz := textBox(s, q.text)
	at := labels.BoxAt(labels.Anchor{At: vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, DX: 0.5, DY: 0.5}, sz)
	c.SetColor(q.fill)
	c.Fill(vg.Rectangle{Min: vg.Point{X: at.Min.X, Y: max(at.Min.Y, box.Min.Y)}, Max: vg.Point{X: at.Max.X, Y: min(at.Max.Y, box.Max.Y)}}.Path())
	write(c, s, at.Min, q.text)
}

// clearOfLimit is the larger part of a piece's box beside the limit, where the
// value would otherwise be written over the line.
func (b *bars) clearOfLimit(c draw.Canvas, p *plot.Plot, q piece, box vg.Rectangle) vg.Rectangle {
	const clear = 3
	x, half := c.X(p.X.Norm(b.limit)), b.look.words(b.look.Ink, false).Width(q.text)/2+clear
	if middle := (box.Min.X + box.Max.X) / 2; b.limit <= 0 || x < middle-half || x > middle+half {
		return box
	}
	if x-box.Min.X > box.Max.X-x {
		box.Max.X = x - clear
	} else {
		box.Min.X = x + clear
	}
	return box
}

// drawReach draws a bar's range as a whisker at its end.
func (b *bars) drawReach(c draw.Canvas, p *plot.Plot, r bar, middle, pitch vg.Length) {
	if !r.known() {
		return
	}
	lo, hi := c.X(p.X.Norm(r.reach[0])), c.X(p.X.Norm(r.reach[1]))
	for _, edge := range []struct {
		ink   color.Color
		width float64
	}{{b.look.Background, 3.5}, {b.look.Ink, thinWidth}} {
		style, cap := b.look.line(edge.ink, edge.width, nil), pitch*0.16
		c.StrokeLine2(style, lo, middle, hi, middle)
		c.StrokeLine2(style, lo, middle-cap, lo, middle+cap)
		c.StrokeLine2(style, hi, middle-cap, hi, middle+cap)
	}
}

// hatch fills a box with slanting lines.
func hatch(c draw.Canvas, box vg.Rectangle, style draw.LineStyle) {
	const pace = 6
	h := box.Max.Y - box.Min.Y
	for x := box.Min.X - h + pace; x < box.Max.X; x += pace {
		a, b := vg.Point{X: x, Y: box.Min.Y}, vg.Point{X: x + h, Y: box.Max.Y}
		if a.X < box.Min.X {
			a.X, a.Y = box.Min.X, box.Min.Y+(box.Min.X-x)
		}
		if b.X > box.Max.X {
			b.X, b.Y = box.Max.X, box.Min.Y+(box.Max.X-x)
		}
		c.StrokeLine2(style, a.X, a.Y, b.X, b.Y)
	}
}

// drawName writes an option's name level with its bars.
func (b *bars) drawName(c draw.Canvas, lines []string, middle vg.Length) {
	s := b.look.words(b.look.Ink, true)
	h := b.look.em()
	y := middle + h*vg.Length(len(lines))/2
	x := c.Min.X - b.left() + labels.Gap
	for _, line := range lines {
		y -= h
		write(c, s, vg.Point{X: x, Y: y}, line)
	}
}
