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
	// grouped is a number whose thousands stand apart by spaces that do not break, or
	// by the other mark where nothing else can be meant: with a decimal mark of its own
	// after them, or more than once. Between digits and a unit the space must break, so
	// that 15 3/4 stays what the trade means by it.
	grouped = map[bool]*regexp.Regexp{
		false: regexp.MustCompile(`^[1-9]\d{0,2}(?:(?:,\d{3})+\.\d*|(?:,\d{3}){2,}|(?:[\x{a0}\x{2009}\x{202f}]\d{3})+(?:\.\d*)?)`),
		true:  regexp.MustCompile(`^[1-9]\d{0,2}(?:(?:\.\d{3})+,\d*|(?:\.\d{3}){2,}|(?:[\x{a0}\x{2009}\x{202f}]\d{3})+(?:,\d*)?)`),
	}
	// maybeThousands is a number whose mark may stand before three digits of a whole
	// number or before three decimals.
	maybeThousands = regexp.MustCompile(`^[1-9]\d{0,2}[.,]\d{3}$`)
)

const (
	pointWanted message.ID = "a comma may mean thousands or decimals; write 1200 or 1.2"
	commaWanted message.ID = "a point may mean thousands or decimals; write 1200 or 1,2"
	oneComma    message.ID = "a number has one comma, before its decimals; write 1200 or 1,2"
)

// decimalPoint gives the number that a text begins with a decimal point and without
// marks of thousands, which is how units read it. Thousands are taken off where they
// stand in threes and can be nothing else: 1.200,5 and 1.200.000 where the decimal mark
// is a comma. One point alone before three digits (1.200) stays a fault, however the
// program itself prints an amount: a person with the other mark in his fingers means a
// thousandth of it. Where the decimal mark is a comma, a point that cannot stand before
// thousands is understood too. The fault is empty, or what is wrong with the mark.
func decimalPoint(l units.Locale, text string) (string, message.ID) {
	if number, ok := ungrouped(l, text); ok {
		return number, ""
	}
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

// ungrouped takes the thousands apart that a text begins with, and gives the number a
// decimal point; ok is false where there are none to be sure of.
func ungrouped(l units.Locale, text string) (number string, ok bool) {
	at := numeral.FindStringSubmatchIndex(text)
	if at == nil {
		return text, false
	}
	before, rest := text[:at[4]], text[at[4]:]
	found := grouped[l.Comma].FindString(rest)
	after := rest[len(found):]
	if found == "" || after != "" && strings.ContainsAny(after[:1], ".,/0123456789") {
		return text, false
	}
	decimal, thousands := ".", ","
	if l.Comma {
		decimal, thousands = ",", "."
	}
	whole := strings.NewReplacer(thousands, "", "\u00a0", "", "\u2009", "", "\u202f", "", decimal, ".").Replace(found)
	return before + whole + after, true
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
