package parse

import (
	"regexp"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

var (
	// numeral is the number that a text begins with, and what stands before it.
	numeral = regexp.MustCompile(`^([^\d.,]*)(\d[\d.,]*|[.,]\d[\d.,]*)`)
	// maybeThousands is a number whose mark may stand before three digits of a whole
	// number or before three decimals.
	maybeThousands = regexp.MustCompile(`^[1-9]\d{0,2}[.,]\d{3}$`)
)

const (
	pointWanted message.ID = "a comma may mean thousands or decimals; write 1200 or 1.2"
	commaWanted message.ID = "a point may mean thousands or decimals; write 1200 or 1,2"
	oneComma    message.ID = "a number has one comma, before its decimals; write 1200 or 1,2"
)

// decimalPoint gives the number that a text begins with a decimal point, which is how
// units read it. Where the decimal mark is a comma, a point that cannot stand before
// thousands is understood too. The fault is empty, or what is wrong with the mark;
// where the decimal mark is a point, the text is left as it is.
func decimalPoint(l units.Locale, text string) (string, message.ID) {
	at := numeral.FindStringSubmatchIndex(text)
	if !l.Comma || at == nil {
		return text, ""
	}
	before, number, after := text[:at[4]], text[at[4]:at[5]], text[at[5]:]
	points, commas := strings.Count(number, "."), strings.Count(number, ",")
	switch {
	case commas > 1:
		return text, oneComma
	case points > 1, points == 1 && commas == 1, points == 1 && maybeThousands.MatchString(number):
		return text, commaWanted
	}
	return before + strings.Replace(number, ",", ".", 1) + after, ""
}

// Marked writes the number that a text begins with, which has a decimal point, with
// the decimal mark of a locale.
func Marked(l units.Locale, text string) string {
	at := numeral.FindStringSubmatchIndex(text)
	if at == nil {
		return text
	}
	number := text[at[4]:at[5]]
	if strings.Contains(number, ",") {
		return text
	}
	return text[:at[4]] + l.Mark(number) + text[at[5]:]
}

// Everywhere writes a number with a decimal point so that it is read as the same
// whatever the decimal mark is: three decimals could be thousands, four cannot.
func Everywhere(number string) string {
	if maybeThousands.MatchString(number) {
		return number + "0"
	}
	return number
}
