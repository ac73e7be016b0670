package widgets

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/gui/lang"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Each term that labels name has its sentence in the glossary of each language, and a
// term comes before one that is part of it.
func TestTermsStandInTheGlossary(t *testing.T) {
	defer lang.Set(lang.Locale())
	for _, language := range append([]string{""}, message.Languages()...) {
		lang.Set(units.Locale{Language: language})
		for i, term := range terms {
			require.Contains(t, glossary(language), lang.T(term), "%q in %q", term, language)
			require.NotEmpty(t, Explain(term))
			require.Equal(t, glossary(language)[lang.T(term)], Explain(term), "another term is found in %q first", term)
			for _, later := range terms[i+1:] {
				require.False(t, holdsWords(string(later), string(term)), "%q is part of %q", term, later)
			}
		}
	}
}

func TestLabelsNameTerms(t *testing.T) {
	for label, want := range map[message.ID]string{
		"Target face velocity": "Face velocity: ", "Min. MERV": "MERV: ", "MERV as installed": "MERV: ", "Cooling tap": "Tap: ",
		"Free area (from grille type)": "Free area: ", "External static, of {limit}": "External static: ", "Rated external static": "Rated external static: ",
	} {
		require.Regexp(t, "^"+want, Explain(label), label)
	}
	for _, label := range []message.ID{"Tape width", "Stapler", "Airflow", "Name", ""} {
		require.Empty(t, Explain(label), label)
	}
}
