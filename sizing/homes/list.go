package homes

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"returnbench/sizing/export"
)

// longestRow is how many bytes a row may take.
const longestRow = 1 << 20

// list reads the rows of a list of homes, a line each, in bounded memory.
type list struct {
	lines   *bufio.Reader
	heading *heading
	line    int // of the last row
	open    int // line of a quote that did not close, 0: none
}

// row is one line of a list.
type row struct {
	cells []string
	line  int
	fault string // of its quotes or its letters; the cells are then as near as may be
}

// openList reads the heading.
func openList(r io.Reader) (*list, error) {
	l := &list{lines: bufio.NewReaderSize(r, 1<<16)}
	if start, _ := l.lines.Peek(3); bytes.Equal(start, []byte("\xef\xbb\xbf")) {
		if _, err := l.lines.Discard(3); err != nil {
			return nil, err
		}
	}
	first, err := l.next()
	if err == io.EOF {
		return nil, HeadingError{"heading: the list is empty; want a first row with the names of the columns"}
	}
	if err != nil {
		return nil, err
	}
	if first.fault != "" {
		return nil, HeadingError{"heading: " + first.fault}
	}
	l.heading, err = readHeading(first.cells)
	return l, err
}

// next reads the next line that is not empty.
func (l *list) next() (row, error) {
	for {
		text, err := l.text()
		if err != nil {
			return row{}, err
		}
		if text = strings.TrimRight(text, "\r"); text != "" {
			return l.read(text), nil
		}
	}
}

// text is the next line without its end. A last line need have none.
func (l *list) text() (string, error) {
	var whole []byte
	for {
		part, err := l.lines.ReadSlice('\n')
		whole = append(whole, part...)
		if len(whole) > longestRow {
			return "", HeadingError{fmt.Sprintf("after line %d: the row has no end within 1 MB", l.line)}
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case err == io.EOF && len(whole) > 0, err == nil:
			l.line++
			return strings.TrimSuffix(string(whole), "\n"), nil
		}
		return "", err
	}
}

func (l *list) read(text string) row {
	r := row{line: l.line}
	if !utf8.ValidString(text) {
		r.fault = "the text is not UTF-8; save the list as UTF-8"
		// Windows-1252 gives every byte a letter, so that no text is lost.
		if read, err := charmap.Windows1252.NewDecoder().String(text); err == nil {
			text = read
		}
		text = strings.ToValidUTF8(text, "\ufffd")
	}
	var quotes string
	r.cells, quotes = split(text)
	// A CSV reader would not give back a carriage return within a cell.
	for i, c := range r.cells {
		if strings.Contains(c, "\r") {
			r.cells[i] = strings.ReplaceAll(c, "\r", "")
		}
	}
	switch isOdd := strings.Count(text, `"`)%2 == 1; {
	case l.open != 0 && isOdd:
		quotes = fmt.Sprintf("a quote that opens on line %d may close here; keep each row on one line, its quotes closed", l.open)
		l.open = 0
	case quotes != "" && isOdd:
		l.open = r.line
	case l.heading != nil && len(r.cells) == len(l.heading.cells):
		l.open = 0
	}
	if r.fault == "" {
		r.fault = quotes
	}
	return r
}

// split parts a line at its commas. A cell that begins with a quote ends with
// one, and a quote within it is doubled; in any other cell a quote is an inch
// mark. A fault leaves the cells as near to what was meant as may be.
func split(text string) (cells []string, fault string) {
	for {
		cell, rest := text, ""
		more := false
		if strings.HasPrefix(text, `"`) {
			var wrong string
			cell, rest, more, wrong = quoted(text[1:])
			if wrong != "" && fault == "" {
				fault = fmt.Sprintf("column %d: %s", len(cells)+1, wrong)
			}
		} else {
			cell, rest, more = strings.Cut(text, ",")
		}
		cells = append(cells, cell)
		if !more {
			return cells, fault
		}
		text = rest
	}
}

// quoted reads a cell from after its opening quote.
func quoted(text string) (cell, rest string, more bool, wrong string) {
	var out strings.Builder
	for {
		before, after, found := strings.Cut(text, `"`)
		out.WriteString(before)
		switch {
		case !found:
			return out.String(), "", false, "a quote opens and does not close on this line; close it or take it out"
		case after == "":
			return out.String(), "", false, wrong
		case after[0] == ',':
			return out.String(), after[1:], true, wrong
		case after[0] == '"':
			text = after[1:]
		default:
			wrong = "a quote within a quoted cell; double it"
			text = after
		}
		out.WriteByte('"')
	}
}

// own gives the cells of a row as they are written, as many as the heading has.
func (l *list) own(cells []string) []string {
	out := make([]string, len(l.heading.cells))
	for i := range min(len(out), len(cells)) {
		out[i] = export.Cell(cells[i])
	}
	return out
}

// outHeading is the heading of the screened list.
func (l *list) outHeading(added []string) []string {
	return append(append([]string{}, l.heading.cells...), added...)
}
