//go:build e2e

package main

import (
	"encoding/csv"
	"math"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// TestSpreadsheet: a spreadsheet program from outside opens the
// workbook and the CSV, and what it writes of them holds the Study's numbers
// under the same headings.
func TestSpreadsheet(t *testing.T) {
	dir := t.TempDir()
	file := example("two-returns")
	for _, format := range []string{"csv", "xlsx"} {
		r := returnbench(t, "", "study", file, "-o", filepath.Join(dir, "house."+format))
		require.Equal(t, outcome{}, r)
	}
	// Every sheet to a file of its own, at full precision, in UTF-8. One start
	// of the program converts both.
	profile := url.URL{Scheme: "file", Path: filepath.Join(dir, "profile")}
	office := exec.Command("soffice", "-env:UserInstallation="+profile.String(), "--headless", "--norestore",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1",
		"--outdir", filepath.Join(dir, "back"), filepath.Join(dir, "house.xlsx"), filepath.Join(dir, "house.csv"))
	office.Env = append(os.Environ(), "HOME="+dir, "LC_ALL=C.UTF-8")
	out, err := office.CombinedOutput()
	require.NoError(t, err, "%s", out)

	data, err := os.ReadFile(file)
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	var options, sizes strings.Builder
	require.NoError(t, export.OptionsCSV(&options, study, units.IP))
	require.NoError(t, export.SizesCSV(&sizes, study, units.IP))
	tables := [][][]string{cellsOf(t, options.String()), cellsOf(t, sizes.String())}
	for i, sheet := range []string{"Options", "Sizes"} {
		cells := cellsOf(t, content(t, filepath.Join(dir, "back", "house-"+sheet+".csv")))
		if sheet == "Options" {
			cells = turned(cells) // an option is a column there
		}
		sameCells(t, sheet, tables[i], cells)
	}
	for _, sheet := range []string{"Findings", "Assumptions", "Cautions", "About"} {
		require.Greater(t, len(cellsOf(t, content(t, filepath.Join(dir, "back", "house-"+sheet+".csv")))), 1, sheet)
	}
	// The CSV has one sheet, named after the file; an empty line parts its tables.
	back := withoutEmpty(cellsOf(t, content(t, filepath.Join(dir, "back", "house-house.csv"))))
	n := len(tables[0])
	sameCells(t, "options of the CSV", tables[0], back[:n])
	sameCells(t, "sizes of the CSV", tables[1], back[n:])
}

// turned has rows as columns.
func turned(rows [][]string) [][]string {
	out := make([][]string, len(rows[0]))
	for i := range out {
		for _, r := range rows {
			out[i] = append(out[i], r[i])
		}
	}
	return out
}

// spellings are how a cell may come back: the workbook says yes for true.
func spellings(cell string) []string {
	switch cell {
	case "true":
		return []string{"yes", "true"}
	case "false":
		return []string{"no", "false"}
	}
	return []string{cell}
}

func cellsOf(t *testing.T, text string) [][]string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows
}

func withoutEmpty(rows [][]string) [][]string {
	var out [][]string
	for _, r := range rows {
		if strings.Join(r, "") != "" {
			out = append(out, r)
		}
	}
	return out
}

// sameCells holds numbers to fifteen digits, which a spreadsheet keeps, and
// words to the letter; a row may have empty cells to spare.
func sameCells(t *testing.T, name string, want, got [][]string) {
	t.Helper()
	require.Len(t, got, len(want), name)
	numbers := 0
	for r := range want {
		require.Empty(t, strings.Join(got[r][len(want[r]):], ""), "%s, row %d", name, r+1)
		for c, cell := range want[r] {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				require.Contains(t, spellings(cell), got[r][c], "%s, row %d, %s", name, r+1, want[0][c])
				continue
			}
			numbers++
			back, err := strconv.ParseFloat(got[r][c], 64)
			require.NoError(t, err, "%s, row %d, %s", name, r+1, want[0][c])
			require.InDelta(t, v, back, 2e-14*math.Abs(v), "%s, row %d, %s", name, r+1, want[0][c])
		}
	}
	require.Greater(t, numbers, 20, name)
}
