package assets

import (
	"embed"
	"strings"
)

//go:embed help*.md
var helps embed.FS

// Help is the text behind F1: one text for each place of the window, the terms, and
// what each number rests on.
type Help struct {
	Places  map[string]string // by the heading over each: the name of the place
	Terms   []Term
	Numbers []Term
}

// Term is a term of the trade, or a number, and its sentences.
type Term struct{ Name, Text string }

// helpText is the file of a language, such as help.es.md, or the English one where
// there is none.
func helpText(language string) string {
	text, err := helps.ReadFile("help." + language + ".md")
	if err != nil {
		text, err = helps.ReadFile("help.md")
	}
	if err != nil {
		panic("assets: " + err.Error()) // embedded
	}
	return string(text)
}

// ReadHelp reads the help in a language; empty: English. The section of the places
// has a heading for each; the terms are a list with names in bold, the numbers one with
// names in italics. The headings may be translated.
func ReadHelp(language string) Help {
	h := Help{Places: map[string]string{}}
	for _, section := range strings.Split(helpText(language), "\n## ")[1:] {
		for _, place := range strings.Split(section, "\n### ")[1:] {
			name, text, _ := strings.Cut(place, "\n")
			h.Places[name] = strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "*", "")
		}
		for _, line := range strings.Split(section, "\n- **")[1:] {
			name, text, _ := strings.Cut(line, ".** ")
			h.Terms = append(h.Terms, Term{name, strings.Join(strings.Fields(text), " ")})
		}
		for _, line := range strings.Split(section, "\n- *")[1:] {
			if name, text, found := strings.Cut(line, ":* "); found {
				h.Numbers = append(h.Numbers, Term{name, strings.Join(strings.Fields(text), " ")})
			}
		}
	}
	return h
}
