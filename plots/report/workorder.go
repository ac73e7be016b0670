package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/export"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Scales at which the work order is tried: the first at which what is built from
// stands on one page and the drawings on the next.
var orderScales = []float64{1, 0.96, 0.92, 0.88, 0.86, 0.84}

func (d *document) workOrder() {
	var build, draw *flow
	for _, scale := range orderScales {
		build = d.newFlow(scale)
		build.tight = true
		d.buildPage(build)
		if len(d.pages(build.rows)) == 1 {
			break
		}
	}
	for _, high := range drawingHeights {
		draw = d.newFlow(1)
		draw.tight = len(d.study.Works) > 0
		d.drawPage(draw, high)
		d.works(draw)
		if len(pack(draw.rows, d.sheet.textHeight())) == 1 {
			break
		}
	}
	d.printPages(append(d.pages(build.rows), d.withPhotos(draw.rows)...))
}

// drawingHeights are tried for the openings until all drawings stand on one page.
var drawingHeights = []float64{128, 96, 72, 54, 44}

// buildPage is what a helper builds from.
func (d *document) buildPage(f *flow) {
	d.workOrderHead(f)
	d.stops(f)
	d.safety(f)
	d.whatIsDone(f)
	d.parts(f)
	d.cutTable(f)
	d.expectedReadings(f)
	d.tools(f)
	d.signOff(f)
}

// drawPage draws what the other page names.
func (d *document) drawPage(f *flow, high float64) {
	d.openings(f, high)
	d.cabinet(f)
	d.testPorts(f)
}

// workOrderHead tells for whom the work is, on what, and by whom.
func (d *document) workOrderHead(f *flow) {
	name := "Work order: " + d.plan.option.Name
	if d.plan.isToday() {
		name = "Work order: the house as it is"
	}
	t := style{size: 15 * f.scale, bold: true}
	for i, line := range f.cutLines(t, name, f.width, 2) {
		r := f.textRow(t, f.x, line)
		r.keep = true
		if i == 0 {
			r.entry = name
		}
		f.add(r)
	}
	f.add(row{height: 3, keep: true})
	c, w := d.job.Customer, d.job.Work
	plate := []string{w.Plate.Maker, w.Plate.Model, w.Plate.Serial}
	for i, what := range []string{"maker ", "model ", "serial "} {
		plate[i] = what + cmp.Or(plate[i], blankLine(8))
	}
	crew := cmp.Or(w.Crew, blankLine(14))
	hours := blankLine(5)
	if w.CrewHours > 0 {
		hours = fmt.Sprintf("%g h", w.CrewHours.In(units.Hour))
	}
	firmWords := strings.TrimSpace(strings.Trim(d.Firm.Name+", "+d.Firm.Phone, ", "))
	cells := [][]string{
		{"Customer", cmp.Or(c.Name, d.houseName()), "Job number", cmp.Or(w.JobNumber, blankLine(14))},
		{"Address", cmp.Or(c.Address, blankLine(24)), "Date", cmp.Or(w.Date, blankLine(14))},
		{"Phone", cmp.Or(c.Phone, blankLine(24)), "Crew, hours", crew + ", " + hours},
		{"Plate", strings.Join(plate, ", "), "Company", cmp.Or(firmWords, blankLine(14))},
	}
	from := len(f.rows)
	f.table(f.orderText(), []column{{name: ""}, {name: "", share: 1.3}, {name: ""}, {name: "", share: 1}}, cells)
	f.keepAll(from)
}

// orderText is the size of a work order's tables.
func (f *flow) orderText() style { return style{size: 8.75 * f.scale} }

// stops say before all else what of the proposal must not be built, or run, as it
// is laid out.
func (d *document) stops(f *flow) {
	var texts []string
	for _, t := range d.plan.option.Findings {
		if t.Severity == sizing.Stop {
			texts = append(texts, t.In(d.System))
		}
	}
	if d.plan.isToday() || len(texts) == 0 {
		return
	}
	f.orderHeading("STOP: not to be built as laid out")
	f.items(f.body(), texts)
}

// orderHeading is a heading with less room round it.
func (f *flow) orderHeading(text string) {
	f.gap(3.5)
	t := style{size: 10.5 * f.scale, bold: true}
	r := f.textRow(t, f.x, text)
	r.keep, r.entry = true, text
	f.add(r, row{height: 1.5 * f.scale, keep: true})
}

// safety stands before the work, in a frame.
func (d *document) safety(f *flow) {
	f.orderHeading("First: make it safe")
	f.add(row{height: 4, keep: true})
	from := len(f.rows)
	t := style{size: 8.75 * f.scale}
	for i, text := range export.Cautions() {
		t.bold = i == 0
		f.item(t, fmt.Sprintf("%d", i+1), string(text))
	}
	f.keepAll(from)
	h := heightOf(f.rows[from:])
	draw := f.rows[from].draw
	f.rows[from].draw = func(y float64) {
		d.sheet.box(black, 1.2, nil, f.x-6, y-3, f.width+12, h+6)
		draw(y)
	}
	f.gap(3)
}

func (d *document) whatIsDone(f *flow) {
	f.orderHeading("What is done")
	texts := d.plan.changes(d.System)
	if d.plan.isToday() {
		texts = []string{"Nothing is changed: read the gauge at the ports below and write down what it says. " + d.answerWords()}
	}
	t := style{size: 9 * f.scale}
	for _, text := range texts {
		f.item(t, "•", text)
	}
}

// partList gathers what has to be brought, alike parts on one line.
type partList struct{ lines []partLine }

type partLine struct {
	count            int
	what, size, goes string
}

func (l *partList) add(count int, what, size, goes string) {
	if count == 0 {
		return
	}
	i := slices.IndexFunc(l.lines, func(p partLine) bool { return p.what == what && p.size == size && p.goes == goes })
	if i >= 0 {
		l.lines[i].count += count
		return
	}
	l.lines = append(l.lines, partLine{count, what, size, goes})
}

// parts lists what has to be brought.
func (d *document) parts(f *flow) {
	var list partList
	d.caseParts(&list)
	screws, clamps := d.returnParts(&list)
	for _, l := range d.plan.places {
		list.add(l.Count, "filter, "+called(l), l.size.String()+", measures "+d.named(sides(l.actual())...), l.where)
	}
	if c := d.plan.central(); c != nil && c.newPlace && !d.plan.isToday() {
		screws += casingScrews
	}
	list.add(clamps, "draw band for flex, with one more for its jacket", "as the duct", "each end of a flex")
	list.add(screws, "sheet-metal screw, no. 8 x 1/2 in", "", "collars and joints")
	if screws > 0 {
		list.add(1, "listed duct mastic", "pail; mesh tape for gaps over 1/8 in (3 mm)", "every new joint")
	}
	list.add(len(d.ports()), "plug for a test port", "3/8 in (10 mm)", "after the readings")
	f.orderHeading("Parts")
	var cells [][]string
	for _, p := range list.lines {
		cells = append(cells, []string{fmt.Sprint(p.count), p.what, p.size, p.goes})
	}
	f.table(f.orderText(), []column{
		{name: "no.", right: true}, {name: "part", share: 1.3}, {name: "size", share: 1.15}, {name: "goes to", share: 0.8},
	}, cells)
	f.paragraph(style{size: 8.25 * f.scale}, "Measure filter and cabinet before cutting: makes differ by 1/4 in (6 mm). Counts of screws and bands are common practice, no source.")
}

// Fasteners of usual joints. Common practice, no source.
const (
	roundScrews  = 3  // a round joint
	casingScrews = 16 // the two sides of a casing
)

// caseParts are the casing at the equipment and what joins it.
func (d *document) caseParts(list *partList) {
	p := d.plan
	for _, l := range p.places {
		switch {
		case l.Branch >= 0 || !l.newPlace || p.isToday():
		case l.atUnit():
			what := l.box() + ", with its door and gasket"
			if l.Count > 1 {
				what += ", its filters " + p.standing()
			}
			list.add(1, what, l.label()+", takes about "+d.named(outside(p.option.Assembly)...), "before the blower")
			for _, t := range d.tapers() {
				list.add(1, "transition, "+t.name, t.sizeWords(d), t.goes)
			}
			list.add(2, "collar or drive-cleat set", "as the cabinet's openings", "both sides of the cabinet")
		default:
			list.add(l.Count, l.box(), d.named(l.size.Width, l.size.Height), "the return")
		}
	}
}

// returnParts are the new returns, with the screws and bands of their joints.
func (d *document) returnParts(list *partList) (screws, bands int) {
	for _, b := range d.plan.returns {
		if !b.isNew {
			continue
		}
		if b.Grille.Width > 0 {
			list.add(1, "return grille, "+grilleStyle(b.Grille)+", with its screws", d.named(b.Grille.Width, b.Grille.Height), b.name)
		}
		section := "as the duct"
		if len(b.Runs) > 0 {
			section = d.named(runSides(b.Runs[0])...)
		}
		boxed, tied := false, false
		for _, fit := range b.Fittings {
			boxed = boxed || fit.Group() == duct.Boots
			tied = tied || fit.Kind == duct.DischargeIntoPlenum || fit.Kind == duct.PlenumTakeoff
			list.add(max(fit.Count, 1), fittingPart(fit), section, b.name)
		}
		if b.Grille.Width > 0 && !boxed {
			list.add(1, "box behind the grille (boot)", d.named(b.Grille.Width, b.Grille.Height)+" to "+section, b.name)
		}
		if !tied && len(b.Runs) > 0 {
			list.add(1, "collar into the return plenum (take-off)", section, b.name)
		}
		for _, r := range b.Runs {
			list.add(1, runKind(r), d.named(runSides(r)...)+", "+longways(r.Length, d.System)+runWords(r), b.name)
			if r.Shape == duct.Flex {
				bands += 2
			}
			screws += 2 * roundScrews
		}
	}
	return screws, bands
}

// runWords tell how a new flex is laid.
func runWords(r duct.Run) string {
	if r.Shape == duct.Flex {
		return ", pulled straight"
	}
	return ""
}

// fittingPart is a fitting as a thing to bring.
func fittingPart(fit duct.Fitting) string {
	switch fit.Kind {
	case duct.BootStraight:
		return "box behind the grille (boot), collar at the back"
	case duct.BootSide:
		return "box behind the grille (boot), collar at the side"
	case duct.DischargeIntoPlenum, duct.PlenumTakeoff:
		return "collar into the return plenum (take-off)"
	}
	title := fittingTitle(fit.Kind)
	return strings.ToLower(title[:1]) + title[1:]
}

func outside(a *sizing.Assembly) []length { return []length{a.Width, a.Height, a.Depth} }

func sides(s stock.Size) []length { return []length{s.Width, s.Height, s.Depth} }

func grilleStyle(g duct.Grille) string {
	if g.Style == "" {
		return string(duct.Stamped)
	}
	return string(g.Style)
}

func runKind(r duct.Run) string {
	switch r.Shape {
	case duct.Flex:
		return "flex duct"
	case duct.Rectangular:
		return "rectangular duct"
	}
	return "round duct"
}

func runSides(r duct.Run) []length {
	if r.Shape == duct.Rectangular {
		return []length{r.Width, r.Height}
	}
	return []length{r.Diameter}
}

func fittingTitle(kind duct.FittingKind) string {
	for _, info := range duct.Fittings() {
		if info.Kind == kind {
			return string(info.Title)
		}
	}
	return string(kind)
}

// cutTable lists the openings to cut; the drawings show them.
func (d *document) cutTable(f *flow) {
	list := d.cuts()
	if len(list) == 0 {
		return
	}
	f.orderHeading("Openings to cut")
	var cells [][]string
	for _, o := range list {
		cut := o.outlines[0]
		cells = append(cells, []string{o.title, d.named(cut.width, cut.height), o.framing})
	}
	f.table(f.orderText(), []column{{name: "opening"}, {name: "width x height"}, {name: "before cutting", share: 1}}, cells)
}

// tools are what the work needs beside parts. Common practice, no source.
func (d *document) tools(f *flow) {
	list := []string{"gauge with two hoses and static tips", "thermometer", "tape measure", "drill with 3/8 in (10 mm) step bit", "gloves, eye protection, mask", "voltage tester"}
	if len(d.cuts()) > 0 {
		list = append(list, "snips", "nut driver", "stud finder", "drywall saw", "mastic brush")
	}
	if d.job.Equipment.Kind != sizing.AirHandler {
		list = append(list, "draft gauge and combustion tester")
	}
	f.orderHeading("Tools")
	f.paragraph(f.orderText(), strings.Join(list, ", ")+".")
}

// signOff has lines for those who did the work.
func (d *document) signOff(f *flow) {
	f.orderHeading("Signed off")
	from := len(f.rows)
	lines := [][2]string{
		{"Work done by, license, date", "Hours worked"},
		{"Power off and checked by", "Readings taken by, instrument"},
		{"Draft and combustion tested by, result", "Customer, date"},
	}
	small := style{size: 8.25 * f.scale}
	half := (f.width - 20) / 2
	for _, pair := range lines {
		f.add(row{height: 22 * f.scale, draw: func(y float64) {
			base := y + 13*f.scale
			for i, text := range pair {
				x := f.x + float64(i)*(half+20)
				d.sheet.line(black, 0.6, nil, x, base, x+half, base)
				d.sheet.put(small, x, base+8*f.scale, text)
			}
		}})
	}
	f.keepAll(from)
}
