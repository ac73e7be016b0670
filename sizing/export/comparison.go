package export

import (
	"io"
	"math"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// ComparisonText writes a comparison as a spreadsheet takes it from the
// clipboard: cells apart by tabs, numbers plain, units in the headings. A row
// is a measure; an option has its figure and, beside a baseline, the change and
// whether that is better or worse. The last line is the basis of these claims.
func ComparisonText(w io.Writer, c sizing.Comparison, sys units.Locale) error {
	say := func(id message.ID, args ...any) string { return message.Text(sys, id, args...) }
	head := []string{say("measure"), say("unit"), say("better")}
	for _, o := range c.Options {
		head = append(head, name(o, sys))
		if o != c.Baseline {
			head = append(head, say("{option} minus {baseline}", "option", name(o, sys), "baseline", name(c.Baseline, sys)),
				say("{option} is", "option", name(o, sys)))
		}
	}
	lines := [][]string{head}
	for i := range c.Rows {
		lines = append(lines, comparedLine(c, &c.Rows[i], sys))
	}
	lines = append(lines, []string{c.Basis().In(sys)})
	for _, line := range lines {
		for i := range line {
			line[i] = pasted(line[i])
		}
		if _, err := io.WriteString(w, strings.Join(line, "\t")+"\n"); err != nil {
			return err
		}
	}
	return nil
}

// senses name which direction is better in a measure.
var senses = map[sizing.Sense]message.ID{sizing.More: "more", sizing.Less: "less", sizing.Nearer: "nearer 0"}

func comparedLine(c sizing.Comparison, r *sizing.ComparedRow, sys units.Locale) []string {
	title, unit := message.Text(sys, r.Title), r.Unit(sys)
	if unit != "" {
		title += ", " + unit
	}
	line := []string{title, unit, message.Text(sys, senses[r.Sense])}
	for k := range r.Cells {
		cell := &r.Cells[k]
		text := cell.Number(sys)
		if !cell.Known {
			text = ""
		}
		line = append(line, text)
		if c.Options[k] != c.Baseline {
			line = append(line, plainChange(cell, sys), cell.Trend.Show(sys))
		}
	}
	return line
}

// plainChange is a change with no sign before what has grown.
func plainChange(cell *sizing.Compared, sys units.Locale) string {
	if cell.Trend == sizing.Same && !math.IsInf(cell.Value, 0) {
		return "0"
	}
	return strings.TrimPrefix(cell.ChangeNumber(sys), "+")
}

// pasted keeps a cell in its place, and words from being read as a formula.
func pasted(text string) string {
	text = strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' || r == '\r' {
			return ' '
		}
		return r
	}, text)
	return Cell(text)
}
