package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/export"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Scales at which the work order is tried: the first at which the lists fit on
// one page and the drawings on the next.
var orderScales = []float64{1, 0.96, 0.92, 0.88, 0.86, 0.84, 0.82, 0.8}

func (d *document) workOrder() {
	build, kept := d.newBuildPage()
	var draw *flow
	for _, high := range drawingHeights {
		draw = d.newFlow(1)
		draw.tight = len(d.study.AfterWorkComparisons) > 0
		d.drawPage(draw, high)
		if kept < toolsKept {
			d.tools(draw)
		}
		d.works(draw)
		if kept < signOffKept {
			d.signOff(draw)
		}
		if len(pack(draw.rows, d.sheet.textHeight())) == 1 {
			break
		}
	}
	d.printPages(append(d.pages(build.rows), d.withPhotos(draw.rows)...))
}

// What the page to build from keeps of its end; the rest is left to the other page.
const (
	neitherKept = iota
	signOffKept
	toolsKept // and the sign-off
)

// newBuildPage is the page to build from at the largest scale at which it is one page,
// with as much of its end as it has room for.
func (d *document) newBuildPage() (build *flow, kept int) {
	for _, kept = range []int{toolsKept, signOffKept, neitherKept} {
		for _, scale := range orderScales {
			build = d.newFlow(scale)
			build.tight = true
			d.buildPage(build, kept)
			if len(d.pages(build.rows)) == 1 {
				return build, kept
			}
		}
	}
	return build, kept
}

// drawingHeights are tried for the openings until all drawings stand on one page.
var drawingHeights = []float64{128, 96, 72, 54, 44}

// buildPage is the page with the lists to build from.
func (d *document) buildPage(f *flow, kept int) {
	d.workOrderHead(f)
	d.stops(f)
	d.safety(f)
	d.workList(f)
	d.siteNotes(f)
	d.parts(f)
	d.cutTable(f)
	d.expectedReadings(f)
	if kept >= toolsKept {
		d.tools(f)
	}
	if kept >= signOffKept {
		d.signOff(f)
	}
}

// drawPage has the drawings of what the other page lists.
func (d *document) drawPage(f *flow, high float64) {
	d.openings(f, high)
	d.cabinet(f)
	d.testPorts(f)
}

// workOrderHead writes for whom the work is, on what equipment, and by whom.
func (d *document) workOrderHead(f *flow) {
	name := d.say("Work order: {option}", "option", d.plan.option.Name)
	if d.plan.isToday() {
		name = d.say("Work order: the house as it is")
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
	plate := d.say("maker {maker}, model {model}, serial {serial}", "maker", cmp.Or(w.Plate.Maker, blankLine(8)),
		"model", cmp.Or(w.Plate.Model, blankLine(8)), "serial", cmp.Or(w.Plate.Serial, blankLine(8)))
	crew := cmp.Or(w.Crew, blankLine(14))
	hours := blankLine(5)
	if w.CrewHours > 0 {
		hours = d.say("{hours} h", "hours", w.CrewHours.In(units.Hour))
	}
	firmWords := strings.TrimSpace(strings.Trim(d.Firm.Name+", "+d.Firm.Phone, ", "))
	cells := [][]string{
		{d.say("Customer"), cmp.Or(c.Name, strings.TrimSpace(d.study.Name), blankLine(24)), d.say("Job number"), cmp.Or(w.JobNumber, blankLine(14))},
		{d.say("Address"), cmp.Or(c.Address, blankLine(24)), d.say("Date"), cmp.Or(shortDate(w.Date, d.System), blankLine(14))},
		{d.say("Phone"), cmp.Or(c.Phone, blankLine(24)), d.say("Crew, hours"), crew + ", " + hours},
		{d.say("Plate"), plate, d.say("Company"), cmp.Or(firmWords, blankLine(14))},
	}
	from := len(f.rows)
	f.table(f.orderText(), []column{{name: ""}, {name: "", share: 1.3}, {name: ""}, {name: "", share: 1}}, cells)
	f.keepAll(from)
}

// orderText is the size of a work order's tables.
func (f *flow) orderText() style { return style{size: 8.75 * f.scale} }

// stops are printed first: what of the proposal must not be built, or run, as
// planned.
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
	f.orderHeading(d.say("STOP: not to be built as laid out"))
	f.items(f.body(), texts)
}

// orderHeading is a heading with less room round it.
func (f *flow) orderHeading(text string) {
	f.gap(3.5)
	t, fitted := f.fit(style{size: 10.5 * f.scale, bold: true}, text, f.width, 8)
	r := f.textRow(t, f.x, fitted)
	r.keep, r.entry = true, text
	f.add(r, row{height: 1.5 * f.scale, keep: true})
}

// safety is printed before the work, in a frame.
func (d *document) safety(f *flow) {
	f.orderHeading(d.say("First: make it safe"))
	f.add(row{height: 4, keep: true})
	from := len(f.rows)
	t := style{size: 8.75 * f.scale}
	for i, text := range export.Cautions() {
		t.bold = i == 0
		f.item(t, fmt.Sprintf("%d", i+1), d.say(text))
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

func (d *document) workList(f *flow) {
	f.orderHeading(d.say("What is done"))
	texts := d.plan.changes(d.System)
	if d.plan.isToday() {
		texts = []string{d.say("Nothing is changed: read the gauge at the ports below and write down what it says.") + " " + d.answerWords()}
	}
	t := style{size: 9 * f.scale}
	for _, text := range texts {
		f.item(t, "•", text)
	}
}

// siteNotes says what to look for on site, and which limits the work does not reach.
func (d *document) siteNotes(f *flow) {
	t := style{size: 9 * f.scale}
	loss, short := d.unexplainedLoss(), d.unreachedWords()
	if d.plan.isToday() {
		short = nil
	}
	if loss == 0 && len(short) == 0 {
		return
	}
	f.orderHeading(d.say("Before you start"))
	if loss > 0 {
		at := &d.study.AsFound.Condition
		f.item(t, "•", d.say("The gauge found {loss} of loss in the return, at {airflow}, that the parts described do not explain. Look for a crushed or kinked flex, a closed damper, a blocked grille or a loose liner. Mend what you find and read again. The readings below still contain it.",
			"loss", about(loss, d.System), "airflow", about(at.Airflow, d.System)))
	}
	for _, text := range short {
		f.item(t, "•", text)
	}
}

// partList is the parts to bring, equal parts on one line.
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

// parts lists the parts to bring.
func (d *document) parts(f *flow) {
	var list partList
	d.caseParts(&list)
	screws, clamps := d.returnParts(&list)
	for _, l := range d.plan.places {
		list.add(l.Count, d.say("filter, {filter}", "filter", d.plan.called(l)),
			d.say("{size}, measures {frame}", "size", l.size.String(), "frame", d.named(sides(l.actual())...)), l.where)
	}
	if c := d.plan.central(); c != nil && c.newPlace && !d.plan.isToday() {
		screws += casingScrews
	}
	list.add(clamps, d.say("draw band for flex, with one more for its jacket"), d.say("as the duct"), d.say("each end of a flex"))
	list.add(screws, d.say("sheet-metal screw, no. 8 x 1/2 in (4.2 x 13 mm)"), "", d.say("collars and joints"))
	if screws > 0 {
		list.add(1, d.say("listed duct mastic"), d.say("pail; mesh tape for gaps over 1/8 in (3 mm)"), d.say("every new joint"))
	}
	list.add(len(d.ports()), d.say("plug for a test port"), d.say("3/8 in (10 mm)"), d.say("after the readings"))
	f.orderHeading(d.say("Parts"))
	var cells [][]string
	for _, p := range list.lines {
		cells = append(cells, []string{fmt.Sprint(p.count), p.what, p.size, p.goes})
	}
	f.table(f.orderText(), []column{
		{name: d.say("no."), right: true}, {name: d.say("part"), share: 1.3}, {name: d.say("size"), share: 1.15}, {name: d.say("goes to"), share: 0.8},
	}, cells)
	f.paragraph(style{size: 8.25 * f.scale}, d.say("Measure filter and cabinet before cutting: makes differ by 1/4 in (6 mm). Counts of screws and bands are common practice, no source."))
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
			what := d.say(l.boxed("filter cabinet, with its door and gasket", "filter grille, with its door and gasket", "filter slot, with its door and gasket"))
			if l.Count > 1 {
				what = d.say(l.boxed("filter cabinet, with its door and gasket, its filters {standing}",
					"filter grille, with its door and gasket, its filters {standing}",
					"filter slot, with its door and gasket, its filters {standing}"), "standing", p.arrangement())
			}
			list.add(1, what, d.say("{size}, takes about {room}", "size", l.label(), "room", d.named(outside(p.option.Assembly)...)), d.say("before the blower"))
			for _, t := range d.tapers() {
				list.add(1, d.say(t.part), t.sizeWords(d), d.say(t.listText))
			}
			list.add(2, d.say("collar or drive-cleat set"), d.say("as the cabinet's openings"), d.say("both sides of the cabinet"))
		default:
			list.add(l.Count, d.say(l.box()), d.named(l.size.Width, l.size.Height), d.say("the return"))
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
			list.add(1, d.say("return grille, {style}, with its screws", "style", grilleStyle(b.Grille)), d.named(b.Grille.Width, b.Grille.Height), b.name)
		}
		section := d.say("as the duct")
		if len(b.Runs) > 0 {
			section = d.named(runSides(b.Runs[0])...)
		}
		boxed, tied := false, false
		for _, fit := range b.Fittings {
			boxed = boxed || fit.Group() == duct.Boots
			tied = tied || fit.Kind == duct.DischargeIntoPlenum || fit.Kind == duct.PlenumTakeoff
			list.add(max(fit.Count, 1), d.fittingPart(fit), section, b.name)
		}
		if b.Grille.Width > 0 && !boxed {
			list.add(1, d.say("box behind the grille (boot)"), d.say("{from} to {to}", "from", d.named(b.Grille.Width, b.Grille.Height), "to", section), b.name)
		}
		if !tied && len(b.Runs) > 0 {
			list.add(1, d.say("collar into the return plenum (take-off)"), section, b.name)
		}
		for _, r := range b.Runs {
			list.add(1, d.say(runKind(r)), d.runWords(r), b.name)
			if r.Shape == duct.Flex {
				bands += 2
			}
			screws += 2 * roundScrews
		}
	}
	return screws, bands
}

// runWords are the size of a new duct, and how a flex is laid.
func (d *document) runWords(r duct.Run) string {
	size, length := d.named(runSides(r)...), longways(r.Length, d.System)
	if r.Shape == duct.Flex {
		return d.say("{size}, {length}, pulled straight", "size", size, "length", length)
	}
	return d.say("{size}, {length}", "size", size, "length", length)
}

// fittingPart is a fitting as a thing to bring.
func (d *document) fittingPart(fit duct.Fitting) string {
	switch fit.Kind {
	case duct.BootStraight:
		return d.say("box behind the grille (boot), collar at the back")
	case duct.BootSide:
		return d.say("box behind the grille (boot), collar at the side")
	case duct.DischargeIntoPlenum, duct.PlenumTakeoff:
		return d.say("collar into the return plenum (take-off)")
	}
	title := d.fittingTitle(fit.Kind)
	first, n := utf8.DecodeRuneInString(title)
	return string(unicode.ToLower(first)) + title[n:]
}

func outside(a *sizing.Assembly) []length { return []length{a.Width, a.Height, a.Depth} }

func sides(s stock.Size) []length { return []length{s.Width, s.Height, s.Depth} }

func grilleStyle(g duct.Grille) duct.GrilleStyle {
	if g.Style == "" {
		return duct.Stamped
	}
	return g.Style
}

func runKind(r duct.Run) message.ID {
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

func (d *document) fittingTitle(kind duct.FittingKind) string {
	for _, info := range duct.Fittings() {
		if info.Kind == kind {
			return d.word(info.Title)
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
	f.orderHeading(d.say("Openings to cut"))
	var cells [][]string
	for _, o := range list {
		cut := o.outlines[0]
		cells = append(cells, []string{o.title, d.named(cut.width, cut.height), o.framing})
	}
	f.table(f.orderText(), []column{{name: d.say("opening")}, {name: d.say("width x height")}, {name: d.say("before cutting"), share: 1}}, cells)
}

// tools are what the work needs in addition to parts. Common practice, no
// source.
func (d *document) tools(f *flow) {
	list := []message.ID{"gauge with two hoses and static tips", "thermometer", "tape measure", "drill with 3/8 in (10 mm) step bit", "gloves, eye protection, mask", "voltage tester"}
	if len(d.cuts()) > 0 {
		list = append(list, "snips", "nut driver", "stud finder", "drywall saw", "mastic brush")
	}
	if d.job.Equipment.Kind != sizing.AirHandler {
		list = append(list, "draft gauge and combustion tester")
	}
	f.orderHeading(d.say("Tools"))
	f.paragraph(f.orderText(), d.say("{tools}.", "tools", message.Rows{Mark: ", ", Items: toAny(list)}))
}

func toAny[T any](list []T) []any {
	out := make([]any, len(list))
	for i, v := range list {
		out[i] = v
	}
	return out
}

// signOff has lines for those who did the work.
func (d *document) signOff(f *flow) {
	f.orderHeading(d.say("Signed off"))
	from := len(f.rows)
	lines := [][2]message.ID{
		{"Work done by, license, date", "Hours worked"},
		{"Power off and checked by", "Readings taken by, instrument"},
		{"Draft and combustion tested by, result", "Customer, date"},
	}
	small := style{size: 8.25 * f.scale}
	half := (f.width - 20) / 2
	for _, pair := range lines {
		f.add(row{height: 20 * f.scale, draw: func(y float64) {
			base := y + 13*f.scale
			for i, text := range pair {
				x := f.x + float64(i)*(half+20)
				d.sheet.line(black, 0.6, nil, x, base, x+half, base)
				t, fitted := f.fit(small, d.say(text), half, 7)
				d.sheet.put(t, x, base+8*f.scale, fitted)
			}
		}})
	}
	f.keepAll(from)
}
