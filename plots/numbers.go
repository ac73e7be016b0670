package plots

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Numbers are what a chart shows as a table: headings with units, and rows.
type Numbers struct {
	Heading []string
	Rows    [][]string
}

// Write writes the table as text with tabs between the columns, as spreadsheets
// take it from the clipboard.
func (n Numbers) Write(w io.Writer) error {
	c := csv.NewWriter(w)
	c.Comma = '\t'
	if err := c.Write(n.Heading); err != nil {
		return err
	}
	return c.WriteAll(n.Rows)
}

// Text is the table as one text.
func (n Numbers) Text() string {
	var b strings.Builder
	_ = n.Write(&b) // a text in memory takes all
	return b.String()
}

// numbersOfLines lists the points of every line, one a row.
func numbersOfLines(lines []ReadoutLine, sys units.Locale) Numbers {
	n := Numbers{Heading: []string{message.Text(sys, "line")}}
	for _, l := range lines {
		for _, v := range l.Values {
			if h := v.heading(sys); !slices.Contains(n.Heading, h) {
				n.Heading = append(n.Heading, h)
			}
		}
	}
	for k, l := range lines {
		if slices.ContainsFunc(lines[:k], l.readsTheSame) {
			continue // one quantity of several that the chart shows apart
		}
		for i := range l.Points {
			row := make([]string, len(n.Heading))
			row[0] = l.Label
			for _, v := range l.Values {
				value := v.At[i]
				if v.Kind != nil {
					value = v.Kind.Usual(sys).FromSI(value)
				}
				row[slices.Index(n.Heading, v.heading(sys))] = sys.Mark(number(value))
			}
			n.Rows = append(n.Rows, row)
		}
	}
	return n
}

// readsTheSame reports whether two lines read the same along their points.
func (l ReadoutLine) readsTheSame(other ReadoutLine) bool {
	return l.Label == other.Label && slices.EqualFunc(l.Values, other.Values, func(a, b Values) bool {
		return a.Name == b.Name && slices.Equal(a.At, b.At)
	})
}

// numbers lists the bars, one a row, with their parts and sums.
func (b *bars) numbers() Numbers {
	n := Numbers{Heading: []string{b.look.say("option"), b.look.say("state")}}
	for _, k := range b.key {
		n.Heading = append(n.Heading, b.look.say("{quantity}, {unit}", "quantity", k.word, "unit", b.unit))
	}
	n.Heading = append(n.Heading, b.look.say(b.total, "unit", b.unit))
	for _, g := range b.groups {
		for _, r := range g.rows {
			row := make([]string, len(n.Heading))
			row[0], row[1] = g.name, b.look.say(r.state)
			for _, p := range r.pieces {
				if i := slices.IndexFunc(b.key, func(k legendEntry) bool { return k.word == p.name }); i >= 0 {
					row[2+i] = b.look.Units.Mark(number(p.value))
				}
			}
			row[len(row)-1] = b.look.Units.Mark(number(r.total))
			n.Rows = append(n.Rows, row)
		}
	}
	return n
}

// number writes a value to nine digits, nothing where it is no number.
func number(v float64) string {
	if !finite(v) {
		return ""
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 9, 64), 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}
