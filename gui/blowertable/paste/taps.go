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

// NoColumn is a heading that names none of a table's columns: a tap, perhaps.
const NoColumn = -1

var (
	headingWords = [Columns]*regexp.Regexp{
		Static:  regexp.MustCompile(`(?i)\b(static|esp|e\.s\.p|pressure|presi[oó]n|est[aá]tica|iwc|pa|in\.? ?w\.?[cg]?)\b`),
		Airflow: regexp.MustCompile(`(?i)\b(cfm|air ?flow|caudal|l/s|m3/h|flow)\b`),
		Power:   regexp.MustCompile(`(?i)\b(watts?|power|potencia|w|kw)\b`),
		Speed:   regexp.MustCompile(`(?i)\brpm\b|^(speed|velocidad)$`),
	}
	inBrackets = regexp.MustCompile(`\(([^)]*)\)|\[([^\]]*)\]`)
)

// headingColumn is the column that a heading names.
func headingColumn(head string) int {
	for _, c := range []int{Airflow, Power, Speed, Static} {
		if headingWords[c].MatchString(head) {
			return c
		}
	}
	return NoColumn
}

// HeadingUnit is the unit that a heading gives in brackets, empty where it gives
// none that the column knows.
func HeadingUnit(head string, column int) string {
	m := inBrackets.FindStringSubmatch(head)
	if m == nil {
		return ""
	}
	unit := strings.TrimSpace(m[1] + m[2])
	if _, err := Kinds[column].Parse("1 "+unit, ""); unit == "" || err != nil {
		return ""
	}
	return unit
}

// WithUnit adds a heading's unit to a number without a unit.
func WithUnit(cell, unit string) string {
	if unit == "" || !plainNumber.MatchString(cell) {
		return cell
	}
	return cell + " " + unit
}

// ColumnOrder is the column that each pasted one belongs in, NoColumn where it is
// left out; nil where the heading does not tell and all stay in their order.
func (p *Table) ColumnOrder() []int {
	if p.Head == nil {
		return nil
	}
	out := make([]int, p.Width())
	taken := map[int]bool{}
	for i := range out {
		out[i] = NoColumn
		if i < len(p.Head) {
			if c := headingColumn(p.Head[i]); c != NoColumn && !taken[c] {
				out[i], taken[c] = c, true
			}
		}
	}
	if !taken[Static] || !taken[Airflow] {
		return nil
	}
	return out
}

// IsTapTable reports whether a table has a column for each tap, or is one tap's
// table. doubt is a message for the person where neither is certain.
func (p *Table) IsTapTable(sys units.Locale) (is bool, doubt string) {
	n := p.Width()
	if n < 3 {
		return false, ""
	}
	count := map[int]int{}
	for i := 1; i < min(n, len(p.Head)); i++ {
		count[headingColumn(p.Head[i])]++
	}
	named, other := count[Airflow], count[Power]+count[Speed]
	switch {
	case named > 1 && other > 0:
		return false, message.Text(sys, "The table has airflow and power or speed of more than one tap: paste the columns of one tap at a time. Nothing was pasted.")
	case named > 1, p.Head != nil && named == 0 && other == 0 && count[NoColumn] > 1:
		return true, ""
	case p.Head != nil && (named == 1 && count[NoColumn] == 0 || other > 0):
		return false, ""
	}
	return p.allFall(sys) && (n > Columns || p.near(sys)), ""
}

// pointed is a locale with a decimal point: that of the cells of a table, whatever it
// was on the clipboard.
func pointed(l units.Locale) units.Locale {
	l.Comma = false
	return l
}

// number reads a cell of a tap's table.
func (p *Table) number(row, column int, sys units.Locale) (float64, bool) {
	c := min(column, Airflow)
	text := p.Cell(row, column)
	if text == "" {
		return 0, false
	}
	unit := ""
	if column < len(p.Head) {
		unit = HeadingUnit(p.Head[column], c)
	}
	v, fault := parse.Quantity(pointed(sys), Kinds[c], WithUnit(text, unit), Kinds[c].Usual(sys), true, false)
	return v, fault == ""
}

// allFall reports whether each column falls as the static rises, as airflows
// do.
func (p *Table) allFall(sys units.Locale) bool {
	for c := 1; c < p.Width(); c++ {
		falls := false
		for i := 1; i < len(p.Rows); i++ {
			s0, ok0 := p.number(i-1, 0, sys)
			s1, ok1 := p.number(i, 0, sys)
			v0, ok2 := p.number(i-1, c, sys)
			v1, ok3 := p.number(i, c, sys)
			if !ok0 || !ok1 {
				return false
			}
			if !ok2 || !ok3 {
				continue
			}
			if (s1-s0)*(v1-v0) > 0 {
				return false
			}
			falls = falls || v0 != v1
		}
		if !falls {
			return false
		}
	}
	return true
}

// near reports whether the numbers of each column are of the size of those
// before it: watts are far fewer than cfm, another tap's airflow is not.
func (p *Table) near(sys units.Locale) bool {
	const least, most = 0.65, 1 / 0.65
	for c := 2; c < p.Width(); c++ {
		for i := range p.Rows {
			a, ok := p.number(i, c-1, sys)
			b, also := p.number(i, c, sys)
			if ok && also && (b < least*a || b > most*a) {
				return false
			}
		}
	}
	return true
}

// Taps are the taps of a table with a column for each; the fault names a cell
// that cannot be read.
func (p *Table) Taps(sys units.Locale) (out []blower.Tap, fault string) {
	for c := 1; c < p.Width(); c++ {
		tap := blower.Tap{Name: p.tapName(c, out, sys)}
		for i := range p.Rows {
			if p.Cell(i, c) == "" {
				continue // the tap does not reach this static
			}
			s, okS := p.number(i, 0, sys)
			q, okQ := p.number(i, c, sys)
			if !okS || !okQ {
				return nil, message.Text(sys, "The table has a column for each tap, but {cell} in row {row} cannot be read. Nothing was pasted.", "cell", strconv.Quote(p.unreadCell(i, c, okS)), "row", i+1)
			}
			tap.Points = append(tap.Points, blower.Point{ExternalStatic: units.Pressure(s), Airflow: units.Flow(q)})
		}
		if len(tap.Points) > 0 {
			out = append(out, tap)
		}
	}
	return out, ""
}

func (p *Table) unreadCell(row, column int, staticIsGood bool) string {
	if !staticIsGood {
		column = 0
	}
	if column < len(p.Rows[row]) {
		return p.Rows[row][column]
	}
	return ""
}

// tapName is the heading of a column without its unit, or a number; no two taps
// have one name.
func (p *Table) tapName(column int, before []blower.Tap, sys units.Locale) string {
	name := ""
	if column < len(p.Head) {
		name = inBrackets.ReplaceAllString(p.Head[column], "")
		name = headingWords[Airflow].ReplaceAllString(name, "")
		name = strings.Trim(name, " ,:-")
	}
	taken := func(n string) bool {
		return slices.ContainsFunc(before, func(t blower.Tap) bool { return strings.EqualFold(t.Name, n) })
	}
	if name == "" || taken(name) {
		name = message.Text(sys, "tap {number}", "number", column)
	}
	return name
}
