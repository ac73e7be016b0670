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
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// spanish are readers of Spanish with a decimal comma, in either family of units.
var spanish = []units.Locale{
	{System: units.InchPound, Comma: true, Language: "es"},
	{System: units.Metric, Comma: true, Language: "es"},
}

// pointed are numbers with a decimal point, and the numbers of documents, as 150.0.
var pointed = regexp.MustCompile(`\d+(?:\.\d+)+`)

// thousands of money are set apart by a point here.
var thousands = regexp.MustCompile(`\$\d{1,3}(\.\d{3})+\b`)

// withoutPoint holds that no number of a text has a decimal point. What stands in the
// engine's own words is left out: which mark it has there is a matter of their
// translation.
func withoutPoint(t *testing.T, where, text string, engine ...string) {
	t.Helper()
	told := map[string]bool{"62.2": true} // the number of a standard
	for _, words := range engine {
		for _, n := range pointed.FindAllString(words, -1) {
			told[n] = true
		}
	}
	text = thousands.ReplaceAllString(strings.ReplaceAll(text, "returnbench 0.1.0", ""), "")
	for _, line := range strings.Split(text, "\n") {
		for _, n := range pointed.FindAllString(line, -1) {
			assert.True(t, told[n], "%s: %s in %q", where, n, line)
		}
	}
}

// engineWords are what a Study says in words of its own.
func engineWords(s *sizing.Study, sys units.Locale) []string {
	var out []string
	for _, a := range s.Assumptions {
		out = append(out, a.In(sys), wordOf(a.Source, sys))
	}
	for _, f := range s.Findings {
		out = append(out, f.In(sys), wordOf(f.Source, sys))
	}
	for _, w := range s.Workings() {
		for _, step := range w.Steps {
			out = append(out, wordOf(step.Text, sys), wordOf(step.Source, sys))
			for _, in := range step.Inputs {
				what, _ := in.Term(sys)
				out = append(out, wordOf(what, sys))
			}
		}
	}
	return out
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

// TestDecimalComma: on every page for a reader with a decimal comma no number
// has a point. The inputs at the end of the calculations stand as in the job file.
func TestDecimalComma(t *testing.T) {
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
				withoutPoint(t, name+" for "+string(a)+" in "+sys.String(), text, engineWords(s, sys)...)
				if a != FieldSheet {
					assert.Regexp(t, `\d,\d`, text, name+" for "+string(a))
				}
			}
		}
	}
}

func TestDecimalCommaInClass(t *testing.T) {
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
			engine := append(o.Explain(sys), l.Ask(sys))
			for _, n := range l.Numbers {
				engine = append(engine, wordOf(n.Name(), sys))
			}
			for _, p := range l.Predictions {
				engine = append(engine, p.Text)
			}
			withoutPoint(t, name, inOrder(readPages(t, out.Bytes())), engine...)
		}
	}
}

// TestSpanishClassSheet: a sheet for a class in Spanish asks and answers in it,
// in its own words and in those of the demonstration, and leaves no English.
func TestSpanishClassSheet(t *testing.T) {
	for _, name := range assets.Lessons() {
		data, err := assets.OpenLesson(name)
		require.NoError(t, err)
		english, err := jobfile.ReadLesson(data)
		require.NoError(t, err)
		l, err := english.InWords(assets.LessonTexts(name, "es"))
		require.NoError(t, err)
		o, err := l.Run(sizing.Solve)
		require.NoError(t, err)
		for _, sys := range spanish {
			p, err := NewClass(o, Options{Paper: A4, System: sys})
			require.NoError(t, err)
			var out bytes.Buffer
			require.NoError(t, p.Write(&out))
			pages := readPages(t, out.Bytes())
			require.Len(t, pages, 2, name)
			front, back := pageText(pages[0]), pageText(pages[1])
			holds(t, name, front, l.Title, "Nombre", "Fecha", "Pregunta", l.Ask(sys), "¿Qué piensa usted? Marque una y diga por qué.", "Dibuje lo que espera", "Números", l.Move.Name)
			holds(t, name, back, "Respuesta: "+l.Title, "Por qué", "La casa, el equipo y los filtros son inventados.")
			holds(t, name, back, o.Explain(sys)...)
			for _, n := range l.Numbers {
				holds(t, name, back, message.Text(sys, n.Name()), o.Change(n).Words(sys))
			}
			for _, words := range []string{"Question", "Name ", "Date", "Numbers", "Answer", "Why", "invented", english.Title, english.Ask(sys)} {
				assert.NotContains(t, front+back, words, name)
			}
		}
	}
}

// TestSpanishLetters: the pages print the letters of Spanish, plain and bold,
// and the file names its language.
func TestSpanishLetters(t *testing.T) {
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

// TestDates: a date is written as the reader's language does; one typed in
// words stays.
func TestDates(t *testing.T) {
	assert.Equal(t, "March 5, 2026", longDate("2026-03-05", units.IP))
	assert.Equal(t, "2026-03-05", shortDate("2026-03-05", units.IP))
	assert.Equal(t, "5 de marzo de 2026", longDate("2026-03-05", spanish[0]))
	assert.Equal(t, "05/03/2026", shortDate("2026-03-05", spanish[0]))
	for _, sys := range append([]units.Locale{units.IP}, spanish...) {
		assert.Equal(t, "in May", longDate("in May", sys))
		assert.Equal(t, "in May", shortDate("in May", sys))
	}
}

// TestSpanishPagesFit: what a customer and a crew get takes no more pages in Spanish
// than in English, a work order three at most, and shortens no more words.
func TestSpanishPagesFit(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		for _, paper := range []Paper{Letter, A4} {
			for _, a := range []Audience{Customer, WorkOrder, FieldSheet} {
				for _, sys := range spanish {
					pages := func(sys units.Locale) (n, shortened int, text string) {
						got := readPages(t, written(t, job, s, testOptions(a, paper, sys)))
						text = inOrder(got)
						return len(got), strings.Count(text, "…"), text
					}
					n, shortened, _ := pages(units.Locale{System: sys.System})
					spanishPages, spanishShortened, text := pages(sys)
					if a == WorkOrder {
						n = max(n, 3) // the signatures may need a page of their own
					}
					assert.LessOrEqual(t, spanishPages, n, "%s for %s on %s", name, a, paper)
					assert.LessOrEqual(t, spanishShortened, shortened, "%s for %s on %s: %s", name, a, paper, text)
				}
			}
		}
	}
}
