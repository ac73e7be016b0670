package report

import (
	"fmt"
	"strings"
)

// ownersAssumptions are the paths of what was assumed of which an owner can say
// whether it is so.
var ownersAssumptions = map[string]bool{
	"site.power_price": true, "site.cooling_hours": true, "site.dust": true,
	"slot.width": true, "slot.filter": true, "limits.change_months": true,
}

func (d *document) customerRests(f *flow) {
	f.heading("What this rests on")
	s := d.study
	text := "Every part of today's resistance was described or measured. "
	if v := s.AssumedShare; v >= 0.005 {
		text = fmt.Sprintf("About %s of today's resistance stands on usual values, because nobody has measured or described those parts yet. ", share(v))
	}
	if s.BlowerAssumed {
		text += "The blower is an ordinary one of its size, not the maker's own table. "
	}
	var told []string
	for _, a := range s.Assumptions {
		if ownersAssumptions[a.Path] {
			told = append(told, a.In(d.System))
		}
	}
	if len(told) > 0 {
		text += "Taken as usual, so tell us where it is otherwise: " + strings.Join(told, "; ") + ". "
	}
	if len(told) < len(s.Assumptions) {
		text += "Every usual value that stands in for one not known is listed on the pages of working, which you may ask for. "
	}
	if _, ok := d.known(d.plan.today); ok {
		text += "Where a figure is written as from one number to another, nine in ten of the houses that fit what is known lie within it. "
	}
	text += "All figures are rounded estimates, not promises; the pressures and the airflow read after the work tell what was reached."
	f.paragraph(f.small(), text)
}
