package report

import (
	"regexp"
	"strconv"
	"time"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// say writes a message for the reader of the pages.
func (d *document) say(id message.ID, args ...any) string { return message.Text(d.System, id, args...) }

func (s *sheet) say(id message.ID, args ...any) string { return message.Text(s.locale, id, args...) }

// word writes what the engine names, in the reader's language where it has words for
// it.
func (d *document) word(v any) string { return wordOf(v, d.System) }

func wordOf(v any, sys units.Locale) string { return message.Rows{Items: []any{v}}.Show(sys) }

// threeDigits is a number to three digits.
func threeDigits(v float64, sys units.Locale) string {
	return sys.Mark(strconv.FormatFloat(v, 'g', 3, 64))
}

var decimalPoint = regexp.MustCompile(`(\d)\.(\d)`)

// marked writes the decimal mark of a locale into a text of numbers.
func marked(text string, sys units.Locale) string {
	if !sys.Comma {
		return text
	}
	return decimalPoint.ReplaceAllString(text, "$1,$2")
}

var months = [...]message.ID{"January", "February", "March", "April", "May", "June",
	"July", "August", "September", "October", "November", "December"}

// longDate is "March 5, 2026"; a date typed otherwise stays as it was.
func longDate(date string, sys units.Locale) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	return message.Text(sys, "{month} {day}, {year}", "month", months[t.Month()-1], "day", t.Day(), "year", t.Format("2006"))
}

// shortDate is "2026-03-05"; a date typed otherwise stays as it was.
func shortDate(date string, sys units.Locale) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	return message.Text(sys, "{year}-{month}-{day}", "year", t.Format("2006"), "month", t.Format("01"), "day", t.Format("02"))
}
