package widgets

import (
	"encoding/csv"
	"regexp"
	"strings"
)

// thousands is a number that a comma may split by mistake.
var thousands = regexp.MustCompile(`^\s*\d{1,3}(,\d{3})+\s*$`)

// pastedCells reads what a spreadsheet or a text puts on the clipboard: cells
// by tab, semicolon or comma, rows by line. A text of one cell gives nil.
// Between semicolons a decimal comma is read as a point.
func pastedCells(text string) [][]string {
	text = strings.TrimRight(strings.ReplaceAll(text, "\r", ""), "\n")
	separator := rune(0)
	switch {
	case strings.Contains(text, "\t"):
		separator = '\t'
	case strings.Contains(text, ";"):
		separator = ';'
	case strings.Contains(text, ",") && !everyLine(text, thousands):
		separator = ','
	case strings.Contains(text, "\n"):
		separator = '\t' // one column
	default:
		return nil
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord, r.TrimLeadingSpace = separator, true, -1, separator != '\t'
	rows, err := r.ReadAll()
	if err != nil {
		return nil
	}
	for _, row := range rows {
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
			if separator == ';' {
				row[i] = strings.Replace(row[i], ",", ".", 1)
			}
		}
	}
	if len(rows) > 1 && isHeading(rows[0]) {
		rows = rows[1:]
	}
	return rows
}

func everyLine(text string, m *regexp.Regexp) bool {
	for line := range strings.Lines(text) {
		if !m.MatchString(strings.TrimSpace(line)) {
			return false
		}
	}
	return true
}

// isHeading tells a row of words from a row of numbers.
func isHeading(row []string) bool {
	for _, cell := range row {
		if cell != "" && strings.ContainsAny(cell[:1], "0123456789.+-") {
			return false
		}
	}
	return true
}
