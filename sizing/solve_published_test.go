package sizing

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/judge"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

// Operating points of a power-law system on a blower table, by another root
// finder on another monotone cubic.
func TestSolvedPoint_Published(t *testing.T) {
	source, rows := published.Table(t, "operating_point.csv")
	var points []blower.Point
	for static, flow := range map[float64]float64{0.1: 1385, 0.2: 1350, 0.3: 1310, 0.5: 1210, 0.6: 1150, 0.8: 980, 0.9: 840} {
		points = append(points, blower.Point{ExternalStatic: units.Pressure(static) * units.InchWater, Airflow: units.Flow(flow) * units.CFM})
	}
	curve, err := blower.NewCurve(points)
	require.NoError(t, err)
	for _, row := range rows {
		law := airpath.Power(row.Float(t, "dp0_inwc")*float64(units.InchWater), row.Float(t, "q0_cfm")*float64(units.CFM), row.Float(t, "n"))
		p, err := airpath.System{Series: []airpath.Part{{Name: "system", Law: law}}}.Solve(curve.Extended, nil)
		require.NoError(t, err)
		published.Check(t, published.Row{Name: "airflow, " + row["case"], Source: source, Got: p.Flow / float64(units.CFM), Want: row.Float(t, "cfm"),
			Tolerance: 1e-10, Relative: true, Why: "both solve the same equations to rounding"})
		published.Check(t, published.Row{Name: "static, " + row["case"], Source: source, Got: p.Static / float64(units.InchWater), Want: row.Float(t, "esp_inwc"),
			Tolerance: 1e-10, Relative: true, Why: "both solve the same equations to rounding"})
	}
}

// Every file of testdata names its source: a table or a program at its head, a
// house in its notes, where it says that it is invented. No other kind of file
// belongs there.
func TestEveryFileNamesItsSource(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(published.Dir(), func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if d.Name() == "__pycache__" || d.Name() == "schema1" {
				return fs.SkipDir // compiled programs; files of users, kept to be opened
			}
			return nil
		}
		seen++
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		switch {
		case strings.HasSuffix(path, ".csv"):
			first, _, _ := strings.Cut(string(data), "\n")
			assert.True(t, strings.HasPrefix(first, "#") && len(first) > 40, "%s begins with: %s", d.Name(), first)
		case strings.HasSuffix(path, ".job.json"):
			var job struct{ Notes string }
			require.NoError(t, json.Unmarshal(data, &job), d.Name())
			assert.Contains(t, job.Notes, "nvented", "%s says in its notes that it is invented", d.Name())
		case strings.HasSuffix(path, ".py"):
			first, _, _ := strings.Cut(strings.TrimPrefix(string(data), "#!/usr/bin/env python3\n"), "\n")
			assert.True(t, strings.HasPrefix(first, `"""`) && len(first) > 40, "%s begins with: %s", d.Name(), first)
		default:
			t.Errorf("%s is neither a table, a job nor a program that says what it is written from", d.Name())
		}
		return nil
	})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, seen, 15)
}

// Total gross area of the filter grilles by tonnage.
func TestReturnTable_Published(t *testing.T) {
	const source = "California Energy Code, Title 24 part 6, tables 150.0-B and C, from secondary text"
	printed := map[float64]float64{1.5: 500, 2: 600, 2.5: 800, 3: 900, 3.5: 1000, 4: 1200, 5: 1500}
	require.Len(t, judge.ReturnTable, len(printed))
	for tons, area := range printed {
		got, ok := judge.TableGross(units.Capacity(tons) * units.Ton)
		assert.True(t, ok)
		published.Check(t, published.Row{Name: fmt.Sprintf("%g tons", tons), Source: source, Got: got.In(units.SquareInch), Want: area,
			Tolerance: 1e-9, Relative: true, Why: "printed in whole square inches"})
	}
}

func TestReturnTableBetweenRows(t *testing.T) {
	a, ok := judge.TableGross(2.7 * units.Ton)
	assert.True(t, ok)
	assert.InDelta(t, 900, a.In(units.SquareInch), 1e-9, "between rows the larger one counts")
	_, ok = judge.TableGross(6 * units.Ton)
	assert.False(t, ok)
}
