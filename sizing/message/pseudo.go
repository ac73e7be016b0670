package message

import (
	"regexp"
	"strings"
)

// Pseudo is the language of a test: the English text with an accent on every letter.
// A text of a window that holds plain letters, and is neither a name that a person
// gave nor a unit, was not written from the catalog.
const Pseudo = "x-pseudo"

// writtenMark is the mark of a number, and none between the parts of a clause: 4.1.2.
var writtenMark = regexp.MustCompile(`(^|[^\d.])(\d+)\.(\d+)($|[^\d.])`)

const (
	letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
	accents = "áƀćďéƒǵĥíĵḱĺḿńóṕɋŕśţúṽŵẋýźÁɃĆĎÉƑǴĤÍĴḰĹḾŃÓṔɊŔŚŢÚṼŴẊÝŹ"
)

var accent = func() *strings.Replacer {
	marked := []rune(accents)
	var pairs []string
	for i, r := range letters {
		pairs = append(pairs, string(r), string(marked[i]))
	}
	return strings.NewReplacer(pairs...)
}()

// accented leaves the names of arguments as they are. A number that is written in the
// text has the mark of the reader.
func accented(p pieces) pieces {
	for i := 0; i < len(p); i += 2 {
		p[i] = writtenMark.ReplaceAllString(accent.Replace(p[i]), "$1$2·$3$4")
	}
	return p
}
