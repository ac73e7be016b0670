package blowertable

import (
	"fmt"

	"returnbench/gui/blowertable/paste"
	"returnbench/sizing/blower"
)

// paste fills cells to the right and down from one cell; a whole table pasted at
// the first cell takes the place of what is there. It leaves a text of one cell
// to the entry.
func (g *Grid) paste(row, column int, text string) bool {
	p := paste.Read(text)
	switch {
	case p == nil:
		return false
	case column == 0 && g.opts.SetTaps != nil && g.pasteTaps(p):
		return true
	}
	whole := row == 0 && column == 0 && (p.Head != nil || p.Width() > 1 && len(p.Rows) > 2)
	n := max(len(g.rows), row+len(p.Rows))
	if whole {
		n = len(p.Rows)
	}
	g.resize(n)
	g.silent = true
	if whole {
		g.clear()
	}
	over := g.fill(p, row, column)
	g.silent = false
	g.remark, g.refused = fmt.Sprintf("Pasted %d rows.", len(p.Rows)), false
	if len(p.Rows) == 1 {
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

func (g *Grid) clear() {
	for _, r := range g.rows {
		for _, e := range r.cells {
			e.SetText("")
		}
	}
}

// fill writes the cells and counts the columns that have no place.
func (g *Grid) fill(p *paste.Table, row, column int) (over int) {
	order := p.ColumnOrder()
	if column > 0 {
		order = nil
	}
	for j := range p.Width() {
		to := column + j
		if order != nil {
			to = order[j]
		}
		if to == paste.NoColumn || to >= paste.Columns {
			over++
			continue
		}
		unit := ""
		if j < len(p.Head) {
			unit = paste.HeadingUnit(p.Head[j], to)
		}
		for i := range p.Rows {
			if j < len(p.Rows[i]) {
				g.rows[row+i].exact[to] = exactValue{}
				g.rows[row+i].cells[to].SetText(paste.WithUnit(p.Cell(i, j), unit))
			}
		}
	}
	return over
}

// pasteTaps takes a table with a column for each tap; false where it is none.
func (g *Grid) pasteTaps(p *paste.Table) bool {
	is, doubt := p.IsTapTable(g.sys)
	if is {
		var taps []blower.Tap
		if taps, doubt = p.Taps(g.sys); doubt == "" {
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
