package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
)

// ownersAssumptions are the paths of what was assumed of which an owner can say
// whether it is so.
var ownersAssumptions = map[string]bool{
	"site.power_price": true, "site.cooling_hours": true, "site.dust": true,
	"slot.width": true, "slot.filter": true, "limits.change_months": true,
}

// howWeKnow tells what the numbers rest on.
func (d *document) howWeKnow(f *flow) {
	f.heading("How we know")
	s := d.study
	text := "We measured or described every part of today's resistance. "
	if v := s.AssumedShare; v >= 0.005 {
		text = fmt.Sprintf("About %s of today's resistance rests on usual values. Those parts have not been measured yet. ", share(v))
	}
	if s.BlowerAssumed {
		text += "The blower is a usual one of its size, not the maker's own. "
	}
	var told []string
	for _, a := range s.Assumptions {
		if ownersAssumptions[a.Path] {
			told = append(told, a.In(d.System))
		}
	}
	if len(told) > 0 {
		text += "Taken as usual (tell us if yours is different): " + strings.Join(told, "; ") + ". "
	}
	if len(told) < len(s.Assumptions) {
		text += "The calculations list every usual value. You may ask for them. "
	}
	if _, ok := d.known(d.plan.today); ok {
		text += "A range holds nine in ten of the houses that fit what we know. "
		if note := sizing.UnsolvedNote(d.Ranges); !note.Empty() {
			text += note.In(d.System) + " "
		}
	}
	text += "All figures are rounded estimates, not promises. We read the gauge again after the work to see what was reached."
	f.paragraph(f.plain(), text)
}
