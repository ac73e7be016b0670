package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// column is one column of a table of R.
type column[R any] struct {
	name  message.ID
	value func(R) any
}

// table is columns and rows, with quantities in the units of a reader: the
// heading holds the unit and the cells hold numbers.
type table[R any] struct {
	columns []column[R]
	rows    []R
	system  units.Locale
}

// names and units are the heading. A table that may be empty is of plain values, whose
// zero has units too.
func (t table[R]) names() (names, unitNames []string) {
	var sample R
	if len(t.rows) > 0 {
		sample = t.rows[0]
	}
	names, unitNames = make([]string, len(t.columns)), make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = message.Text(t.system, c.name)
		switch v := c.value(sample).(type) {
		case interval:
			unitNames[i] = v.low.Kind().Usual(t.system).Name
		case units.Quantity:
			unitNames[i] = v.Kind().Usual(t.system).Name
		}
	}
	return names, unitNames
}

// heading is the names with their units.
func (t table[R]) heading() []string {
	out, unitNames := t.names()
	for i, unit := range unitNames {
		if unit != "" {
			out[i] += ", " + unit
		}
	}
	return out
}

func (t table[R]) cells(r R, quantity func(units.Quantity) string) []string {
	out := make([]string, len(t.columns))
	for i, c := range t.columns {
		switch v := c.value(r).(type) {
		case units.Quantity:
			out[i] = quantity(v)
		case nil: // not known
		default:
			out[i] = written(v, t.system)
		}
	}
	return out
}

// written is a value in words.
func written(v any, l units.Locale) string { return message.List{v}.Show(l) }

// csv writes the table at full precision.
func (t table[R]) csv(w *csv.Writer) error {
	if err := w.Write(t.heading()); err != nil {
		return err
	}
	for _, r := range t.rows {
		cells := t.cells(r, t.number)
		for i := range cells {
			cells[i] = Cell(cells[i])
		}
		if err := w.Write(cells); err != nil {
			return err
		}
	}
	return nil
}

// number is a quantity's number at full precision, empty where it has none.
func (t table[R]) number(q units.Quantity) string {
	if !finite(q.SI()) {
		return ""
	}
	text := q.Kind().TextIn(q.SI(), t.system)
	return strings.TrimSpace(strings.TrimSuffix(text, q.Kind().Usual(t.system).Name))
}

// text writes the table aligned and rounded, the heading in two lines: the name
// and its unit.
func (t table[R]) text(w io.Writer) error {
	var aligned bytes.Buffer
	tw := tabwriter.NewWriter(&aligned, 0, 0, 2, ' ', 0)
	names, unitRow := t.names()
	for i, unit := range unitRow {
		if unit == "" { // a name of two words takes both lines
			names[i], unitRow[i], _ = strings.Cut(names[i], ", ")
		}
	}
	line := func(cells []string) { fmt.Fprintln(tw, "  "+strings.Join(cells, "\t")) }
	line(names)
	if strings.Join(unitRow, "") != "" {
		line(unitRow)
	}
	for _, r := range t.rows {
		line(t.cells(r, func(q units.Quantity) string { return q.Kind().Number(q.SI(), t.system) }))
	}
	if err := tw.Flush(); err != nil {
		return err
	}
	for row := range strings.Lines(aligned.String()) {
		if _, err := io.WriteString(w, strings.TrimRight(row, " \n")+"\n"); err != nil {
			return err
		}
	}
	return nil
}
