package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

func (d *document) working() error {
	f := d.newFlow(1)
	f.title(d.title, 1)
	d.provenance(f)
	d.findings(f)
	d.rounds(f)
	d.assumptions(f)
	d.steps(f)
	if err := d.inputs(f); err != nil {
		return err
	}
	d.print(f.rows)
	return nil
}

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
	if d.job.Notes != "" {
		cells = append(cells, []string{"Notes", d.job.Notes})
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

func (d *document) findings(f *flow) {
	f.heading("Findings")
	if len(d.study.Findings) == 0 {
		f.paragraph(f.body(), "None.")
		return
	}
	var cells [][]string
	for _, x := range d.study.Findings {
		cells = append(cells, []string{string(x.Severity), x.Option, x.In(d.System), x.Source})
	}
	f.table(style{size: 8}, []column{{name: "severity"}, {name: "option", share: 0.5}, {name: "finding", share: 1.5}, {name: "held against", share: 0.8}}, cells)
}

func (d *document) assumptions(f *flow) {
	f.heading("Assumed, because nobody typed or measured it")
	if len(d.study.Assumptions) == 0 {
		f.paragraph(f.body(), "Nothing.")
		return
	}
	var cells [][]string
	for _, a := range d.study.Assumptions {
		cells = append(cells, []string{d.called(a.Path), a.In(d.System), a.Source})
	}
	f.table(style{size: 8}, []column{{name: "field"}, {name: "taken", share: 1}, {name: "source", share: 0.6}}, cells)
}

func (d *document) called(path string) string {
	if d.Call == nil {
		return path
	}
	return d.Call(path)
}

// steps writes every working: what is done, the formula, the numbers in it, the
// result and the source.
func (d *document) steps(f *flow) {
	f.heading("Working")
	name := style{size: 8.75, bold: true}
	key := style{size: 7, ink: soft}
	text := style{size: 8}
	for _, w := range d.study.Workings() {
		from := len(f.rows)
		f.gap(5)
		t, line := f.fit(name, w.Name+state(w), f.width*0.62, 7)
		f.add(row{height: name.lead(), keep: true, draw: func(y float64) {
			d.sheet.put(t, f.x, y+name.ascent(), line)
			d.sheet.flushRight(key, f.x+f.width, y+name.ascent(), f.cut(key, w.Key, f.width*0.36))
		}})
		for _, step := range w.Steps {
			numbers, result := step.In(d.System)
			f.indented(text, 10, "", stepWords(step, step.Equation(d.System), numbers, result))
		}
		if heightOf(f.rows[from:]) < 120 {
			f.keepAll(from)
			f.rows[from].keep = false
		}
	}
}

// state tells clean and loaded apart, which have one name.
func state(w sizing.Working) string {
	switch w.Filter {
	case "clean":
		return ", clean"
	case "loaded":
		return ", at the change limit"
	}
	return ""
}

func stepWords(s sizing.Step, equation, numbers, result string) string {
	return fmt.Sprintf("%s  %s  ·  %s = %s  [%s]", s.Text, equation, numbers, strings.ReplaceAll(result, " ", string(nbsp)), s.Source)
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
	f.heading("Inputs, as in the job file")
	cells := make([][]string, len(fields))
	for i, x := range fields {
		cells[i] = []string{x.path, x.value}
	}
	f.table(style{size: 7.5}, []column{{name: "field"}, {name: "value", share: 1}}, cells)
	return nil
}
