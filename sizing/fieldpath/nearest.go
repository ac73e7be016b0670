package fieldpath

import (
	"fmt"
	"strings"

	"github.com/agext/levenshtein"
)

// NearestName says which name of a list of fields is meant, or what all are.
func NearestName(given string, fields []Field) string {
	all := names(fields)
	if near := Nearest(given, all); near != "" {
		return fmt.Sprintf("%q", near)
	}
	return "one of " + strings.Join(all, ", ")
}

// NearestWord says which word is meant, and what all are.
func NearestWord(given string, words []string) string {
	all := "one of " + strings.Join(words, ", ")
	if near := Nearest(given, words); near != "" {
		return fmt.Sprintf("%q; it may be %s", near, all)
	}
	return all
}

// folded spells a word as files do.
var folded = strings.NewReplacer("-", "_", " ", "_")

// Nearest finds the right spelling of a word, "" where none is near. A word that
// is the start or the end of a name is near it.
func Nearest(given string, right []string) string {
	const longest = 60
	if len(given) > longest {
		return ""
	}
	best, least := "", 1+max(2, len(given)/3)
	word := folded.Replace(strings.ToLower(given))
	for _, r := range right {
		d := levenshtein.Distance(word, r, nil)
		if len(word) >= 4 && (strings.HasPrefix(r, word+"_") || strings.HasSuffix(r, "_"+word)) {
			d = min(d, 1)
		}
		if d < least && d < len(r) {
			best, least = r, d
		}
	}
	return best
}
