package paste

import (
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
)

var (
	// thousands is a number that a comma may split by mistake, or one without a
	// comma in the same column.
	thousands = regexp.MustCompile(`^\s*(\d{1,3}(,\d{3})+|\d+(\.\d+)?)\s*$`)
	// plainNumber is a number with nothing after it, or what stands where a table
	// has none.
	plainNumber = regexp.MustCompile(`^([+-]?(\d{1,3}(,\d{3})+(\.\d*)?|\d+\.?\d*|\.\d+)|[-–—]+)$`)
	// wholeThousands is a number of a thousand and more with a comma before each
	// three digits.
	wholeThousands = regexp.MustCompile(`^[1-9]\d{0,2}(,\d{3})+$`)
	wideGap        = regexp.MustCompile(`\s{2,}`)
)

// Table is a table as it stood on the clipboard: numbers under a heading, or
// without one.
type Table struct {
	Head []string // nil: none
	Rows [][]string
}

// Read reads what a spreadsheet, a page or a text puts on the clipboard:
// cells by tab, semicolon, comma or blanks, rows by line. A text of one cell
// gives nil. Between semicolons a decimal comma is read as a point.
func Read(text string) *Table {
	text = strings.Trim(strings.ReplaceAll(text, "\r", ""), "\n")
	rows := spaced(text)
	if rows == nil {
		rows = spacedAcross(text)
	}
	if rows == nil {
		rows = separated(text)
	}
	if rows == nil {
		return nil
	}
	p := &Table{Rows: rows}
	if len(rows) > 1 && isHeading(rows[0]) {
		p.Head, p.Rows = rows[0], rows[1:]
	}
	return p
}

func separated(text string) [][]string {
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
	return rows
}

// spaced reads rows of plain numbers between blanks, as they are copied from a
// page, under a line of words or none; nil where the text is no such table.
func spaced(text string) [][]string {
	if strings.ContainsAny(text, "\t;") {
		return nil
	}
	var rows [][]string
	for i, line := range strings.Split(text, "\n") {
		cells := strings.Fields(line)
		if len(cells) == 0 {
			continue
		}
		numbers := !slices.ContainsFunc(cells, func(c string) bool { return !plainNumber.MatchString(c) })
		switch {
		case numbers && len(cells) > 1:
		case i == 0 && isHeading(cells):
			if wide := wideGap.Split(strings.TrimSpace(line), -1); len(wide) > 1 {
				cells = wide
			}
		default:
			return nil
		}
		rows = append(rows, cells)
	}
	if len(rows) == 0 || isHeading(rows[len(rows)-1]) {
		return nil
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

// isHeading reports whether a row is of words and not of numbers.
func isHeading(row []string) bool {
	for _, cell := range row {
		if cell != "" && strings.ContainsAny(cell[:1], "0123456789.+-") {
			return false
		}
	}
	return true
}

// Width is the number of columns.
func (p *Table) Width() int {
	n := len(p.Head)
	for _, row := range p.Rows {
		n = max(n, len(row))
	}
	return n
}

// Cell is the text of a cell, empty where the row is shorter; what a table
// writes where it has no number is empty too. Past the static, 1,440 is no
// decimal comma.
func (p *Table) Cell(row, column int) string {
	if column >= len(p.Rows[row]) {
		return ""
	}
	text := p.Rows[row][column]
	if strings.Trim(text, "-–—") == "" || strings.EqualFold(text, "n/a") {
		return ""
	}
	if column > 0 && wholeThousands.MatchString(text) {
		return strings.ReplaceAll(text, ",", "")
	}
	return text
}
