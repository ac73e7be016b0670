package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// working writes the calculations: what went in, what was found, and option by
// option how each number came about.
func (d *document) working() error {
	f := d.newFlow(1)
	f.tight = true
	f.title(d.title, 1)
	steps := d.newFlow(1)
	steps.tight = true
	d.steps(steps)
	d.provenance(f)
	d.contents(f, steps)
	d.curves(f)
	d.findings(f)
	d.rounds(f)
	d.assumptions(f)
	f.add(steps.rows...)
	if err := d.inputs(f); err != nil {
		return err
	}
	d.print(f.rows)
	return nil
}

// contents lists the sections with their pages, which are known once all is laid
// out.
func (d *document) contents(f, steps *flow) {
	names := []string{curvesTitle, findingsTitle, assumedTitle}
	if len(d.study.Readings) > 0 {
		names = slices.Insert(names, 2, roundsTitle)
	}
	for _, r := range steps.rows {
		if r.entry != "" {
			names = append(names, r.entry)
		}
	}
	names = append(names, inputsTitle)
	f.heading("Contents")
	half := (len(names) + 1) / 2
	wide := f.width/2 - 10
	for i := range half {
		f.add(row{height: f.body().lead(), keep: true, draw: func(y float64) {
			for k, n := range []int{i, i + half} {
				if n >= len(names) {
					continue
				}
				x := f.x + float64(k)*(wide+20)
				f.put(f.body(), x, y+f.body().ascent(), f.cut(f.body(), names[n], wide-24))
				f.flushRight(f.body(), x+wide, y+f.body().ascent(), fmt.Sprint(d.pageOf[names[n]]))
			}
		}})
	}
}

// curves draws the blower's curve and the system curves of today and of the
// proposal, for paper: black first, dashes that tell them apart without color, words
// of 8 points and more.
func (d *document) curves(f *flow) {
	s := *d.study
	s.Options = []sizing.OptionResult{*d.plan.today}
	if !d.plan.isToday() {
		s.Options = append(s.Options, *d.plan.option)
	}
	look := plots.Print(d.System)
	look.Scale, look.Monochrome = 0.72, true
	const high = 205.0
	f.heading(curvesTitle)
	f.figure(high, func(y float64) {
		d.sheet.drawChart(plots.FanAndSystem(&s, look), f.x, y, f.width, high)
	})
}

// Titles of the calculations' sections.
const (
	curvesTitle   = "Blower and system curves"
	findingsTitle = "Findings"
	roundsTitle   = "Rounds with the gauge: measured against predicted"
	assumedTitle  = "Assumed, because nobody typed or measured it"
	methodsTitle  = "Methods"
	inputsTitle   = "Inputs, as in the job file"
)

// provenance tells what the numbers came from.
func (d *document) provenance(f *flow) {
	cells := [][]string{
		{"House", d.houseName()},
		{"Program", strings.TrimSpace("returnbench " + d.Version)},
		{"Job file", fmt.Sprintf("schema %d, checksum %s", sizing.Schema, orDash(d.Checksum))},
		{"Date", orDash(d.Date)},
		{"Options", strings.Join(optionNames(d.study), "; ")},
		{"Proposed", d.plan.option.Name},
		{"Rests on assumptions", fmt.Sprintf("%.0f %% of today's external static", 100*d.study.AssumedShare)},
		{"Known to", knownTo(d.job.Uncertainty.Deviations())},
	}
	f.gap(4)
	f.table(style{size: 8.75}, []column{{name: ""}, {name: "", share: 1}}, cells)
}

// knownTo tells how well what went in is known.
func knownTo(u sizing.Deviations) string {
	return fmt.Sprintf("one standard deviation: pressures read %.3g %%, airflow of a blower table %.3g %%, printed drops %.3g %%, drops worked out from ducts and grilles %.3g %%, what is assumed %.3g %%",
		100*u.Gauge, 100*u.BlowerTable, 100*u.Rating, 100*u.Geometry, 100*u.Assumed)
}

func orDash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// findings are gathered by what they were held against, worst first.
func (d *document) findings(f *flow) {
	f.heading(findingsTitle)
	if len(d.study.Findings) == 0 {
		f.paragraph(f.body(), "None.")
		return
	}
	type limit struct {
		severity sizing.Severity
		source   string
	}
	var order []limit
	held := map[limit][][]string{}
	for _, x := range d.study.Findings {
		at := limit{x.Severity, x.Source}
		if held[at] == nil {
			order = append(order, at)
		}
		held[at] = append(held[at], []string{cmp.Or(x.Option, "the house"), x.In(d.System)})
	}
	for _, at := range order {
		f.gap(2)
		f.paragraph(style{size: 8, bold: true}, string(at.severity)+", held against: "+at.source)
		f.rows[len(f.rows)-1].keep = true
		f.table(style{size: 7.75}, []column{{name: "", share: 0.22}, {name: "", share: 1}}, held[at])
	}
}

func (d *document) assumptions(f *flow) {
	f.heading(assumedTitle)
	if len(d.study.Assumptions) == 0 {
		f.paragraph(f.body(), "Nothing.")
		return
	}
	var cells [][]string
	for _, a := range d.study.Assumptions {
		cells = append(cells, []string{d.called(a.Path), a.In(d.System), a.Source})
	}
	f.table(style{size: 7.75}, []column{{name: "field"}, {name: "taken", share: 1}, {name: "source", share: 0.85}}, cells)
}

func (d *document) called(path string) string {
	if d.Call == nil {
		return path
	}
	return d.Call(path)
}

// methods are the steps' words, formulas and sources, each told once.
type methods struct {
	units   units.System
	numbers map[string]int
	texts   []string
}

func (m *methods) of(s sizing.Step) int {
	formula := s.Equation(m.units)
	if terms := s.Terms(); terms != "" {
		formula += "  (" + terms + ")"
	}
	text := fmt.Sprintf("%s  %s  [%s]", s.Text, formula, s.Source)
	if m.numbers[text] == 0 {
		m.texts = append(m.texts, text)
		m.numbers[text] = len(m.texts)
	}
	return m.numbers[text]
}

// section is the workings of one option, or of the house.
type section struct {
	title, option string
	workings      []sizing.Working
}

// steps writes every working, an option a section: the method by its number, and
// the numbers in it with a clean and a dirty filter beside each other.
func (d *document) steps(f *flow) {
	m := &methods{units: d.System, numbers: map[string]int{}}
	var tables []*flow
	for _, s := range d.sections() {
		t := d.newFlow(1)
		t.tight = true
		d.sectionTable(t, s, m)
		tables = append(tables, t)
	}
	f.heading(methodsTitle)
	text := style{size: 7.5}
	f.twoColumns(text, m.texts)
	for _, t := range tables {
		f.add(t.rows...)
	}
}

// sections deals the workings out to the options.
func (d *document) sections() []section {
	list := []section{{title: "The house"}}
	for _, o := range d.study.Options {
		list = append(list, section{title: "Option: " + o.Name, option: o.Name})
	}
	for _, w := range d.study.Workings() {
		at, i := 0, 0
		if n, _ := fmt.Sscanf(w.Key, "options[%d]", &i); n == 1 && i+1 < len(list) {
			at = i + 1
		}
		list[at].workings = append(list[at].workings, w)
	}
	return slices.DeleteFunc(list, func(s section) bool { return len(s.workings) == 0 })
}

// sectionTable sets the steps of a section in rows: those of a dirty filter beside
// the same of a clean one.
func (d *document) sectionTable(f *flow, s section, m *methods) {
	f.heading(s.title)
	var cells [][]string
	paired := map[string]bool{}
	for _, w := range s.workings {
		if paired[w.Key] {
			continue
		}
		other := sizing.Working{}
		if w.Filter == "clean" {
			other = dirtyOf(s.workings, w)
			paired[other.Key] = true
		}
		cells = append(cells, d.stepCells(s, w, other, m)...)
	}
	cols := []column{{name: "quantity", share: 0.5}, {name: "method", right: true}, {name: "clean, or at any time", share: 1}, {name: "dirty, due for a change", share: 1}}
	f.table(style{size: 7.5}, cols, cells)
}

// dirtyOf is the same number with a dirty filter.
func dirtyOf(list []sizing.Working, w sizing.Working) sizing.Working {
	key := strings.Replace(w.Key, ".clean.", ".loaded.", 1)
	for _, x := range list {
		if x.Key == key && x.Filter == "loaded" {
			return x
		}
	}
	return sizing.Working{}
}

func (d *document) stepCells(s section, w, other sizing.Working, m *methods) [][]string {
	name := strings.TrimSuffix(w.Name, ", "+s.option)
	var cells [][]string
	say := func(x sizing.Step) string {
		numbers, result := x.Brief(d.System)
		return numbers + " =" + string(nbsp) + strings.ReplaceAll(result, " ", string(nbsp))
	}
	rest := slices.Clone(other.Steps)
	for _, step := range w.Steps {
		line := []string{name, fmt.Sprint(m.of(step)), say(step), ""}
		if i := slices.IndexFunc(rest, func(x sizing.Step) bool { return m.of(x) == m.of(step) }); i >= 0 {
			line[3] = say(rest[i])
			rest = slices.Delete(rest, i, i+1)
		}
		cells = append(cells, line)
		name = ""
	}
	for _, step := range rest {
		cells = append(cells, []string{name, fmt.Sprint(m.of(step)), "", say(step)})
		name = ""
	}
	return cells
}

// twoColumns writes numbered texts in two columns, read across.
func (f *flow) twoColumns(t style, texts []string) {
	const gap = 14.0
	half := f.width/2 - gap/2
	indent := f.sheet.width(t, "00  ")
	for i := 0; i < len(texts); i += 2 {
		var lines [2][]string
		most := 0
		for k := 0; k < 2 && i+k < len(texts); k++ {
			lines[k] = f.wrap(t, texts[i+k], half-indent)
			most = max(most, len(lines[k]))
		}
		f.add(row{height: float64(most)*t.lead() + 1.5, draw: func(y float64) {
			for k := range lines {
				x := f.x + float64(k)*(half+gap)
				for n, line := range lines[k] {
					if n == 0 {
						f.put(t, x, y+t.ascent(), fmt.Sprint(i+k+1))
					}
					f.put(t, x+indent, y+float64(n)*t.lead()+t.ascent(), line)
				}
			}
		}})
	}
}

// inputs writes the whole job as its file holds it.
func (d *document) inputs(f *flow) error {
	data, err := jobfile.Encode(d.job)
	if err != nil {
		return err
	}
	fields, err := flatten(data)
	if err != nil {
		return err
	}
	f.heading(inputsTitle)
	texts := make([]string, len(fields))
	for i, x := range fields {
		texts[i] = x.path + "  " + x.value
	}
	f.columnsDown(style{size: 7}, texts)
	return nil
}

// columnsDown writes lines in two columns; the second goes on where the first of
// the same block ends.
func (f *flow) columnsDown(t style, texts []string) {
	const gap, block = 14.0, 40
	half := f.width/2 - gap/2
	var lines []string
	for _, text := range texts {
		for i, line := range f.wrap(t, text, half-8) {
			if i > 0 {
				line = "   " + line
			}
			lines = append(lines, line)
		}
	}
	for len(lines) > 0 {
		n := min(len(lines), 2*block)
		left := lines[:(n+1)/2]
		right := lines[(n+1)/2 : n]
		lines = lines[n:]
		for i := range left {
			f.add(row{height: 1.15 * t.size, draw: func(y float64) {
				f.put(t, f.x, y+t.ascent(), left[i])
				if i < len(right) {
					f.put(t, f.x+half+gap, y+t.ascent(), right[i])
				}
			}})
		}
		f.gap(4)
	}
}
