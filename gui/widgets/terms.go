package widgets

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/sizing/message"
)

// terms are those of the glossary that labels name; one that holds another comes before it.
var terms = []message.ID{
	"Rated external static", "External static", "Return static", "Face velocity", "Media velocity", "Media area", "MERV", "Free area", "Tap",
	"Temperature rise", "Design airflow", "Catalog pressure drop", "Filter drop", "Flex slack", "Loss coefficient", "Roughness",
	"Sensible heat ratio", "EER", "Ten-year cost", "Operating point", "Nominal size", "Test port", "Unexplained loss",
}

// Explain is the sentence of the glossary on the term that a label names, in the
// language of the window; empty where it names none.
func Explain(label message.ID) string {
	for _, term := range terms {
		if holdsWords(string(label), string(term)) {
			return glossary(lang.Locale().Language)[lang.T(term)]
		}
	}
	return ""
}

// glossary has the terms of a language by their names.
var glossary = func() func(language string) map[string]string {
	var lock sync.Mutex
	read := map[string]map[string]string{}
	return func(language string) map[string]string {
		lock.Lock()
		defer lock.Unlock()
		if read[language] == nil {
			read[language] = map[string]string{}
			for _, t := range assets.ReadHelp(language).Terms {
				read[language][t.Name] = t.Name + ": " + t.Text
			}
		}
		return read[language]
	}
}()

// holdsWords reports whether a text holds words, whole and in their order.
func holdsWords(text, words string) bool {
	text, words = strings.ToLower(text), strings.ToLower(words)
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return false
		}
		before, _ := utf8.DecodeLastRuneInString(text[:from+i])
		after, _ := utf8.DecodeRuneInString(text[from+i+len(words):])
		if !unicode.IsLetter(before) && !unicode.IsLetter(after) {
			return true
		}
		from += i + len(words)
	}
}
