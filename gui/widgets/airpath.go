package widgets

import (
	"fmt"
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Parts of an Airpath, as OnTapped names them. A single branch is BranchPart.
const (
	PartReturn = "return"
	PartFilter = "filter"
	PartBlower = "blower"
	PartCoil   = "coil"
	PartSupply = "supply"
)

// BranchPart names the return branch at an index of the Study.
func BranchPart(i int) string { return fmt.Sprintf("return[%d]", i) }

// Airpath draws the way of the air from the rooms through grilles, ducts,
// return plenum, filter, blower and coil to the supply. Each part tells its
// drop and its share of the rated static, each test port the static there.
// Parts are clicked or reached with the tab key.
type Airpath struct {
	widget.BaseWidget

	// OnTapped is told the part that was clicked or entered.
	OnTapped func(part string)

	study  *sizing.Study
	option *sizing.OptionResult
	loaded bool
	sys    units.System

	spots map[string]*airSpot
	order []string
}

// NewAirpath makes an empty drawing.
func NewAirpath() *Airpath {
	a := &Airpath{spots: map[string]*airSpot{}}
	a.ExtendBaseWidget(a)
	return a
}

// Set shows one option of a Study, with its filter clean or at its change
// limit.
func (a *Airpath) Set(s *sizing.Study, option *sizing.OptionResult, loaded bool, sys units.System) {
	a.study, a.option, a.loaded, a.sys = s, option, loaded, sys
	a.Refresh()
}

// Parts are the parts now drawn, in the order of the air.
func (a *Airpath) Parts() []string { return append([]string(nil), a.order...) }

// PartArea is where a part is drawn and can be clicked.
func (a *Airpath) PartArea(part string) (fyne.Position, fyne.Size) {
	if s := a.spots[part]; s != nil {
		return s.Position(), s.Size()
	}
	return fyne.Position{}, fyne.Size{}
}

// Part is what takes the keyboard for a part, nil where it is not drawn.
func (a *Airpath) Part(part string) fyne.Focusable {
	if s := a.spots[part]; s != nil {
		return s
	}
	return nil
}

func (a *Airpath) condition() *sizing.Condition {
	if a.option == nil {
		return nil
	}
	if a.loaded && a.option.Kind != sizing.KindNoFilter {
		return &a.option.Loaded
	}
	return &a.option.Clean
}

func (a *Airpath) drop(name string) (sizing.PartDrop, bool) {
	for _, p := range a.condition().Parts {
		if p.Name == name {
			return p, true
		}
	}
	return sizing.PartDrop{}, false
}

// atGrilles tells that the filters sit behind the grilles.
func (a *Airpath) atGrilles() bool {
	for _, b := range a.condition().Branches {
		if b.FilterDrop > 0 {
			return true
		}
	}
	return false
}

// CreateRenderer draws the airpath.
func (a *Airpath) CreateRenderer() fyne.WidgetRenderer { return &airRenderer{a: a} }

type airRenderer struct {
	a       *Airpath
	objects []fyne.CanvasObject
	drawn   fyne.Size
}

// Layout draws anew for a new size alone: the window lays out whatever was
// drawn anew, which would go on for ever.
func (r *airRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.draw(size)
	}
}

func (r *airRenderer) Destroy()                     {}
func (r *airRenderer) Objects() []fyne.CanvasObject { return r.objects }

// The least room of a drawing, at the usual size of text.
const leastWide, leastHigh = 600, 300

// mostScale keeps the words of a very large drawing from shouting.
const mostScale = 2

// MinSize leaves every branch a row of its own.
func (r *airRenderer) MinSize() fyne.Size {
	g := grow(r.a.Theme())
	least := fyne.NewSize(leastWide*g, leastHigh*g)
	if c := r.a.condition(); c != nil {
		k := sketch{th: r.a.Theme()}
		line := k.lineHeight()
		rows := float32(len(c.Branches)) * (2*line + 2 + rowGap) // airflow and drop
		least.Height = fyne.Max(least.Height, rows+around(line))
	}
	return least
}

// around is the height of all that stands above and under the airway: edges,
// title, ports and words.
func around(line float32) float32 { return 2*edge + line + 4 + line + 12 + 4 + legendHeight(line) }

// legendHeight is that of the words under a part: three lines of its own, and
// two that say of a costly one what it is over.
func legendHeight(line float32) float32 { return 5*line + 6 }

// edge is what stays free round a drawing, rowGap what does between branches.
const edge, rowGap = 6, 4

func (r *airRenderer) Refresh() {
	r.draw(r.a.Size())
	canvas.Refresh(r.a)
}

// plan is where things stand in a drawing of a given size.
type plan struct {
	sketch
	a      *Airpath
	c      *sizing.Condition
	line   float32 // height of a line of text
	title  box
	ports  box // strip above the airway
	air    box // the airway with the branches
	legend box // words under it

	branch, filter, blower, coil, supply box // columns of the airway
	duct                                 box
}

func (r *airRenderer) draw(size fyne.Size) {
	r.drawn = size
	a := r.a
	p := &plan{sketch: sketch{th: a.Theme()}, a: a, c: a.condition()}
	seen := map[string]bool{}
	a.order = a.order[:0]
	if p.c != nil && size.Width > 0 {
		least := r.MinSize()
		p.scale = fyne.Min(fyne.Max(1, fyne.Min(size.Width/least.Width, size.Height/least.Height)), mostScale)
		p.lay(size)
		p.paint()
	} else if size.Width > 0 {
		p.text("Nothing to draw yet.", 8, 8, size.Width-16, lettering{colour: theme.ColorNamePlaceHolder})
	}
	for _, name := range a.order {
		seen[name] = true
	}
	for name, s := range a.spots {
		if !seen[name] {
			s.leave()
			delete(a.spots, name)
		}
	}
	r.objects = p.objects
	for _, name := range a.order {
		r.objects = append(r.objects, a.spots[name])
	}
}

// lay divides the room: a title, the ports, the airway, the words.
func (p *plan) lay(size fyne.Size) {
	p.line = p.lineHeight()
	w := size.Width - 2*edge
	p.title = box{edge, edge, w, p.line}
	p.ports = box{edge, p.title.bottom() + 4, w, p.line + 12}
	legend := legendHeight(p.line)
	p.legend = box{edge, size.Height - edge - legend, w, legend}
	p.air = box{edge, p.ports.bottom(), w, p.legend.y - p.ports.bottom() - 4}

	x := p.air.x
	column := func(share float32) box {
		b := box{x, p.air.y, share * w, p.air.h}
		x += b.w
		return b
	}
	p.branch, p.filter, p.blower = column(0.31), column(0.17), column(0.17)
	p.coil, p.supply = column(0.175), column(0.175)
	h := fyne.Min(p.air.h*0.6, w*0.2)
	p.duct = box{p.branch.right() - p.riserWidth(), p.air.midY() - h/2, w, h}
	p.duct.w = p.air.right() - p.duct.x
	p.gather()
}

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

func (p *plan) riserWidth() float32 { return p.grown(24 * grow(p.th)) }

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

// spot makes or moves the sensitive area of a part.
func (p *plan) spot(name string, b box) {
	s := p.a.spots[name]
	if s == nil {
		s = newAirSpot(p.a, name)
		p.a.spots[name] = s
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
			t = p.fit(t, column.w-4, l)
		}
		p.text(t, column.x+2, y, column.w-4, l)
		y += p.line
	}
	if costly(over) {
		l := lettering{bold: true, colour: theme.ColorNameWarning}
		word, side := Word(sizing.Caution), p.line
		w := p.width(word, l) + side + 3
		x, y := column.midX()-w/2, p.legend.y+3*p.line
		p.mark(sizing.Caution, x, y, side)
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
	d, ok := p.a.drop("filter")
	if !ok {
		p.legendOf(p.filter, []string{"no filter"}, sizing.PartDrop{})
		return
	}
	title := "filter"
	if p.a.atGrilles() {
		title = "filters at grilles"
	}
	lines := p.partLines(title, d)
	if entry, ok := p.a.drop("slot entry"); ok {
		lines[2] = fmt.Sprintf("%.0f %% and entry %s", 100*d.Share, entry.Drop.Kind().Number(entry.Drop.SI(), p.a.sys))
	}
	if !p.a.atGrilles() {
		p.pleats(box{b.midX() - b.w*0.2, b.y, b.w * 0.4, b.h}, costly(d))
	}
	p.legendOf(p.filter, lines, d)
	p.spot(PartFilter, column(p.air, p.legend, p.filter))
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
	if d, ok := p.a.drop("in the blower table"); ok {
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
		p.mark(sizing.Stop, b.midX()-w/2, p.legend.y+3*p.line, p.line)
		p.text(words, b.midX()-w/2+p.line+3, p.legend.y+3*p.line, w-p.line-3, l)
	}
	p.spot(PartBlower, column(p.air, p.legend, b))
}

func (p *plan) paintCoil() {
	b := p.coil
	d, ok := p.a.drop("coil")
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
	p.spot(PartCoil, column(p.air, p.legend, b))
}

func (p *plan) paintSupply() {
	b := p.supply
	d, _ := p.a.drop("supply")
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
	p.spot(PartSupply, column(p.air, p.legend, b))
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

func (p *plan) paintBranches() {
	d, ok := p.a.drop("return")
	if ok {
		p.legendOf(p.branch, p.partLines("return", d), d)
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
		p.text(p.fit("return, not described", row.w-16, lettering{}), row.x+8, row.midY()-p.line/2, row.w-16, lettering{})
	}
	legend := box{p.branch.x, p.legend.y, p.branch.w, p.legend.h}
	p.spot(PartReturn, legend)
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
	grille := box{row.x, row.y, p.grown(9 * grow(p.th)), row.h}
	p.rect(grille, look.Raised, edge, width)
	for y := grille.y + 4; y+3 < grille.bottom(); y += 6 {
		p.line2(grille.x+2, y+3, grille.right()-2, y, edge)
	}
	x := grille.right() + 4
	if b.FilterDrop > 0 {
		f := box{grille.right() + 1, row.y + 1, p.grown(10 * grow(p.th)), row.h - 2}
		d, _ := p.a.drop("filter")
		p.pleats(f, costly(d))
		x = f.right() + 4
	}
	p.branchWords(b, box{x, row.y, row.right() - x - 2, row.h})
	p.spot(BranchPart(i), row)
}

func (p *plan) branchWords(b sizing.BranchFlow, room box) {
	sys := p.a.sys
	name := b.Name
	if name == "" {
		name = "return"
	}
	drops := []struct {
		part string
		drop units.Pressure
	}{{"grille", b.GrilleDrop}, {"filter", b.FilterDrop}, {"duct", b.DuctDrop}}
	var lines []string
	for _, d := range drops {
		if d.drop > 0 {
			lines = append(lines, d.part+" "+d.drop.Show(sys))
		}
	}
	fits := int((room.h - 2) / p.line)
	switch {
	case fits >= 2 && len(lines)+1 > fits:
		lines = []string{b.Drop.Show(sys) + " in all"}
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

// airSpot is the sensitive area of a part.
type airSpot struct {
	widget.BaseWidget
	a                *Airpath
	name             string
	focused, hovered bool
}

func newAirSpot(a *Airpath, name string) *airSpot {
	s := &airSpot{a: a, name: name}
	s.ExtendBaseWidget(s)
	return s
}

// Tapped tells the part.
func (s *airSpot) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
	s.tell()
}

func (s *airSpot) tell() {
	if s.a.OnTapped != nil {
		s.a.OnTapped(s.name)
	}
}

// leave gives the keyboard up before the part is no longer drawn.
func (s *airSpot) leave() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil && c.Focused() == fyne.Focusable(s) {
		c.Unfocus()
	}
}

// FocusGained shows the focus.
func (s *airSpot) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost puts it away.
func (s *airSpot) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune is part of being focused.
func (s *airSpot) TypedRune(rune) {}

// TypedKey enters the part on enter and space.
func (s *airSpot) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.tell()
	case fyne.KeyRight, fyne.KeyDown:
		s.step(+1)
	case fyne.KeyLeft, fyne.KeyUp:
		s.step(-1)
	}
}

// step gives the keyboard to the next part along the air, or the one before.
func (s *airSpot) step(by int) {
	at := slices.Index(s.a.order, s.name) + by
	if at < 0 || at >= len(s.a.order) {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s.a.spots[s.a.order[at]])
	}
}

// MouseIn lights the part.
func (s *airSpot) MouseIn(*desktop.MouseEvent) { s.hovered = true; s.Refresh() }

// MouseMoved is part of being hovered.
func (s *airSpot) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts the light out.
func (s *airSpot) MouseOut() { s.hovered = false; s.Refresh() }

// Cursor is a hand over what can be clicked.
func (s *airSpot) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer draws the ring of focus and pointer.
func (s *airSpot) CreateRenderer() fyne.WidgetRenderer {
	r := &spotRenderer{s: s, ring: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type spotRenderer struct {
	s    *airSpot
	ring *canvas.Rectangle
}

func (r *spotRenderer) Destroy()                     {}
func (r *spotRenderer) Layout(size fyne.Size)        { r.ring.Resize(size) }
func (r *spotRenderer) MinSize() fyne.Size           { return fyne.NewSize(8, 8) }
func (r *spotRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.ring} }

func (r *spotRenderer) Refresh() {
	th := r.s.Theme()
	r.ring.CornerRadius = th.Size(theme.SizeNameInputRadius)
	switch {
	case r.s.focused:
		r.ring.StrokeColor, r.ring.StrokeWidth = look.Of(th, theme.ColorNamePrimary), 2
	case r.s.hovered:
		r.ring.StrokeColor, r.ring.StrokeWidth = look.Of(th, theme.ColorNameInputBorder), 1
	default:
		r.ring.StrokeColor, r.ring.StrokeWidth = color.Transparent, 0
	}
	r.ring.Refresh()
}
