package published

import (
	"regexp"
	"strings"
)

var (
	sentenceEnd = regexp.MustCompile(`[.!?]+(\s|$)`)
	vowels      = regexp.MustCompile(`[aeiouy]+`)
	silentEnd   = regexp.MustCompile(`([^aeioulty]|[^aeiou]t)e$|[^aeiouydt]ed$|[^aeiouycgsxz]es$`)
)

// syllables counts groups of vowels, without a silent end; a number or a sign is
// one.
func syllables(word string) int {
	word = strings.ToLower(word)
	if len(word) > 3 {
		word = silentEnd.ReplaceAllString(word, "")
	}
	return max(len(vowels.FindAllString(word, -1)), 1)
}

// ReadingGrade is the reading grade of Kincaid and others 1975, "Derivation of new
// readability formulas for Navy enlisted personnel", from memory:
//
//	0.39 words / sentences + 11.8 syllables / words - 15.59
func ReadingGrade(texts []string) float64 {
	var sentences, words, sounds float64
	for _, text := range texts {
		for _, sentence := range sentenceEnd.Split(strings.ReplaceAll(text, "w.c.", "wc"), -1) {
			list := strings.FieldsFunc(sentence, func(r rune) bool { return r == ' ' || r == '\u00a0' || r == '-' })
			if len(list) == 0 {
				continue
			}
			sentences++
			for _, w := range list {
				words++
				sounds += float64(syllables(strings.Trim(w, ",;()\"'")))
			}
		}
	}
	return 0.39*words/sentences + 11.8*sounds/words - 15.59
}
