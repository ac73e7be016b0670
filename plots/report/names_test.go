package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// renamed are names that a person may give, each of which is an entry of the catalog.
var renamed = strings.NewReplacer(`"Two filter grilles on Birch Court"`, `"April"`, `"pleated 8, grille size"`, `"June"`,
	`"pleated 11, grille size"`, `"July"`, `"hall"`, `"May"`, `"den"`, `"August"`, `"a third grille"`, `"October"`,
	`"MERV 11 in both grilles"`, `"November"`, `"tap 4"`, `"December"`)

// A person's words stay as they are on every page, also where the catalog has an entry
// of the same words.
func TestNamesAreNotTranslated(t *testing.T) {
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

// What nobody named is called in the reader's language: the taps of a generic table and a
// filter that is known by its MERV alone. Taps of the same names in a table of the house's
// own keep them.
func TestWhatNobodyNamed(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, Equipment: sizing.Equipment{CoolingCapacity: 3 * units.Ton}}
	pages := func() (all string) {
		s, err := sizing.Solve(job)
		require.NoError(t, err)
		for _, who := range []Audience{Customer, WorkOrder, Working} {
			all += allText(readPages(t, written(t, job, s, testOptions(who, Letter, spanish[0]))))
		}
		return strings.Join(strings.Fields(all), " ")
	}
	text := pages()
	assert.Contains(t, text, "con toma alta")
	assert.Contains(t, text, "con toma media")
	assert.Contains(t, text, "genérico MERV 8")
	assert.NotRegexp(t, `\b(high|medium|low|generic)\b`, text)

	job.Equipment.Blower = blower.Generic(blower.PSC, 1200*units.CFM, 0)
	text = pages()
	assert.Contains(t, text, "con toma high")
	assert.NotContains(t, text, "toma alta")
}
