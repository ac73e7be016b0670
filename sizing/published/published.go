// Package published is test support: it holds results of the engine against
// figures from outside the project and refuses a check that does not name its
// source and say why its tolerance is what it is.
package published

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Row is one comparison with a published figure.
type Row struct {
	Name      string
	Source    string // title, edition, table or page; "from memory" or "common practice, no source" where so
	Got, Want float64
	Tolerance float64 // in the unit of Want, or a share of it when Relative
	Relative  bool
	Why       string // why the tolerance: printed digits, rounding of the source, ...
}

// Check fails the test when the row is off, when it lacks source or reason, or
// when the test is named for another kind of source than the row has.
func Check(t testing.TB, r Row) {
	t.Helper()
	if wrong := misnamed(t.Name(), r.Source); wrong != "" {
		t.Errorf("%s: %s", r.Name, wrong)
	}
	require.NotEmpty(t, r.Source, "%s: a published check names its source", r.Name)
	require.NotEmpty(t, r.Why, "%s: a published check says why its tolerance", r.Name)
	require.Positive(t, r.Tolerance, "%s: a published check has a tolerance", r.Name)
	limit := r.Tolerance
	if r.Relative {
		limit *= math.Abs(r.Want)
	}
	record(t, r)
	if !(math.Abs(r.Got-r.Want) <= limit) {
		t.Errorf("%s: got %g, want %g within %g (%s; %s)", r.Name, r.Got, r.Want, limit, r.Source, r.Why)
	}
}

var remembered = regexp.MustCompile(`from memory|common practice|rule of thumb`)

// misnamed is why a test may not check a figure of such a source: figures that
// were read belong in a _Published test, figures from memory in a _Plausible
// one.
func misnamed(test, source string) string {
	name, _, _ := strings.Cut(test, "/")
	memory := remembered.MatchString(source)
	switch {
	case strings.HasSuffix(name, "_Published") && memory:
		return "a figure remembered stands in a test named _Plausible, not in " + name + " (" + source + ")"
	case strings.HasSuffix(name, "_Plausible") && !memory:
		return "a figure that was read stands in a test named _Published, not in " + name + " (" + source + ")"
	case !strings.HasSuffix(name, "_Published") && !strings.HasSuffix(name, "_Plausible"):
		return "a figure from outside stands in a test named _Published or _Plausible, not in " + name
	}
	return ""
}

// TableRow gives the cells of one line by column name.
type TableRow map[string]string

// Float reads a numeric cell and fails the test where there is none.
func (r TableRow) Float(t testing.TB, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "column %s", column)
	return v
}

// Table reads a CSV of the top-level testdata folder. Its leading # lines are
// the source and come back as one text; a table without them fails the test.
func Table(t testing.TB, name string) (source string, rows []TableRow) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(Dir(), name))
	require.NoError(t, err)
	var notes []string
	for _, line := range strings.Split(string(data), "\n") {
		if !strings.HasPrefix(line, "#") {
			break
		}
		notes = append(notes, strings.TrimSpace(strings.TrimPrefix(line, "#")))
	}
	require.NotEmpty(t, notes, "%s: a published table is headed by its source", name)
	reader := csv.NewReader(strings.NewReader(string(data)))
	reader.Comment = '#'
	records, err := reader.ReadAll()
	require.NoError(t, err, name)
	require.Greater(t, len(records), 1, "%s has no rows", name)
	for _, record := range records[1:] {
		row := TableRow{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	return strings.Join(notes, " "), rows
}

// Dir is the top-level testdata folder.
func Dir() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "..", "..", "testdata")
}
