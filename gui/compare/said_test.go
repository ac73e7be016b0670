package compare

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/gui/guitest"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// An option that takes the filter out of a grille says so under the table.
func TestCompareSaysThatAGrilleLosesItsFilter(t *testing.T) {
	s, m, _, _ := made(t)
	j := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Filters: []filter.Filter{{Name: "pleated", Depth: units.Inch, MERV: 8}},
		Returns: []sizing.Return{{Name: "study", Filter: "pleated"}}, Slot: sizing.Slot{Filter: "pleated", Depth: units.Inch}}
	j.Returns[0].Grille.Width, j.Returns[0].Grille.Height = 20*units.Inch, 20*units.Inch
	kept := j.Clone().Returns
	bare := j.Clone().Returns
	bare[0].Filter = ""
	j.Options = []sizing.Option{{Name: "kept", Returns: kept, Price: 5}, {Name: "bare", Returns: bare, Price: 6}}
	m.Load(j, "")
	text := guitest.Words(s.Object())
	assert.Contains(t, text, "bare: The filter comes out of the grille of study: all air then passes the filter at the unit")
	assert.Regexp(t, `kept: The filter drop is that of all filters, mean over all return air\. A gauge over each filter, clean, would read: grille of study 0\.\d+ in\. w\.c\., at the unit 0\.\d+`, text)
	assert.NotContains(t, text, "bare: The filter drop")
	assert.NotContains(t, text, "kept: The filter comes out")
}
