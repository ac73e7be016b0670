package forms

import (
	"slices"

	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// show writes the result, or why there is none.
func (s *Target) show() {
	sys := s.model.Units()
	if s.search.slow() {
		s.busy.Show()
	} else {
		s.busy.Hide()
	}
	text := s.fault
	switch {
	case s.study == nil:
		text = lang.T("Enter the cooling capacity or the design airflow first, under Start.")
	case text != "":
	case s.search.running():
		text = lang.T("Trying ...")
	case s.result != nil:
		text = summary(s.result, sys)
	}
	if s.status.Text != text {
		s.status.SetText(text)
	}
	var upgrades, fallShort []sizing.Upgrade
	var drops []sizing.RequiredDrop
	if s.result != nil {
		upgrades, fallShort, drops = s.result.Upgrades, s.result.FallShort, s.result.RequiredDrops
	}
	s.reaching.Set(upgradeColumns("Airflow", sys), upgradeRows(upgrades, false, sys))
	s.fallShort.Set(upgradeColumns("Short by", sys), upgradeRows(fallShort, true, sys))
	s.requiredDrops.Set(requiredDropRows(drops, sys))
	s.none.Hidden = s.result == nil || len(upgrades) > 0
	s.none.SetText(lang.T("Nothing tried here reaches it; the nearest are below. Parts that are assumed, such as the ducts of an assumed return, cannot be tried."))
	s.showVerdict()
	s.box.Refresh()
}

func summary(r *sizing.UpgradeSearch, sys units.Locale) string {
	sentences := message.Sentences{message.New("Target {target} with clean filters; today's house moves {airflow}.", "target", r.Target, "airflow", r.Today)}
	if r.Today >= r.Target {
		sentences = append(sentences, message.New("It is there already."))
	}
	if r.OffTable {
		sentences = append(sentences, message.New("The airflow lies off the blower's table on today's tap."))
	} else {
		sentences = append(sentences, message.New("There the blower has {static} of external static left on today's tap.", "static", r.Available))
	}
	sentences = append(sentences, message.New("{count} sets of changes were tried.", "count", r.Tried))
	if slices.ContainsFunc(slices.Concat(r.Upgrades, r.FallShort), func(w sizing.Upgrade) bool { return !w.Priced }) {
		sentences = append(sentences, message.New("Where the work shows no price, the ten-year cost is not known, and the fewest changes come first. Enter prices under Requirements and prices."))
	} else {
		sentences = append(sentences, message.New("Ten years are the work, power of blower and outdoor unit, and filters."))
	}
	return sentences.In(sys)
}

// upgradeColumns are the heads of a list of upgrades; its second column is the
// airflow, or the airflow missing.
func upgradeColumns(second message.ID, sys units.Locale) []table.Column {
	c, o := sizing.Condition{}, sizing.OptionResult{}
	unit := func(q units.Quantity) string { return table.Unit(q, sys) }
	return []table.Column{
		{Title: "What is done"}, {Title: second, Unit: unit(c.Airflow), Right: true},
		{Title: "Dirty", Unit: lang.T("{unit} at change", "unit", unit(c.Airflow)), Right: true},
		{Title: "Ext. static", Term: "External static", Unit: unit(c.ExternalStatic), Right: true}, {Title: "Power", Unit: unit(c.BlowerPower), Right: true},
		{Title: "Work", Unit: unit(o.Upgrade), Right: true},
		{Title: "A year", Unit: unit(o.AnnualCost), Right: true}, {Title: "Ten years", Unit: unit(o.TenYearCost), Right: true}, {Title: "Verdict"},
	}
}

func upgradeRows(upgrades []sizing.Upgrade, short bool, sys units.Locale) [][]string {
	rows := make([][]string, len(upgrades))
	for i := range upgrades {
		w := &upgrades[i]
		r := &w.Result
		flow := r.Clean.Airflow
		if short {
			flow = w.Lacks
		}
		work := "–"
		if w.Priced {
			work = table.Number(r.Upgrade, sys)
		}
		rows[i] = []string{
			w.In(sys), table.Number(flow, sys), table.Number(r.Loaded.Airflow, sys), table.Number(r.Clean.ExternalStatic, sys),
			table.Number(r.Clean.BlowerPower, sys), work, table.Known(r.AnnualCost, sys), table.Known(r.TenYearCost, sys), string(r.Verdict),
		}
	}
	return rows
}

// written is a name of the engine's for a reader.
func written(name any, sys units.Locale) string {
	return message.Rows{Items: []any{name}}.Show(sys)
}

// requiredDropRows list the drop that each part alone would need to have.
func requiredDropRows(drops []sizing.RequiredDrop, sys units.Locale) ([]table.Column, [][]string) {
	l := sizing.RequiredDrop{}
	unit := table.Unit(l.Now, sys)
	heads := []table.Column{
		{Title: "Part"}, {Title: "Drop there", Unit: unit, Right: true}, {Title: "Required drop", Unit: unit, Right: true}, {Title: "Which means"},
	}
	rows := make([][]string, len(drops))
	for i, l := range drops {
		needed, means := table.Number(l.Needed, sys), ""
		switch {
		case !l.Possible:
			needed, means = "–", lang.T("not enough, even with no drop at all")
		case l.Needed >= l.Now:
			means = lang.T("it may stay")
		case l.Size != "":
			means = message.Text(sys, "this make in {size}, or {area} of face", "size", l.Size, "area", l.Face)
		case l.Face > 0:
			means = message.Text(sys, "{area} of face, more than any one nominal size", "area", l.Face)
		}
		rows[i] = []string{written(l.Part, sys), table.Number(l.Now, sys), needed, means}
	}
	return heads, rows
}
