package report

import "slices"

// column of a table. Its share is of the width that is left over by the others;
// zero: as wide as its widest cell.
type column struct {
	name  string
	share float64
	right bool // numbers stand at the right
	// blank cells are framed: a person writes in them.
	blank bool
	least float64 // width
}

// grid lays out a table: a head that is repeated on each page, and rows whose
// cells wrap.
type grid struct {
	f      *flow
	cols   []column
	x, w   []float64
	text   style
	head   style
	padX   float64
	padY   float64
	leastH float64
}

func (f *flow) table(t style, cols []column, cells [][]string) {
	f.tallTable(t, 0, cols, cells)
}

// tallTable is a table whose rows have a minimum height, to write in.
func (f *flow) tallTable(t style, least float64, cols []column, cells [][]string) {
	if len(cells) == 0 {
		return
	}
	g := &grid{f: f, cols: cols, text: t, head: t, padX: 4 * f.scale, padY: 2 * f.scale, leastH: least}
	g.head.bold = true
	if f.tight {
		g.padX, g.padY = 3*f.scale, 0.7*f.scale
	}
	g.measure(cells)
	head := g.row(heads(cols), true)
	head.keep = true
	named := slices.ContainsFunc(cols, func(c column) bool { return c.name != "" })
	if named {
		f.add(head)
	}
	for i, line := range cells {
		r := g.row(line, false)
		if named {
			r.head = &head
		}
		// The first two rows stay with the head, the last with the one before.
		r.keep = i == len(cells)-2
		f.add(r)
	}
}

func heads(cols []column) []string {
	out := make([]string, len(cols))
	for i, c := range cols {
		out[i] = c.name
	}
	return out
}

// measure decides the columns' widths. Columns without a share are as wide as
// their cells need, but no wider than half of the table together.
func (g *grid) measure(cells [][]string) {
	n := len(g.cols)
	g.x, g.w = make([]float64, n), make([]float64, n)
	wanted, shares := 0.0, 0.0
	for i, c := range g.cols {
		shares += c.share
		if c.share > 0 {
			continue
		}
		w := max(g.f.sheet.width(g.head, c.name), c.least)
		for _, line := range cells {
			w = max(w, g.f.sheet.width(g.text, line[i]))
		}
		g.w[i] = w + 2*g.padX + 1
		wanted += g.w[i]
	}
	most := g.f.width
	if shares > 0 {
		most *= 0.68
	}
	if wanted > most {
		for i := range g.w {
			g.w[i] *= most / wanted
		}
		wanted = most
	}
	x := g.f.x
	for i, c := range g.cols {
		if c.share > 0 {
			g.w[i] = (g.f.width - wanted) * c.share / shares
		}
		g.x[i] = x
		x += g.w[i]
	}
}

func (g *grid) end() float64 {
	n := len(g.cols) - 1
	return g.x[n] + g.w[n]
}

func (g *grid) row(line []string, head bool) row {
	t := g.text
	if head {
		t = g.head
	}
	lines := make([][]string, len(line))
	most := 1
	for i, text := range line {
		lines[i] = g.f.wrap(t, text, g.w[i]-2*g.padX)
		most = max(most, len(lines[i]))
	}
	h := float64(most)*t.leading() + 2*g.padY
	if !head {
		h = max(h, g.leastH)
	}
	return row{height: h, draw: func(y float64) { g.draw(t, lines, y, h, head) }}
}

func (g *grid) draw(t style, lines [][]string, y, h float64, head bool) {
	if head {
		g.f.fill(pale, g.x[0], y, g.end()-g.x[0], h)
	}
	for i, cell := range lines {
		top := y + g.padY
		if !head && g.leastH > 0 {
			top = y + (h-float64(len(cell))*t.leading())/2
		}
		for k, text := range cell {
			at := top + float64(k)*t.leading() + t.ascent()
			if g.cols[i].right {
				g.f.flushRight(t, g.x[i]+g.w[i]-g.padX, at, text)
			} else {
				g.f.put(t, g.x[i]+g.padX, at, text)
			}
		}
		if g.cols[i].blank && !head {
			g.f.box(rule, 0.5, nil, g.x[i]+1, y+1, g.w[i]-2, h-2)
		}
	}
	ink, width := rule, 0.4
	if head {
		ink, width = soft, 0.8
	}
	g.f.line(ink, width, nil, g.x[0], y+h, g.end(), y+h)
}
