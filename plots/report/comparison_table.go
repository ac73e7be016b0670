package report

import (
	"math"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// rangeWords explain the ranges in the table.
func (d *document) rangeWords() string {
	if _, ok := d.known(d.plan.today); ok {
		return d.say("a range: as closely as we know it")
	}
	return d.say("an estimate")
}

// comparison is one line of the customer's table.
type comparison struct {
	name  message.ID
	value func(*document, *sizing.OptionResult) string
}

const (
	airLine     message.ID = "Air that the blower moves, filter new"
	airDueLine  message.ID = "Air that the blower moves, filter due for a change"
	shareLine   message.ID = "Share of the rated pressure that a new filter uses up"
	shareDue    message.ID = "Share that a filter due for a change uses up"
	powerLine   message.ID = "Electricity of the blower in cooling, filter new"
	powerDue    message.ID = "Electricity of the blower in cooling, filter due"
	costLine    message.ID = "Cost of electricity and filters, a year"
	tenYearLine message.ID = "The same over ten years, with the price of the work"
	changesLine message.ID = "How often the filter is changed"
	leakLine    message.ID = "Air that slips past the filter uncleaned"
	mervLine    message.ID = "Fineness of the filter as it sits (MERV, 1 to 16)"
)

var comparisons = []comparison{
	{airLine, (*document).cleanAirflow},
	{airDueLine, (*document).loadedAirflow},
	{changesLine, (*document).changesOf},
	{costLine, (*document).costOf},
	{tenYearLine, (*document).tenYearsOf},
	{mervLine, mervWords},
	{powerLine, func(d *document, o *sizing.OptionResult) string { return d.powerOf(o, &o.Clean, "blower_power") }},
	{powerDue, func(d *document, o *sizing.OptionResult) string {
		return d.powerOf(o, &o.Loaded, "blower_power_loaded")
	}},
	{shareLine, func(d *document, o *sizing.OptionResult) string { return d.shareOf(o, &o.Clean, "filter_drop") }},
	{shareDue, func(d *document, o *sizing.OptionResult) string { return d.shareOf(o, &o.Loaded, "filter_drop_loaded") }},
	{leakLine, func(d *document, o *sizing.OptionResult) string {
		if o.LeakFraction <= 0 {
			return d.say("none counted: a sealed frame")
		}
		return d.say("about {share}", "share", share(o.LeakFraction, d.System))
	}},
}

func mervWords(d *document, o *sizing.OptionResult) string {
	if o.Efficiency.InstalledMERV < o.Efficiency.MERV {
		return d.say("MERV {installed} (printed: {printed})", "installed", o.Efficiency.InstalledMERV, "printed", o.Efficiency.MERV)
	}
	return d.say("MERV {merv}", "merv", o.Efficiency.MERV)
}

// known is the ranges of an option's numbers, where they were calculated.
func (d *document) known(o *sizing.OptionResult) (sizing.OptionRange, bool) {
	for _, r := range d.Ranges {
		if r.Name == o.Name && r.Kind == o.Kind {
			return r, true
		}
	}
	return sizing.OptionRange{}, false
}

// cleanAirflow is a range where there is one: a single number would claim too
// much accuracy.
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

// shareOf is the filter's drop as a share of the rated pressure in one state.
func (d *document) shareOf(o *sizing.OptionResult, c *sizing.Condition, key string) string {
	known, _ := d.known(o)
	if r, ok := known.Of(key); ok && d.study.RatedExternalStatic > 0 {
		rated := float64(d.study.RatedExternalStatic)
		return shares(r.Low/rated, r.High/rated, d.System)
	}
	v, ok := filterShare(c)
	if !ok {
		return "–"
	}
	return share(v, d.System)
}

func (d *document) powerOf(o *sizing.OptionResult, c *sizing.Condition, key string) string {
	if c.BlowerPower == 0 {
		return "–" // a blower's table without watts
	}
	known, _ := d.known(o)
	if r, ok := known.Of(key); ok {
		return between(units.Power(r.Low), units.Power(r.High), d.System)
	}
	return about(c.BlowerPower, d.System)
}

func (d *document) costOf(o *sizing.OptionResult) string {
	if !o.AnnualKnown {
		return d.say(notKnown)
	}
	if r, ok := d.known(o); ok {
		return d.say("about {cost}", "cost", between(r.AnnualCost.Low, r.AnnualCost.High, d.System))
	}
	return d.say("about {cost}", "cost", about(o.AnnualCost, d.System))
}

// tenYearsOf is the cost over ten years in today's money, the work included.
func (d *document) tenYearsOf(o *sizing.OptionResult) string {
	if !o.TenYearKnown {
		return d.say(notKnown)
	}
	if r, ok := d.known(o); ok {
		return d.say("about {cost}", "cost", between(r.TenYearCost.Low, r.TenYearCost.High, d.System))
	}
	return d.say("about {cost}", "cost", about(o.TenYearCost, d.System))
}

func (d *document) changesOf(o *sizing.OptionResult) string {
	if r, ok := d.known(o); ok {
		return changeWords(r.Life, d.System)
	}
	return changeWords(sizing.Range[units.Duration]{Low: o.Life, High: o.Life}, d.System)
}

// shares is a range of shares, one number where both ends round to the same.
func shares(a, b float64, sys units.Locale) string {
	low, high := share(a, sys), share(b, sys)
	if low == high {
		return low
	}
	return message.Text(sys, "{low} to {high}", "low", strings.TrimSuffix(low, string(nbsp)+"%"), "high", high)
}

// changeWords are how often a filter is changed, from a range of its life.
func changeWords(life sizing.Range[units.Duration], sys units.Locale) string {
	low, high := rounded(life.Low, sys), rounded(life.High, sys)
	switch {
	case low != high:
		return message.Text(sys, "about every {low} to {high}\u00a0months", "low", low, "high", high)
	case low == "1":
		return message.Text(sys, "about every month")
	}
	return message.Text(sys, "about every {months}\u00a0months", "months", low)
}

// moneyWords are the cost of the work, whether it pays for itself, and what
// that leaves out.
func (d *document) moneyWords() string {
	o := d.plan.option
	texts := []string{d.say("No price of the work is given yet.")}
	if o.Upgrade > 0 {
		texts = []string{d.say("The sums count the work at about {price}.", "price", about(o.Upgrade, d.System)), d.payWords()}
	}
	texts = append(texts, d.say("The cost a year holds the electricity of the blower and of the outdoor unit, for the same cooling as today, and the filters."))
	if o.TenYearKnown {
		texts = append(texts, d.say("The sum over ten years is in today's money."))
	}
	return strings.Join(append(texts, d.uncountedWords()...), " ")
}

// unlike is the note that the filters differ in MERV; empty where they do not.
func (d *document) unlike() message.Message {
	switch p := d.plan.option.Payback; {
	case p.MERV > p.TodayMERV:
		return message.New("with a finer filter: MERV {installed} as installed, {today} today", "installed", p.MERV, "today", p.TodayMERV)
	case p.MERV < p.TodayMERV:
		return message.New("with a coarser filter: MERV {installed} as installed, {today} today", "installed", p.MERV, "today", p.TodayMERV)
	}
	return message.Message{}
}

func (d *document) payWords() string {
	o, today := d.plan.option, d.plan.today
	saved := today.AnnualCost - o.AnnualCost
	unlike := d.unlike()
	// say chooses between a sentence for filters of equal MERV and one for
	// others.
	say := func(alike, other message.ID, args ...any) string {
		if unlike.Empty() {
			return d.say(alike, args...)
		}
		return d.say(other, append(args, "difference", unlike)...)
	}
	switch {
	case !o.Payback.Known:
		return d.say("Whether it pays for itself is not known.")
	case o.Payback.Pays:
		switch n := math.RoundToEven(o.Payback.Years.In(units.Year)); n {
		case 0:
			return say("It pays for itself within the first year.", "It pays for itself within the first year, {difference}.")
		case 1:
			return say("It pays for itself in about a year.", "It pays for itself in about a year, {difference}.")
		default:
			return say("It pays for itself in about {years} years.", "It pays for itself in about {years} years, {difference}.", "years", message.Fixed(n, 0))
		}
	case rounded(saved, d.System) == "0":
		return say("Electricity and filters then cost about as much as today, so they do not pay it back.",
			"Electricity and filters then cost about as much as today, so they do not pay it back, {difference}.")
	case saved < 0:
		return say("Electricity and filters then cost about {sum} more a year than today, so they do not pay it back. The work is for the air, not to save money.",
			"Electricity and filters then cost about {sum} more a year than today, so they do not pay it back, {difference}. The work is for the air, not to save money.",
			"sum", about(-saved, d.System))
	}
	return say("It saves about {sum} a year, too little to pay the work back.", "It saves about {sum} a year, too little to pay the work back, {difference}.", "sum", about(saved, d.System))
}

// uncountedWords name what is in no sum on the page.
func (d *document) uncountedWords() []string {
	var texts []string
	if ratio, known := sizing.CoolingTime(d.study, d.plan.option); known {
		switch change := 100 * (1 - ratio); {
		case change >= 0.5:
			texts = append(texts, d.say("It counts that the cooling runs about {share} % shorter to cool as today.", "share", message.Fixed(change, 0)))
		case change <= -0.5:
			texts = append(texts, d.say("It counts that the cooling has to run about {share} % longer to cool as today.", "share", message.Fixed(-change, 0)))
		}
	}
	return append(texts, d.say("It does not count how long the equipment lasts, comfort or cleaner air."))
}
