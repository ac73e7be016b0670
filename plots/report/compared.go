package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// rangeWords say what a range in the table is.
func (d *document) rangeWords() string {
	if _, ok := d.known(d.plan.today); ok {
		return "a range: as closely as we know it"
	}
	return "an estimate"
}

// comparison is one line of the customer's table.
type comparison struct {
	name  string
	value func(*document, *sizing.OptionResult) string
}

const (
	airLine     = "Air that the blower moves, filter new"
	airDueLine  = "Air that the blower moves, filter due for a change"
	shareLine   = "Share of the rated pressure that a new filter uses up"
	shareDue    = "Share that a filter due for a change uses up"
	powerLine   = "Electricity of the blower in cooling, filter new"
	powerDue    = "Electricity of the blower in cooling, filter due"
	costLine    = "Cost of the blower's electricity and of filters, a year"
	changesLine = "How often the filter is changed"
	leakLine    = "Air that slips past the filter uncleaned"
	meritLine   = "Fineness of the filter as it sits (MERV, 1 to 16)"
)

var comparisons = []comparison{
	{airLine, (*document).cleanAirflow},
	{airDueLine, (*document).loadedAirflow},
	{changesLine, (*document).changesOf},
	{costLine, (*document).costOf},
	{meritLine, meritWords},
	{powerLine, func(d *document, o *sizing.OptionResult) string { return d.powerOf(o, &o.Clean, "blower_power") }},
	{powerDue, func(d *document, o *sizing.OptionResult) string {
		return d.powerOf(o, &o.Loaded, "blower_power_loaded")
	}},
	{shareLine, func(d *document, o *sizing.OptionResult) string { return d.shareOf(o, &o.Clean, "filter_drop") }},
	{shareDue, func(d *document, o *sizing.OptionResult) string { return d.shareOf(o, &o.Loaded, "filter_drop_loaded") }},
	{leakLine, func(_ *document, o *sizing.OptionResult) string {
		if o.LeakFraction <= 0 {
			return "none counted: a sealed frame"
		}
		return "about " + share(o.LeakFraction)
	}},
}

func meritWords(_ *document, o *sizing.OptionResult) string {
	if o.Efficiency.InstalledMERV < o.Efficiency.MERV {
		return fmt.Sprintf("MERV %d (printed: %d)", o.Efficiency.InstalledMERV, o.Efficiency.MERV)
	}
	return fmt.Sprintf("MERV %d", o.Efficiency.MERV)
}

// known is how well the numbers of an option are known, where that was worked out.
func (d *document) known(o *sizing.OptionResult) (sizing.OptionRange, bool) {
	for _, r := range d.Ranges {
		if r.Name == o.Name && r.Kind == o.Kind {
			return r, true
		}
	}
	return sizing.OptionRange{}, false
}

// cleanAirflow is a range where there is one: one number would claim more than
// is known.
func (d *document) cleanAirflow(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return between(r.Airflow.Low, r.Airflow.High, d.System)
	}
	return about(o.Clean.Airflow, d.System)
}

func (d *document) loadedAirflow(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return between(r.LoadedAirflow.Low, r.LoadedAirflow.High, d.System)
	}
	return about(o.Loaded.Airflow, d.System)
}

// shareOf is what the filter takes of the rated pressure in one state.
func (d *document) shareOf(o *sizing.OptionResult, c *sizing.Condition, key string) string {
	known, _ := d.known(o)
	if r, ok := known.Of(key); ok && d.study.RatedExternalStatic > 0 {
		rated := float64(d.study.RatedExternalStatic)
		return shares(r.Low/rated, r.High/rated)
	}
	v, ok := filterShare(c)
	if !ok {
		return "–"
	}
	return share(v)
}

func (d *document) powerOf(o *sizing.OptionResult, c *sizing.Condition, key string) string {
	known, _ := d.known(o)
	if r, ok := known.Of(key); ok {
		return between(units.Power(r.Low), units.Power(r.High), d.System)
	}
	return about(c.BlowerPower, d.System)
}

func (d *document) costOf(o *sizing.OptionResult) string {
	if !o.AnnualKnown {
		return "not known"
	}
	if r, ok := d.known(o); ok {
		return "about " + between(r.AnnualCost.Low, r.AnnualCost.High, d.System)
	}
	return "about " + about(o.AnnualCost, d.System)
}

func (d *document) changesOf(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return changeWords(r.Life, d.System)
	}
	return changeWords(sizing.Range[units.Duration]{Low: o.Life, High: o.Life}, d.System)
}

// shares is a span of parts of one, one number where both round alike.
func shares(a, b float64) string {
	if share(a) == share(b) {
		return share(a)
	}
	return strings.TrimSuffix(share(a), string(nbsp)+"%") + " to " + share(b)
}

// changeWords tell how often a filter is changed, from a range of its life.
func changeWords(life sizing.Range[units.Duration], sys units.Locale) string {
	low, high := rounded(life.Low, sys), rounded(life.High, sys)
	if low == high {
		return "about every " + strings.ReplaceAll(monthWords(life.Low, sys), " ", string(nbsp))
	}
	return fmt.Sprintf("about every %s to %s", low, strings.ReplaceAll(monthWords(life.High, sys), " ", string(nbsp)))
}

func monthWords(life units.Duration, sys units.Locale) string {
	n := rounded(life, sys)
	if n == "1" {
		return "month"
	}
	return n + " months"
}

// moneyWords tell what the work costs, whether it pays for itself, and what
// that does not count.
func (d *document) moneyWords() string {
	o := d.plan.option
	text := "No price of the work is given yet. "
	if o.Upgrade > 0 {
		text = fmt.Sprintf("The sums count the work at about %s. ", about(o.Upgrade, d.System)) + d.payWords()
	}
	return text + "The cost a year holds the electricity of the blower and of the outdoor unit, for the same cooling as today, and the filters. " + d.uncountedWords()
}

func (d *document) payWords() string {
	o, today := d.plan.option, d.plan.today
	saved := today.AnnualCost - o.AnnualCost
	unlike := ""
	if words := o.Payback.Unlike().In(d.System); words != "" {
		unlike = ", " + words
	}
	switch {
	case !o.Payback.Known:
		return "Whether it pays for itself is not known. "
	case o.Payback.Pays:
		n := fmt.Sprintf("%.0f", o.Payback.Years.In(units.Year))
		switch n {
		case "0":
			return "It pays for itself within the first year" + unlike + ". "
		case "1":
			return "It pays for itself in about a year" + unlike + ". "
		}
		return "It pays for itself in about " + n + " years" + unlike + ". "
	case rounded(saved, d.System) == "0":
		return "Electricity and filters then cost about as much as today, so they do not pay it back" + unlike + ". "
	case saved < 0:
		return fmt.Sprintf("Electricity and filters then cost about %s more a year than today, so they do not pay it back%s. The work is for the air, not to save money. ", about(-saved, d.System), unlike)
	}
	return fmt.Sprintf("It saves about %s a year, too little to pay the work back%s. ", about(saved, d.System), unlike)
}

// uncountedWords say what no sum on the page holds.
func (d *document) uncountedWords() string {
	running := ""
	if ratio, known := sizing.CoolingTime(d.study, d.plan.option); known {
		switch change := 100 * (1 - ratio); {
		case change >= 0.5:
			running = fmt.Sprintf("It counts that the cooling runs about %.0f %% shorter to cool as today. ", change)
		case change <= -0.5:
			running = fmt.Sprintf("It counts that the cooling has to run about %.0f %% longer to cool as today. ", -change)
		}
	}
	return running + "It does not count how long the equipment lasts, comfort or cleaner air."
}
