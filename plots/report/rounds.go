package report

import (
	"cmp"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// rounds sets what a gauge read, round by round with its date, beside what was
// predicted of the house as it then stood.
func (d *document) rounds(f *flow) {
	if len(d.study.Readings) == 0 {
		return
	}
	f.heading(roundsTitle)
	for _, r := range d.study.Readings {
		f.gap(3)
		f.paragraph(f.strong(), d.roundTitle(r))
		f.rows[len(f.rows)-1].keep = true
		from := len(f.rows)
		f.table(style{size: 8.25}, []column{
			{name: "what", share: 1}, {name: "measured", right: true}, {name: "predicted", right: true}, {name: "verdict"},
		}, d.roundCells(r))
		if heightOf(f.rows[from:]) < 200 {
			f.keepAll(from)
		}
		if r.Sets {
			f.paragraph(f.small(), "The study is set by this round, so that its pressures agree proves nothing; a later round tests it.")
		}
		if r.Suspect != "" {
			f.paragraph(f.small(), "The "+string(r.Suspect)+" explains most of the difference.")
		}
	}
	d.works(f)
	f.gap(2)
	f.paragraph(f.small(), "An airflow that was not measured is the blower table's at the static that was read. What agrees, agrees within the tolerance that the finding on it names.")
}

// works sets each round after the work beside the house before and what was
// predicted.
func (d *document) works(f *flow) {
	show := func(q units.Quantity) string {
		if q == nil {
			return "-"
		}
		return about(q, d.System)
	}
	for _, w := range d.study.Works {
		before := "before, worked out"
		if w.BeforeRead {
			before = "before, as found"
		}
		f.gap(3)
		f.paragraph(f.strong(), "Before and after the work: "+w.Option)
		f.rows[len(f.rows)-1].keep = true
		var cells [][]string
		for _, r := range w.Rows {
			cells = append(cells, []string{message.Text(d.System, r.Name), show(r.Before), show(r.Predicted), show(r.After)})
		}
		f.table(style{size: 8.25}, []column{
			{name: "what", share: 1}, {name: before, right: true}, {name: "predicted", right: true}, {name: "after", right: true},
		}, cells)
	}
}

// roundTitle is "first visit, 14 July: today, good".
func (d *document) roundTitle(r sizing.ReadingResult) string {
	when := strings.Trim(strings.TrimSpace(r.Label)+", "+strings.TrimSpace(r.Date), ", ")
	return cmp.Or(when, "A round without a date") + ": " + cmp.Or(r.Option, sizing.TodayName) + ", " + string(r.Verdict)
}

func (d *document) roundCells(r sizing.ReadingResult) [][]string {
	show := func(q units.Quantity) string { return about(q, d.System) }
	var cells [][]string
	if r.Airflow > 0 {
		cells = append(cells, []string{"airflow, by the " + message.Text(d.System, r.AirflowBasis), show(r.Airflow), show(r.PredictedAirflow), ""})
	}
	add := func(name message.ID, measured, predicted units.Quantity, agrees bool) {
		verdict := "differs"
		if agrees {
			verdict = "agrees"
		}
		cells = append(cells, []string{message.Text(d.System, name), show(measured), show(predicted), verdict})
	}
	for _, rows := range [][]sizing.ReadingRow{r.Rows, r.Parts} {
		for _, q := range rows {
			add(q.Name, q.Measured, q.Predicted, q.Agrees)
		}
	}
	for _, q := range r.Others {
		add(q.Name, q.Measured, q.Predicted, q.Agrees)
	}
	return cells
}
