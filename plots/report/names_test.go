package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// renamed are names that a person may give, each of which is an entry of the catalog.
var renamed = strings.NewReplacer(`"Two filter grilles on Birch Court"`, `"April"`, `"pleated 8, grille size"`, `"June"`,
	`"pleated 11, grille size"`, `"July"`, `"hall"`, `"May"`, `"den"`, `"August"`, `"a third grille"`, `"October"`,
	`"MERV 11 in both grilles"`, `"November"`, `"tap 4"`, `"December"`)

// A person's words stay as they are on every page, also where the catalog has an entry
// of the same words.
func TestNamesAreNotTranslated_Identity(t *testing.T) {
	whole, _ := studied(t, "two-returns")
	data, err := jobfile.Encode(whole)
	require.NoError(t, err)
	job, err := jobfile.Decode([]byte(renamed.Replace(string(data))))
	require.NoError(t, err)
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	all := ""
	for _, who := range []Audience{Customer, WorkOrder, Working, FieldSheet} {
		opts := testOptions(who, Letter, spanish[0])
		opts.Proposed, opts.Firm = "October", firm.Profile{Name: "January"}
		text := allText(readPages(t, written(t, job, s, opts)))
		assert.NotRegexp(t, `(?i)\b(abril|mayo|junio|julio|agosto|octubre|noviembre|diciembre|enero)\b`, text, who)
		all += text
	}
	for _, name := range []string{"April", "June", "July", "May", "August", "October", "November", "December", "January"} {
		assert.Regexp(t, `\b`+name+`\b`, all)
	}
}
