package report

import (
	"cmp"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

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
		text := message.ID("The front of the filter grows from {now} to {then}: room for the added air.")
		if sizing.Short(then.Clean.FaceVelocity, now.Clean.FaceVelocity) {
			text = "The front of the filter grows from {now} to {then}, so the air can slow down."
		}
		out = append(out, d.say(text, "now", area(now.FaceArea), "then", area(then.FaceArea)))
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
