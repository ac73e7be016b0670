package outcome

import (
	"returnbench/gui/sheet"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

func (p *Pane) buildTable() {
	p.table = sheet.New(6)
	p.table.OnSelected = func(row int) {
		if s := p.model.Study(); s != nil && row < len(s.Options) {
			p.setOption(s.Options[row].Name)
		}
	}
}

func (p *Pane) fillTable(s *sizing.Study) {
	rows := make([][]string, len(s.Options))
	for i := range s.Options {
		rows[i] = row(&s.Options[i], p.loaded.Checked, p.model.Units())
	}
	p.table.Set(columns(s, p.model.Units()), rows)
}

func columns(s *sizing.Study, sys units.System) []widgets.Column {
	c := sizing.Condition{}
	unit := func(q units.Quantity) string { return sheet.Unit(q, sys) }
	return []widgets.Column{
		{Title: "Option"},
		{Title: "Airflow", Unit: unit(c.Airflow)},
		{Title: "per capacity", Unit: unit(s.AirflowPerCapacity)},
		{Title: "Ext. static", Unit: unit(c.ExternalStatic)},
		{Title: "Filter drop", Unit: unit(c.FilterDrop)},
		{Title: "Face", Unit: unit(c.FaceVelocity)},
		{Title: "Media", Unit: unit(c.MediaVelocity)},
		{Title: "Power", Unit: unit(c.BlowerPower)},
		{Title: "Rise", Unit: unit(c.TemperatureRise)},
		{Title: "Verdict"},
	}
}

func row(o *sizing.OptionResult, loaded bool, sys units.System) []string {
	c := &o.Clean
	if loaded && o.Kind != "no_filter" {
		c = &o.Loaded
	}
	number := func(q units.Quantity) string { return sheet.Number(q, sys) }
	filtered := func(q units.Quantity) string {
		if o.Kind == "no_filter" {
			return "–"
		}
		return sheet.Known(q, sys)
	}
	verdict := string(o.Verdict)
	if o.Kind == "no_filter" {
		verdict = "never run so"
	}
	return []string{
		o.Name, number(c.Airflow), number(c.AirflowPerCapacity), number(c.ExternalStatic),
		filtered(c.FilterDrop), filtered(c.FaceVelocity), filtered(c.MediaVelocity),
		number(c.BlowerPower), number(c.TemperatureRise), verdict,
	}
}
