package forms

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/notices"
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Gauge is the place for what was measured: one round of readings at a
// time, with the prediction beside it.
type Gauge struct {
	*form.Form
	model form.Model
	list  form.List[sizing.Reading]

	summary        *widget.Label
	rows           *table.Fitted
	contradictions *notices.FindingList // of the round in view
	head           fyne.CanvasObject
}

// NewGauge makes the form.
func NewGauge(m form.Model) *Gauge {
	s := &Gauge{model: m, summary: widget.NewLabel(""), rows: table.NewFitted(10), contradictions: notices.NewFindingList()}
	s.list = form.List[sizing.Reading]{
		What: "test", Of: func(j *sizing.Job) *[]sizing.Reading { return &j.Readings },
		Name:   func(r *sizing.Reading) *string { return &r.Label },
		New:    func(name string) sizing.Reading { return sizing.Reading{Label: name} },
		Picked: func() { s.Refresh() },
	}
	s.summary.Wrapping = fyne.TextWrapWord
	title := widget.NewLabelWithStyle(lang.T("Measured beside predicted"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	s.head = container.NewVBox(title, s.summary, s.rows.Object(), s.contradictions)
	s.Form = form.New(m, s.shape, s.build)
	s.Refresh()
	return s
}

// Head is measured beside predicted, above the picture.
func (s *Gauge) Head() fyne.CanvasObject { return s.head }

func (s *Gauge) shape() string { return s.list.Shape(s.model.Peek()) }

func (s *Gauge) taps() []string {
	var out []string
	for _, t := range s.model.Peek().Equipment.Blower.Taps {
		out = append(out, t.Name)
	}
	return out
}

func (s *Gauge) options() []string {
	var out []string
	for _, o := range s.model.Peek().Options {
		out = append(out, o.Name)
	}
	return out
}

func (s *Gauge) build(b *form.Builder) {
	b.Heading("Readings")
	if len(s.model.Peek().Readings) == 0 {
		b.Note("A test replaces what is assumed by what is measured: static at up to four ports, the drop across the filter, the airflow if you measured it. Enter a static with either sign.")
	}
	if form.Items(b, &s.list) {
		s.fields(b)
	}
}

func (s *Gauge) fields(b *form.Builder) {
	path := fmt.Sprintf("readings[%d]", s.list.At())
	at := s.list.Field()
	pressure := func(name string, label message.ID, field func(*sizing.Reading) *units.Pressure) {
		form.Quantity(b, path+"."+name, label, form.Of(at, field), form.QuantityOptions{Negated: true})
	}
	form.NameField(b, &s.list, path+".label", "Label")
	b.Text(path+".date", "Date", form.Of(at, func(r *sizing.Reading) *string { return &r.Date }), "as you write it")
	form.Choice(b, path+".mode", "Running in", form.Of(at, func(r *sizing.Reading) *sizing.Mode { return &r.Mode }), "cooling, usual",
		form.Item[sizing.Mode]{Value: sizing.Cooling, Label: "cooling"}, form.Item[sizing.Mode]{Value: sizing.Heating, Label: "heating"})
	b.Named(path+".tap", "Tap", form.Of(at, func(r *sizing.Reading) *string { return &r.Tap }), "the mode's tap", s.taps)
	b.Check(path+".after_work", "Read after the work", form.Of(at, func(r *sizing.Reading) *bool { return &r.AfterWork }))
	b.Named(path+".option", "What is installed", form.Of(at, func(r *sizing.Reading) *string { return &r.Option }), "today's house", s.options)
	b.Check(path+".filter_is_clean", "The filter was new", form.Of(at, func(r *sizing.Reading) *bool { return &r.FilterIsClean }))

	b.Heading("Static at the ports")
	pressure("return_plenum", "Before the filter", func(r *sizing.Reading) *units.Pressure { return &r.ReturnPlenum })
	pressure("blower_inlet", "After filter, before blower", func(r *sizing.Reading) *units.Pressure { return &r.BlowerInlet })
	pressure("blower_outlet", "After the blower", func(r *sizing.Reading) *units.Pressure { return &r.BlowerOutlet })
	pressure("supply_plenum", "After the coil", func(r *sizing.Reading) *units.Pressure { return &r.SupplyPlenum })
	pressure("filter_drop", "Across the filter", func(r *sizing.Reading) *units.Pressure { return &r.FilterDrop })

	b.Heading("If measured")
	form.Quantity(b, path+".airflow", "Measured airflow", form.Of(at, func(r *sizing.Reading) *units.Flow { return &r.Airflow }))
	form.Quantity(b, path+".blower_power", "Blower power", form.Of(at, func(r *sizing.Reading) *units.Power { return &r.BlowerPower }))
	form.Quantity(b, path+".return_temperature", "Return air", form.Of(at, func(r *sizing.Reading) *units.Temperature { return &r.ReturnTemperature }))
	form.Quantity(b, path+".supply_temperature", "Supply air", form.Of(at, func(r *sizing.Reading) *units.Temperature { return &r.SupplyTemperature }))
}

// Refresh reads the Study again.
func (s *Gauge) Refresh() {
	s.Form.Refresh()
	study, sys := s.model.Study(), s.model.Units()
	unit := table.Unit(units.Pressure(0), sys)
	heads := []table.Column{{Title: "Read at"}, {Title: "Measured", Unit: unit, Right: true}, {Title: "Predicted", Unit: unit, Right: true}, {Title: "Verdict"}}
	if study == nil || s.list.At() >= len(study.Readings) {
		s.say(lang.T("No test yet."))
		s.rows.Set(heads, nil)
		s.showContradictions(nil)
		return
	}
	r := &study.Readings[s.list.At()]
	s.say(roundWords(r).In(sys))
	var rows [][]string
	if i := slices.IndexFunc(study.AfterWorkComparisons, func(w sizing.AfterWorkComparison) bool { return w.Reading == s.list.At() }); i >= 0 {
		s.afterWork(&study.AfterWorkComparisons[i], r)
		s.showContradictions(r.Findings)
		return
	}
	for _, row := range r.Rows {
		rows = append(rows, []string{written(row.Name, sys), workedOut(table.Number(row.Measured, sys), row.WorkedOut, sys), table.Number(row.Predicted, sys), severityOf(row.Agrees)})
	}
	for _, m := range r.OtherQuantities {
		rows = append(rows, []string{written(m.Name, sys), m.Measured.Kind().Show(m.Measured.SI(), sys), m.Predicted.Kind().Show(m.Predicted.SI(), sys), severityOf(m.Agrees)})
	}
	s.rows.Set(heads, rows)
	s.showContradictions(r.Findings)
}

// workedOut marks a number that was not read though those round it were.
func workedOut(number string, is bool, sys units.Locale) string {
	if !is || number == "" {
		return number
	}
	return message.Text(sys, "{number}, worked out", "number", number)
}

// roundWords are the figures of a round in a line.
func roundWords(r *sizing.ReadingResult) message.Message {
	figures := message.Rows{Mark: ", "}
	add := func(id message.ID, args ...any) { figures.Items = append(figures.Items, message.New(id, args...)) }
	if r.Airflow != 0 {
		add("airflow {airflow} ({basis})", "airflow", r.Airflow, "basis", r.AirflowBasis)
	}
	if r.PredictedAirflow != 0 {
		add("solved airflow {airflow}", "airflow", r.PredictedAirflow)
	}
	if r.ExternalStatic != 0 {
		add("external static {static}", "static", r.ExternalStatic)
	}
	switch {
	case r.CalibratesStudy && len(figures.Items) == 0:
		return message.New("{test}: These readings set the study, so their agreement is no test. A later round is the test.", "test", r.Label)
	case r.CalibratesStudy:
		return message.New("{test}: {figures}. These readings set the study, so their agreement is no test. A later round is the test.", "test", r.Label, "figures", figures)
	case len(figures.Items) == 0:
		return message.New("{test}:", "test", r.Label)
	}
	return message.New("{test}: {figures}", "test", r.Label, "figures", figures)
}

// afterWork sets a round after the work beside the house before and what was
// predicted.
func (s *Gauge) afterWork(w *sizing.AfterWorkComparison, r *sizing.ReadingResult) {
	sys := s.model.Units()
	show := func(q units.Quantity) string {
		if q == nil {
			return ""
		}
		return q.Kind().Show(q.SI(), sys)
	}
	var before message.ID = "Before, worked out"
	if w.BeforeMeasured {
		before = "Before, as found"
	}
	var rows [][]string
	for _, row := range w.Rows {
		verdict := ""
		if row.After != nil {
			verdict = severityOf(row.Agrees)
		}
		rows = append(rows, []string{written(row.Name, sys), workedOut(show(row.Before), row.BeforeWorkedOut, sys), show(row.Predicted), workedOut(show(row.After), row.AfterWorkedOut, sys), verdict})
	}
	for _, m := range r.OtherQuantities {
		rows = append(rows, []string{written(m.Name, sys), "", show(m.Predicted), show(m.Measured), severityOf(m.Agrees)})
	}
	s.rows.Set([]table.Column{{Title: "Read at"}, {Title: before, Right: true}, {Title: "Predicted", Right: true}, {Title: "After", Right: true}, {Title: "Verdict"}}, rows)
}

// showContradictions lists the contradictions of a round; it takes no room while there are
// none.
func (s *Gauge) showContradictions(findings []sizing.Finding) {
	s.contradictions.Set(findings, s.model.Units())
	if len(findings) == 0 {
		s.contradictions.Hide()
	} else {
		s.contradictions.Show()
	}
}

// Findings are those now listed.
func (s *Gauge) Findings() []sizing.Finding { return s.contradictions.Shown() }

// severityOf is a severity, which the table marks.
func severityOf(agrees bool) string {
	if agrees {
		return string(sizing.Good)
	}
	return string(sizing.Caution)
}

func (s *Gauge) say(text string) {
	if s.summary.Text != text {
		s.summary.SetText(text)
	}
}

// Show leads to a field, after its round has been put in view.
func (s *Gauge) Show(path string) {
	if s.list.Select(path, "readings[%d]") {
		s.Refresh()
	}
	s.Form.Show(path)
}
