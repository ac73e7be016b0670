package report

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// working writes the calculations: the inputs, the results, and option by
// option the steps to each number.
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
	d.barCharts(f)
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
	names := []string{d.say(curvesTitle), d.say(findingsTitle), d.say(barsTitle), d.say(assumedTitle)}
	if len(d.study.Readings) > 0 {
		names = slices.Insert(names, 3, d.say(roundsTitle))
	}
	for _, r := range steps.rows {
		if r.entry != "" {
			names = append(names, r.entry)
		}
	}
	names = append(names, d.say(inputsTitle))
	f.heading(d.say("Contents"))
	half := (len(names) + 1) / 2
	wide := f.width/2 - 10
	for i := range half {
		f.add(row{height: f.body().leading(), keep: true, draw: func(y float64) {
			for k, n := range []int{i, i + half} {
				if n >= len(names) {
					continue
				}
				x := f.x + float64(k)*(wide+20)
				t, name := f.fit(f.body(), names[n], wide-24, 7.5)
				f.put(t, x, y+f.body().ascent(), name)
				f.flushRight(f.body(), x+wide, y+f.body().ascent(), fmt.Sprint(d.pageOf[names[n]]))
			}
		}})
	}
}

// curves draws the blower's curve and the system curves of today and of the
// proposal, for paper: black first, dashes that distinguish them without color, words
// of 8 points and more.
func (d *document) curves(f *flow) {
	s := *d.study
	s.Options = []sizing.OptionResult{*d.plan.today}
	if !d.plan.isToday() {
		s.Options = append(s.Options, *d.plan.option)
	}
	look := plots.Page(d.System)
	const high = 205.0
	f.heading(d.say(curvesTitle))
	f.figure(high, func(y float64) {
		d.sheet.drawChart(plots.FanAndSystem(&s, look), f.x, y, f.width, high)
	})
}

// barCharts show the options side by side: the pressure that each part takes, and
// what ten years cost. A whisker is the range that holds nine in ten.
func (d *document) barCharts(f *flow) {
	subject := plots.Subject{Study: d.study, Ranges: d.Ranges, Chosen: d.plan.option.Name}
	look := plots.Page(d.System)
	rows := 0
	for _, o := range d.study.Options {
		rows += 2
		if o.Kind == sizing.KindNoFilter {
			rows--
		}
	}
	high := min(120+14*float64(rows), 300)
	const gap = 18.0
	wide := (f.width - gap) / 2
	f.heading(d.say(barsTitle))
	if d.Ranges != nil {
		f.paragraph(f.small(), d.say("A whisker is the range that holds nine of ten samples, with each input moved within how well it is known."))
		f.rows[len(f.rows)-1].keep = true
	}
	titles := style{size: 9, bold: true}
	f.figure(high+14, func(y float64) {
		for _, k := range plots.Kinds() {
			at := slices.Index([]string{"pressure-by-part", "ten-year-cost"}, k.Key)
			if at < 0 {
				continue
			}
			x := f.x + float64(at)*(wide+gap)
			f.put(titles, x, y+titles.ascent(), d.say(k.Title))
			d.sheet.drawChart(k.Of(subject, look), x, y+14, wide, high)
		}
	})
}

// Titles of the calculations' sections.
const (
	curvesTitle   message.ID = "Blower and system curves"
	barsTitle     message.ID = "Options side by side"
	findingsTitle message.ID = "Findings"
	roundsTitle   message.ID = "Rounds with the gauge: measured against predicted"
	assumedTitle  message.ID = "Assumed, because nobody typed or measured it"
	methodsTitle  message.ID = "Methods and sources"
	commonTitle   message.ID = "Steps that several options share"
	inputsTitle   message.ID = "Inputs, as in the job file"
)

// provenance lists the program's version, the job file and its checksum.
func (d *document) provenance(f *flow) {
	cells := [][]string{
		{d.say("House"), d.houseName()},
		{d.say("Program"), strings.TrimSpace("returnbench " + d.Version)},
		{d.say("Job file"), d.say("schema {schema}, checksum {checksum}", "schema", sizing.Schema, "checksum", orDash(d.Checksum))},
		{d.say("Date"), orDash(shortDate(d.Date, d.System))},
		{d.say("Options"), d.optionList()},
		{d.say("Proposed"), sizing.OptionName(d.plan.option.Name).Show(d.System)},
		{d.say("Based on assumptions"), d.say("{share} % of today's external static", "share", message.Fixed(100*d.study.AssumedShare, 0))},
		{d.say("Known to"), d.deviationsText(d.job.Uncertainty.Deviations())},
	}
	f.gap(4)
	f.table(style{size: 8.75}, []column{{name: ""}, {name: "", share: 1}}, cells)
}

// deviationsText is how well the inputs are known.
func (d *document) deviationsText(u sizing.Deviations) string {
	share := func(v float64) string { return threeDigits(100*v, d.System) }
	return d.say("one standard deviation: pressures read {gauge} %, airflow of a blower table {table} %, printed drops {printed} %, drops worked out from ducts and grilles {worked} %, what is assumed {assumed} %",
		"gauge", share(u.Gauge), "table", share(u.BlowerTable), "printed", share(u.Rating), "worked", share(u.Geometry), "assumed", share(u.Assumed))
}

// optionList names the options.
func (d *document) optionList() string {
	var names []string
	for _, o := range d.study.Options {
		if o.Kind != sizing.KindNoFilter {
			names = append(names, sizing.OptionName(o.Name).Show(d.System))
		}
	}
	return strings.Join(names, "; ")
}

func orDash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// findings are grouped by the source of their limit, worst first; one that
// several options share is printed once.
func (d *document) findings(f *flow) {
	f.heading(d.say(findingsTitle))
	if len(d.study.Findings) == 0 {
		f.paragraph(f.body(), d.say("None."))
		return
	}
	type limit struct {
		severity sizing.Severity
		source   string
	}
	var order []limit
	findings := map[limit][]sizing.Finding{}
	for _, x := range d.study.Findings {
		at := limit{x.Severity, d.word(x.Source)}
		if findings[at] == nil {
			order = append(order, at)
		}
		findings[at] = append(findings[at], x)
	}
	t := style{size: 7.75}
	wide := f.columnWidth(2)
	var pieces []piece
	for i, at := range order {
		if i > 0 {
			pieces = append(pieces, piece{height: 3, space: true})
		}
		pieces = append(pieces, held(f.block(t, wide, "", 0, boldAtoms(d.say("{severity}, held against: {source}", "severity", at.severity, "source", at.source))))...)
		for _, x := range gathered(findings[at], d.System) {
			pieces = append(pieces, f.hanging(t, wide, 8, append(boldAtoms(x.who+":"), plainAtoms(x.text)...))...)
		}
	}
	f.columns(2, pieces)
}

// saying is a sentence and the options to which it applies.
type saying struct{ who, text string }

// gathered joins the findings with the same text.
func gathered(list []sizing.Finding, sys units.Locale) []saying {
	var out []saying
	for _, x := range list {
		who, text := message.Text(sys, "the house"), x.In(sys)
		if x.Option != "" {
			who = sizing.OptionName(x.Option).Show(sys)
		}
		if i := slices.IndexFunc(out, func(s saying) bool { return s.text == text }); i >= 0 {
			out[i].who += ", " + who
			continue
		}
		out = append(out, saying{who, text})
	}
	return out
}

// assumptions are grouped by their source.
func (d *document) assumptions(f *flow) {
	f.heading(d.say(assumedTitle))
	if len(d.study.Assumptions) == 0 {
		f.paragraph(f.body(), d.say("Nothing."))
		return
	}
	t := style{size: 7.75}
	wide := f.columnWidth(2)
	var order []string
	by := map[string][]piece{}
	for _, a := range d.study.Assumptions {
		source := d.word(a.Source)
		if by[source] == nil {
			order = append(order, source)
		}
		by[source] = append(by[source], f.hanging(t, wide, 8, append(boldAtoms(d.called(a.Path)+":"), plainAtoms(a.In(d.System))...))...)
	}
	var pieces []piece
	for i, source := range order {
		if i > 0 {
			pieces = append(pieces, piece{height: 3, space: true})
		}
		pieces = append(append(pieces, held(f.block(t, wide, "", 0, boldAtoms(d.say("Source: {source}", "source", source))))...), by[source]...)
	}
	f.columns(2, pieces)
}

func (d *document) called(path string) string {
	if d.Call == nil {
		return path
	}
	return d.Call(path)
}

// inputs writes the whole job as its file holds it.
func (d *document) inputs(f *flow) error {
	job := d.job.Clone()
	for i := range job.Photos {
		if n := len(job.Photos[i].Data); n > 0 {
			job.Photos[i].Data = d.say("a picture of {letters} letters in base64", "letters", n)
		}
	}
	data, err := jobfile.Encode(job)
	if err != nil {
		return err
	}
	fields, err := flatten(data)
	if err != nil {
		return err
	}
	f.heading(d.say(inputsTitle))
	t := style{size: 7}
	wide := f.columnWidth(3)
	var pieces []piece
	for _, x := range fields {
		pieces = append(pieces, f.hanging(t, wide, 6, append(plainAtoms(x.path+":"), plainAtoms(x.value)...))...)
	}
	f.columns(3, pieces)
	return nil
}
