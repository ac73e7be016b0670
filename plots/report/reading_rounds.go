package report

import (
	"cmp"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// rounds compares the gauge readings, round by round with their dates, with the
// prediction for the house at that time.
func (d *document) rounds(f *flow) {
	if len(d.study.Readings) == 0 {
		return
	}
	f.heading(d.say(roundsTitle))
	for _, r := range d.study.Readings {
		f.gap(3)
		f.paragraph(f.strong(), d.roundTitle(r))
		f.rows[len(f.rows)-1].keep = true
		from := len(f.rows)
		f.table(style{size: 8.25}, []column{
			{name: d.say("what"), share: 1}, {name: d.say("measured"), right: true}, {name: d.say("predicted"), right: true}, {name: d.say("verdict")},
		}, d.roundCells(r))
		if heightOf(f.rows[from:]) < 200 {
			f.keepAll(from)
		}
		if r.CalibratesStudy {
			f.paragraph(f.small(), d.say("These readings set the study, so their agreement is no test. A later round is the test."))
		}
		if r.Suspect != "" {
			f.paragraph(f.small(), d.say("The {part} explains most of the difference.", "part", r.Suspect.Show(d.System)))
		}
	}
	d.works(f)
	f.gap(2)
	f.paragraph(f.small(), d.say("An airflow that was not measured is the blower table's at the static that was read. What agrees, agrees within the tolerance that the finding on it names."))
}

// works compares each round after the work with the house before and with the
// prediction.
func (d *document) works(f *flow) {
	show := func(q units.Quantity) string {
		if q == nil {
			return "-"
		}
		return about(q, d.System)
	}
	mark := func(q units.Quantity, workedOut bool) string {
		if q == nil || !workedOut {
			return show(q)
		}
		return d.say("{number}, worked out", "number", show(q))
	}
	for _, w := range d.study.AfterWorkComparisons {
		before := d.say("before, worked out")
		if w.BeforeMeasured {
			before = d.say("before, as found")
		}
		f.gap(3)
		f.paragraph(f.strong(), d.say("Before and after the work: {option}", "option", sizing.OptionName(w.Option).Show(d.System)))
		f.rows[len(f.rows)-1].keep = true
		var cells [][]string
		for _, r := range w.Rows {
			cells = append(cells, []string{d.word(r.Name), mark(r.Before, r.BeforeWorkedOut), show(r.Predicted), mark(r.After, r.AfterWorkedOut)})
		}
		f.table(style{size: 8.25}, []column{
			{name: d.say("what"), share: 1}, {name: before, right: true}, {name: d.say("predicted"), right: true}, {name: d.say("after"), right: true},
		}, cells)
	}
}

// roundTitle is "first visit, 14 July: today, good".
func (d *document) roundTitle(r sizing.ReadingResult) string {
	when := strings.Trim(strings.TrimSpace(r.Label)+", "+strings.TrimSpace(shortDate(r.Date, d.System)), ", ")
	return d.say("{when}: {option}, {verdict}", "when", cmp.Or(when, d.say("A round without a date")),
		"option", sizing.OptionName(cmp.Or(r.Option, sizing.TodayName)).Show(d.System), "verdict", r.Verdict)
}

func (d *document) roundCells(r sizing.ReadingResult) [][]string {
	show := func(q units.Quantity) string { return about(q, d.System) }
	var cells [][]string
	if r.Airflow > 0 {
		cells = append(cells, []string{d.say("airflow, by the {basis}", "basis", r.AirflowBasis), show(r.Airflow), show(r.PredictedAirflow), ""})
	}
	add := func(name string, measured, predicted units.Quantity, agrees bool) {
		verdict := d.say("differs")
		if agrees {
			verdict = d.say("agrees")
		}
		cells = append(cells, []string{name, show(measured), show(predicted), verdict})
	}
	for _, rows := range [][]sizing.ReadingRow{r.Rows, r.Parts} {
		for _, q := range rows {
			add(d.word(q.Name), q.Measured, q.Predicted, q.Agrees)
			if row := cells[len(cells)-1]; q.WorkedOut {
				row[1] = d.say("{number}, worked out", "number", row[1])
			}
		}
	}
	for _, q := range r.OtherQuantities {
		add(d.word(q.Name), q.Measured, q.Predicted, q.Agrees)
	}
	return cells
}
