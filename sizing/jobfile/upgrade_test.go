package jobfile

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// inventedFormat stands for a later program, for the file of a job has had one
// schema so far: schema 1 called the airflow "air", and schema 2 gave it in tens
// of cfm as a number without a unit.
func inventedFormat() format {
	return format{word: "job", schema: 3, upgrades: []upgrade{
		func(d map[string]any) error {
			d["tens"] = d["air"]
			delete(d, "air")
			return nil
		},
		func(d map[string]any) error {
			tens, ok := d["tens"].(float64)
			if !ok {
				return errors.New("tens is no number")
			}
			delete(d, "tens")
			d["design_airflow"] = (units.Flow(10*tens) * units.CFM).String()
			return nil
		},
	}}
}

// TestFormats: every schema that a program may meet can be brought to
// its own.
func TestFormats(t *testing.T) {
	for _, f := range []format{jobFormat, lessonFormat, inventedFormat()} {
		require.Len(t, f.upgrades, f.schema-1, f.word)
	}
}

// TestUpgrade: an older text is taken through every schema between; the
// program's own is not touched, and what it cannot read is reported.
func TestUpgrade(t *testing.T) {
	f := inventedFormat()
	for _, text := range []string{
		`{"schema": 1, "name": "A", "air": 120}`, "\ufeff{\"schema\": 2, \"name\": \"A\", \"tens\": 120}", `{"schema": 3, "name": "A", "design_airflow": "1200 cfm"}`,
	} {
		var job sizing.Job
		require.NoError(t, f.decode([]byte(text), &job), text)
		require.Equal(t, sizing.Job{Schema: 3, Name: "A", DesignAirflow: 1200 * units.CFM}, job)
	}
	own := []byte(`{"name": "A",   "schema": 3}`)
	text, fault := f.upgraded(own)
	require.Nil(t, fault)
	require.Equal(t, string(own), string(text))

	for text, want := range map[string]string{
		`{"schema": 2, "name": "A", "tens": "x"}`:                  "schema 2: tens is no number; want a job that can be brought to schema 3",
		`{"schema": 1, "name": "A", "air": 120, "colour": 1}`:      "colour: given a name that is not known here",
		`{"schema": 1, "name": "A", "name": "B", "air": 120}`:      "duplicate",
		`{"schema": 4, "name": "A"}`:                               "newer version",
		`{"schema": 0, "name": "A"}`:                               `schema: given 0; want "schema": 3`,
		`{"schema": 1, "name": "A", "air": 120, "schema": 2}`:      "duplicate",
		`{"schema": 1.0, "name": "A", "air": 120}`:                 "schema: given 1.0",
		`{"name": "A", "air": 120}`:                                "schema: given nothing",
		`{"schema": 1, "name": "A", "air": 120, "notes": [1, {}]}`: "notes: given a list",
	} {
		err := f.decode([]byte(text), new(sizing.Job))
		require.ErrorContains(t, err, want, text)
	}
}

// TestUpgrade_Inside: the job inside a demonstration has a schema of its
// own.
func TestUpgrade_Inside(t *testing.T) {
	f := format{word: "lesson", schema: 1, parts: map[string]format{"job": inventedFormat()}}
	text, fault := f.upgraded([]byte(`{"schema": 1, "title": "T", "job": {"schema": 2, "tens": 120}}`))
	require.Nil(t, fault)
	require.JSONEq(t, `{"schema": 1, "title": "T", "job": {"schema": 3, "design_airflow": "1200 cfm"}}`, string(text))
	_, fault = f.upgraded([]byte(`{"schema": 1, "job": {"schema": 2, "tens": []}}`))
	require.Equal(t, "job", fault.Path)
}

// TestUpgrade_Copy: what an older program wrote is kept beside the file,
// through later saves and for each file that had the name.
func TestUpgrade_Copy(t *testing.T) {
	f := inventedFormat()
	path := filepath.Join(t.TempDir(), "a.job.json")
	write := func(text string) { require.NoError(t, os.WriteFile(path, []byte(text), 0o640)) }
	holds := func(suffix, want string) {
		t.Helper()
		data, err := os.ReadFile(path + suffix)
		require.NoError(t, err)
		require.Equal(t, want, string(data))
	}
	const first, other, now = `{"schema": 1, "air": 120}`, `{"schema": 1, "air": 90}`, `{"schema": 3}`
	write(first)
	require.NoError(t, f.save(path, []byte(now)))
	require.NoError(t, f.save(path, []byte(now+"\n")))
	holds("", now+"\n")
	holds(".bak", now)
	holds(".schema1", first)
	info, err := os.Stat(path + ".schema1")
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())

	write(first)
	require.NoError(t, f.save(path, []byte(now)))
	require.NoFileExists(t, path+".schema1-2", "it is kept already")
	write(other)
	require.NoError(t, f.save(path, []byte(now)))
	holds(".schema1", first)
	holds(".schema1-2", other)

	write(`{"schema": 2, "tens": 120}`)
	require.NoError(t, os.Mkdir(path+".schema2", 0o755))
	require.NoError(t, f.save(path, []byte(now)), "another name is found")
	holds(".schema2-2", `{"schema": 2, "tens": 120}`)
}

// TestUpgrade_None: saving a job of today leaves no copy but the version
// before.
func TestUpgrade_None(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.job.json")
	for _, name := range []string{"A", "B", "C"} {
		require.NoError(t, Save(path, sizing.Job{Name: name}))
	}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2)
}

// FuzzUpgrade takes any text through a chain of upgrades: it is JSON of the newest
// schema, or told.
func FuzzUpgrade(f *testing.F) {
	f.Add([]byte(`{"schema": 1, "name": "A", "air": 120}`))
	f.Add([]byte(`{"schema": 2, "tens": 1e300, "job": {"schema": 1}}`))
	f.Add([]byte(`{"schema": 1, "schema": 2, "a": "\ud83d\ude00"}`))
	format := format{word: "lesson", schema: 3, upgrades: inventedFormat().upgrades, parts: map[string]format{"job": inventedFormat()}}
	f.Fuzz(func(t *testing.T, data []byte) {
		text, err := textOf(data)
		if err != nil || format.schemaFault(text) != nil {
			return
		}
		text, fault := format.upgraded(text)
		if fault != nil {
			require.NotEmpty(t, fault.Given)
			return
		}
		require.False(t, format.isOlder(text), "%s", text)
		_, err = textOf(text)
		require.NoError(t, err)
	})
}
