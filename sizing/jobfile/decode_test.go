package jobfile

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

func faultsOf(t *testing.T, text string) sizing.FieldErrors {
	t.Helper()
	_, err := Decode([]byte(text))
	var faults sizing.FieldErrors
	require.True(t, errors.As(err, &faults), "%v", err)
	return faults
}

func TestDecode(t *testing.T) {
	job, err := Decode([]byte(`{"schema": 1, "name": "A", "design_airflow": "566 L/s",
		"equipment": {"cooling_capacity": "3 ton"}, "filters": [{"name": "f", "merv": 8, "depth": "15-3/4 in"}],
		"slot": {"none": true}, "site": {"altitude": "0 ft"}, "limits": {"checks": []}}`))
	require.NoError(t, err)
	require.Equal(t, "A", job.Name)
	require.Equal(t, 566*units.LitrePerSecond, job.DesignAirflow)
	require.Equal(t, 3*units.Ton, job.Equipment.CoolingCapacity)
	require.Equal(t, 15.75*units.Inch, job.Filters[0].Depth)
	require.Equal(t, 8, job.Filters[0].MERV)
	require.True(t, job.Slot.None)
	require.Nil(t, job.Limits.Checks)
}

// TestDecode_Faults: every fault of a file is reported at once, in the
// order of the file, each by its path.
func TestDecode_Faults(t *testing.T) {
	faults := faultsOf(t, `{
		"schema": 1,
		"design_airflow": 1200,
		"heating_airflow": "900",
		"target_face_velocity": "300 mph",
		"desing_airflow": "1200 cfm",
		"equipment": {"kind": "air handler", "cooling_capacity": null, "blower": {"motor": "PSC "}},
		"filters": [{"name": 5, "merv": 8.5}, {"merv": "8", "pleats": 0, "efficiency": [0.1, "x"]}],
		"returns": [{"runs": [{"length": "10 ft", "diameter": "0 in"}]}],
		"slot": [],
		"notes": "a", "notes": "b",
		"a.b": {"c": [1, {"d": 2}]}
	}`)
	want := []struct{ path, given, wanted string }{
		{"design_airflow", "1200", `as text such as "1200 cfm"`},
		{"heating_airflow", `"900"`, "the unit is missing"},
		{"target_face_velocity", `"300 mph"`, "a speed in fpm or m/s"},
		{"desing_airflow", "not known", `"design_airflow"`},
		{"equipment.kind", `"air handler"`, `"air_handler"; it may be one of furnace_with_coil, furnace, air_handler`},
		{"equipment.cooling_capacity", "null", "leave the name out"},
		{"equipment.blower.motor", `"PSC "`, `"psc"`},
		{"filters[0].name", "5", "a text"},
		{"filters[0].merv", "8.5", "a whole number"},
		{"filters[1].merv", `"8"`, "a whole number"},
		{"filters[1].pleats", "0", "other than zero"},
		{"filters[1].efficiency[1]", `"x"`, "a number"},
		{"filters[1].name", "nothing", "a text"},
		{"returns[0].runs[0].diameter", `"0 in"`, "other than zero; leave the name out"},
		{"returns[0].runs[0].shape", "nothing", "one of round, flex, rectangular"},
		{"slot", "a list in brackets", "an object in braces"},
		{"notes", "the same name twice", "one value"},
		{`"a.b"`, "not known", "one of schema, name"},
	}
	require.Len(t, faults, len(want), "%v", faults)
	for i, w := range want {
		require.Equal(t, w.path, faults[i].Path)
		require.Contains(t, faults[i].Given, w.given, w.path)
		require.Contains(t, faults[i].Wanted.String(), w.wanted, w.path)
	}
}

func TestDecode_Schema(t *testing.T) {
	for text, given := range map[string]string{
		`{}`:                            "nothing",
		`{"name": "a"}`:                 "nothing",
		`{"schema": 2, "airflow": "x"}`: "2",
		`{"schema": "1"}`:               `"1"`,
		`{"schema": 1.0}`:               "1.0",
		`{"schema": null}`:              "null",
	} {
		faults := faultsOf(t, text)
		require.Len(t, faults, 1, text)
		require.Equal(t, "schema", faults[0].Path)
		require.Equal(t, given, faults[0].Given)
		require.Contains(t, faults[0].Wanted.String(), `"schema": 1`)
	}
	require.Equal(t, "(file)", faultsOf(t, `[1]`)[0].Path)
}

func TestDecode_Syntax(t *testing.T) {
	for _, c := range []struct {
		text         string
		line, column int
		reason       string
	}{
		{"", 1, 1, "empty"},
		{" \n ", 1, 1, "empty"},
		{"{\"schema\": 1,\n  \"name\": \"\xff\"}", 2, 12, "not UTF-8"},
		{"{\"schema\": 1,\n  \"é\": tru}", 2, 11, "invalid character"},
		{"{\"schema\": 1,\n  name: 2}", 2, 3, "invalid character"},
		{"{\"schema\": 1", 1, 13, "unexpected EOF"},
		{"{\"schema\": 1}\n{}", 2, 1, "more text"},
		{"{\"schema\": 1, \"name\": \"\\ud800\"}", 1, 24, "surrogate"},
	} {
		_, err := Decode([]byte(c.text))
		var s *SyntaxError
		require.True(t, errors.As(err, &s), "%q: %v", c.text, err)
		require.Contains(t, s.Reason.String(), c.reason, c.text)
		require.Equal(t, [2]int{c.line, c.column}, [2]int{s.Line, s.Column}, "%q: %s", c.text, s.Reason)
	}
}

func TestDecode_ByteOrderMark(t *testing.T) {
	_, err := Decode([]byte("\ufeff{\"schema\": 1}"))
	require.NoError(t, err)
}

// TestDecode_Partial: beside its faults a job holds what can be read.
func TestDecode_Partial(t *testing.T) {
	job, err := Decode([]byte(`{"schema": 1, "name": "A", "design_airflow": "x"}`))
	require.Error(t, err)
	require.Equal(t, "A", job.Name)
}

// TestRead_Identity: the faults of reading and of the engine's check come
// together, and a field is faulted once.
func TestRead_Identity(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(published.Dir(), "jobs", "five-faults.job.json"))
	require.NoError(t, err)
	_, err = Read(data)
	var faults sizing.FieldErrors
	require.True(t, errors.As(err, &faults), "%v", err)
	for _, path := range fiveFaults {
		require.NotNil(t, faults.At(path), "%s in\n%v", path, err)
	}
	require.Len(t, faults, len(fiveFaults), "%v", err)

	data, err = os.ReadFile(filepath.Join(published.Dir(), "jobs", "least.job.json"))
	require.NoError(t, err)
	_, err = Read(data)
	require.NoError(t, err)
}

var fiveFaults = []string{
	"design_airflow",
	"equipment.blower.moter",
	"filters[0].merv",
	"filters[1].pleats",
	"returns[0].runs[0].shape",
}
