package report

import (
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// spanish are readers of Spanish with a decimal comma, in either family of units.
var spanish = []units.Locale{
	{System: units.InchPound, Comma: true, Language: "es"},
	{System: units.Metric, Comma: true, Language: "es"},
}

var pointInNumber = regexp.MustCompile(`.{0,60}\d\.\d.{0,30}`)

// withoutPoint holds that no number of a text has a decimal point. What is not the
// pages' own is left out: the version of the program and the numbers of documents.
func withoutPoint(t *testing.T, where, text string) {
	t.Helper()
	for _, own := range []string{"returnbench 0.1.0", "62.2"} {
		text = strings.ReplaceAll(text, own, "")
	}
	assert.Empty(t, pointInNumber.FindAllString(text, -1), where)
}

// inOrder are the words of a PDF in the order in which they were drawn.
func inOrder(pages [][]word) string {
	var out []string
	for _, page := range pages {
		for _, w := range page {
			out = append(out, w.text)
		}
	}
	return strings.Join(out, "\n")
}

// TestDecimalComma_Identity: on every page for a reader with a decimal comma no number
// has a point. The inputs at the end of the calculations stand as in the job file.
func TestDecimalComma_Identity(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		ranges, err := sizing.Sampling{Samples: 20, Seed: 2}.Ranges(context.Background(), job)
		require.NoError(t, err)
		for _, sys := range spanish {
			for _, a := range Audiences() {
				opts := testOptions(a, A4, sys)
				opts.Ranges = ranges
				text := inOrder(readPages(t, written(t, sevenLines(job, s.Proposed().Name), s, opts)))
				if a == Working {
					d := &document{Options: opts}
					end := strings.LastIndex(text, d.say(inputsTitle))
					require.Positive(t, end)
					text = text[:end]
				}
				withoutPoint(t, name+" for "+string(a)+" in "+sys.String(), text)
				if a == Customer {
					assert.Regexp(t, `\d,\d`, text)
				}
			}
		}
	}
}

func TestDecimalCommaInClass_Identity(t *testing.T) {
	for _, name := range assets.Lessons() {
		data, err := assets.OpenLesson(name)
		require.NoError(t, err)
		l, err := jobfile.ReadLesson(data)
		require.NoError(t, err)
		o, err := l.Run(sizing.Solve)
		require.NoError(t, err)
		for _, sys := range spanish {
			p, err := NewClass(o, Options{Paper: A4, System: sys, Version: "0.1.0"})
			require.NoError(t, err)
			var out bytes.Buffer
			require.NoError(t, p.Write(&out))
			withoutPoint(t, name, inOrder(readPages(t, out.Bytes())))
		}
	}
}

// TestSpanishLetters_Identity: the pages print the letters of Spanish, plain and bold,
// and the file names its language.
func TestSpanishLetters_Identity(t *testing.T) {
	const letters = "¿Peñón? ¡Sí! áéíóúüñ ÁÉÍÓÚÜÑ"
	for _, a := range []Audience{Customer, WorkOrder} {
		job, s := studied(t, "one-inch-slot")
		job = sevenLines(job, s.Proposed().Name)
		job.Customer.Name, job.Quote.Lines[0].Item, job.Quote.Message = letters, letters, letters
		opts := testOptions(a, Letter, spanish[0])
		opts.Firm = firm.Profile{Name: letters}
		pages, err := New(job, s, opts)
		require.NoError(t, err)
		assert.NotContains(t, strings.Join(pages.Warnings, "\n"), "□")
		var out bytes.Buffer
		require.NoError(t, pages.Write(&out))
		for reader, text := range texts(t, out.Bytes()) {
			assert.Contains(t, strings.Join(strings.Fields(text), " "), letters, reader)
			assert.NotContains(t, text, "□", reader)
		}
		assert.Contains(t, out.String(), "/Lang (es)")
	}
	for _, r := range letters {
		assert.True(t, newSheet(Letter).holds(r), "%q", r)
	}
}

// TestDates_Identity: a date is written as the reader's language does; one typed in
// words stays.
func TestDates_Identity(t *testing.T) {
	assert.Equal(t, "March 5, 2026", longDate("2026-03-05", units.IP))
	assert.Equal(t, "2026-03-05", shortDate("2026-03-05", units.IP))
	assert.Equal(t, "5 de marzo de 2026", longDate("2026-03-05", spanish[0]))
	assert.Equal(t, "05/03/2026", shortDate("2026-03-05", spanish[0]))
	for _, sys := range append([]units.Locale{units.IP}, spanish...) {
		assert.Equal(t, "in May", longDate("in May", sys))
		assert.Equal(t, "in May", shortDate("in May", sys))
	}
}
