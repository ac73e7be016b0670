package assets

import (
	_ "embed"
	"strings"
)

//go:embed help.md
var helpText string

// Help is the text behind F1: one text for each place of the window, and the terms.
type Help struct {
	Places map[string]string // by the name of the place
	Terms  []Term
}

// Term is a term of the trade and its sentence.
type Term struct{ Name, Text string }

// ReadHelp reads the help.
func ReadHelp() Help {
	h := Help{Places: map[string]string{}}
	for _, section := range strings.Split(helpText, "\n## ")[1:] {
		title, body, _ := strings.Cut(section, "\n")
		switch title {
		case "Places":
			for _, place := range strings.Split(body, "\n### ")[1:] {
				name, text, _ := strings.Cut(place, "\n")
				h.Places[name] = strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "*", "")
			}
		case "Terms":
			for _, line := range strings.Split(body, "\n- **")[1:] {
				name, text, _ := strings.Cut(line, ".** ")
				h.Terms = append(h.Terms, Term{name, strings.Join(strings.Fields(text), " ")})
			}
		}
	}
	return h
}
