package report

// piece is the smallest part of a column that is not split.
type piece struct {
	height float64
	draw   func(x, y float64)
	keep   bool // with the piece after it
	space  bool // dropped at the top of a column
}

// columnGap is the white between two columns.
const columnGap = 16.0

// columnWidth is the width of one of n columns.
func (f *flow) columnWidth(n int) float64 { return (f.width - float64(n-1)*columnGap) / float64(n) }

// columns sets pieces in n columns of similar height; where a page ends they
// continue, in columns, on the next.
func (f *flow) columns(n int, pieces []piece) {
	if len(pieces) > 0 {
		f.add(f.columnRow(n, pieces))
	}
}

func (f *flow) columnRow(n int, pieces []piece) row {
	total := 0.0
	for _, p := range pieces {
		total += p.height
	}
	high := total / float64(n)
	cols, used := fillColumns(pieces, n, high)
	for used < len(pieces) {
		high += 2
		cols, used = fillColumns(pieces, n, high)
	}
	r := f.drawColumns(n, cols)
	r.least = min(r.height, 60)
	r.split = func(room float64) (row, row, bool) {
		cols, used := fillColumns(pieces, n, room)
		if used == 0 || used == len(pieces) {
			return row{}, row{}, false
		}
		return f.drawColumns(n, cols), f.columnRow(n, pieces[used:]), true
	}
	return r
}

func (f *flow) drawColumns(n int, cols [][]piece) row {
	high := 0.0
	for _, c := range cols {
		sum := 0.0
		for _, p := range c {
			sum += p.height
		}
		high = max(high, sum)
	}
	wide := f.columnWidth(n)
	return row{height: high, draw: func(y float64) {
		for i, c := range cols {
			at := y
			for _, p := range c {
				if p.draw != nil {
					p.draw(f.x+float64(i)*(wide+columnGap), at)
				}
				at += p.height
			}
		}
	}}
}

// fillColumns fills n columns of a height, and returns how many pieces fit.
func fillColumns(pieces []piece, n int, high float64) (cols [][]piece, used int) {
	high += 0.01 // heights are sums
	for range n {
		var col []piece
		room := high
		for used < len(pieces) {
			group, tall := 1, pieces[used].height
			for pieces[used+group-1].keep && used+group < len(pieces) {
				tall += pieces[used+group].height
				group++
			}
			if len(col) == 0 && pieces[used].space {
				used++
				continue
			}
			if tall > room {
				break
			}
			col = append(col, pieces[used:used+group]...)
			room -= tall
			used += group
		}
		cols = append(cols, col)
	}
	return cols, used
}

// atom is a word that is not split, in spans of one style each.
type atom []span

func plainAtoms(text string) []atom { return atoms(text, false) }
func boldAtoms(text string) []atom  { return atoms(text, true) }

func atoms(text string, bold bool) []atom {
	var out []atom
	for _, w := range words(text) {
		out = append(out, atom{{text: w, bold: bold}})
	}
	return out
}

func (s *sheet) atomWidth(t style, a atom) float64 {
	w := 0.0
	for _, p := range a {
		w += s.span(t, p).w
	}
	return w
}

// wrapAtoms breaks atoms into lines of a width; a word too wide breaks anywhere.
func (s *sheet) wrapAtoms(t style, list []atom, width float64) [][]atom {
	var lines [][]atom
	var line []atom
	used, blank := 0.0, s.width(t, " ")
	for _, a := range list {
		for _, part := range s.breakAtom(t, a, width) {
			w := s.atomWidth(t, part)
			if len(line) > 0 && used+blank+w > width {
				lines = append(lines, line)
				line, used = nil, 0
			}
			if len(line) > 0 {
				used += blank
			}
			line = append(line, part)
			used += w
		}
	}
	return append(lines, line)
}

func (s *sheet) breakAtom(t style, a atom, width float64) []atom {
	if len(a) != 1 || s.atomWidth(t, a) <= width {
		return []atom{a}
	}
	t.bold = t.bold || a[0].bold
	var out []atom
	for _, text := range s.breakWord(t, a[0].text, width) {
		out = append(out, atom{{text: text, bold: a[0].bold}})
	}
	return out
}

// putAtoms writes a line; neighbors of one style are one text.
func (s *sheet) putAtoms(t style, x, y float64, line []atom) {
	var runs []span
	for i, a := range line {
		for k, p := range a {
			last := len(runs) - 1
			switch blank := k == 0 && i > 0; {
			case blank && last >= 0 && !runs[last].sub && runs[last].bold == p.bold && !p.sub:
				runs[last].text += " " + p.text
			case blank && last >= 0 && !p.sub:
				p.text = " " + p.text
				runs = append(runs, p)
			case last >= 0 && runs[last].sub == p.sub && runs[last].bold == p.bold:
				runs[last].text += p.text
			default:
				runs = append(runs, p)
			}
		}
	}
	for _, p := range runs {
		b := s.span(t, span{spaced(p.text), p.sub, p.bold})
		b.draw(x, y)
		x += b.w
	}
}

// dense is the height of a line of close text.
func (t style) dense() float64 { return 1.17 * t.size }

// block is a paragraph of atoms behind a mark. It stays whole but where it is long.
func (f *flow) block(t style, width float64, mark string, indent float64, list []atom) []piece {
	return f.linePieces(t, f.wrapAtoms(t, list, width-indent), mark, indent, indent)
}

// hanging is a paragraph whose lines after the first are indented.
func (f *flow) hanging(t style, width, in float64, list []atom) []piece {
	return f.linePieces(t, f.wrapAtoms(t, list, width-in), "", 0, in)
}

// wholeLines is the number of lines that are never split.
const wholeLines = 8

func (f *flow) linePieces(t style, lines [][]atom, mark string, first, rest float64) []piece {
	out := make([]piece, len(lines))
	for i, line := range lines {
		out[i] = piece{height: t.dense(), draw: func(x, y float64) {
			in := rest
			if i == 0 {
				in = first
				if mark != "" {
					f.put(t, x, y+t.ascent(), mark)
				}
			}
			f.putAtoms(t, x+in, y+t.ascent(), line)
		}}
		out[i].keep = i < len(lines)-1 && (len(lines) <= wholeLines || i == 0 || i == len(lines)-2)
	}
	return out
}

// held keeps pieces with what follows them.
func held(list []piece) []piece {
	for i := range list {
		list[i].keep = true
	}
	return list
}
