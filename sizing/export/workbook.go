package export

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/xuri/excelize/v2"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// About is the source of the figures of a workbook; empty fields are left out.
type About struct {
	Version  string // of the program
	Checksum string // of the job file
	Date     string
	Notes    string // of the job
}

// XLSX writes a workbook: the options, the sizes, the findings, what was
// assumed, the cautions, and what the file is. Headings hold the units; cells
// hold numbers with the fifteen digits that a spreadsheet keeps, and their
// formats round as a screen does.
func XLSX(w io.Writer, s *sizing.Study, sys units.Locale, about About) error {
	return Document{Study: s}.XLSX(w, sys, about)
}

// XLSX has a sheet of the ranges after the options where there are any.
func (d Document) XLSX(w io.Writer, sys units.Locale, about About) error {
	b, s := &workbook{file: excelize.NewFile(), styles: map[string]int{}}, d.Study
	sizes, err := sizeRows(s)
	if err != nil {
		return err
	}
	defer b.file.Close()
	grids := []grid{table[optionRow]{optionFull, optionRows(s), sys}.grid("Options").turned()}
	if d.Ranges != nil {
		grids = append(grids, table[sizing.OptionRange]{rangeFull, d.Ranges.Options, sys}.grid("Ranges"))
	}
	for _, g := range append(grids,
		comparisonGrid(d, sys),
		table[sizeRow]{sizeColumns(sys), sizes, sys}.grid("Sizes"),
		findingGrid(s, sys),
		assumptionGrid(s, sys),
		cautionGrid(sys),
		aboutGrid(d, sys, about),
	) {
		b.add(g)
	}
	if b.err == nil {
		b.err = b.describe(s, sys, about)
	}
	if b.err != nil {
		return b.err
	}
	return b.file.Write(w)
}

// comparisonGrid is the options side by side as the window has them, a measure a
// row, in numbers that a spreadsheet can go on with.
func comparisonGrid(d Document, sys units.Locale) grid {
	var ranges []sizing.OptionRange
	if d.Ranges != nil {
		ranges = d.Ranges.Options
	}
	c := sizing.Compare(d.Study, sizing.View{}, ranges)
	g := grid{name: message.Text(sys, "Comparison"), heading: []string{message.Text(sys, "measure"), message.Text(sys, "unit")}, widest: 26}
	for _, o := range c.Options {
		g.heading = append(g.heading, name(o, sys))
	}
	g.decimals = make([]int, len(g.heading))
	for i := range c.Rows {
		r := &c.Rows[i]
		line := []any{message.Text(sys, r.Title), r.Unit(sys)}
		digits := 0
		for k := range r.Cells {
			value, places := comparedCell(&r.Cells[k], sys)
			line, digits = append(line, value), max(digits, places)
		}
		g.cells, g.rowDecimals = append(g.cells, line), append(g.rowDecimals, digits)
	}
	return g
}

// comparedCell is a figure as a number with its decimals, words where it has
// those, nothing where it is not known.
func comparedCell(c *sizing.Compared, sys units.Locale) (value any, decimals int) {
	if !c.Known {
		return nil, 0
	}
	text := c.Number(machine(sys))
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return c.Number(sys), 0
	}
	_, fraction, _ := strings.Cut(text, ".")
	return n, len(fraction)
}

func findingGrid(s *sizing.Study, sys units.Locale) grid {
	return table[sizing.Finding]{[]column[sizing.Finding]{
		{"severity", func(f sizing.Finding) any { return f.Severity }},
		{"option", func(f sizing.Finding) any { return optionName(s, f.Option, sys) }},
		{"code", func(f sizing.Finding) any { return f.Code }},
		{"finding", func(f sizing.Finding) any { return f.In(sys) }},
		{"held against", func(f sizing.Finding) any { return f.Source }},
	}, s.Findings, sys}.grid("Findings")
}

func assumptionGrid(s *sizing.Study, sys units.Locale) grid {
	return table[sizing.Assumption]{[]column[sizing.Assumption]{
		{"field", func(a sizing.Assumption) any { return a.Path }},
		{"taken", func(a sizing.Assumption) any { return a.In(sys) }},
		{"source", func(a sizing.Assumption) any { return a.Source }},
	}, s.Assumptions, sys}.grid("Assumptions")
}

func cautionGrid(sys units.Locale) grid {
	return table[message.ID]{[]column[message.ID]{
		{"before any work on the equipment", func(c message.ID) any { return c }},
	}, Cautions(), sys}.grid("Cautions")
}

func aboutGrid(d Document, sys units.Locale, about About) grid {
	s, ranges := d.Study, ""
	if d.Ranges != nil {
		ranges = d.Ranges.basis().In(sys)
	}
	system := message.Text(sys, "inch-pound")
	if sys.System == units.Metric {
		system = "SI"
	}
	schema := message.Text(sys, "schema {schema}", "schema", sizing.Schema)
	type fact struct {
		name message.ID
		text string
	}
	var rows []fact
	for _, r := range []fact{
		{"house", s.Name},
		{"notes", about.Notes},
		{"units", system},
		{"program", strings.TrimSpace("returnbench " + about.Version)},
		{"job file", strings.TrimSpace(schema + "  " + about.Checksum)},
		{"date", about.Date},
		{"rests on", message.Text(sys, "assumptions for {share} % of today's external static; see Assumptions", "share", message.Fixed(100*s.AssumedShare, 0))},
		{"ranges", ranges},
		{"clean, loaded", message.Text(sys, "a new filter, and the same filter at the limit at which it is changed")},
		{"invented", message.Text(sys, "generic blowers, filters, dust rates and prices that stand in for what nobody typed are invented; figures are estimates, and a reading or a nameplate overrides them")},
	} {
		if r.text != "" {
			rows = append(rows, r)
		}
	}
	return table[fact]{[]column[fact]{
		{"what", func(r fact) any { return r.name }},
		{"this file", func(r fact) any { return r.text }},
	}, rows, sys}.grid("About")
}

// grid is a sheet in the making: texts, whole numbers, and numbers with the
// decimals that their column shows.
type grid struct {
	name     string
	heading  []string
	cells    [][]any // nil: left empty
	decimals []int   // by column
	// rowDecimals, where there are any, are in place of the columns'.
	rowDecimals []int
	widest      int // column of text; zero: mostWidth
}

// places are the decimals of a cell.
func (g grid) places(row, col int) int {
	if g.rowDecimals != nil {
		return g.rowDecimals[row]
	}
	return g.decimals[col]
}

// mostDecimals bounds the decimals that one small number gives to its whole
// column.
const mostDecimals = 6

// grid turns a table into a sheet. A quantity without a finite value is left
// empty.
func (t table[R]) grid(name message.ID) grid {
	g := grid{name: message.Text(t.system, name), heading: t.heading(), decimals: make([]int, len(t.columns))}
	for _, r := range t.rows {
		line := make([]any, len(t.columns))
		for i, c := range t.columns {
			switch v := c.value(r).(type) {
			case units.Quantity:
				if n, err := strconv.ParseFloat(t.number(v), 64); err == nil {
					line[i] = n
					_, fraction, _ := strings.Cut(v.Kind().Fixed(v.SI(), t.system), ".")
					g.decimals[i] = min(max(g.decimals[i], len(fraction)), mostDecimals)
				}
			case float64:
				if finite(v) {
					line[i], g.decimals[i] = v, 3
				}
			case int:
				line[i] = v
			case nil:
			case bool:
				line[i] = message.Text(t.system, map[bool]message.ID{true: "yes", false: "no"}[v])
			default:
				line[i] = written(v, t.system)
			}
		}
		g.cells = append(g.cells, line)
	}
	return g
}

// turned exchanges rows and columns: a sheet of many columns and few rows then
// prints on a page in readable letters.
func (g grid) turned() grid {
	out := grid{name: g.name, heading: []string{g.heading[0]}, widest: 12, rowDecimals: g.decimals[1:], decimals: make([]int, len(g.cells)+1)}
	for _, line := range g.cells {
		out.heading = append(out.heading, fmt.Sprint(line[0]))
	}
	for i, h := range g.heading[1:] {
		line := []any{h}
		for _, from := range g.cells {
			line = append(line, from[i+1])
		}
		out.cells = append(out.cells, line)
	}
	return out
}

// workbook writes sheets until the first fault and keeps that fault.
type workbook struct {
	file   *excelize.File
	styles map[string]int
	err    error
	sheets int
}

// The typeface of the sheets, which most machines have or replace by one of the
// same width, its size in points, and the column widths, in digits, beyond
// which a text wraps.
const (
	family     = "Arial"
	textSize   = 10
	lineHeight = 13.5
	leastWidth = 6
	mostWidth  = 58
	// paperWidth is how many digits fit across a sheet of paper at a readable
	// size.
	paperWidth = 188 // at 7 points on 11 in across, less narrow margins
)

func (b *workbook) add(g grid) {
	if b.err == nil {
		b.err = b.write(g)
	}
}

func (b *workbook) write(g grid) error {
	if b.sheets++; b.sheets == 1 {
		if err := b.file.SetSheetName("Sheet1", g.name); err != nil {
			return err
		}
	} else if _, err := b.file.NewSheet(g.name); err != nil {
		return err
	}
	widths := make([]float64, len(g.heading))
	for i := range g.heading {
		name, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		widths[i] = g.width(i)
		if err := b.file.SetColWidth(g.name, name, name, widths[i]); err != nil {
			return err
		}
	}
	if err := b.rows(g, widths); err != nil {
		return err
	}
	if err := b.printed(g.name, widths); err != nil {
		return err
	}
	return b.file.SetPanes(g.name, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2", ActivePane: "bottomRight"})
}

// printed fits a sheet on one page across, with its head and its first column on
// each page down; a sheet that would then be too small to read goes on larger
// paper.
func (b *workbook) printed(name string, widths []float64) error {
	across := 0.0
	for _, w := range widths {
		across += w
	}
	landscape, one, all, fits := "landscape", 1, 0, true
	layout := &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &one, FitToHeight: &all}
	if across > paperWidth {
		tabloid := 3 // 11 x 17 in
		layout.Size = &tabloid
	}
	if err := b.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fits}); err != nil {
		return err
	}
	if err := b.file.SetPageLayout(name, layout); err != nil {
		return err
	}
	side, head := 0.4, 0.5
	if err := b.file.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &head, Bottom: &head}); err != nil {
		return err
	}
	quoted := name
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) }) {
		quoted = "'" + strings.ReplaceAll(name, "'", "''") + "'"
	}
	titles := quoted + "!$A:$A," + quoted + "!$1:$1"
	return b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: name})
}

func (b *workbook) rows(g grid, widths []float64) error {
	head, err := b.style("head", &excelize.Style{
		Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"EEF0F2"}},
		Border:    []excelize.Border{{Type: "bottom", Color: "4B4B4B", Style: 1}},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "top", Indent: 1, Horizontal: "left"},
	})
	if err != nil {
		return err
	}
	for i, h := range g.heading {
		if err := b.cell(g.name, i, 0, h, head); err != nil {
			return err
		}
	}
	heads := make([]any, len(g.heading))
	for i, h := range g.heading {
		heads[i] = h
	}
	if err := b.tall(g.name, 1, heads, widths, 1.1); err != nil {
		return err
	}
	for k, line := range g.cells {
		if err := b.tall(g.name, k+2, line, widths, 1); err != nil {
			return err
		}
		for i, v := range line {
			style, err := b.styleOf(v, g.places(k, i))
			if err != nil {
				return err
			}
			if err := b.cell(g.name, i, k+1, v, style); err != nil {
				return err
			}
		}
	}
	return nil
}

// tall makes a row as high as its longest text; not every program calculates
// that by itself. Bold letters are wider.
func (b *workbook) tall(sheet string, row int, line []any, widths []float64, bold float64) error {
	most := 1
	for i, v := range line {
		if text, ok := v.(string); ok {
			most = max(most, lines(text, (widths[i]-1)/bold))
		}
	}
	return b.file.SetRowHeight(sheet, row, min(lineHeight*float64(most)+2, excelize.MaxRowHeight))
}

// lines counts the lines of a text that wraps at a width in letters.
func lines(text string, width float64) int {
	n := 0
	for paragraph := range strings.Lines(text) {
		n++
		used := 0.0
		for _, word := range strings.Fields(paragraph) {
			long := float64(len([]rune(word)))
			if used > 0 && used+1+long > width {
				n++
				used = -1
			}
			for used+1+long > width && long > width {
				n++
				long -= width
			}
			used += 1 + long
		}
	}
	return max(n, 1)
}

func (b *workbook) cell(sheet string, col, row int, v any, style int) error {
	at, err := excelize.CoordinatesToCellName(col+1, row+1)
	if err != nil {
		return err
	}
	if err := b.file.SetCellValue(sheet, at, v); err != nil {
		return err
	}
	return b.file.SetCellStyle(sheet, at, at, style)
}

// styleOf gives numbers their format and lets texts wrap.
func (b *workbook) styleOf(v any, decimals int) (int, error) {
	switch v.(type) {
	case float64:
		format := numberFormat(decimals)
		return b.style(format, &excelize.Style{CustomNumFmt: &format, Alignment: &excelize.Alignment{Vertical: "top"}})
	case string:
		return b.style("text", &excelize.Style{Alignment: &excelize.Alignment{WrapText: true, Vertical: "top", Indent: 1, Horizontal: "left"}})
	}
	return b.style("plain", &excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}})
}

func numberFormat(decimals int) string {
	if decimals == 0 {
		return "0"
	}
	return "0." + strings.Repeat("0", decimals)
}

func (b *workbook) style(name string, s *excelize.Style) (int, error) {
	if id, ok := b.styles[name]; ok {
		return id, nil
	}
	s.Font = &excelize.Font{Family: family, Size: textSize, Bold: name == "head"}
	id, err := b.file.NewStyle(s)
	b.styles[name] = id
	return id, err
}

// width is of the longest word or number of a column, and of a whole text up to
// a bound. A heading, which is bold, may wrap between its words.
func (g grid) width(i int) float64 {
	most := leastWidth
	longest := func(text string) int {
		n := 0
		for _, word := range strings.Fields(text) {
			n = max(n, len([]rune(word)))
		}
		return n
	}
	most = max(most, longest(g.heading[i])*6/5+1)
	for k, line := range g.cells {
		switch v := line[i].(type) {
		case float64:
			most = max(most, len(strconv.FormatFloat(v, 'f', g.places(k, i), 64)))
		case string:
			most = max(most, min(len([]rune(v)), cmp.Or(g.widest, mostWidth)), longest(v))
		}
	}
	return float64(min(most+3, 255))
}

// describe fills in the document properties.
func (b *workbook) describe(s *sizing.Study, l units.Locale, about About) error {
	b.file.SetActiveSheet(0)
	creator := strings.TrimSpace("returnbench " + about.Version)
	return b.file.SetDocProps(&excelize.DocProperties{
		Title: cmp.Or(s.Name, message.Text(l, "House without a name")), Subject: message.Text(l, "Return side of a forced-air system"),
		Creator: creator, LastModifiedBy: creator, Description: about.Notes, Language: cmp.Or(l.Language, "en"),
	})
}

// sizeColumns are those of the sizes with what each misses in words.
func sizeColumns(sys units.Locale) []column[sizeRow] {
	return append(slices.Clone(sizeFull), column[sizeRow]{"misses", func(z sizeRow) any { return z.Missed(sys) }})
}
