package airpath

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// riser is the return plenum that gathers the branches.
func (p *plan) riser() box {
	n := len(p.c.Branches)
	if n == 0 {
		return box{p.duct.x, p.duct.y, p.riserWidth(), p.duct.h}
	}
	rows := p.rows()
	top, bottom := rows[0], rows[len(rows)-1]
	y := fyne.Min(top.y, p.duct.y)
	return box{p.duct.x, y, p.riserWidth(), fyne.Max(bottom.bottom(), p.duct.bottom()) - y}
}

// rows are the branches one under another.
func (p *plan) rows() []box {
	n := len(p.c.Branches)
	if n == 0 {
		return nil
	}
	h := fyne.Min((p.air.h-rowGap*float32(n-1))/float32(n), fyne.Max(4*p.line+10, p.duct.h/float32(n)))
	total := h*float32(n) + rowGap*float32(n-1)
	y := p.air.midY() - total/2
	out := make([]box, n)
	for i := range out {
		out[i] = box{p.branch.x, y + float32(i)*(h+rowGap), p.duct.x - p.branch.x, h}
	}
	return out
}

// returnWords are the words of the whole return, with what the gauge found in it
// beyond the parts described where that is more than a gauge may differ by.
func (p *plan) returnWords(d, lost sizing.PartDrop) words {
	w := p.partWords("return", d)
	if slices.ContainsFunc(p.a.study.Findings, func(f sizing.Finding) bool { return f.Code == study.CodeUnexplained }) {
		w.lines[1] = message.Text(p.a.sys, "{loss} unexplained", "loss", lost.Drop)
	}
	return w
}

func (p *plan) paintBranches() {
	d, ok := p.a.drop(sizing.PartReturn)
	lost, _ := p.a.drop(sizing.PartUnexplained)
	d.Drop, d.Share = d.Drop+lost.Drop, d.Share+lost.Share
	d.Over = d.Over || lost.Drop > 0 && d.Drop > d.Budget
	if ok {
		p.legendOf(p.branch, p.returnWords(d, lost), d)
	}
	edge, width := edgeOf(costly(d))
	if len(p.c.Branches) > 0 {
		rows := p.rows()
		for i, row := range rows {
			p.paintBranch(i, row, edge, width)
		}
		p.rect(p.riser(), look.Air, edge, width)
		p.seam(rows, width)
	} else {
		row := box{p.branch.x, p.duct.y, p.duct.x - p.branch.x, p.duct.h}
		p.rect(row, look.Air, edge, width)
		p.rect(box{p.duct.x - width - 2, row.y + width, 2*width + 4, row.h - 2*width}, look.Air, "", 0)
		p.text(p.fit(message.Text(p.a.sys, "return, not described"), row.w-16, lettering{}), row.x+8, row.midY()-p.line/2, row.w-16, lettering{})
	}
	legend := box{p.branch.x, p.legend.y, p.branch.w, p.legend.h}
	p.placePart(PartReturn, legend)
}

// seam opens the walls between branches, plenum and duct.
func (p *plan) seam(rows []box, width float32) {
	r := p.riser()
	for _, row := range rows {
		p.rect(box{r.x - width - 2, row.y + width, 2*width + 4, row.h - 2*width}, look.Air, "", 0)
	}
	p.rect(box{r.right() - 3, p.duct.y + 1.5, 5, p.duct.h - 3}, look.Air, "", 0)
	p.arrow(r.midX()+4, p.duct.midY(), 7, look.AirEdge)
}

// paintBranch draws one return: the grille with its blades, a filter behind it
// where there is one, the duct, and as many words as the row holds.
func (p *plan) paintBranch(i int, row box, edge fyne.ThemeColorName, width float32) {
	b := p.c.Branches[i]
	p.rect(row, look.Air, edge, width)
	grille := box{row.x, row.y, p.scaled(9 * widgets.TextScale(p.th)), row.h}
	p.rect(grille, look.Raised, edge, width)
	for y := grille.y + 4; y+3 < grille.bottom(); y += 6 {
		p.line2(grille.x+2, y+3, grille.right()-2, y, edge)
	}
	x := grille.right() + 4
	if b.FilterDrop > 0 {
		f := box{grille.right() + 1, row.y + 1, p.scaled(10 * widgets.TextScale(p.th)), row.h - 2}
		all, _ := p.a.filters()
		p.pleats(f, all.costly(b.FilterDrop))
		x = f.right() + 4
	}
	p.branchWords(b, box{x, row.y, row.right() - x - 2, row.h})
	p.placePart(BranchPart(i), row)
}

func (p *plan) branchWords(b sizing.BranchFlow, room box) {
	sys := p.a.sys
	name := b.Name.Show(sys)
	drops := []struct {
		words message.ID
		drop  units.Pressure
	}{{"grille {drop}", b.GrilleDrop}, {"filter {drop}", b.FilterDrop}, {"duct {drop}", b.DuctDrop}}
	var lines []string
	for _, d := range drops {
		if d.drop > 0 {
			lines = append(lines, message.Text(sys, d.words, "drop", d.drop))
		}
	}
	fits := int((room.h - 2) / p.line)
	switch {
	case fits >= 2 && len(lines)+1 > fits:
		lines = []string{message.Text(sys, "{drop} in all", "drop", b.Drop)}
	case fits < 2:
		lines = nil
	}
	flow := b.Airflow.Show(sys)
	bold := lettering{bold: true}
	switch {
	case len(lines) == 0:
		flow += ", " + b.Drop.Show(sys)
	case len(lines)+2 <= fits && p.width(name, bold)+6+p.width(flow, lettering{}) > room.w:
		lines, flow = slices.Insert(lines, 0, flow), ""
	}
	y := room.midY() - float32(len(lines)+1)*p.line/2
	flowW := p.width(flow, lettering{})
	nameRoom := fyne.Max(0, room.w-flowW-6)
	name = p.fit(name, nameRoom, bold)
	used := fyne.Min(nameRoom, p.width(name, bold))
	p.text(name, room.x, y, used+1, bold)
	if used > 0 {
		used += 6
	}
	p.text(flow, room.x+used, y, room.w-used, lettering{})
	for _, l := range lines {
		y += p.line
		p.text(strings.TrimSpace(l), room.x, y, room.w, lettering{colour: theme.ColorNameForeground})
	}
}
