package widgets

import (
	"fmt"

	"returnbench/sizing/blower"
)

// paste fills cells to the right and down from one cell; a whole table pasted at
// the first cell takes the place of what is there. It leaves a text of one cell
// to the entry.
func (g *PointGrid) paste(row, column int, text string) bool {
	p := readPasted(text)
	switch {
	case p == nil:
		return false
	case column == 0 && g.opts.SetTaps != nil && g.pasteTaps(p):
		return true
	}
	whole := row == 0 && column == 0 && (p.head != nil || p.width() > 1 && len(p.rows) > 2)
	n := max(len(g.rows), row+len(p.rows))
	if whole {
		n = len(p.rows)
	}
	g.resize(n)
	g.silent = true
	if whole {
		g.clear()
	}
	over := g.fill(p, row, column)
	g.silent = false
	g.remark, g.refused = fmt.Sprintf("Pasted %d rows.", len(p.rows)), false
	if len(p.rows) == 1 {
		g.remark = "Pasted 1 row."
	}
	switch {
	case over == 1:
		g.remark += " 1 column did not fit and was left out."
	case over > 1:
		g.remark += fmt.Sprintf(" %d columns did not fit and were left out.", over)
	}
	g.changed()
	return true
}

func (g *PointGrid) clear() {
	for _, r := range g.rows {
		for _, e := range r.cells {
			e.SetText("")
		}
	}
}

// fill writes the cells and counts the columns that have no place.
func (g *PointGrid) fill(p *pasted, row, column int) (over int) {
	order := p.order()
	if column > 0 {
		order = nil
	}
	for j := range p.width() {
		to := column + j
		if order != nil {
			to = order[j]
		}
		if to == noColumn || to >= pointColumns {
			over++
			continue
		}
		unit := ""
		if j < len(p.head) {
			unit = headUnit(p.head[j], to)
		}
		for i := range p.rows {
			if j < len(p.rows[i]) {
				g.rows[row+i].cells[to].SetText(withUnit(p.cell(i, j), unit))
			}
		}
	}
	return over
}

// pasteTaps takes a table with a column for each tap; false where it is none.
func (g *PointGrid) pasteTaps(p *pasted) bool {
	is, doubt := p.tapTable(g.sys)
	if is {
		var taps []blower.Tap
		if taps, doubt = p.taps(g.sys); doubt == "" {
			g.opts.SetTaps(taps)
			return true
		}
	}
	if doubt != "" {
		g.remark, g.refused = doubt, true
		g.retell()
	}
	return doubt != ""
}
