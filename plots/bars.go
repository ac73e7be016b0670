package plots

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// bars is a plotter of level bars: one group an option, one bar a state, one
// piece a part. Names stand at the left where they can be read, the sum at the
// end of each bar.
type bars struct {
	look   Look
	groups []barGroup
	key    []keyEntry // what the pieces are, in a line above the bars
	total  string     // what a bar's length is
	unit   string     // in use
	limit  float64    // an upright line, 0 for none
	word   string     // of the limit
}

type barGroup struct {
	name string
	rows []bar
}

type bar struct {
	state  string
	pieces []piece
	sum    string // word at the end
	total  float64
}

type piece struct {
	name   string // as in the key
	value  float64
	text   string
	fill   color.Color
	hollow bool // outlined, for the loaded state
}

type keyEntry struct {
	word string
	fill color.Color
}

const nameLength = 17 // characters in a line of a name; two lines at most

// newBarFrame makes the chart of a set of bars.
func newBarFrame(look Look, b *bars) *frame {
	f := newFrame(look, b.total+", "+b.unit, "")
	b.look = f.look
	top := b.limit
	for _, g := range b.groups {
		for _, r := range g.rows {
			if end := r.end(); finite(end) {
				top = max(top, end)
			}
		}
	}
	span(&f.X, 0, top*1.02)
	span(&f.Y, 0, 1)
	f.Y.Tick.Marker = plot.ConstantTicks{}
	f.Y.LineStyle.Width = 0
	f.X.Tick.Marker = roundTicks{n: int(6 / f.look.Scale)}
	f.Add(b)
	f.bars = b
	return f
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

func (b *bars) textHeight() vg.Length { return textBox(b.look.words(b.look.Ink, false), "X").Y }

// nameWidth and stateWidth are the columns left of the bars, sumWidth the one
// at their right.
func (b *bars) nameWidth() (w vg.Length) {
	s := b.look.words(b.look.Ink, true)
	for _, g := range b.groups {
		for _, line := range wrapName(g.name) {
			w = max(w, s.Width(line))
		}
	}
	return w
}

func (b *bars) stateWidth() (w vg.Length) {
	s := b.look.words(b.look.Ink, false)
	for _, g := range b.groups {
		for _, r := range g.rows {
			w = max(w, s.Width(r.state))
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

func (b *bars) left() vg.Length { return b.nameWidth() + b.stateWidth() + 3*labelGap }

func (b *bars) right() vg.Length { return b.sumWidth() + 2*labelGap }

func (b *bars) headRows() int {
	n := 0
	if len(b.key) > 0 {
		n++
	}
	if b.limit > 0 {
		n++
	}
	return n
}

// GlyphBoxes keeps room for names, sums and the lines above.
func (b *bars) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	head := vg.Length(b.headRows())*(b.textHeight()+4) + 4
	return []plot.GlyphBox{
		{X: 0, Rectangle: vg.Rectangle{Min: vg.Point{X: -b.left()}}},
		{X: 1, Rectangle: vg.Rectangle{Max: vg.Point{X: b.right()}}},
		{Y: 1, Rectangle: vg.Rectangle{Max: vg.Point{Y: head}}},
	}
}

// Plot draws the bars.
func (b *bars) Plot(c draw.Canvas, p *plot.Plot) {
	b.drawHead(c, p)
	rows := 0
	for _, g := range b.groups {
		rows += len(g.rows)
	}
	if rows == 0 {
		return
	}
	const leastGap = 0.7 // between groups, in bars
	high := c.Max.Y - c.Min.Y
	pitch := min(high/(vg.Length(rows)+leastGap*vg.Length(len(b.groups))), 2.5*b.textHeight())
	gap := (high - pitch*vg.Length(rows)) / vg.Length(len(b.groups))
	y := c.Max.Y
	b.eachRow(y, pitch, gap, func(r bar, middle vg.Length) { b.drawBar(c, p, r, middle, pitch) })
	if b.limit > 0 {
		x := c.X(p.X.Norm(b.limit))
		c.StrokeLine2(b.look.line(b.look.Limit, lineWidth, dashLimit), x, c.Min.Y, x, c.Max.Y)
	}
	b.eachRow(y, pitch, gap, func(r bar, middle vg.Length) { b.drawRowWords(c, p, r, middle, pitch) })
	for _, g := range b.groups {
		top := y - gap/2
		y = top - pitch*vg.Length(len(g.rows))
		b.drawName(c, g, y-gap/2, top+gap/2)
		y -= gap / 2
	}
	c.StrokeLine2(b.look.line(b.look.Faint, 1, nil), c.Min.X, c.Min.Y, c.Min.X, c.Max.Y)
}

// eachRow calls draw with every bar and the height of its middle, from y down.
func (b *bars) eachRow(y, pitch, gap vg.Length, draw func(bar, vg.Length)) {
	for _, g := range b.groups {
		y -= gap / 2
		for _, r := range g.rows {
			draw(r, y-pitch/2)
			y -= pitch
		}
		y -= gap / 2
	}
}

// drawHead writes the key and the limit's word over the bars.
func (b *bars) drawHead(c draw.Canvas, p *plot.Plot) {
	y := c.Max.Y + 4
	lo, hi := c.Min.X-b.left(), c.Max.X+b.right()
	if b.limit > 0 {
		s := b.look.words(b.look.Limit, false)
		word := fitWidth(s, b.word, hi-lo)
		x := c.X(p.X.Norm(b.limit)) - s.Width(word)/2
		write(c, s, vg.Point{X: max(lo, min(x, hi-s.Width(word))), Y: y}, word)
		y += b.textHeight() + 4
	}
	if len(b.key) > 0 {
		b.drawKey(c, lo, hi, y)
	}
}

// drawKey writes what the pieces are, in their order, shrunk to the room.
func (b *bars) drawKey(c draw.Canvas, lo, hi, y vg.Length) {
	s := b.look.words(b.look.Ink, false)
	need := func() (w vg.Length) {
		for _, k := range b.key {
			w += s.Width(k.word) + 2.2*s.Font.Size
		}
		return w
	}
	if n := need(); n > hi-lo {
		s.Font.Size *= (hi - lo) / n
	}
	x := max(lo, min(c.Min.X, hi-need()))
	for _, k := range b.key {
		swatch := s.Font.Size * 0.8
		box := vg.Rectangle{Min: vg.Point{X: x, Y: y + 2}, Max: vg.Point{X: x + swatch, Y: y + 2 + swatch}}
		c.SetColor(k.fill)
		c.Fill(box.Path())
		write(c, s, vg.Point{X: x + swatch + 4, Y: y}, k.word)
		x += s.Width(k.word) + 2.2*s.Font.Size
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
	b.eachPiece(c, p, r, middle, pitch, func(q piece, box vg.Rectangle) { b.writeValue(c, q, box) })
	size := b.fitText(pitch)
	if size == 0 {
		return
	}
	sum := b.look.words(b.look.Ink, true)
	sum.Font.Size = size
	box := boxAt(anchor{at: vg.Point{X: c.X(p.X.Norm(r.end())) + labelGap, Y: middle}, dy: 0.5}, textBox(sum, r.sum))
	c.SetColor(b.look.Background)
	c.Fill(box.Path())
	write(c, sum, box.Min, r.sum)
	state := b.look.words(b.look.Faint, false)
	state.Font.Size = size
	write(c, state, vg.Point{X: c.Min.X - labelGap - state.Width(r.state), Y: box.Min.Y}, r.state)
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
	// A seam in the colour of the paper parts neighbours of like lightness.
	c.StrokeLine2(b.look.line(b.look.Background, 1, nil), box.Max.X, box.Min.Y, box.Max.X, box.Max.Y)
}

// writeValue writes a piece's value into it where it fits.
func (b *bars) writeValue(c draw.Canvas, q piece, box vg.Rectangle) {
	size := b.fitText(box.Max.Y - box.Min.Y)
	s := b.look.words(b.look.on(q.fill), false)
	s.Font.Size = size
	if q.text == "" || size == 0 || s.Width(q.text) > box.Max.X-box.Min.X-4 {
		return
	}
	sz := textBox(s, q.text)
	at := boxAt(anchor{at: vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, dx: 0.5, dy: 0.5}, sz)
	c.SetColor(q.fill)
	c.Fill(vg.Rectangle{Min: vg.Point{X: at.Min.X, Y: max(at.Min.Y, box.Min.Y)}, Max: vg.Point{X: at.Max.X, Y: min(at.Max.Y, box.Max.Y)}}.Path())
	write(c, s, at.Min, q.text)
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

// fitText is the text size for a bar, 0 where words would be too small to read.
func (b *bars) fitText(room vg.Length) vg.Length {
	full := b.look.points(textSize)
	if h := b.textHeight(); h > room {
		full *= room / h
	}
	if full < leastText {
		return 0
	}
	return full
}

// drawName writes an option's name in up to two lines, level with its bars.
func (b *bars) drawName(c draw.Canvas, g barGroup, lo, hi vg.Length) {
	s := b.look.words(b.look.Ink, true)
	lines := wrapName(g.name)
	if n := vg.Length(len(lines)); n*textBox(s, "X").Y > hi-lo {
		if s.Font.Size = b.fitText((hi - lo) / n); s.Font.Size == 0 {
			if s.Font.Size = b.fitText(hi - lo); s.Font.Size == 0 {
				return
			}
			lines = []string{fitWidth(s, short(g.name, 2*nameLength), b.nameWidth())}
		}
	}
	h := textBox(s, "X").Y
	y := (lo+hi)/2 + h*vg.Length(len(lines))/2
	x := c.Min.X - b.left() + labelGap
	for _, line := range lines {
		y -= h
		write(c, s, vg.Point{X: x, Y: y}, line)
	}
}

// wrapName breaks a name into at most two lines.
func wrapName(name string) []string {
	lines := []string{""}
	for _, word := range strings.Fields(short(name, 4*nameLength)) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case len([]rune(*last))+1+len([]rune(word)) <= nameLength:
			*last += " " + word
		case len(lines) == 2:
			*last += " " + word // cut below
		default:
			lines = append(lines, word)
		}
	}
	for i := range lines {
		lines[i] = shorten(lines[i], nameLength)
	}
	return lines
}
