package export

import (
	"regexp"
	"strings"
)

// plainNumber is a number, and a number with a unit, that begins with a sign.
var plainNumber = regexp.MustCompile(`^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?( ?[\pL%$°/²³. ]{0,24})?$`)

// Cell keeps a spreadsheet from reading words as a formula: a mark before them
// makes them a text. Every table that the program writes as text passes its
// words through it.
func Cell(text string) string {
	if text == "" || text == "-" || !strings.ContainsRune("=+-@\t\r", rune(text[0])) || plainNumber.MatchString(text) {
		return text
	}
	return "'" + text
}
