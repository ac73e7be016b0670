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

// plain is the least size of words on a customer's page, black on white.
func (f *flow) plain() style { return style{size: 9.5} }

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

// proposal writes the customer's pages, with less detail beside the offer where
// all of it would need a third page.
func (d *document) proposal() {
	var rows []row
	for _, most := range details {
		f := d.newFlow(1)
		d.propose(f, most)
		rows = f.rows
		if len(d.pages(rows)) <= 2 {
			break
		}
	}
	d.print(rows)
}

// detail is how much stands beside the offer: so many findings, and so many lines
// of figures.
type detail struct {
	findings, figures int
	photo             float64 // height
}

var details = []detail{{mostFound, 11, 130}, {6, 11, 110}, {8, 6, 110}, {6, 6, 100}, {4, 6, 90}, {6, 0, 90}, {4, 0, 80}, {2, 0, 70}, {2, 0, 58}, {1, 0, 50}}

func (d *document) propose(f *flow, most detail) {
	d.letterhead(f, d.title, d.quoteFacts())
	f.gap(10)
	verdict := style{size: 14, bold: true}
	f.paragraph(verdict, d.verdictWords())
	if text := strings.TrimSpace(d.job.Quote.Message); text != "" {
		f.gap(3)
		for _, line := range f.cutLines(f.body(), text, f.width, 4) {
			f.add(f.textRow(f.body(), f.x, line))
		}
	}
	f.gap(8)
	d.tiles(f)
	f.gap(8)
	d.twoCharts(f)
	d.customerProblems(f, most.findings)
	if len(d.photos) > len(d.photoWarnings()) {
		f.gap(4)
		d.photoRows(f, 3, most.photo)
	}
	d.customerProposal(f)
	from := len(f.rows)
	d.prices(f)
	d.choices(f)
	d.accept(f)
	if len(f.rows) > from+1 && heightOf(f.rows[from:]) < signedHeight {
		f.keepAll(from + 1) // behind the white above it
	}
	d.customerComparison(f, most.figures)
	d.basisSection(f)
	d.ownerCautions(f)
}

// signedHeight is the largest height of price and signature for which they are kept on
// one page, so that the signer sees the price.
const signedHeight = 360

// quoteFacts stand at the right of the letterhead.
func (d *document) quoteFacts() []string {
	var out []string
	if n := d.job.Quote.Number; n != "" {
		out = append(out, d.say("Quote {number}", "number", n))
	}
	if d.Date != "" {
		out = append(out, longDate(d.Date, d.System))
	}
	if days := d.validDays(); days > 0 {
		out = append(out, d.say("Holds for {count} days", "count", days))
	}
	return out
}

func (d *document) validDays() int { return cmp.Or(d.job.Quote.ValidDays, d.Firm.ValidDays) }

// verdictWords are the proposal in one sentence.
func (d *document) verdictWords() string {
	p := d.plan
	if p.isToday() {
		return d.say("No work is proposed here.") + " " + d.todayWords()
	}
	offered := d.offeredWords()
	r, ok := d.known(p.option)
	if ok && r.MoreAir.Claim() != sizing.ClaimBetter && r.MoreAir.Claim() != sizing.ClaimWorse {
		return message.Sentences{offered, message.New("The change in air is too close to tell, so we do not promise it."), d.shortWords()}.In(d.System)
	}
	moves := message.New("We expect it to move {airflow} of air.", "airflow", about(p.option.Clean.Airflow, d.System))
	switch {
	case ok && r.MoreAir.Claim() == sizing.ClaimBetter:
		moves = message.New("It moves about {airflow} more air.", "airflow", between(r.AirflowGain.Low, r.AirflowGain.High, d.System))
	case ok:
		moves = message.New("It moves about {airflow} less air.", "airflow", between(-r.AirflowGain.High, -r.AirflowGain.Low, d.System))
	}
	return message.Sentences{offered, moves, d.reachWords()}.In(d.System)
}

// reachWords hold the air after the work beside the air that the system needs.
func (d *document) reachWords() message.Message {
	if short := d.shortWords(); !short.Empty() {
		return short
	}
	return message.New("We expect it to reach the {needed} that your system needs.", "needed", about(d.study.DesignAirflow, d.System))
}

// shortWords tell an airflow that stays short; empty where it does not.
func (d *document) shortWords() message.Message {
	then, need := d.plan.option.Clean.Airflow, d.study.DesignAirflow
	if !d.plan.option.Misses(sizing.AirflowShort, sizing.WhenClean) {
		return message.Message{}
	}
	return message.New("With a new filter it then moves about {airflow}, about {short} short of the {needed} that your system needs.",
		"airflow", about(then, d.System), "short", about(need-then, d.System), "needed", about(need, d.System))
}

// unreachedWords are the airflow and the static that the work leaves beyond their
// limits, with their figures.
func (d *document) unreachedWords() []string {
	c := &d.plan.option.Clean
	var out []string
	if need := d.study.DesignAirflow; d.plan.option.Misses(sizing.AirflowShort, sizing.WhenClean) {
		out = append(out, d.say("Short of air: {airflow} with a new filter, {short} less than the {needed} that the system needs.",
			"airflow", about(c.Airflow, d.System), "short", about(need-c.Airflow, d.System), "needed", about(need, d.System)))
	}
	if rated := d.study.RatedExternalStatic; d.plan.option.Misses(sizing.StaticHigh, sizing.WhenClean) {
		out = append(out, d.say("Over the rated pressure: the blower works against {static} with a new filter, {over} over the {rated} of the equipment.",
			"static", about(c.ExternalStatic, d.System), "over", about(c.ExternalStatic-rated, d.System), "rated", about(rated, d.System)))
	}
	return out
}

// unexplainedLoss is what the gauge found in the return beyond what is described, where
// the study reports it.
func (d *document) unexplainedLoss() units.Pressure {
	if d.study.AsFound == nil || !slices.ContainsFunc(d.study.Findings, func(f sizing.Finding) bool { return f.Code == sizing.CodeUnexplained }) {
		return 0
	}
	return d.study.AsFound.Unexplained
}

// unexplainedWords tell an owner of it.
func (d *document) unexplainedWords() []string {
	loss := d.unexplainedLoss()
	if loss == 0 {
		return nil
	}
	return []string{d.say("The gauge found a loss of {loss} in the return that the parts we saw do not explain. A crushed duct, a closed damper or a blocked grille may cause it. We look for it on site. Our figures still count it.",
		"loss", about(loss, d.System))}
}

// offeredWords name the option, and beside it what it costs.
func (d *document) offeredWords() message.Message {
	p := d.plan
	o := d.offerOf(p.option)
	args := []any{"option", p.option.Name, "price", d.total(o)}
	switch recommended := d.study.Recommendation.Option == p.option.Name; {
	case recommended && o.totals.Known:
		return message.New("We recommend: {option}, for {price}.", args...)
	case recommended:
		return message.New("We recommend: {option}. Its price is not known yet.", args...)
	case o.totals.Known:
		return message.New("We offer: {option}, for {price}.", args...)
	}
	return message.New("We offer: {option}. Its price is not known yet.", args...)
}

// tile is one large number before and after.
type tile struct{ label, before, after, note string }

// tiles are the three numbers that an owner keeps in mind.
func (d *document) tiles(f *flow) {
	const gap, high = 10.0, 74.0
	list := d.tileList()
	wide := (f.width - gap*float64(len(list)-1)) / float64(len(list))
	f.figure(high, func(y float64) {
		for i, t := range list {
			d.drawTile(t, f.x+float64(i)*(wide+gap), y, wide, high)
		}
	})
}

func (d *document) tileList() []tile {
	now, then := d.plan.today, d.plan.option
	list := []tile{
		{d.say("Air with a new filter, {unit}", "unit", flowUnit(d.System)), rounded(now.Clean.Airflow, d.System), rounded(then.Clean.Airflow, d.System),
			d.say("needed: {airflow}", "airflow", about(d.study.DesignAirflow, d.System))},
		{d.say("Months between filter changes"), rounded(now.Life, d.System), rounded(then.Life, d.System), ""},
		{d.say("Filter rating as it sits (MERV)"), fmt.Sprint(now.Efficiency.InstalledMERV), fmt.Sprint(then.Efficiency.InstalledMERV),
			d.say("1 is coarse, 16 is very fine")},
	}
	a, known := d.known(now)
	if b, ok := d.known(then); ok && known {
		list[0].note = d.spanNote(a.Airflow.Low, a.Airflow.High, b.Airflow.Low, b.Airflow.High)
		list[1].note = d.spanNote(a.Life.Low, a.Life.High, b.Life.Low, b.Life.High)
	}
	return list
}

// spanNote is the range of both numbers of a tile.
func (d *document) spanNote(lowA, highA, lowB, highB units.Quantity) string {
	span := func(a, b units.Quantity) string {
		if x, y := rounded(a, d.System), rounded(b, d.System); x != y {
			return x + "–" + y
		}
		return rounded(a, d.System)
	}
	if d.plan.isToday() {
		return d.say("likely {now}", "now", span(lowA, highA))
	}
	return d.say("likely {now}, then {then}", "now", span(lowA, highA), "then", span(lowB, highB))
}

func flowUnit(sys units.Locale) string {
	if sys.System == units.Metric {
		return "L/s"
	}
	return "cfm"
}

func (d *document) drawTile(t tile, x, y, w, h float64) {
	s := d.sheet
	s.fill(pale, x, y, w, h)
	label := style{size: 9.5}
	label, text := s.fit(label, t.label, w-12, 9)
	s.put(label, x+6, y+14, text)
	big := style{size: 25, bold: true}
	number := t.before
	if !d.plan.isToday() {
		number += " → " + t.after
	}
	big, number = s.fit(big, number, w-12, 12)
	s.put(big, x+6, y+45, number)
	note, text := s.fit(style{size: 9.5}, t.note, w-12, 9)
	s.put(note, x+6, y+64, text)
}

// bar is one bar of a small chart.
type bar struct {
	name      string
	value     float64
	low, high float64 // of its range; alike where there is none
	text      string
	after     bool
}

// smallChart is a chart of bars that anyone reads.
type smallChart struct {
	title string
	bars  []bar
	mark  float64 // a line to reach, or not to pass; zero: none
	words string  // of the mark
}

func (d *document) twoCharts(f *flow) {
	const gap = 18.0
	charts := []smallChart{d.airChart(), d.secondChart()}
	wide := (f.width - gap) / 2
	most := 0
	for _, c := range charts {
		most = max(most, len(c.bars))
	}
	high := 32 + 19*float64(most) + 12
	f.figure(high, func(y float64) {
		for i, c := range charts {
			d.drawBars(c, f.x+float64(i)*(wide+gap), y, wide)
		}
	})
}

func (d *document) airChart() smallChart {
	c := smallChart{title: d.say("Air through your system, {unit}", "unit", flowUnit(d.System)), words: d.say("needed: {airflow}", "airflow", rounded(d.study.DesignAirflow, d.System))}
	kind := units.Flow(0).Kind().Usual(d.System)
	c.mark = d.study.DesignAirflow.SI() / kind.Scale
	for _, o := range d.shown() {
		r, known := d.known(o)
		add := func(dirty bool, v, low, high units.Flow) {
			b := bar{name: d.barName(o, dirty), value: v.SI() / kind.Scale, text: rounded(v, d.System), after: o.Kind == sizing.KindOption}
			b.low, b.high = b.value, b.value
			if known {
				b.low, b.high = low.SI()/kind.Scale, high.SI()/kind.Scale
			}
			c.bars = append(c.bars, b)
		}
		add(false, o.Clean.Airflow, r.Airflow.Low, r.Airflow.High)
		add(true, o.Loaded.Airflow, r.LoadedAirflow.Low, r.LoadedAirflow.High)
	}
	return c
}

// shown are today and the proposal.
func (d *document) shown() []*sizing.OptionResult {
	if d.plan.isToday() {
		return []*sizing.OptionResult{d.plan.today}
	}
	return []*sizing.OptionResult{d.plan.today, d.plan.option}
}

// barName names a bar: when, and with which filter.
func (d *document) barName(o *sizing.OptionResult, dirty bool) string {
	switch today := o.Kind == sizing.KindToday; {
	case today && dirty:
		return d.say("Today, dirty filter")
	case today:
		return d.say("Today, new filter")
	case dirty:
		return d.say("After, dirty filter")
	}
	return d.say("After, new filter")
}

// secondChart is the filter's drop as a share of the rated pressure of the
// blower.
func (d *document) secondChart() smallChart {
	c := smallChart{title: d.say("Part of the rated pressure that the filter uses, %")}
	for _, o := range d.shown() {
		known, _ := d.known(o)
		for _, state := range []struct {
			dirty bool
			key   string
			at    *sizing.Condition
		}{{false, "filter_drop", &o.Clean}, {true, "filter_drop_loaded", &o.Loaded}} {
			v, ok := filterShare(state.at)
			if !ok {
				continue
			}
			b := bar{name: d.barName(o, state.dirty), value: 100 * v, low: 100 * v, high: 100 * v, text: share(v, d.System), after: o.Kind == sizing.KindOption}
			if r, ok := known.Of(state.key); ok && d.study.RatedExternalStatic > 0 {
				rated := d.study.RatedExternalStatic.SI()
				b.low, b.high = 100*r.Low/rated, 100*r.High/rated
			}
			c.bars = append(c.bars, b)
		}
	}
	return c
}

func (d *document) drawBars(c smallChart, x, y, w float64) {
	s := d.sheet
	t := style{size: 9.5}
	s.put(style{size: 10, bold: true}, x, y+10, s.cut(style{size: 10, bold: true}, c.title, w))
	name, number := 0.0, 0.0
	top := c.mark
	for _, b := range c.bars {
		name, number = max(name, s.width(t, b.name)), max(number, s.width(t, b.text))
		top = max(top, b.value, b.high)
	}
	if top == 0 {
		return
	}
	from := x + name + 6
	k := (w - name - number - 18) / top
	base := y + 20
	for i, b := range c.bars {
		at := base + 19*float64(i)
		ink := rule
		if b.after {
			ink = blue
		}
		s.fill(ink, from, at, b.value*k, 13)
		s.put(t, x, at+10, b.name)
		if b.high > b.low {
			s.line(black, 1, nil, from+b.low*k, at+6.5, from+b.high*k, at+6.5)
			s.line(black, 1, nil, from+b.low*k, at+3, from+b.low*k, at+10)
			s.line(black, 1, nil, from+b.high*k, at+3, from+b.high*k, at+10)
		}
		s.flushRight(style{size: 9.5, bold: true}, x+w, at+10, b.text)
	}
	foot := base + 19*float64(len(c.bars))
	s.line(black, 0.8, nil, from, base-3, from, foot)
	if c.mark > 0 {
		s.line(black, 1.2, []float64{3, 2}, from+c.mark*k, base-4, from+c.mark*k, foot)
		bold := style{size: 9.5, bold: true}
		s.flushRight(bold, min(from+c.mark*k+s.width(bold, c.words)/2, x+w), foot+10, c.words)
	}
	s.pen(black, 0.5, nil)
}

// customerProblems lists today's problems, worst first, each with what the proposal
// does about it.
func (d *document) customerProblems(f *flow, most int) {
	f.heading(d.say("What we found"))
	f.items(f.body(), append(d.measuredWords(), d.unexplainedWords()...))
	groups, more := d.plan.found(d.System, most)
	if len(groups) == 0 {
		f.items(f.body(), []string{d.say("The house stays within every limit that we checked.")})
	}
	for _, g := range groups {
		if g.effect != "" {
			f.paragraph(f.strong(), g.effect)
			f.rows[len(f.rows)-1].keep = true
		}
		f.items(f.body(), g.problems)
	}
	if more {
		f.paragraph(f.body(), d.say("The calculations list the smaller points. You may ask for them."))
	}
}

// customerProposal describes what is done and why it helps here.
func (d *document) customerProposal(f *flow) {
	p := d.plan
	if p.isToday() {
		return
	}
	f.heading(d.say("What we will do"))
	changes := p.changes(d.System)
	if len(changes) > mostChanges {
		changes = append(changes[:mostChanges:mostChanges], d.say("The other changes are on the work order."))
	}
	f.items(f.body(), changes)
	if short := d.unreachedWords(); len(short) > 0 {
		f.paragraph(f.strong(), d.say("The work does not reach this:"))
		f.rows[len(f.rows)-1].keep = true
		f.items(f.body(), short)
	}
	if why := d.whyWords(); len(why) > 0 {
		f.heading(d.whyTitle())
		f.paragraph(f.body(), strings.Join(why, " "))
	}
	if r := d.study.Recommendation; r.Option == p.option.Name {
		f.paragraph(f.body(), cmp.Or(d.say(reasonWords[r.Reason]), r.Why.Lead(d.System)))
		for _, n := range r.Notes {
			if n.Code != "cost_unknown" {
				f.paragraph(f.body(), n.In(d.System))
			}
		}
	}
	if added := p.added(d.System); len(added) > 0 {
		f.paragraph(f.body(), d.say("The change brings this with it:"))
		f.items(f.body(), added)
	}
}

func (d *document) whyTitle() string {
	if d.deeper() {
		return d.say("Why a deeper cabinet helps this house")
	}
	return d.say("Why this helps this house")
}

// deeper reports whether the filter at the unit becomes deeper.
func (d *document) deeper() bool {
	now, had := centralOf(d.plan.today)
	then, has := centralOf(d.plan.option)
	return had && has && then.Depth > now.Depth
}

// whyWords explain why the change helps, from the Study alone.
func (d *document) whyWords() []string {
	now, then := d.plan.today, d.plan.option
	var out []string
	area := func(a units.Area) string { return areaWords(a, d.System) }
	if d.deeper() {
		out = append(out, d.say("A deeper filter is made for air that moves faster, since its folds are tall. Yours would go from {now} to {then} of depth.",
			"now", measure(now.Places[0].Depth, d.System), "then", measure(then.Places[0].Depth, d.System)))
	}
	if then.FaceArea > now.FaceArea && now.FaceArea > 0 {
		out = append(out, d.say("The front of the filter grows from {now} to {then}, so the air can slow down.", "now", area(now.FaceArea), "then", area(then.FaceArea)))
	}
	if then.MediaArea > now.MediaArea && now.MediaArea > 0 {
		out = append(out, d.say("The paper folded inside it grows from {now} to {then}. More paper holds more dust and holds the air back less.", "now", area(now.MediaArea), "then", area(then.MediaArea)))
	}
	a, okA := filterShare(&now.Clean)
	b, okB := filterShare(&then.Clean)
	if okA && okB && d.share(a) != d.share(b) {
		if b < a {
			out = append(out, d.say("A new filter then uses {then} of the pressure that the unit is rated for. Today it uses {now}.", "then", d.share(b), "now", d.share(a)))
		} else {
			out = append(out, d.say("The new filter does use more of the rated pressure: {then} in place of {now}.", "then", d.share(b), "now", d.share(a)))
		}
	}
	x, y := partShare(&now.Clean, sizing.PartReturn), partShare(&then.Clean, sizing.PartReturn)
	if y < x && d.share(x) != d.share(y) {
		out = append(out, d.say("The return grilles and ducts then use {then} of it in place of {now}.", "then", d.share(y), "now", d.share(x)))
	}
	return out
}

func areaWords(a units.Area, sys units.Locale) string {
	if sys.System == units.Metric {
		return message.Fixed(a.SI(), 2).Show(sys) + string(nbsp) + "m²"
	}
	return message.Text(sys, "{area}\u00a0square feet", "area", message.Fixed(a.SI()/(units.Foot.SI()*units.Foot.SI()), 1))
}

// partShare is a part's drop as a share of the rated pressure.
func partShare(c *sizing.Condition, name sizing.PartName) float64 {
	for _, p := range c.Parts {
		if p.Name == name {
			return p.Share
		}
	}
	return 0
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

// customerComparison is the table of today beside the proposal.
func (d *document) customerComparison(f *flow, most int) {
	if most == 0 {
		return
	}
	cols := []column{{name: d.rangeWords(), share: 1.3}, {name: d.say("today"), share: 0.8}}
	title := d.say("Today in figures")
	if !d.plan.isToday() {
		title = d.say("Today and after the work")
		cols = append(cols, column{name: d.say("after"), share: 0.8})
	}
	f.heading(title)
	var cells [][]string
	for _, c := range comparisons[:most] {
		line := []string{d.say(c.name)}
		for _, o := range d.shown() {
			line = append(line, c.value(d, o))
		}
		cells = append(cells, line)
	}
	f.table(style{size: 9.25}, cols, cells)
	if !d.plan.isToday() {
		f.gap(3)
		f.paragraph(f.plain(), d.moneyWords())
	}
}

// ownersCautions are the cautions in an owner's words, in their order.
var ownersCautions = []message.ID{
	"Power, and gas where there is any, is off before the unit is opened.",
	"Cut sheet metal is sharp. Keep children and pets away from the work.",
	"Old duct tape and wrap may hold asbestos. If we find any, we stop and have it tested.",
	"Never run the blower with its door open or with the filter out.",
	"A return must not draw air from a garage, a bath, a kitchen, a closet, an attic, or near an open flame. The local code rules.",
	"After the work near any fuel-burning unit, its draft and burning are tested.",
	"This is work for licensed installers under the local code. The maker's own instructions come before this page.",
}

func (d *document) ownerCautions(f *flow) {
	f.heading(d.say("Safety"))
	from := len(f.rows)
	var cautions message.Sentences
	for _, id := range ownersCautions {
		cautions = append(cautions, message.New(id))
	}
	f.paragraph(f.plain(), cautions.In(d.System))
	f.keepAll(from)
}
