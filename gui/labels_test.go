package gui

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// readable refuses what only a file may say.
func readable(t *testing.T, path, words string) {
	t.Helper()
	require.NotContains(t, words, "_", path)
	require.NotContains(t, words, "[", path)
	place, _, _ := strings.Cut(words, ":")
	place, _, _ = strings.Cut(place, ",")
	require.Equal(t, string(placeOf(placeOfPath(path)).name), place, path)
}

func quietBench(t *testing.T) *Bench {
	t.Helper()
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	require.NoError(t, err)
	return b
}

// Every field of the Job, and every fault that its check can find in a crowded
// one, has words of the window.
func TestEveryPathHasWords(t *testing.T) {
	b := quietBench(t)
	seen := map[string]string{}
	for _, path := range fieldpath.Leaves(reflect.TypeFor[sizing.Job]()) {
		if path == "schema" {
			continue // the engine's own
		}
		words := b.words(nil, path)
		readable(t, path, words)
		require.Contains(t, words, ": ", path)
		if other := seen[words]; other != "" {
			same := path[:strings.LastIndex(path, ".")+1] == other[:strings.LastIndex(other, ".")+1]
			require.True(t, same, "%s and %s are both %q", path, other, words) // sides of one size
		}
		seen[words] = path
	}
	require.Greater(t, len(seen), 130)
	for _, job := range jobsWithAllLists() {
		faults := job.Check()
		require.NotEmpty(t, faults)
		for _, f := range faults {
			readable(t, f.Path, b.words(&job, f.Path))
		}
	}
}

func TestEveryAssumptionHasWords(t *testing.T) {
	b := quietBench(t)
	jobs := []sizing.Job{{Schema: sizing.Schema, Equipment: sizing.Equipment{CoolingCapacity: 3 * units.Ton}}}
	for _, name := range []string{"one-inch-slot", "two-returns", "constant-airflow", "metric-altitude"} {
		jobs = append(jobs, example(t, name))
	}
	for _, job := range jobs {
		b.put(job, "")
		require.NotNil(t, b.session.Study())
		for _, a := range b.session.Study().Assumptions {
			readable(t, a.Path, b.Call(a.Path))
		}
	}
}

func TestWordsNameTheThingOfAList(t *testing.T) {
	b := quietBench(t)
	job := jobWithAllLists(duct.Flex, duct.ElbowSmooth)
	job.Equipment.Blower.Taps[0].Points = make([]blower.Point, 5)
	job.Options = append(job.Options, sizing.Option{Name: "four-inch cabinet"})
	for path, words := range map[string]string{
		"site.indoor_dry_bulb":                                  "Site: Cooling, dry bulb",
		"equipment.cooling_capacity":                            "Start: Cooling capacity",
		"airflow_per_capacity":                                  "Equipment: Airflow per capacity",
		"equipment.blower.taps":                                 "Blower: each tap",
		"equipment.blower.taps[0].points[3]":                    "Blower, tap 1 (high), row 4",
		"equipment.blower.taps[0].points[3].external_static":    "Blower, tap 1 (high), row 4: External static",
		"equipment.blower.includes":                             "Blower",
		"equipment.blower.includes[1]":                          "Blower: The table includes a filter",
		"options[1].price":                                      "Compare, option 2 (four-inch cabinet): Price, installed",
		"options[0].returns[0].runs[2].length":                  "Compare, option 1 (o), return 1 (hall), duct run 3: Length",
		"returns[0].grille.rating[2].drop":                      "Returns, return 1 (hall), catalog pressure drop 3: The drop is",
		"filters[4].efficiency[3]":                              "Filters, filter 5: 0.70 to 1.00 µm",
		"coil":                                                  "Coil and supply, cooling coil: Drop",
		"supply.airflow":                                        "Coil and supply, supply ducts and registers: At an airflow of",
		"readings[0].filter_drop":                               "Readings, test 1: Across the filter",
		"equipment.fan_colour":                                  "equipment.fan_colour", // as the file has it
		"equipment.blower.taps[99999999999999999999].points[]":  "equipment.blower.taps[99999999999999999999].points[]",
		"equipment.blower.taps[99999999999999999999].points[0]": "Blower, tap, row 1",
		"options[1].returns[0].name":                            "Compare, option 2 (four-inch cabinet), return 1: Return name",
		"options[7].returns[0].grille.free_area":                "Compare, option 8, return 1: Free area",
		"work_prices.return":                                    "Requirements and prices: Added return, each",
		"limits.change_months":                                  "Requirements and prices: Change after",
		"equipment.blower.heating_tap":                          "Blower: Tap in heating",
		"filters[0].rating[1].airflow":                          "Filters, filter 1 (f), catalog pressure drop 2: At an airflow of",
		"returns":                                               "Returns: each return",
		"(file)":                                                "(file)",
	} {
		require.Equal(t, words, b.words(&job, path), path)
	}
}

// The strip, the dialog of a file at fault and Problems speak of places.
func TestNobodyReadsAFileKey(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.goTo("findings")
	rows := b.screens["findings"].(interface{ Assumed() [][]string }).Assumed()
	require.NotEmpty(t, rows)
	for _, row := range rows {
		require.Contains(t, row[2], ": ")
		require.NotContains(t, row[2], "_")
	}
	b.session.Apply("spoil", func(j *sizing.Job) { j.Site.IndoorDryBulb = units.Fahrenheit(200) })
	b.session.ShowAllFaults()
	require.Contains(t, b.decision.strip.Content().Sentence, "Site: Cooling, dry bulb: given")
	b.decision.strip.Press()
	require.Equal(t, "house", b.at)

	faults := sizing.FieldErrors{{Path: "filters[1].pleats", Given: "1", Wanted: message.New("2 or more")}, {Path: "job.coil.drop", Given: "a", Wanted: message.New("b")}}
	require.Equal(t, "Filters, filter 2: Pleats in the width: given 1; want 2 or more\nCoil and supply, cooling coil: Drop: given a; want b", b.inWords(faults))
	require.Equal(t, "no disk", b.inWords(errors.New("no disk")))
}

func BenchmarkLabels(b *testing.B) {
	bench := newBench(b)
	for b.Loop() {
		bench.called = nil
		for _, p := range places() {
			if len(p.fieldPaths) > 0 {
				bench.labels(p.key)
			}
		}
	}
}
