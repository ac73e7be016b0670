package export

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// TestCell_Identity: what a spreadsheet would work out is marked as text, and
// numbers are left alone.
func TestCell_Identity(t *testing.T) {
	for _, formula := range []string{"=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "-1-1", "=", "-a1", "-1|x"} {
		require.Equal(t, "'"+formula, Cell(formula))
	}
	for _, plain := range []string{"", "-", "-3", "+3.5", "-1e-5", "-0.25 in. w.c.", "-12 %", "house =1", "1-2", "'=1", "−3"} {
		require.Equal(t, plain, Cell(plain))
	}
}

// TestCSV_Formulas: no name of a job reaches a table raw.
func TestCSV_Formulas(t *testing.T) {
	const evil = `=HYPERLINK("x")`
	job := sizing.Job{Schema: 1, Name: evil, DesignAirflow: 1200 * units.CFM}
	job.Filters = append(job.Filters, filter.Filter{Name: "@filter", MERV: 8})
	job.Options = []sizing.Option{{Name: evil, Filter: "@filter"}, {Name: "-1+2", Filter: "@filter"}, {Name: "+x"}}
	job.Slot.Filter = "@filter"
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, CSV(&out, study, units.IP))
	r := csv.NewReader(strings.NewReader(out.String()))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	marked := 0
	for _, row := range rows {
		for _, cell := range row {
			require.Equal(t, cell, Cell(cell), "it is safe as it stands")
			if strings.HasPrefix(cell, "'") {
				marked++
			}
		}
	}
	require.Greater(t, marked, 6)
}
