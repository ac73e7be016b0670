package paste

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"returnbench/gui/parse"
	"returnbench/sizing/blower"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// beginsNumber is how a cell with a number begins.
var beginsNumber = regexp.MustCompile(`^[+-]?[\d.]`)

// mostStatic is a static that no house reaches: a row of larger numbers is none of
// statics.
const mostStatic = 1500 * units.Pascal

// across is a table with the statics in one row at the top, as blower sheets are
// printed: under them a row for the airflow of each tap, and perhaps more for its
// power and speed.
type across struct {
	statics []float64 // SI
	labels  []string  // of the rows, tap and quantity
	cells   [][]string
}

// Across reads a table with the static across the top: the taps with their points,
// and what was left out, one sentence each. It gives nil where it is no such table.
// One row of airflow without a name is one tap without a name.
func (p *Table) Across(sys units.Locale) (taps []blower.Tap, left []string) {
	a := p.across(sys)
	if a == nil {
		return nil, nil
	}
	at, tap := map[string]int{}, ""
	for i, label := range a.labels {
		column, unit := headingColumn(label), ""
		if name := tapWords(label, column); name != "" || column == NoColumn {
			tap = name
		}
		if column == NoColumn || column == Static {
			column = Airflow
			if named(a.labels) {
				left = append(left, message.Text(sys, "The row {row} is no airflow, power or speed.", "row", strconv.Quote(label)))
				continue
			}
		}
		unit = HeadingUnit(label, column)
		k, known := at[strings.ToLower(tap)]
		if !known {
			k = len(taps)
			at[strings.ToLower(tap)] = k
			taps = append(taps, blower.Tap{Name: tap, Points: a.points()})
		}
		left = append(left, a.fill(&taps[k], i, column, unit, sys)...)
	}
	for k := range taps {
		taps[k].Points = slices.DeleteFunc(taps[k].Points, func(p blower.Point) bool { return p.Airflow == 0 })
	}
	return slices.DeleteFunc(taps, func(t blower.Tap) bool { return len(t.Points) == 0 }), left
}

// named reports whether some row is labeled as an airflow: then a row without
// such a label is something else.
func named(labels []string) bool {
	return slices.ContainsFunc(labels, func(l string) bool { return headingColumn(l) == Airflow })
}

// tapWords are what of a row's label is the name of the tap.
func tapWords(label string, column int) string {
	name := inBrackets.ReplaceAllString(label, "")
	if column != NoColumn {
		name = headingWords[column].ReplaceAllString(name, "")
	}
	return strings.Trim(strings.Join(strings.Fields(name), " "), " ,:-/")
}

func (a *across) points() []blower.Point {
	out := make([]blower.Point, len(a.statics))
	for i, s := range a.statics {
		out[i].ExternalStatic = units.Pressure(s)
	}
	return out
}

// fill puts a row's numbers into a tap, and names the cells that cannot be read.
func (a *across) fill(tap *blower.Tap, row, column int, unit string, sys units.Locale) (left []string) {
	for j, text := range a.cells[row] {
		if blank(text) || j >= len(tap.Points) {
			continue
		}
		v, fault := parse.Quantity(pointed(sys), Kinds[column], WithUnit(ungrouped(text), unit), Kinds[column].Usual(sys), true, false)
		if fault != "" {
			left = append(left, message.Text(sys, "{cell} in the row {row} cannot be read.", "cell", strconv.Quote(text), "row", strconv.Quote(a.labels[row])))
			continue
		}
		switch p := &tap.Points[j]; column {
		case Airflow:
			p.Airflow = units.Flow(v)
		case Power:
			p.Power = units.Power(v)
		case Speed:
			p.Speed = units.Rotation(v)
		}
	}
	return left
}

// across finds the row of statics; nil where there is none.
func (p *Table) across(sys units.Locale) *across {
	if len(p.Rows) < 2 {
		return nil
	}
	labelCount := p.labelColumns()
	if labelCount < 0 || len(p.Rows[0])-labelCount < 2 {
		return nil
	}
	a := &across{}
	unit := HeadingUnit(strings.Join(append(slices.Clone(p.Head), p.Rows[0][:labelCount]...), " "), Static)
	for _, text := range p.Rows[0][labelCount:] {
		v, fault := parse.Quantity(pointed(sys), Kinds[Static], WithUnit(text, unit), Kinds[Static].Usual(sys), true, false)
		if fault != "" || text == "" || v > float64(mostStatic) || len(a.statics) > 0 && v <= a.statics[len(a.statics)-1] {
			return nil
		}
		a.statics = append(a.statics, v)
	}
	group := ""
	for _, row := range p.Rows[1:] {
		label := strings.TrimSpace(strings.Join(row[:min(labelCount, len(row))], " "))
		if labelCount > 1 && len(row) > 0 && row[0] != "" {
			group = row[0]
		} else if labelCount > 1 {
			label = strings.TrimSpace(group + " " + label)
		}
		a.labels = append(a.labels, label)
		a.cells = append(a.cells, row[min(labelCount, len(row)):])
	}
	if labelCount == 0 && !falls(a.cells, sys) {
		return nil
	}
	return a
}

// labelColumns is how many columns at the left hold words under the row of statics,
// two at the most; -1 where numbers follow on no words and the table is too narrow
// to be one of statics across.
func (p *Table) labelColumns() int {
	labelCount := 0
	for labelCount < 2 {
		for _, row := range p.Rows[1:] {
			if labelCount < len(row) && beginsNumber.MatchString(row[labelCount]) {
				if labelCount == 0 && len(p.Rows) > 2 {
					return -1 // upright
				}
				return labelCount
			}
		}
		if len(p.Rows[0]) <= labelCount {
			return labelCount
		}
		if labelCount > 0 && beginsNumber.MatchString(p.Rows[0][labelCount]) {
			return labelCount
		}
		labelCount++
	}
	return labelCount
}

// falls reports whether the one row under the statics falls, as an airflow
// does.
func falls(rows [][]string, sys units.Locale) bool {
	last := -1.0
	for _, text := range rows[0] {
		v, fault := parse.Quantity(pointed(sys), Kinds[Airflow], ungrouped(text), Kinds[Airflow].Usual(sys), true, false)
		if fault != "" || last >= 0 && v > last {
			return false
		}
		last = v
	}
	return len(rows) == 1
}

// blank reports whether a text is what tables write in place of a missing
// number.
func blank(text string) bool {
	return strings.Trim(text, " -–—") == "" || strings.EqualFold(text, "n/a")
}

// ungrouped is a whole number without the commas before each three digits.
func ungrouped(text string) string {
	if wholeThousands.MatchString(text) {
		return strings.ReplaceAll(text, ",", "")
	}
	return text
}

// spacedAcross reads lines of words and numbers between blanks, with the statics in
// the first line of numbers; nil where the text is no such table.
func spacedAcross(text string) [][]string {
	if strings.ContainsAny(text, "\t;") {
		return nil
	}
	var rows [][]string
	words := false
	for line := range strings.Lines(text) {
		cells := strings.Fields(line)
		at := len(cells)
		for at > 0 && (plainNumber.MatchString(cells[at-1]) || strings.EqualFold(cells[at-1], "n/a")) {
			at--
		}
		switch {
		case len(cells) == 0:
			continue
		case len(cells)-at >= 2:
			words = words || at > 0
			rows = append(rows, append([]string{strings.Join(cells[:at], " ")}, cells[at:]...))
		case len(rows) > 0:
			return nil
		}
	}
	if len(rows) < 2 || !words || len(rows[0]) < 3 {
		return nil
	}
	for _, row := range rows[1:] {
		if row[0] == "" || len(row) > len(rows[0]) {
			return nil
		}
	}
	return rows
}
