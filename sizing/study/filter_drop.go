package study

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// FilterDrops are the drops of an option's filters, clean: those in the grilles, by
// branch, and the one at the unit; zero: none there. Those in the grilles carry a share
// of the air each, so in the drop of all filters they count by a mean over all return air.
func (o *OptionResult) FilterDrops(c *Condition) (grilles []units.Pressure, unit units.Pressure) {
	all, _ := First(c.Parts, func(p PartDrop) bool { return p.Name == airpath.PartFilter })
	var weighted, air float64
	held := false
	for _, b := range c.Branches {
		grilles = append(grilles, b.FilterDrop)
		held = held || b.FilterDrop > 0
		weighted += float64(b.FilterDrop) * float64(b.Airflow)
		air += float64(b.Airflow)
	}
	switch {
	case !held:
		unit = all.Drop
	case slices.ContainsFunc(o.Places, func(p FilterPlace) bool { return p.Branch < 0 }):
		unit = max(0, all.Drop-units.Pressure(weighted/air))
	}
	return grilles, unit
}

// MeanDropWords say what a gauge would read over each filter of an option whose filter
// drop is a mean over all return air; empty where it is none.
func (o *OptionResult) MeanDropWords() message.Message {
	grilles, unit := o.FilterDrops(&o.Clean)
	each := message.Rows{Mark: ", "}
	for i, drop := range grilles {
		if drop > 0 {
			each.Items = append(each.Items, message.New("grille of {return} {drop}", "return", o.Clean.Branches[i].Name, "drop", drop))
		}
	}
	if len(each.Items) == 0 || len(grilles) == 1 && unit == 0 {
		return message.Message{}
	}
	if unit > 0 {
		each.Items = append(each.Items, message.New("at the unit {drop}", "drop", unit))
	}
	return message.New("The filter drop is that of all filters, mean over all return air. A gauge over each filter, clean, would read: {drops}.", "drops", each)
}
