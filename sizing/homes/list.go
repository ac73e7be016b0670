package homes

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// longestRow is how many bytes a row may take. A row that is longer is nearly
// always a quote that nobody closed.
const longestRow = 1 << 20

// list reads the rows of a list of homes in bounded memory.
type list struct {
	csv     *csv.Reader
	gate    *gate
	heading *heading
	line    int // of the last row
}

// gate counts the bytes handed out since the last row and stops where a row
// has no end.
type gate struct {
	r             io.Reader
	given, before int64
}

var errLongRow = errors.New("the row has no end within 1 MB; a quote may be left open")

func (g *gate) Read(p []byte) (int, error) {
	if g.given-g.before > longestRow {
		return 0, errLongRow
	}
	n, err := g.r.Read(p)
	g.given += int64(n)
	return n, err
}

// openList reads the heading.
func openList(r io.Reader) (*list, error) {
	buffered := bufio.NewReader(r)
	if mark, _ := buffered.Peek(3); bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		if _, err := buffered.Discard(3); err != nil {
			return nil, err
		}
	}
	l := &list{gate: &gate{r: buffered}}
	l.csv = csv.NewReader(l.gate)
	l.csv.FieldsPerRecord = -1
	l.csv.LazyQuotes = true // 16" in a cell is an inch mark
	cells, _, err := l.next()
	if err == io.EOF {
		return nil, HeadingError{"heading: the list is empty; want a first row with the names of the columns"}
	}
	if err != nil {
		return nil, err
	}
	l.heading, err = readHeading(cells)
	return l, err
}

// next reads a row and the line it begins at.
func (l *list) next() (cells []string, line int, err error) {
	cells, err = l.csv.Read()
	l.gate.before = l.csv.InputOffset()
	if err != nil {
		var parse *csv.ParseError
		if errors.As(err, &parse) {
			return nil, parse.StartLine, fmt.Errorf("line %d: %w", parse.StartLine, parse.Err)
		}
		if errors.Is(err, errLongRow) {
			return nil, l.line, HeadingError{fmt.Sprintf("after line %d: %v", l.line, err)}
		}
		return nil, 0, err
	}
	// A carriage return within a cell would not come back as it went.
	for i, c := range cells {
		if strings.Contains(c, "\r") {
			cells[i] = strings.ReplaceAll(c, "\r", "")
		}
	}
	l.line, _ = l.csv.FieldPos(0)
	return cells, l.line, nil
}

// own gives the cells of a row, as many as the heading has.
func (l *list) own(cells []string) []string {
	n := len(l.heading.cells)
	if len(cells) >= n {
		return cells[:n]
	}
	return append(append(make([]string, 0, n), cells...), make([]string, n-len(cells))...)
}

// outHeading is the heading of the screened list.
func (l *list) outHeading(added []string) []string {
	return append(append([]string{}, l.heading.cells...), added...)
}
