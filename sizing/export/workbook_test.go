package export

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

var testAbout = About{Version: "9.9.9", Checksum: "sha256 0a1b", Date: "2026-03-05", Notes: "An invented house."}

func opened(t testing.TB, s *sizing.Study, sys units.Locale) *excelize.File {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, XLSX(&out, s, sys, testAbout))
	f, err := excelize.OpenReader(&out)
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

// TestXLSX_Identity: every cell of the two tables holds what the CSV holds,
// numbers as numbers, under the same headings; a spreadsheet keeps fifteen digits.
func TestXLSX_Identity(t *testing.T) {
	for _, e := range assets.Examples() {
		s := studyOf(t, e.Name)
		for _, sys := range []units.Locale{units.IP, units.SI} {
			f := opened(t, s, sys)
			require.Equal(t, []string{"Options", "Comparison", "Sizes", "Findings", "Assumptions", "Cautions", "About"}, f.GetSheetList())
			var options, sizes bytes.Buffer
			require.NoError(t, OptionsCSV(&options, s, sys))
			require.NoError(t, SizesCSV(&sizes, s, sys))
			sameTable(t, f, "Options", options.String(), true)
			sameTable(t, f, "Sizes", sizes.String(), false)
		}
	}
}

// sameTable holds a sheet to a table; turned has the table's rows as columns.
func sameTable(t *testing.T, f *excelize.File, sheet, text string, turned bool) {
	t.Helper()
	want, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	for r, row := range want {
		for c, cell := range row {
			col, row := c+1, r+1
			if turned {
				col, row = row, col
			}
			name, err := excelize.CoordinatesToCellName(col, row)
			require.NoError(t, err)
			got, err := f.GetCellValue(sheet, name, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			kind, err := f.GetCellType(sheet, name)
			require.NoError(t, err)
			n, err := strconv.ParseFloat(cell, 64)
			switch {
			case r > 0 && err == nil && !math.IsInf(n, 0):
				v, err := strconv.ParseFloat(got, 64)
				require.NoError(t, err, "%s %s", sheet, name)
				require.InDelta(t, n, v, 1e-14*math.Abs(n), "%s %s", sheet, name)
				require.Equal(t, excelize.CellTypeUnset, kind, "%s %s is a number", sheet, name)
			case cell == "true" || cell == "false":
				require.Equal(t, map[string]string{"true": "yes", "false": "no"}[cell], got)
			default:
				require.Equal(t, cell, got, "%s %s", sheet, name)
			}
		}
	}
}

// TestXLSX_Look: the head stays in view, and no number or word is wider
// than its column.
func TestXLSX_Look(t *testing.T) {
	for _, sys := range []units.Locale{units.IP, units.SI} {
		f := opened(t, studyOf(t, "metric-altitude"), sys)
		for _, sheet := range f.GetSheetList() {
			panes, err := f.GetPanes(sheet)
			require.NoError(t, err)
			require.True(t, panes.Freeze && panes.YSplit == 1, sheet)
			rows, err := f.GetRows(sheet) // as shown, rounded by the formats
			require.NoError(t, err)
			require.Greater(t, len(rows), 1, sheet)
			for _, row := range rows {
				for c, cell := range row {
					col, err := excelize.ColumnNumberToName(c + 1)
					require.NoError(t, err)
					width, err := f.GetColWidth(sheet, col)
					require.NoError(t, err)
					for _, word := range strings.Fields(cell) {
						require.LessOrEqual(t, float64(len([]rune(word))), width, "%s, column %s: %s", sheet, col, word)
					}
				}
			}
		}
		flow, err := f.GetCellValue("Options", "B6")
		require.NoError(t, err)
		require.Regexp(t, `^\d+$`, flow, "airflow shows as a screen rounds it")
	}
}

func TestLines_Identity(t *testing.T) {
	for text, want := range map[string]int{"": 1, "two words": 1, "one two three four": 2, "a\nb": 2, strings.Repeat("x", 25): 3} {
		require.Equal(t, want, lines(text, 10), text)
	}
	require.Equal(t, 3, lines("12345678 12345678 12345678", 10))
}

// TestXLSX_About: the file says what it is from, and holds the cautions.
func TestXLSX_About(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	f := opened(t, s, units.IP)
	var all strings.Builder
	for _, sheet := range []string{"Findings", "Assumptions", "Cautions", "About"} {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		for _, r := range rows {
			all.WriteString(strings.Join(r, "\n") + "\n")
		}
	}
	for _, words := range append(Cautions(), "returnbench 9.9.9", "sha256 0a1b", "2026-03-05", "An invented house.", "inch-pound") {
		require.Contains(t, all.String(), string(words))
	}
	for _, x := range s.Findings {
		require.Contains(t, all.String(), x.In(units.IP))
	}
	for _, a := range s.Assumptions {
		require.Contains(t, all.String(), a.Path)
	}
	props, err := f.GetDocProps()
	require.NoError(t, err)
	require.Equal(t, "returnbench 9.9.9", props.Creator)
	require.Equal(t, s.Name, props.Title)
}

// TestXLSX_Odd_Identity: a name that reads like a formula stays a name, what has
// no number is left empty, and the same study gives the same bytes.
func TestXLSX_Odd_Identity(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	odd := *s
	odd.Options = append([]sizing.OptionResult(nil), s.Options...)
	odd.Options[0].Name = "=1+1"
	odd.Options[0].Life = units.Duration(math.Inf(1))
	odd.Options[0].LeakFraction = math.NaN()
	odd.Sizes = nil
	f := opened(t, &odd, units.IP)
	formula, err := f.GetCellFormula("Options", "B1")
	require.NoError(t, err)
	require.Empty(t, formula)
	name, err := f.GetCellValue("Options", "B1")
	require.NoError(t, err)
	require.Equal(t, "=1+1", name)
	heads, err := f.GetCols("Options")
	require.NoError(t, err)
	for c, h := range heads[0] {
		if h == "leak fraction" || strings.HasPrefix(h, "life") {
			cell, err := excelize.CoordinatesToCellName(2, c+1)
			require.NoError(t, err)
			v, err := f.GetCellValue("Options", cell)
			require.NoError(t, err)
			require.Empty(t, v, h)
		}
	}
	var a, b bytes.Buffer
	require.NoError(t, XLSX(&a, s, units.IP, testAbout))
	require.NoError(t, XLSX(&b, s, units.IP, testAbout))
	require.Equal(t, a.Bytes(), b.Bytes())
	require.ErrorContains(t, XLSX(full{}, s, units.IP, testAbout), "no room")
}

func BenchmarkXLSX(b *testing.B) {
	s := studyOf(b, "one-inch-slot")
	b.ReportAllocs()
	for b.Loop() {
		_ = XLSX(&bytes.Buffer{}, s, units.IP, testAbout)
	}
}

// TestXLSX_LongNotes: notes as long as a job may hold make a workbook.
func TestXLSX_LongNotes(t *testing.T) {
	study, err := sizing.Solve(sizing.Job{Schema: 1, DesignAirflow: 1200 * units.CFM})
	require.NoError(t, err)
	for _, notes := range []string{strings.Repeat("word ", 400), strings.Repeat("a\n", 1000), strings.Repeat("家", sizing.MostLetters("notes"))} {
		var out bytes.Buffer
		require.NoError(t, XLSX(&out, study, units.IP, About{Notes: notes}))
		file, err := excelize.OpenReader(&out)
		require.NoError(t, err)
		kept, err := file.GetCellValue("About", "B2")
		require.NoError(t, err)
		require.Equal(t, notes, kept)
	}
}

// TestComparisonSheet_Identity: a figure a cell, as the comparison has it, a number
// where it is one and nothing where it is not known.
func TestComparisonSheet_Identity(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	f := opened(t, s, units.IP)
	c := sizing.Compare(s, sizing.View{}, nil)
	unknown := 0
	for i := range c.Rows {
		for k := range c.Rows[i].Cells {
			cell := &c.Rows[i].Cells[k]
			name, err := excelize.CoordinatesToCellName(k+3, i+2)
			require.NoError(t, err)
			shown, err := f.GetCellValue("Comparison", name)
			require.NoError(t, err)
			if !cell.Known {
				unknown++
				require.Empty(t, shown, name)
				continue
			}
			want, err := strconv.ParseFloat(cell.Number(units.IP), 64)
			if err != nil {
				require.Equal(t, cell.Number(units.IP), shown, name)
				continue
			}
			got, err := strconv.ParseFloat(shown, 64)
			require.NoError(t, err, name)
			require.InDelta(t, want, got, 1e-9, name)
		}
	}
	require.Positive(t, unknown, "the work of two options has no price")
}

// TestPrinted: each sheet goes on one page across, with its head and first
// column frozen and on every page.
func TestPrinted(t *testing.T) {
	f := opened(t, studyOf(t, "one-inch-slot"), units.IP)
	titles := map[string]string{}
	for _, n := range f.GetDefinedName() {
		titles[n.Scope] = n.RefersTo
	}
	for _, sheet := range f.GetSheetList() {
		props, err := f.GetSheetProps(sheet)
		require.NoError(t, err)
		require.True(t, *props.FitToPage, sheet)
		page, err := f.GetPageLayout(sheet)
		require.NoError(t, err)
		require.Equal(t, 1, *page.FitToWidth, sheet)
		panes, err := f.GetPanes(sheet)
		require.NoError(t, err)
		require.True(t, panes.Freeze && panes.YSplit == 1, sheet)
		require.Equal(t, sheet+"!$A:$A,"+sheet+"!$1:$1", titles[sheet])
		// Letter and A4 alike, at 7 points or more: 10 points set a digit in 0.0773 in.
		if sheet == "Sizes" { // many columns and many rows: it takes larger paper
			continue
		}
		require.Zero(t, *page.Size, sheet)
		across := 0.0
		cols, err := f.GetCols(sheet)
		require.NoError(t, err)
		for c := range cols {
			name, err := excelize.ColumnNumberToName(c + 1)
			require.NoError(t, err)
			w, err := f.GetColWidth(sheet, name)
			require.NoError(t, err)
			across += w
		}
		require.GreaterOrEqual(t, 10*(11-2*0.4)/(0.0773*across), 7.0, "%s is %.0f digits wide", sheet, across)
	}
}

// TestUnknownIsEmpty: the house with no filter has no media area, MERV or life.
func TestUnknownIsEmpty(t *testing.T) {
	f := opened(t, studyOf(t, "one-inch-slot"), units.IP)
	rows, err := f.GetCols("Options")
	require.NoError(t, err)
	require.Equal(t, sizing.NoFilterName, rows[1][0])
	empty := 0
	for i, h := range rows[0] {
		for _, name := range []string{"media area", "merv", "installed merv", "life"} {
			if strings.Split(h, ",")[0] == name {
				require.True(t, i >= len(rows[1]) || rows[1][i] == "", h)
				empty++
			}
		}
	}
	require.Equal(t, 4, empty)
}
