package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// offer is what the proposal sells.
type offer struct {
	option *sizing.OptionResult
	lines  []quote.Line
	totals quote.Totals
}

// offerOf is the offer for an option: the lines typed for it, else its own price
// as one line.
func (d *document) offerOf(o *sizing.OptionResult) offer {
	lines := d.job.Quote.Of(o.Name)
	if len(lines) == 0 {
		lines = []quote.Line{{Item: d.say("The work above, complete: {option}", "option", o.Name), Price: o.Upgrade}}
	}
	return offer{o, lines, quote.Sum(lines, cmp.Or(d.job.Quote.TaxRate, d.Firm.TaxRate))}
}

// priceWarning is the warning that the lines typed do not add up to the price
// in the study.
func (d *document) priceWarning() []string {
	o := d.plan.option
	if d.For != Customer || d.plan.isToday() || len(d.job.Quote.Of(o.Name)) == 0 {
		return nil
	}
	t := d.offerOf(o).totals
	if !t.Known || !o.UpgradeKnown || t.Net == o.Upgrade {
		return nil
	}
	return []string{d.say("the lines of the quote add up to {sum} before tax, the price of {option} is {price}: the cost over ten years counts with the price of the option",
		"sum", d.money(t.Net), "option", o.Name, "price", d.money(o.Upgrade))}
}

// prices are the lines of the offer and their sums.
func (d *document) prices(f *flow) {
	if d.plan.isToday() {
		return
	}
	o := d.offerOf(d.plan.option)
	f.heading(d.say("Price"))
	from := len(f.rows)
	var cells [][]string
	for _, l := range o.lines {
		cells = append(cells, []string{l.Item, fmt.Sprint(l.Quantity()), d.money(l.Price), d.money(l.Amount())})
	}
	f.table(f.plain(), []column{{name: d.say("item"), share: 1}, {name: d.say("count"), right: true}, {name: d.say("each"), right: true, least: 58}, {name: d.say("amount"), right: true, least: 66}}, cells)
	bold := style{size: 11, bold: true}
	sum := func(t style, name, amount string) {
		f.add(row{height: t.leading() + 2, draw: func(y float64) {
			f.flushRight(t, f.x+f.width-90, y+t.ascent()+1, name)
			f.flushRight(t, f.x+f.width-4, y+t.ascent()+1, amount)
		}})
	}
	switch t := o.totals; {
	case !t.Known:
		sum(bold, d.say("Total"), d.say(notKnown))
	case t.TaxRate > 0:
		sum(f.plain(), d.say("Before tax"), d.money(t.Net))
		sum(f.plain(), d.say("Tax, {share} %", "share", percent(t.TaxRate, d.System)), d.money(t.Tax))
		sum(bold, d.say("Total"), d.money(t.Total))
	default:
		sum(f.plain(), d.say("Tax"), d.say(notKnown))
		sum(bold, d.say("Total before tax"), d.money(t.Net))
	}
	if len(f.rows)-from < 14 {
		f.keepAll(from)
	}
	if terms := strings.TrimSpace(d.Firm.Terms); terms != "" {
		f.gap(3)
		f.paragraph(f.plain(), terms)
	}
}

const notKnown message.ID = "not known"

// money is a price to the cent.
func (d *document) money(m units.Money) string {
	if m == 0 {
		return d.say(notKnown)
	}
	return d.System.Dollars(message.Fixed(m.In(units.Dollar), 2).Show(d.System))
}

func (d *document) share(v float64) string { return share(v, d.System) }

func percent(v float64, sys units.Locale) string {
	return sys.Mark(strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", 100*v), "0"), "."))
}

// choices puts up to three options side by side, the least price first.
func (d *document) choices(f *flow) {
	if !d.job.Quote.Choices || d.plan.isToday() {
		return
	}
	list := d.choiceList()
	if len(list) < 2 {
		return
	}
	f.heading(d.say("Your choices"))
	cols := []column{{name: "", share: 1}}
	for _, o := range list {
		name := o.Name
		if o.Name == d.study.Recommendation.Option {
			name = d.say("{option} (we recommend)", "option", o.Name)
		}
		cols = append(cols, column{name: name, share: 1})
	}
	rows := []comparison{
		{"Air, new filter", (*document).cleanAirflow},
		{"Air, dirty filter", (*document).loadedAirflow},
		{"Filter changed", (*document).changesOf},
		{"Filter rating as it sits", mervWords},
		{"Total price", func(d *document, o *sizing.OptionResult) string { return d.total(d.offerOf(o)) }},
		{"I choose (mark one)", func(*document, *sizing.OptionResult) string { return "[   ]" }},
	}
	var cells [][]string
	for _, c := range rows {
		line := []string{d.say(c.name)}
		for _, o := range list {
			line = append(line, c.value(d, o))
		}
		cells = append(cells, line)
	}
	from := len(f.rows)
	f.table(f.plain(), cols, cells)
	f.keepAll(from)
}

func (d *document) total(o offer) string {
	switch {
	case !o.totals.Known:
		return d.say(notKnown)
	case o.totals.TaxRate > 0:
		return d.money(o.totals.Total)
	}
	return d.say("{price} before tax", "price", d.money(o.totals.Net))
}

// choiceList is the proposal and the two options that are priced next to it.
func (d *document) choiceList() []*sizing.OptionResult {
	list := []*sizing.OptionResult{d.plan.option}
	for _, keep := range []bool{true, false} { // the priced first
		for i := range d.study.Options {
			o := &d.study.Options[i]
			if o.Kind == sizing.KindOption && o.Name != d.plan.option.Name && d.offerOf(o).totals.Known == keep && len(list) < 3 {
				list = append(list, o)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b *sizing.OptionResult) int {
		x, y := d.offerOf(a).totals, d.offerOf(b).totals
		if x.Known != y.Known {
			return order(x.Known)
		}
		return cmp.Compare(x.Net, y.Net)
	})
	return list
}

func order(first bool) int {
	if first {
		return -1
	}
	return 1
}

// accept is where the customer signs.
func (d *document) accept(f *flow) {
	if d.plan.isToday() {
		return
	}
	f.gap(4)
	holds := d.say("How long this offer holds: {line} Please sign to accept it.", "line", blankLine(16))
	if days := d.validDays(); days > 0 {
		holds = d.say("This offer holds for {count} days from its date. Please sign to accept it.", "count", days)
	}
	f.paragraph(f.plain(), holds)
	f.add(row{height: 38, draw: func(y float64) {
		base, half := y+26, (f.width-20)/2
		for i, name := range []message.ID{"Customer, date", "For the company, date"} {
			x := f.x + float64(i)*(half+20)
			f.line(black, 0.8, nil, x, base, x+half, base)
			t, fitted := f.fit(f.plain(), d.say(name), half, 8)
			f.put(t, x, base+11, fitted)
		}
	}})
	f.rows[len(f.rows)-2].keep = true
}
