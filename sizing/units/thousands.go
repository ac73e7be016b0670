package units

import "strings"

// Thousands sets the thousands of a number apart, as it is written in the locale:
// "15,688", or "15.688" where the comma is the decimal mark.
func (l Locale) Thousands(number string) string {
	sign, mark := "", ","
	if l.Comma {
		mark = "."
	}
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		sign, number = "-", rest
	}
	whole, rest := number, ""
	if at := strings.IndexAny(number, ".,"); at >= 0 {
		whole, rest = number[:at], number[at:]
	}
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + mark + whole[at:]
	}
	return sign + whole + rest
}

// Dollars is an amount of money for a person, from its number as the locale writes it:
// "$15,688", "-$1,210". Every dollar sign that is shown comes from here.
func (l Locale) Dollars(number string) string {
	number = l.Thousands(number)
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		return "-$" + rest
	}
	return "$" + number
}
