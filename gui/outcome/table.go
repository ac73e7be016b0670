package outcome

import (
	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

func (p *Pane) buildTable() {
	p.table = table.NewFitted(6)
	p.table.OnSelected = func(row int) {
		if s := p.model.Study(); s != nil && row < len(s.Options) {
			p.setOption(s.Options[row].Name)
		}
	}
}

func (p *Pane) fillTable(s *sizing.Study) {
	rows := make([][]string, len(s.Options))
	ranges := p.model.Ranges()
	for i := range s.Options {
		var known *sizing.OptionRange
		if i < len(ranges) {
			known = &ranges[i]
		}
		rows[i] = row(&s.Options[i], known, p.loaded.Checked, p.model.Units())
	}
	heads := columns(s, p.model.Units())
	if p.brief {
		heads = heads[:briefColumns]
		for i := range rows {
			rows[i] = rows[i][:briefColumns]
		}
	}
	p.table.Set(heads, rows)
}

// briefColumns are those up to the verdict.
const briefColumns = 7

func columns(s *sizing.Study, sys units.Locale) []table.Column {
	c := sizing.Condition{}
	unit := func(q units.Quantity) string { return table.Unit(q, sys) }
	return []table.Column{
		{Title: "Option", Fixed: true},
		{Title: "Airflow", Unit: unit(c.Airflow), Right: true},
		{Title: "Ext. static", Unit: unit(c.ExternalStatic), Right: true},
		{Title: "Filter drop, in a table", Unit: unit(c.FilterDrop), Right: true},
		{Title: "Power", Unit: unit(c.BlowerPower), Right: true},
		{Title: "Rise", Unit: unit(c.TemperatureRise), Right: true},
		{Title: "Verdict"},
		{Title: "Air, watts", Unit: lang.T("against today"), Trend: true},
		{Title: "Per capacity", Unit: unit(s.AirflowPerCapacity)},
		{Title: "Face", Unit: unit(c.FaceVelocity)},
		{Title: "Media", Unit: unit(c.MediaVelocity)},
	}
}

// row writes an option. The ranges, where known, are of the clean filter.
func row(o *sizing.OptionResult, r *sizing.OptionRange, loaded bool, sys units.Locale) []string {
	c, spread := &o.Clean, r
	if loaded && o.Kind != sizing.KindNoFilter {
		c, spread = &o.Loaded, nil
	}
	if spread == nil {
		spread = &sizing.OptionRange{}
	}
	number := func(q units.Quantity) string { return table.Number(q, sys) }
	filtered := func(q units.Quantity) string {
		if o.Kind == sizing.KindNoFilter {
			return "–"
		}
		return table.Known(q, sys)
	}
	verdict := string(o.Verdict)
	if o.Kind == sizing.KindNoFilter {
		verdict = lang.T("never run so")
	}
	drop := "–"
	if o.Kind != sizing.KindNoFilter {
		drop = ranged(c.FilterDrop, spread.FilterDrop, sys)
	}
	return []string{
		sizing.OptionName(o.Name).Show(sys), ranged(c.Airflow, spread.Airflow, sys), ranged(c.ExternalStatic, spread.ExternalStatic, sys),
		drop, ranged(c.BlowerPower, spread.BlowerPower, sys), ranged(c.TemperatureRise, spread.TemperatureRise, sys),
		verdict, agreement(o, r), number(c.AirflowPerCapacity), filtered(c.FaceVelocity), filtered(c.MediaVelocity),
	}
}

// ranged writes a number with how far its range reaches; a range that is not
// known is left out.
func ranged[T interface {
	~float64
	units.Quantity
}](v T, r sizing.Range[T], sys units.Locale) string {
	text := table.Known(v, sys)
	if r == (sizing.Range[T]{}) {
		return text
	}
	return text + " ±" + table.Spread(r.Within(v), sys)
}

// agreement is the claim about an option on which its samples agree.
func agreement(o *sizing.OptionResult, r *sizing.OptionRange) string {
	switch {
	case o.Kind != sizing.KindOption:
		return "–"
	case r == nil:
		return lang.T("not known")
	}
	return lang.T(message.ID(r.AgainstToday))
}
