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
