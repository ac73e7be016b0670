package report

import (
	"cmp"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// plain is the least size of words on a customer's page, black on white.
func (f *flow) plain() style { return style{size: 9.5} }

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

// detail is how much is printed beside the offer: so many findings, and so many lines
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

// shortWords name an airflow that stays short; empty where it does not.
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

// unexplainedWords describe it to an owner.
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
