package plots

import (
	"image/color"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// legend names the lines and fills of a chart, in columns above it. Each entry
// has the same strokes, markers or fill as in the chart, and the full name.
type legend struct {
	look    Look
	entries []legendEntry
}

// legendEntry is a name with what it stands for.
type legendEntry struct {
	word    string
	samples []sample
}

// sample is a piece of what is drawn: a fill, or a line with or without a marker.
type sample struct {
	fill color.Color
	line draw.LineStyle
	mark draw.GlyphStyle // without a shape: none
}

func swatch(word string, fill color.Color) legendEntry {
	return legendEntry{word, []sample{{fill: fill}}}
}

// name writes a curve's name at its line, or in the legend where the chart has
// one. Curves of one name share an entry.
func (f *frame) name(at chartLabel, word string, strokes ...sample) {
	if !f.look.inLegend {
		at.inLegend = true
		f.notes.words = append(f.notes.words, at)
		return
	}
	f.key.add(word, strokes...)
}

// nameOption names an option's curve: at the curve, or among the others in the
// legend.
func (f *frame) nameOption(r rank, at chartLabel, word string, strokes ...sample) {
	if r.named() {
		f.name(at, word, strokes...)
		return
	}
	f.key.add(word, strokes[:1]...)
}

func (k *legend) add(word string, strokes ...sample) {
	if i := slices.IndexFunc(k.entries, func(e legendEntry) bool { return e.word == word }); i >= 0 {
		k.entries[i].samples = append(k.entries[i].samples, strokes...)
		return
	}
	k.entries = append(k.entries, legendEntry{word, strokes})
}

func (k *legend) style() text.Style { return k.look.words(k.look.Ink, false) }

// width of a sample and of the gap behind it.
func (k *legend) width(s sample) vg.Length {
	if s.fill != nil {
		return k.look.points(10 + 5)
	}
	return k.look.points(30 + 5)
}

// cell is an entry in its place: the lines of its name, and where its first
// line starts, counted in columns and lines.
type cell struct {
	entry       legendEntry
	lines       []string
	column, row int
}

// legendLayout is a legend laid out for a width.
type legendLayout struct {
	cells  []cell
	column vg.Length // its width
	rows   int
	whole  bool // every entry has room
}

// plan lays the legend out in as many columns as hold every name on one line, or
// else in one, and in no more than some rows. Entries without room are counted
// in the last row.
func (k *legend) plan(width vg.Length, most int) legendLayout {
	s, gap := k.style(), k.look.points(14)
	var samples, widest vg.Length
	for _, e := range k.entries {
		var w vg.Length
		for _, one := range e.samples {
			w += k.width(one)
		}
		samples, widest = max(samples, w), max(widest, w+s.Width(e.word)+gap)
	}
	columns := 1
	if widest > 0 {
		columns = min(max(int((width+gap)/widest), 1), len(k.entries))
	}
	p := legendLayout{column: widest}
	for i, e := range k.entries {
		c := cell{entry: e, lines: []string{e.word}, column: i % columns, row: p.rows}
		if columns == 1 {
			c.lines = wrap(s, e.word, max(width-samples, s.Font.Size))
		}
		if p.cells = append(p.cells, c); c.column == columns-1 || i == len(k.entries)-1 {
			p.rows += len(c.lines)
		}
	}
	return p.within(most, k.look)
}

// within leaves out the entries below a number of rows, and counts them in the
// last row.
func (p legendLayout) within(most int, look Look) legendLayout {
	p.whole = p.rows <= most
	if p.whole || most < 1 {
		return p
	}
	kept := 0
	for _, c := range p.cells {
		if c.row+len(c.lines) < most {
			kept++
		}
	}
	word := look.more(len(p.cells) - kept)
	p.cells = append(p.cells[:kept], cell{lines: []string{word}, row: most - 1})
	p.rows = most
	return p
}

// more is the number of entries without room.
func (l Look) more(n int) string { return l.say("{count} more have no room", "count", n) }

// height of so many rows, with a gap under them.
func (k *legend) height(rows int) vg.Length {
	if rows == 0 {
		return 0
	}
	return vg.Length(rows)*k.look.em() + k.look.points(6)
}

// draw writes the legend from an upper left corner.
func (k *legend) draw(c draw.Canvas, p legendLayout, at vg.Point) {
	s, em := k.style(), k.look.em()
	for _, one := range p.cells {
		x, y := at.X+vg.Length(one.column)*p.column, at.Y-vg.Length(one.row+1)*em
		for _, smp := range one.entry.samples {
			k.drawSample(c, smp, vg.Rectangle{Min: vg.Point{X: x, Y: y}, Max: vg.Point{X: x + k.width(smp) - k.look.points(5), Y: y + em}})
			x += k.width(smp)
		}
		for i, line := range one.lines {
			write(c, s, vg.Point{X: x, Y: y - vg.Length(i)*em}, line)
		}
	}
}

func (k *legend) drawSample(c draw.Canvas, s sample, box vg.Rectangle) {
	middle := (box.Min.Y + box.Max.Y) / 2
	if s.fill != nil {
		half := k.look.points(5)
		c.SetColor(s.fill)
		c.Fill(vg.Rectangle{Min: vg.Point{X: box.Min.X, Y: middle - half}, Max: vg.Point{X: box.Max.X, Y: middle + half}}.Path())
		return
	}
	c.StrokeLine2(s.line, box.Min.X, middle, box.Max.X, middle)
	if s.mark.Shape != nil {
		c.DrawGlyph(s.mark, vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: middle})
	}
}
