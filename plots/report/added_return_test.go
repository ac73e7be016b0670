package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
)

// A return without a name is named by its number in the reader's language. One like
// today's, added to it, is new though neither has a name.
func TestReturnsWithoutNames(t *testing.T) {
	job, _ := studied(t, "two-returns")
	today := job.Clone().Returns
	for i := range today {
		today[i].Name = ""
	}
	job.Returns = today
	job.Options = []sizing.Option{{Name: "one more", Returns: append(sizing.Job{Returns: today}.Clone().Returns, today[1])}}
	text := wordsOf(t, job, WorkOrder, "one more")
	assert.Contains(t, text, "A new return, return 3: ")
	assert.NotContains(t, text, "A new return, return 2: ")
	assert.NotContains(t, text, "taken out of use")
	opts := testOptions(WorkOrder, Letter, spanish[0])
	opts.Proposed = "one more"
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	text = strings.Join(strings.Fields(allText(readPages(t, written(t, job, s, opts)))), " ")
	assert.Contains(t, text, "Un retorno nuevo, retorno 3: ")
	assert.NotRegexp(t, `\breturn \d`, text)

	job.Options[0].Returns = job.Clone().Returns[1:] // the second alone stays
	text = wordsOf(t, job, WorkOrder, "one more")
	assert.NotContains(t, text, "A new return")
	assert.Contains(t, text, `The return "return 1" is taken out of use.`)
}

// A filter that comes out of a grille is on the work order, with the reason.
func TestWorkOrderTakesAFilterOutOfAGrille(t *testing.T) {
	job, _ := studied(t, "two-returns")
	bare := job.Clone().Returns
	bare[0].Filter = ""
	job.Options = []sizing.Option{
		{Name: "cabinet", Returns: bare, Slot: sizing.Slot{Width: 0.6, Height: 0.6, Depth: 0.1}},
		{Name: "bare", Returns: bare},
	}
	first := job.Returns[0].Name
	text := wordsOf(t, job, WorkOrder, "cabinet")
	assert.Contains(t, text, "Take the filter out of the grille of "+first+" and leave it out: all air then passes the filter at the unit")
	assert.NotContains(t, text, "Take the filter out of the grille of "+job.Returns[1].Name)
	assert.Contains(t, wordsOf(t, job, WorkOrder, "bare"), "Take the filter out of the grille of "+first+" and leave it out: its air is then not filtered.")
	assert.Contains(t, wordsOf(t, job, Customer, "cabinet"), "Take the filter out of the grille of "+first)
}
