package paste

import (
	"regexp"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Mark is the decimal mark of a pasted table.
type Mark int

const (
	AsItLooks Mark = iota // a comma is a decimal mark between semicolons alone
	Point                 // 1,234.5
	Comma                 // 1.234,5
)

// MarkWords are how the marks are called, in their order.
var MarkWords = []message.ID{"as it looks", "point, as in 1,234.5", "comma, as in 1.234,5"}

// UsualMark is the mark of a paste before the person chooses another.
func UsualMark(l units.Locale) Mark {
	if l.Comma {
		return Comma
	}
	return AsItLooks
}

var (
	numeral = regexp.MustCompile(`\d[\d.,]*\d|\d`)
	// grouped is a number with a comma before each three digits.
	grouped = regexp.MustCompile(`\b\d{1,3}(,\d{3})+(\.\d+)?\b`)
	// groupedByPoints is a number with a point before each three digits.
	groupedByPoints = regexp.MustCompile(`^[1-9]\d{0,2}(\.\d{3})+(,\d+)?$`)
)

// ReadAs reads a table whose numbers have a decimal mark that the person chose.
func ReadAs(text string, mark Mark) *Table {
	switch mark {
	case Comma:
		text = numeral.ReplaceAllStringFunc(text, func(n string) string {
			if groupedByPoints.MatchString(n) {
				n = strings.ReplaceAll(n, ".", "")
			}
			if strings.Contains(n, ".") || strings.Count(n, ",") > 1 {
				return n // a decimal point, or more than one number
			}
			return strings.Replace(n, ",", ".", 1)
		})
	case Point:
		if strings.ContainsAny(text, "\t;") || spaced(text) != nil || spacedAcross(text) != nil {
			text = grouped.ReplaceAllStringFunc(text, func(n string) string { return strings.ReplaceAll(n, ",", "") })
		}
	}
	return Read(text)
}
