package airpath

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
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

func (p *plan) riserWidth() float32 { return p.scaled(24 * widgets.TextScale(p.th)) }

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
	name := message.New("{option}, filter clean", "option", sizing.OptionName(p.a.option.Name))
	switch {
	case p.a.option.Kind == sizing.KindNoFilter:
		name = message.New("{option}", "option", sizing.OptionName(p.a.option.Name))
	case p.a.loaded:
		name = message.New("{option}, filter at its change limit", "option", sizing.OptionName(p.a.option.Name))
	}
	figures := message.Text(p.a.sys, "solved airflow {airflow}, external static {static} of rated {rated}", "airflow", p.c.Airflow, "static", p.c.ExternalStatic, "rated", p.a.study.RatedExternalStatic)
	plain := lettering{align: fyne.TextAlignTrailing}
	w := p.width(figures, plain)
	p.text(figures, p.title.right()-w, p.title.y, w, plain)
	bold := lettering{bold: true}
	room := p.title.w - w - 12
	p.text(p.fit(name.In(p.a.sys), room, bold), p.title.x, p.title.y, room, bold)
}

// paintMain is the airway from the return plenum to the supply.
func (p *plan) paintMain() {
	p.rect(p.duct, look.Air, look.AirEdge, 1.5)
}

// words are those under a part: its title, the title where there is less room, and
// the lines under it.
type words struct {
	title, narrow string
	lines         []string
}

// legendOf writes the words under a part: its name, its drop, its share and,
// where it takes more than is usual, a mark and the word.
func (p *plan) legendOf(column box, of words, over sizing.PartDrop) {
	y, room := p.legend.y, column.w-4
	l := lettering{align: fyne.TextAlignCenter, bold: true}
	l.bold = p.width(of.title, l) <= room // the weight goes before a letter does
	title := of.title
	if of.narrow != "" && p.width(title, l) > room {
		title = of.narrow
	}
	p.text(p.fit(title, room, l), column.x+2, y, room, l)
	for _, line := range of.lines {
		y += p.line
		p.text(line, column.x+2, y, room, lettering{align: fyne.TextAlignCenter})
	}
	if costly(over) {
		l := lettering{bold: true, colour: theme.ColorNameWarning}
		word, side := widgets.SeverityWord(sizing.Caution), p.line
		w := p.width(word, l) + side + 3
		x, y := column.midX()-w/2, p.legend.y+float32(max(3, 1+len(of.lines)))*p.line
		p.severityIcon(sizing.Caution, x, y, side)
		p.text(word, x+side+3, y, w-side-3, l)
		l.align, l.bold = fyne.TextAlignCenter, false
		p.text(message.Text(p.a.sys, "over {limit}", "limit", over.Budget), column.x, y+p.line, column.w, l) // as wide as a column is at its narrowest
	}
}

// costly tells a part that takes more than its usual share. One inside the
// equipment takes none of the rated static.
func costly(d sizing.PartDrop) bool { return d.Over && !d.Internal }

// partWords are the words of a part of the Study.
func (p *plan) partWords(part message.ID, d sizing.PartDrop) words {
	w := words{title: message.Text(p.a.sys, part)}
	switch d.Basis {
	case "assumed":
		w.title = message.Text(p.a.sys, "{part}, assumed", "part", part)
	case "gauge":
		w.title = message.Text(p.a.sys, "{part}, measured", "part", part)
		w.narrow = message.Text(p.a.sys, "{part}, gauge", "part", part)
	}
	w.lines = []string{d.Drop.Show(p.a.sys), message.Text(p.a.sys, "{share} % of rated", "share", message.Fixed(100*d.Share, 0))}
	return w
}

// edgeOf is the outline of a part: wider and in the caution color where it
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
	f, ok := p.a.filters()
	if !ok {
		p.legendOf(p.filter, words{title: message.Text(p.a.sys, "no filter")}, sizing.PartDrop{})
		return
	}
	w := p.filterWords(&f)
	if entry, ok := p.a.drop(sizing.PartSlotEntry); ok && f.atUnit {
		w.lines[1] = message.Text(p.a.sys, "{share} % and entry {drop}", "share", message.Fixed(100*float64(f.unit)/float64(p.a.study.RatedExternalStatic), 0), "drop", entry.Drop.Kind().Number(entry.Drop.SI(), p.a.sys))
	}
	if f.atUnit {
		p.pleats(box{b.midX() - b.w*0.2, b.y, b.w * 0.4, b.h}, f.costly(f.unit))
	}
	p.legendOf(p.filter, w, f.all)
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
	title := message.New("blower")
	if p.a.study.BlowerAssumed {
		title = message.New("{part}, assumed", "part", title)
	}
	lines := []string{p.c.Airflow.Show(p.a.sys)}
	if p.c.BlowerPower > 0 {
		lines = append(lines, p.c.BlowerPower.Show(p.a.sys))
	}
	if d, ok := p.a.drop(sizing.PartInTable); ok {
		lines = append(lines, message.Text(p.a.sys, "in table {drop}", "drop", d.Drop))
	}
	if !p.c.WithinBlowerTable {
		lines = lines[:2]
	}
	p.legendOf(b, words{title: title.In(p.a.sys), lines: lines}, sizing.PartDrop{})
	if !p.c.WithinBlowerTable {
		l := lettering{bold: true, colour: theme.ColorNameError}
		words := message.Text(p.a.sys, "STOP, off table")
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
		p.legendOf(b, words{title: message.Text(p.a.sys, "no coil outside"), lines: []string{message.Text(p.a.sys, "the equipment")}}, sizing.PartDrop{})
		return
	}
	w := p.partWords("coil", d)
	if d.Internal {
		w.lines[1] = message.Text(p.a.sys, "inside the equipment")
	}
	edge, width := edgeOf(costly(d))
	h := p.duct
	left, right := b.x+b.w*0.25, b.x+b.w*0.75
	for _, end := range []float32{h.y + 4, h.bottom() - 4} {
		p.sketch.line(left, h.midY(), right, end, edge, width+3)
		for i := 1; i < 6; i++ {
			t := float32(i) / 6
			x, y := left+t*(right-left), h.midY()+t*(end-h.midY())
			p.line2(x, y-p.scaled(7), x, y+p.scaled(7), edge)
		}
	}
	if costly(d) {
		p.rect(box{left - 8, h.y - 4, right - left + 16, h.h + 8}, "", edge, width)
	}
	p.legendOf(b, w, d)
	p.placePart(PartCoil, column(p.air, p.legend, b))
}

func (p *plan) paintSupply() {
	b := p.supply
	d, _ := p.a.drop(sizing.PartSupply)
	w := p.partWords("supply", d)
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
	p.legendOf(b, w, d)
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
