package report

import (
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// ownersAssumptions are the paths of assumptions that an owner can confirm.
var ownersAssumptions = map[string]bool{
	"site.power_price": true, "site.cooling_hours": true, "site.dust": true,
	"slot.width": true, "slot.filter": true, "limits.change_months": true,
}

// basisSection is the section on the basis of the numbers.
func (d *document) basisSection(f *flow) {
	f.heading(d.say("How we know"))
	s := d.study
	texts := []string{d.say("We measured or described every part of today's resistance.")}
	if v := s.AssumedShare; v >= 0.005 {
		texts[0] = d.say("About {share} of today's resistance is based on usual values. Those parts have not been measured yet.", "share", share(v, d.System))
	}
	if loss := d.unexplainedLoss(); loss > 0 {
		texts = append(texts, d.say("{loss} of the resistance that we read is not explained by these parts.", "loss", about(loss, d.System)))
	}
	if d.plan.option.WattsAssumed || d.plan.today.WattsAssumed {
		texts = append(texts, d.say("The maker's table does not tell how much electricity the blower takes. We count with a usual figure, so its cost is less certain."))
	}
	if s.BlowerAssumed {
		texts = append(texts, d.say("The blower is a usual one of its size, not the maker's own."))
	}
	var confirmable []any
	for _, a := range s.Assumptions {
		if ownersAssumptions[a.Path] {
			confirmable = append(confirmable, a.In(d.System))
		}
	}
	if len(confirmable) > 0 {
		texts = append(texts, d.say("Taken as usual (tell us if yours is different): {assumptions}.", "assumptions", message.Rows{Mark: "; ", Items: confirmable}))
	}
	if len(confirmable) < len(s.Assumptions) {
		texts = append(texts, d.say("The calculations list every usual value. You may ask for them."))
	}
	if _, ok := d.known(d.plan.today); ok {
		texts = append(texts, d.say("A range holds nine in ten of the houses that fit what we know."))
		if note := d.word(sizing.UnsolvedNote(d.Ranges)); note != "" {
			texts = append(texts, note)
		}
	}
	texts = append(texts, d.say("All figures are rounded estimates, not promises. We read the gauge again after the work to see what was reached."))
	f.paragraph(f.plain(), strings.Join(texts, " "))
}
