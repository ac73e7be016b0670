package blowertable

import (
	"strings"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/parse"
	"returnbench/sizing/blower"
	"returnbench/sizing/message"
)

// paste fills cells to the right and down from one cell; a whole table pasted at
// the first cell takes the place of what is there. It leaves a text of one cell
// to the entry.
func (g *Grid) paste(row, column int, text string) bool {
	p := paste.ReadAs(text, *g.opts.Mark)
	switch {
	case p == nil:
		return false
	case column == 0 && g.pasteAcross(p):
		return true
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
	left := g.fill(p, row, column)
	g.silent = false
	remark := message.Sentences{message.New("Pasted {count} rows.", "count", len(p.Rows))}
	if len(left) > 0 {
		remark = append(remark, message.New("{count} columns have no place here and were left out: {names}.", "count", len(left), "names", strings.Join(left, ", ")))
	}
	g.remark, g.refused = remark.In(g.sys), false
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

// fill writes the cells and names the columns that have no place.
func (g *Grid) fill(p *paste.Table, row, column int) (left []string) {
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
			name := message.Text(g.sys, "column {number}", "number", j+1)
			if j < len(p.Head) && p.Head[j] != "" {
				name = p.Head[j]
			}
			left = append(left, name)
			continue
		}
		unit := ""
		if j < len(p.Head) {
			unit = paste.HeadingUnit(p.Head[j], to)
		}
		for i := range p.Rows {
			if j < len(p.Rows[i]) {
				g.rows[row+i].exact[to] = exactValue{}
				g.rows[row+i].cells[to].SetText(parse.Marked(g.sys, paste.WithUnit(p.Cell(i, j), unit)))
			}
		}
	}
	return left
}

// pasteAcross takes a table with the statics across the top; false where it is none.
// The rows of one tap without a name are those of the tap in view.
func (g *Grid) pasteAcross(p *paste.Table) bool {
	taps, left := p.Across(g.sys)
	switch {
	case len(taps) == 0:
		return false
	case len(taps) > 1 && g.opts.SetTaps == nil:
		g.remark, g.refused = message.Text(g.sys, "The table has more than one tap. Nothing was pasted."), true
		g.showState()
		return true
	case len(taps) > 1 || taps[0].Name != "" && g.opts.SetTaps != nil:
		g.opts.SetTaps(taps, left)
		return true
	}
	points := taps[0].Points
	g.resize(len(points))
	g.silent = true
	for i := range points {
		g.rows[i].faults = [paste.Columns]string{}
		g.writeRow(g.rows[i], &points[i])
	}
	g.silent = false
	g.remark, g.refused = strings.Join(append([]string{message.Text(g.sys, "Pasted {count} rows, with the statics across the top.", "count", len(points))}, left...), " "), false
	g.changed()
	return true
}

// pasteTaps takes a table with a column for each tap; false where it is none.
func (g *Grid) pasteTaps(p *paste.Table) bool {
	is, doubt := p.IsTapTable(g.sys)
	if is {
		var taps []blower.Tap
		if taps, doubt = p.Taps(g.sys); doubt == "" {
			g.opts.SetTaps(taps, nil)
			return true
		}
	}
	if doubt != "" {
		g.remark, g.refused = doubt, true
		g.showState()
	}
	return doubt != ""
}
