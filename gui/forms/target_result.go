package forms

import (
	"fmt"
	"slices"

	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// show writes the answer, or what stands in its way.
func (s *Target) show() {
	sys := s.model.Units()
	if s.search.slow() {
		s.busy.Show()
	} else {
		s.busy.Hide()
	}
	text := s.fault
	switch {
	case s.of == nil:
		text = "Enter the cooling capacity or the design airflow first, under Start."
	case text != "":
	case s.search.running():
		text = "Trying ..."
	case s.got != nil:
		text = summary(s.got, sys)
	}
	if s.says.Text != text {
		s.says.SetText(text)
	}
	var ways, short []sizing.Upgrade
	var levers []sizing.RequiredDrop
	if s.got != nil {
		ways, short, levers = s.got.Upgrades, s.got.FallShort, s.got.RequiredDrops
	}
	s.ways.Set(wayColumns("Airflow", sys), wayRows(ways, false, sys))
	s.short.Set(wayColumns("Short by", sys), wayRows(short, true, sys))
	s.levers.Set(leverRows(levers, sys))
	s.none.Hidden = s.got == nil || len(ways) > 0
	s.none.SetText("Nothing tried here reaches it; the nearest are below. Parts that are assumed, such as the ducts of an assumed return, cannot be tried.")
	s.tellChosen()
	s.box.Refresh()
}

func summary(r *sizing.UpgradeSearch, sys units.Locale) string {
	text := fmt.Sprintf("Target %s with clean filters; today's house moves %s. ", r.Target.Show(sys), r.Today.Show(sys))
	if r.Today >= r.Target {
		text += "It is there already. "
	}
	if r.OffTable {
		text += "The airflow lies off the blower's table on today's tap. "
	} else {
		text += fmt.Sprintf("There the blower has %s of external static left on today's tap. ", r.Available.Show(sys))
	}
	text += fmt.Sprintf("%d sets of changes were tried. ", r.Tried)
	if slices.ContainsFunc(slices.Concat(r.Upgrades, r.FallShort), func(w sizing.Upgrade) bool { return !w.Priced }) {
		return text + "Where the work shows no price, the ten-year cost is not known. Enter prices under Requirements and prices."
	}
	return text + "Ten years are the work, power of blower and outdoor unit, and filters."
}

// wayColumns are the heads of a list; its second column is the airflow, or
// what is missing of it.
func wayColumns(second string, sys units.Locale) []table.Column {
	c, o := sizing.Condition{}, sizing.OptionResult{}
	unit := func(q units.Quantity) string { return table.Unit(q, sys) }
	return []table.Column{
		{Title: "What is done"}, {Title: second, Unit: unit(c.Airflow), Right: true},
		{Title: "Dirty", Unit: unit(c.Airflow) + " at change", Right: true},
		{Title: "Ext. static", Unit: unit(c.ExternalStatic), Right: true}, {Title: "Power", Unit: unit(c.BlowerPower), Right: true},
		{Title: "Work", Unit: unit(o.Upgrade), Right: true},
		{Title: "A year", Unit: unit(o.AnnualCost), Right: true}, {Title: "Ten years", Unit: unit(o.TenYearCost), Right: true}, {Title: "Verdict"},
	}
}

func wayRows(ways []sizing.Upgrade, short bool, sys units.Locale) [][]string {
	rows := make([][]string, len(ways))
	for i := range ways {
		w := &ways[i]
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
			w.Name(), table.Number(flow, sys), table.Number(r.Loaded.Airflow, sys), table.Number(r.Clean.ExternalStatic, sys),
			table.Number(r.Clean.BlowerPower, sys), work, table.Known(r.AnnualCost, sys), table.Known(r.TenYearCost, sys), string(r.Verdict),
		}
	}
	return rows
}

// leverRows tell what each part alone would have to come down to.
func leverRows(levers []sizing.RequiredDrop, sys units.Locale) ([]table.Column, [][]string) {
	l := sizing.RequiredDrop{}
	unit := table.Unit(l.Now, sys)
	heads := []table.Column{
		{Title: "Part"}, {Title: "Drop there", Unit: unit, Right: true}, {Title: "Required drop", Unit: unit, Right: true}, {Title: "Which means"},
	}
	rows := make([][]string, len(levers))
	for i, l := range levers {
		needed, means := table.Number(l.Needed, sys), ""
		switch {
		case !l.Possible:
			needed, means = "–", "not enough, even with no drop at all"
		case l.Needed >= l.Now:
			means = "it may stay"
		case l.Size != "":
			means = "this make in " + l.Size + ", or " + l.Face.Show(sys) + " of face"
		case l.Face > 0:
			means = l.Face.Show(sys) + " of face, more than any one nominal size"
		}
		rows[i] = []string{string(l.Part), table.Number(l.Now, sys), needed, means}
	}
	return heads, rows
}
