package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/export"
	"returnbench/sizing/stock"
)

func (d *document) workOrder() {
	f := d.newFlow(1)
	d.workOrderTitle(f)
	d.stops(f)
	d.safety(f)
	d.whatIsDone(f)
	d.parts(f)
	d.openings(f)
	d.ductTable(f)
	d.testPorts(f)
	d.expectedReadings(f)
	d.rounds(f)
	d.signOff(f)
	d.print(f.rows)
}

func (d *document) workOrderTitle(f *flow) {
	name := d.plan.option.Name
	if d.plan.isToday() {
		name = "the house as it is"
	}
	f.title("Work order: "+name, 2)
	if d.job.Notes != "" {
		for _, line := range f.cutLines(f.small(), "About this house: "+d.job.Notes, f.width, 3) {
			f.add(f.textRow(f.small(), f.x, line))
		}
	}
}

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
	f.heading("STOP: not to be built as laid out")
	f.items(f.body(), texts)
}

// safety stands before the work, in a frame.
func (d *document) safety(f *flow) {
	f.heading("First: make it safe")
	f.add(row{height: 6, keep: true})
	from := len(f.rows)
	t := style{size: 10}
	for i, text := range export.Cautions() {
		if i == 0 {
			t.bold = true
		} else {
			t.bold = false
		}
		f.item(t, fmt.Sprintf("%d", i+1), text)
		f.add(row{height: 2})
	}
	f.keepAll(from)
	h := heightOf(f.rows[from:])
	first := f.rows[from]
	draw := first.draw
	f.rows[from].draw = func(y float64) {
		d.sheet.box(black, 1.2, nil, f.x-7, y-4, f.width+14, h+6)
		draw(y)
	}
	f.gap(4)
}

func (d *document) whatIsDone(f *flow) {
	f.heading("What is done")
	texts := d.plan.changes(d.System)
	if d.plan.isToday() {
		texts = []string{"Nothing is changed: read the gauge at the ports below and enter what it says. " + d.answerWords()}
	}
	f.items(f.body(), texts)
}

// parts lists what has to be brought.
func (d *document) parts(f *flow) {
	f.heading("Parts")
	var cells [][]string
	add := func(count int, what, nominal, actual, goes string) {
		cells = append(cells, []string{fmt.Sprint(count), what, nominal, actual, goes})
	}
	p := d.plan
	for _, l := range p.places {
		switch {
		case l.Branch >= 0 || !l.newPlace:
		case l.atUnit():
			what := l.box()
			if l.Count > 1 {
				what += ", its filters " + p.standing()
			}
			add(1, what, l.label(), "room it takes: "+d.named(outside(p.option.Assembly)...), "before the blower")
		default:
			add(l.Count, l.box(), d.named(l.size.Width, l.size.Height), "opening as named", "the return")
		}
	}
	for _, b := range p.returns {
		if !b.isNew {
			continue
		}
		if b.Grille.Width > 0 {
			add(1, "return grille, "+grilleStyle(b.Grille), d.named(b.Grille.Width, b.Grille.Height), "opening as named", b.name)
		}
		for _, r := range b.Runs {
			add(1, runKind(r), d.named(runSides(r)...), longways(r.Length, d.System)+" long", b.name)
		}
		for _, fit := range b.Fittings {
			add(max(fit.Count, 1), fittingTitle(fit.Kind), "as the duct", "", b.name)
		}
	}
	for _, l := range p.places {
		actual := d.named(sides(l.actual())...)
		add(l.Count, "filter, "+called(l), l.size.String(), actual, l.where)
	}
	f.table(style{size: 8.75}, []column{
		{name: "no.", right: true}, {name: "part", share: 1.2}, {name: "nominal size", share: 0.75}, {name: "actual size", share: 0.95}, {name: "goes to", share: 0.7},
	}, cells)
	f.gap(3)
	f.paragraph(f.small(), "Actual filter sizes are usual ones: makes differ by a quarter of an inch (6 mm), so measure the filter at hand before cutting. "+
		fmt.Sprintf("The room that a cabinet or slot takes is its filters' nominal faces and %s more each way, and their depth and %s more: the cabinet's own drawing overrides it. Common practice, no source.",
			d.named(d.study.Casing.Face), d.named(d.study.Casing.Depth)))
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
			return info.Title
		}
	}
	return string(kind)
}

// ductTable lists every duct of the return side, new or standing, and tells of
// those that today's airflow wants larger.
func (d *document) ductTable(f *flow) {
	var cells [][]string
	p := d.plan
	for _, b := range p.returns {
		for _, r := range b.Runs {
			state := "stays"
			if b.isNew {
				state = "new"
			}
			cells = append(cells, []string{b.name, state, runKind(r), d.named(runSides(r)...), longways(r.Length, d.System), runNote(r, b.isNew)})
		}
	}
	if len(cells) == 0 {
		return
	}
	f.heading("Ducts: sizes and lengths")
	f.table(style{size: 8.75}, []column{
		{name: "return", share: 1}, {name: "state"}, {name: "kind"}, {name: "size"}, {name: "length", right: true}, {name: "how", share: 1.1},
	}, cells)
	for _, w := range d.study.Ducts {
		if w.Undersized {
			f.gap(2)
			f.paragraph(f.small(), fmt.Sprintf("Today's %s duct is small for its %s: %s would carry it within the limits of velocity and friction.",
				w.Branch, about(w.Airflow, d.System), d.ductsWanted(w)))
		}
	}
}

// ductsWanted names the ducts that keep the limits: "a round duct of 14 in, or
// flex of 16 in".
func (d *document) ductsWanted(w sizing.DuctSize) string {
	var names []string
	if w.Round.Found() {
		names = append(names, "a round duct of "+d.named(w.Round.Diameter))
	}
	if w.Flex.Found() {
		names = append(names, "flex of "+d.named(w.Flex.Diameter))
	}
	if len(names) == 0 {
		return "two ducts beside each other"
	}
	return strings.Join(names, ", or ")
}

// runNote tells how a new duct is laid, and how one that stays lies.
func runNote(r duct.Run, isNew bool) string {
	shorter := fmt.Sprintf("%.0f %% shorter than fully stretched", 100*r.Compression)
	switch {
	case r.Shape == duct.Flex && r.Compression > 0 && isNew:
		return "pulled straight: at most " + shorter
	case r.Shape == duct.Flex && r.Compression > 0:
		return "lies about " + shorter
	case r.Shape == duct.Flex && isNew:
		return "pulled straight"
	case r.Shape != duct.Flex && r.Material != "":
		return string(r.Material)
	}
	return ""
}

func (d *document) signOff(f *flow) {
	f.heading("Signed off")
	from := len(f.rows)
	f.paragraph(f.small(), "Left blank for those who did the work. Draft and combustion are tested wherever any fuel-burning appliance is in the house: a changed return may pull on its flue.")
	f.add(row{height: 6})
	lines := []string{"Work done by, licence", "Power off and checked by", "Draft and combustion tested by, result: where any fuel-burning appliance is in the house", "Readings taken by, instrument", "Customer"}
	for _, text := range lines {
		f.add(row{height: 27, draw: func(y float64) {
			base := y + 20
			d.sheet.line(black, 0.6, nil, f.x, base, f.x+0.7*f.width-12, base)
			d.sheet.line(black, 0.6, nil, f.x+0.7*f.width, base, f.x+f.width, base)
			d.sheet.put(f.small(), f.x, base+8.5, text)
			d.sheet.put(f.small(), f.x+0.7*f.width, base+8.5, "Date")
		}})
	}
	f.keepAll(from)
}
