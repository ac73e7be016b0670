package airpath

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
)

// gather brings the ports and the words up to the airway where there is room
// to spare.
func (p *plan) gather() {
	tall := p.duct.h + 2*p.line
	if rows := p.rows(); len(rows) > 0 {
		tall = fyne.Max(tall, rows[len(rows)-1].bottom()-rows[0].y+p.line)
	}
	if spare := (p.air.h - tall) / 2; spare > 0 {
		p.ports.y += spare
		p.legend.y -= spare
		p.air.y, p.air.h = p.air.y+spare, tall
	}
}

func (p *plan) riserWidth() float32 { return p.grown(24 * widgets.TextScale(p.th)) }

func (p *plan) paint() {
	p.paintTitle()
	p.paintMain()
	p.paintBranches()
	p.paintFilter()
	p.paintBlower()
	p.paintCoil()
	p.paintSupply()
	p.paintPorts()
}

// placePart makes or moves the sensitive area of a part.
func (p *plan) placePart(name string, b box) {
	s := p.a.buttons[name]
	if s == nil {
		s = newPartButton(p.a, name)
		p.a.buttons[name] = s
	}
	s.Move(fyne.NewPos(b.x, b.y))
	s.Resize(fyne.NewSize(b.w, b.h))
	p.a.order = append(p.a.order, name)
}

func (p *plan) paintTitle() {
	state := ", filter clean"
	switch {
	case p.a.option.Kind == sizing.KindNoFilter:
		state = ""
	case p.a.loaded:
		state = ", filter at its change limit"
	}
	figures := fmt.Sprintf("%s, external static %s of rated %s", p.c.Airflow.Show(p.a.sys), p.c.ExternalStatic.Show(p.a.sys), p.a.study.RatedExternalStatic.Show(p.a.sys))
	plain := lettering{align: fyne.TextAlignTrailing}
	w := p.width(figures, plain)
	p.text(figures, p.title.right()-w, p.title.y, w, plain)
	bold := lettering{bold: true}
	room := p.title.w - w - 12
	p.text(p.fit(p.a.option.Name+state, room, bold), p.title.x, p.title.y, room, bold)
}

// paintMain is the airway from the return plenum to the supply.
func (p *plan) paintMain() {
	p.rect(p.duct, look.Air, look.AirEdge, 1.5)
}

// legendOf writes the words under a part: its name, its drop, its share and,
// where it takes more than is usual, a mark and the word.
func (p *plan) legendOf(column box, lines []string, over sizing.PartDrop) {
	y := p.legend.y
	for i, t := range lines {
		l := lettering{align: fyne.TextAlignCenter, bold: i == 0}
		if i == 0 {
			l.bold = p.width(t, l) <= column.w-4 // the weight goes before a letter does
			if p.width(t, l) > column.w-4 {
				t = strings.Replace(t, ", measured", ", gauge", 1)
			}
			t = p.fit(t, column.w-4, l)
		}
		p.text(t, column.x+2, y, column.w-4, l)
		y += p.line
	}
	if costly(over) {
		l := lettering{bold: true, colour: theme.ColorNameWarning}
		word, side := widgets.SeverityWord(sizing.Caution), p.line
		w := p.width(word, l) + side + 3
		x, y := column.midX()-w/2, p.legend.y+3*p.line
		p.severityIcon(sizing.Caution, x, y, side)
		p.text(word, x+side+3, y, w-side-3, l)
		l.align, l.bold = fyne.TextAlignCenter, false
		p.text("over "+over.Budget.Show(p.a.sys), column.x+2, y+p.line, column.w-4, l)
	}
}

// costly tells a part that takes more than its usual share. One inside the
// equipment takes none of the rated static.
func costly(d sizing.PartDrop) bool { return d.Over && !d.Internal }

// partLines are the words of a part of the Study.
func (p *plan) partLines(title string, d sizing.PartDrop) []string {
	switch d.Basis {
	case "assumed":
		title += ", assumed"
	case "gauge":
		title += ", measured"
	}
	return []string{title, d.Drop.Show(p.a.sys), fmt.Sprintf("%.0f %% of rated", 100*d.Share)}
}

// edgeOf is the outline of a part: wider and in the caution colour where it
// costs too much.
func edgeOf(costly bool) (fyne.ThemeColorName, float32) {
	if costly {
		return theme.ColorNameWarning, 3
	}
	return look.AirEdge, 1.5
}

func column(air, legend box, c box) box {
	return box{c.x, air.y, c.w, legend.bottom() - air.y}
}

func (p *plan) paintFilter() {
	b := box{p.filter.x + 2, p.duct.y - 5, p.filter.w - 4, p.duct.h + 10}
	d, ok := p.a.drop(sizing.PartFilter)
	if !ok {
		p.legendOf(p.filter, []string{"no filter"}, sizing.PartDrop{})
		return
	}
	title := "filter"
	if p.a.atGrilles() {
		title = "filters at grilles"
	}
	lines := p.partLines(title, d)
	if entry, ok := p.a.drop(sizing.PartSlotEntry); ok {
		lines[2] = fmt.Sprintf("%.0f %% and entry %s", 100*d.Share, entry.Drop.Kind().Number(entry.Drop.SI(), p.a.sys))
	}
	if !p.a.atGrilles() {
		p.pleats(box{b.midX() - b.w*0.2, b.y, b.w * 0.4, b.h}, costly(d))
	}
	p.legendOf(p.filter, lines, d)
	p.placePart(PartFilter, column(p.air, p.legend, p.filter))
}

// pleats is a pack of media across the air.
func (p *plan) pleats(b box, costly bool) {
	edge, width := edgeOf(costly)
	fill := fyne.ThemeColorName(look.Raised)
	if costly {
		fill = look.WashCaution
	}
	p.rect(b, fill, edge, width)
	n := max(3, int(b.h/12))
	step := (b.h - 4) / float32(n)
	for i := range n {
		y := b.y + 2 + float32(i)*step
		p.line2(b.x+3, y, b.right()-3, y+step/2, edge)
		p.line2(b.right()-3, y+step/2, b.x+3, y+step, edge)
	}
}

func (p *plan) line2(x1, y1, x2, y2 float32, name fyne.ThemeColorName) {
	p.sketch.line(x1, y1, x2, y2, name, 1.5)
}

func (p *plan) paintBlower() {
	b := p.blower
	house := box{b.x + b.w*0.1, p.duct.y - 8, b.w * 0.8, p.duct.h + 16}
	p.rect(house, look.Raised, look.AirEdge, 1.5)
	x, y, radius := house.midX(), house.midY(), fyne.Min(house.w, house.h)*0.4
	p.circle(x, y, radius, look.Air, look.AirEdge, 1.5)
	p.circle(x, y, radius*0.45, look.Raised, look.AirEdge, 1)
	for _, v := range [][2]float32{{1, 0}, {0.71, 0.71}, {0, 1}, {-0.71, 0.71}, {-1, 0}, {-0.71, -0.71}, {0, -1}, {0.71, -0.71}} {
		p.line2(x+v[0]*radius*0.5, y+v[1]*radius*0.5, x+(v[0]*0.9+v[1]*0.25)*radius, y+(v[1]*0.9-v[0]*0.25)*radius, look.AirEdge)
	}
	title := "blower"
	if p.a.study.BlowerAssumed {
		title += ", assumed"
	}
	lines := []string{title, p.c.Airflow.Show(p.a.sys), p.c.BlowerPower.Show(p.a.sys)}
	if d, ok := p.a.drop(sizing.PartInTable); ok {
		lines = append(lines, "in table "+d.Drop.Show(p.a.sys))
	}
	if !p.c.Inside {
		lines = lines[:3]
	}
	p.legendOf(b, lines, sizing.PartDrop{})
	if !p.c.Inside {
		l := lettering{bold: true, colour: theme.ColorNameError}
		words := "STOP, off table"
		w := p.width(words, l) + p.line + 3
		p.severityIcon(sizing.Stop, b.midX()-w/2, p.legend.y+3*p.line, p.line)
		p.text(words, b.midX()-w/2+p.line+3, p.legend.y+3*p.line, w-p.line-3, l)
	}
	p.placePart(PartBlower, column(p.air, p.legend, b))
}

func (p *plan) paintCoil() {
	b := p.coil
	d, ok := p.a.drop(sizing.PartCoil)
	if !ok {
		p.legendOf(b, []string{"no coil outside", "the equipment"}, sizing.PartDrop{})
		return
	}
	title := "coil"
	lines := p.partLines(title, d)
	if d.Internal {
		lines[2] = "inside the equipment"
	}
	edge, width := edgeOf(costly(d))
	h := p.duct
	left, right := b.x+b.w*0.25, b.x+b.w*0.75
	for _, end := range []float32{h.y + 4, h.bottom() - 4} {
		p.sketch.line(left, h.midY(), right, end, edge, width+3)
		for i := 1; i < 6; i++ {
			t := float32(i) / 6
			x, y := left+t*(right-left), h.midY()+t*(end-h.midY())
			p.line2(x, y-p.grown(7), x, y+p.grown(7), edge)
		}
	}
	if costly(d) {
		p.rect(box{left - 8, h.y - 4, right - left + 16, h.h + 8}, "", edge, width)
	}
	p.legendOf(b, lines, d)
	p.placePart(PartCoil, column(p.air, p.legend, b))
}

func (p *plan) paintSupply() {
	b := p.supply
	d, _ := p.a.drop(sizing.PartSupply)
	lines := p.partLines("supply", d)
	edge, width := edgeOf(costly(d))
	x := b.right() - 8
	for _, at := range []float32{0.2, 0.5, 0.8} {
		y := p.duct.y + at*p.duct.h
		p.line2(b.x+b.w*0.35, y, x, y, edge)
		p.arrow(x, y, 7, edge)
	}
	if costly(d) {
		p.rect(box{b.x + b.w*0.25, p.duct.y - 4, b.w*0.75 - 1, p.duct.h + 8}, "", edge, width)
	}
	p.legendOf(b, lines, d)
	p.placePart(PartSupply, column(p.air, p.legend, b))
}

// paintPorts marks the test ports and writes the static at each.
func (p *plan) paintPorts() {
	at := []float32{p.duct.x + p.riserWidth()/2, p.filter.right(), p.blower.right(), p.coil.right()}
	for i, port := range p.c.Ports {
		if i >= len(at) {
			break
		}
		x, y := at[i], p.duct.y
		if i == 0 {
			y = p.riser().y
		}
		words := port.Static.Show(p.a.sys)
		l := lettering{align: fyne.TextAlignCenter}
		w := p.width(words, l)
		left := fyne.Min(fyne.Max(x-w/2, p.ports.x), p.ports.right()-w)
		p.text(words, left, p.ports.y, w, l)
		p.line2(x, p.ports.y+p.line+4, x, y, theme.ColorNameForeground)
		p.circle(x, p.ports.y+p.line+4, 3.5, look.Raised, theme.ColorNameForeground, 1.5)
	}
}
