package fieldpath

import (
	"strconv"
	"strings"

	"github.com/agext/levenshtein"

	"returnbench/sizing/message"
)

// OneOf asks for one of some words of a file.
func OneOf(words []string) message.Message {
	return message.New("one of {words}", "words", strings.Join(words, ", "))
}

// NearestName is a message with the nearest name of a list of fields, or with
// all names where none is near.
func NearestName(given string, fields []Field) message.Message {
	all := names(fields)
	if near := Nearest(given, all); near != "" {
		return message.Verbatim(strconv.Quote(near))
	}
	return OneOf(all)
}

// inPlaceOf is NearestName for a name in the middle of a path.
func inPlaceOf(given string, fields []Field) message.Message {
	all := names(fields)
	if near := Nearest(given, all); near != "" {
		return message.New("{name} in place of {given}", "name", strconv.Quote(near), "given", strconv.Quote(given))
	}
	return message.New("one of {words} in place of {given}", "words", strings.Join(all, ", "), "given", strconv.Quote(given))
}

// NearestWord is a message with the nearest word, and with all words.
func NearestWord(given string, words []string) message.Message {
	if near := Nearest(given, words); near != "" {
		return message.New("{word}; it may be one of {words}", "word", strconv.Quote(near), "words", strings.Join(words, ", "))
	}
	return OneOf(words)
}

// folded spells a word as in a file.
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
