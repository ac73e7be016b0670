package export

import (
	"math"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// name is the name of an option: its own, or a word for the house today and without
// a filter.
func name(o *sizing.OptionResult, l units.Locale) string {
	switch {
	case o.Kind == sizing.KindToday && o.Name == sizing.TodayName:
		return message.Text(l, "today")
	case o.Kind == sizing.KindNoFilter && o.Name == sizing.NoFilterName:
		return message.Text(l, "no filter")
	}
	return o.Name
}

// optionRow is an option with its filter in one state.
type optionRow struct {
	*sizing.OptionResult
	state message.ID
	at    *sizing.Condition
}

func optionRows(s *sizing.Study) []optionRow {
	var out []optionRow
	for i := range s.Options {
		o := &s.Options[i]
		out = append(out, optionRow{o, "clean", &o.Clean})
		if o.Kind != sizing.KindNoFilter {
			out = append(out, optionRow{o, "loaded", &o.Loaded})
		}
	}
	return out
}

var optionBrief = []column[optionRow]{
	{"option", func(r optionRow) any { return named{r.OptionResult} }},
	{"filter", func(r optionRow) any { return r.state }},
	{"airflow", func(r optionRow) any { return r.at.Airflow }},
	{"per capacity", func(r optionRow) any { return r.at.AirflowPerCapacity }},
	{"ext. static", func(r optionRow) any { return r.at.ExternalStatic }},
	{"filter drop", func(r optionRow) any { return r.at.FilterDrop }},
	{"face", func(r optionRow) any { return r.at.FaceVelocity }},
	{"blower", func(r optionRow) any { return r.at.BlowerPower }},
	{"heat rise", func(r optionRow) any { return had(r.at.TemperatureRise) }},
	{"verdict", func(r optionRow) any { return r.Verdict }},
}

var optionFull = []column[optionRow]{
	{"option", func(r optionRow) any { return named{r.OptionResult} }},
	{"kind", func(r optionRow) any { return r.Kind }},
	{"place", func(r optionRow) any { return r.Place }},
	{"filter", func(r optionRow) any { return r.Filter }},
	{"state", func(r optionRow) any { return r.state }},
	{"airflow", func(r optionRow) any { return r.at.Airflow }},
	{"airflow per capacity", func(r optionRow) any { return had(r.at.AirflowPerCapacity) }},
	{"external static", func(r optionRow) any { return r.at.ExternalStatic }},
	{"filter drop", func(r optionRow) any { return r.at.FilterDrop }},
	{"return static", func(r optionRow) any { return r.at.ReturnStatic }},
	{"face velocity", func(r optionRow) any { return had(r.at.FaceVelocity) }},
	{"media velocity", func(r optionRow) any { return had(r.at.MediaVelocity) }},
	{"blower power", func(r optionRow) any { return r.at.BlowerPower }},
	{"fan efficacy", func(r optionRow) any { return r.at.FanEfficacy }},
	{"heating airflow", func(r optionRow) any { return had(r.at.HeatingAirflow) }},
	{"temperature rise", func(r optionRow) any { return had(r.at.TemperatureRise) }},
	{"coil air leaving", func(r optionRow) any { return had(r.at.CoilAirLeaving) }},
	{"total capacity", func(r optionRow) any { return had(r.at.TotalCapacity) }},
	{"face area", func(r optionRow) any { return had(r.FaceArea) }},
	{"media area", func(r optionRow) any { return had(r.MediaArea) }},
	{"merv", func(r optionRow) any { return counted(r.Efficiency.MERV) }},
	{"installed merv", func(r optionRow) any { return counted(r.Efficiency.InstalledMERV) }},
	{"leak fraction", func(r optionRow) any { return r.LeakFraction }},
	{"life", func(r optionRow) any { return had(r.Life) }},
	{"annual cost", func(r optionRow) any { return when(r.AnnualKnown, r.AnnualCost) }},
	{"ten-year cost", func(r optionRow) any { return when(r.TenYearKnown, r.TenYearCost) }},
	{"verdict", func(r optionRow) any { return r.Verdict }},
	{"watts assumed", func(r optionRow) any { return r.WattsAssumed }},
}

var moneyBrief = []column[*sizing.OptionResult]{
	{"option", func(o *sizing.OptionResult) any { return named{o} }},
	{"MERV", func(o *sizing.OptionResult) any { return o.Efficiency.MERV }},
	{"as installed", func(o *sizing.OptionResult) any { return o.Efficiency.InstalledMERV }},
	{"past the filter", func(o *sizing.OptionResult) any { return percent(o.LeakFraction) }},
	{"filter lasts", func(o *sizing.OptionResult) any { return o.Life }},
	{"until", func(o *sizing.OptionResult) any { return o.ReplacedBecause }},
	{"a year", func(o *sizing.OptionResult) any { return when(o.AnnualKnown, o.AnnualCost) }},
	{"upgrade", func(o *sizing.OptionResult) any { return when(o.UpgradeKnown, o.Upgrade) }},
	{"ten years", func(o *sizing.OptionResult) any { return when(o.TenYearKnown, o.TenYearCost) }},
	{"pays back", func(o *sizing.OptionResult) any { return payback(o) }},
}

// named is an option by its name.
type named struct{ *sizing.OptionResult }

// Show writes the name.
func (n named) Show(l units.Locale) string { return name(n.OptionResult, l) }

func payback(o *sizing.OptionResult) any {
	if o.Payback == (sizing.Payback{}) {
		return "-"
	}
	return o.Payback
}

// when is a sum of money where it is known; else it has no value.
func when(known bool, m units.Money) units.Money {
	if !known {
		return units.Money(math.NaN())
	}
	return m
}

func percent(share float64) message.Message {
	return message.New("{share} %", "share", message.Fixed(100*share, 1))
}

// had is a quantity that a house may lack; zero then has no value.
func had[T interface {
	~float64
	units.Quantity
}](q T) T {
	if q == 0 {
		return T(math.NaN())
	}
	return q
}

// counted is a count that may not be known: zero has no value.
func counted(n int) any {
	if n == 0 {
		return nil
	}
	return n
}
