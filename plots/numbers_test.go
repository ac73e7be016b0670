package plots

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

func table(t *testing.T, key string, sys units.Locale) [][]string {
	t.Helper()
	for _, k := range Kinds() {
		if k.Key == key {
			r := csv.NewReader(strings.NewReader(k.Chart(testStudy(2), Light(sys)).Numbers().Text()))
			r.Comma = '\t'
			rows, err := r.ReadAll()
			require.NoError(t, err)
			require.Greater(t, len(rows), 1)
			return rows
		}
	}
	t.Fatal(key)
	return nil
}

func TestNumbersHaveTheirUnits(t *testing.T) {
	for key, want := range map[string][2]string{
		"fan-and-system":     {"line|airflow, cfm|external static, in. w.c.|power, W", "line|airflow, L/s|external static, Pa|power, W"},
		"filter-drop":        {"line|face velocity, fpm|filter drop, in. w.c.", "line|face velocity, m/s|filter drop, Pa"},
		"filter-life":        {"line|time in service, months|airflow, cfm|filter drop, in. w.c.|blower power, W", "line|time in service, months|airflow, L/s|filter drop, Pa|blower power, W"},
		"efficiency-by-size": {"line|particle size, µm|held back, %", "line|particle size, µm|held back, %"},
		"pressure-by-part":   {"option|state|return, in. w.c.|filter, in. w.c.|coil, in. w.c.|supply, in. w.c.|External static, in. w.c.", "option|state|return, Pa|filter, Pa|coil, Pa|supply, Pa|External static, Pa"},
		"ten-year-cost":      {"option|state|upgrade, $|filters, $|blower power, $|outdoor unit, $|Cost over ten years, $", "option|state|upgrade, $|filters, $|blower power, $|outdoor unit, $|Cost over ten years, $"},
		"watts":              {"option|state|Blower power, W", "option|state|Blower power, W"},
	} {
		assert.Equal(t, want[0], strings.Join(table(t, key, units.IP)[0], "|"))
		assert.Equal(t, want[1], strings.Join(table(t, key, units.SI)[0], "|"))
	}
}

// What is copied is what the Study holds, and once.
func TestNumbersAreTheStudys(t *testing.T) {
	s := testStudy(2)
	life := table(t, "filter-life", units.IP)
	rows := 0
	for _, o := range s.Options {
		rows += len(o.LifeCurve)
	}
	require.Len(t, life, 1+rows, "three tiers, one row a point")
	q, err := strconv.ParseFloat(life[3][2], 64)
	require.NoError(t, err)
	assert.InEpsilon(t, s.Options[1].LifeCurve[2].Airflow.In(units.CFM), q, 1e-8)

	for _, row := range table(t, "pressure-by-part", units.SI)[1:] {
		sum := 0.0
		for _, cell := range row[2 : len(row)-1] {
			if cell != "" {
				v, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err)
				sum += v
			}
		}
		total, err := strconv.ParseFloat(row[len(row)-1], 64)
		require.NoError(t, err)
		assert.InDelta(t, total, sum, 1e-5, "%v", row)
	}
}

func TestNumber(t *testing.T) {
	assert.Equal(t, "0.3", number(0.1+0.2))
	assert.Equal(t, "1234567.89", number(1234567.891))
	assert.Equal(t, "0", number(0))
	assert.Equal(t, "-0.00012", number(-1.2e-4))
	assert.Empty(t, number(1/zero))
}

var zero float64

func TestSaveGoesByTheEnding(t *testing.T) {
	p := Watts(testStudy(1), Print(units.IP))
	dir := t.TempDir()
	for name, begins := range map[string]string{"a.png": "\x89PNG", "b.svg": "<?xml", "c.PDF": "%PDF-"} {
		path := filepath.Join(dir, name)
		require.NoError(t, Save(path, p))
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(data), begins), name)
	}
	var fault *FormatError
	require.ErrorAs(t, Save(filepath.Join(dir, "d.gif"), p), &fault)
	require.ErrorAs(t, Save(filepath.Join(dir, "d"), p), &fault)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 3, "nothing of a file that cannot be")
}
