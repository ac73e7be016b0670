package compare

import (
	"fmt"

	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// line is one row of the comparison.
type line struct {
	title string
	cell  func(*sizing.OptionResult, units.System) string
	// filtered rows say nothing of the house with no filter.
	filtered bool
}

// both shows a figure with a clean filter and at the change limit.
func both[T units.Quantity](of func(*sizing.Condition) T) func(*sizing.OptionResult, units.System) string {
	return func(o *sizing.OptionResult, sys units.System) string {
		clean, loaded := of(&o.Clean), of(&o.Loaded)
		if clean.SI() == 0 { // not known
			return "–"
		}
		if o.Kind == "no_filter" {
			return clean.Kind().Show(clean.SI(), sys)
		}
		return clean.Kind().Number(clean.SI(), sys) + " / " + loaded.Kind().Show(loaded.SI(), sys)
	}
}

func one[T units.Quantity](of func(*sizing.OptionResult) T) func(*sizing.OptionResult, units.System) string {
	return func(o *sizing.OptionResult, sys units.System) string {
		q := of(o)
		if q.SI() == 0 {
			return "–"
		}
		return q.Kind().Show(q.SI(), sys)
	}
}

func words(of func(*sizing.OptionResult) string) func(*sizing.OptionResult, units.System) string {
	return func(o *sizing.OptionResult, _ units.System) string { return of(o) }
}

// lines are the rows, in the order of the story: air, pressure, power, heat,
// what the filter holds back, time and money, verdict.
var lines = []line{
	{"Airflow, clean / loaded", both(func(c *sizing.Condition) units.Flow { return c.Airflow }), false},
	{"External static", both(func(c *sizing.Condition) units.Pressure { return c.ExternalStatic }), false},
	{"Filter drop", both(func(c *sizing.Condition) units.Pressure { return c.FilterDrop }), true},
	{"Return static at the blower", both(func(c *sizing.Condition) units.Pressure { return c.ReturnStatic }), false},
	{"Blower power", both(func(c *sizing.Condition) units.Power { return c.BlowerPower }), false},
	{"Temperature rise", both(func(c *sizing.Condition) units.TemperatureDifference { return c.TemperatureRise }), false},
	{"Air leaving the coil", both(func(c *sizing.Condition) units.Temperature { return c.CoilAirLeaving }), false},
	{"Face velocity", both(func(c *sizing.Condition) units.Speed { return c.FaceVelocity }), true},
	{"Media velocity", both(func(c *sizing.Condition) units.Speed { return c.MediaVelocity }), true},
	{"Media area", one(func(o *sizing.OptionResult) units.Area { return o.MediaArea }), true},
	{"MERV, as installed", words(func(o *sizing.OptionResult) string {
		return fmt.Sprintf("%d, %d", o.Efficiency.MERV, o.Efficiency.InstalledMERV)
	}), true},
	{"Air that slips round the filter", words(func(o *sizing.OptionResult) string { return fmt.Sprintf("%.1f %%", 100*o.LeakFraction) }), true},
	{"Time to the change limit", one(func(o *sizing.OptionResult) units.Duration { return o.Life }), true},
	{"Filters a year", words(func(o *sizing.OptionResult) string { return fmt.Sprintf("%.1f", o.FiltersPerYear) }), true},
	{"Power and filters a year", one(func(o *sizing.OptionResult) units.Money { return o.AnnualCost }), true},
	{"Upgrade", one(func(o *sizing.OptionResult) units.Money { return o.Upgrade }), true},
	{"Ten years' cost", one(func(o *sizing.OptionResult) units.Money { return o.TenYearCost }), true},
	{"Pays back", words(payback), true},
	{"Verdict", words(func(o *sizing.OptionResult) string { return string(o.Verdict) }), true},
}

func payback(o *sizing.OptionResult) string {
	switch {
	case o.Kind != "option" || o.Upgrade == 0:
		return "–"
	case !o.Payback.Pays:
		return "does not pay back"
	}
	return "in " + fmt.Sprintf("%.1f years", o.Payback.Years.In(units.Year))
}

// comparison is a column an option, a row a figure. The house with no filter
// is there to show what filters cost; a blower is never run so.
func comparison(s *sizing.Study, sys units.System) ([]widgets.Column, [][]string) {
	heads := []widgets.Column{{Title: ""}}
	for i := range s.Options {
		heads = append(heads, widgets.Column{Title: s.Options[i].Name})
	}
	rows := make([][]string, len(lines))
	for i, l := range lines {
		rows[i] = []string{l.title}
		for k := range s.Options {
			o := &s.Options[k]
			cell := "–"
			if !l.filtered || o.Kind != "no_filter" {
				cell = l.cell(o, sys)
			}
			rows[i] = append(rows[i], cell)
		}
	}
	return heads, rows
}
