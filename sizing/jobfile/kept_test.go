package jobfile

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/lesson"
	"returnbench/sizing/published"
)

// kept is the folder of files that every later version must open.
func kept(parts ...string) string {
	return filepath.Join(append([]string{published.Dir(), "schema1"}, parts...)...)
}

func keptFiles(t *testing.T, pattern string, least int) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(kept(pattern))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), least)
	out := map[string][]byte{}
	for _, file := range files {
		out[filepath.Base(file)], err = os.ReadFile(file)
		require.NoError(t, err)
	}
	return out
}

// TestKeptJobs_Identity: every job file of the past is read, solved, and written
// again without loss.
func TestKeptJobs_Identity(t *testing.T) {
	for name, data := range keptFiles(t, "jobs/*.job.json", 7) {
		t.Run(name, func(t *testing.T) {
			job, err := Read(data)
			require.NoError(t, err)
			study, err := sizing.Solve(job)
			require.NoError(t, err)
			require.Positive(t, float64(study.Today().Clean.Airflow))
			again, err := Encode(job)
			require.NoError(t, err)
			back, err := Read(again)
			require.NoError(t, err)
			require.Equal(t, job, back)
		})
	}
}

// TestKeptLessons_Identity: the same of demonstrations.
func TestKeptLessons_Identity(t *testing.T) {
	for name, data := range keptFiles(t, "lessons/*.lesson.json", 11) {
		t.Run(name, func(t *testing.T) {
			l, err := ReadLesson(data)
			require.NoError(t, err)
			_, err = l.Run(sizing.Solve)
			require.NoError(t, err)
			again, err := EncodeLesson(l)
			require.NoError(t, err)
			back, err := ReadLesson(again)
			require.NoError(t, err)
			require.Equal(t, l, back)
		})
	}
}

// leaf is a name of a file: its path, the type that has it, and its words.
type leaf struct {
	path  string
	in    reflect.Type
	name  string
	words []string
}

// leaves lists the names of a type and of all below it, but for the job inside a
// demonstration, which has the names of a job.
func leaves(t reflect.Type, at string) []leaf {
	var out []leaf
	for _, f := range fieldpath.Fields(t) {
		path, below := at+"."+f.Name, f.Type
		for below.Kind() == reflect.Slice || below.Kind() == reflect.Pointer {
			if below.Kind() == reflect.Slice {
				path += "[]"
			}
			below = below.Elem()
		}
		out = append(out, leaf{path, t, f.Name, fieldpath.WordsOf(below)})
		if below.Kind() == reflect.Struct && path != "lesson.job" {
			out = append(out, leaves(below, path)...)
		}
	}
	return out
}

func allLeaves() []leaf {
	return append(leaves(reflect.TypeFor[sizing.Job](), "job"), leaves(reflect.TypeFor[lesson.Lesson](), "lesson")...)
}

func (l leaf) String() string { return strings.TrimSpace(l.path + " " + strings.Join(l.words, " ")) }

// TestKeptNames: every field that a released version wrote is still
// read under its name, with every word that it could hold, and the kept files
// use each of them. A release adds its new names with -update; a name is never
// taken away.
func TestKeptNames(t *testing.T) {
	now := map[string]leaf{}
	var text strings.Builder
	for _, l := range allLeaves() {
		now[l.path] = l
		text.WriteString(l.String() + "\n")
	}
	if *update {
		require.NoError(t, os.WriteFile(kept("names.txt"), []byte(text.String()), 0o644))
	}
	data, err := os.ReadFile(kept("names.txt"))
	require.NoError(t, err)
	used := usedNames(t)
	lines := strings.Split(strings.TrimSpace(string(data)), "\n")
	require.Greater(t, len(lines), 100)
	for _, line := range lines {
		words := strings.Fields(line)
		l, ok := now[words[0]]
		if !ok {
			t.Errorf("%s: released files have this field and it is no longer read", words[0])
			continue
		}
		for _, w := range words[1:] {
			if !slices.Contains(l.words, w) {
				t.Errorf("%s: released files may say %q and it is no longer known", l.path, w)
			}
		}
		if !used[use{l.in, l.name}] {
			t.Errorf("%s: no file in testdata/schema1 uses it; add it to jobs/every-field.job.json", l.path)
		}
	}
}

// use is a name of an object of a type.
type use struct {
	in   reflect.Type
	name string
}

// usedNames are the names that the kept files use.
func usedNames(t *testing.T) map[use]bool {
	used := map[use]bool{}
	mark := func(data []byte, typ reflect.Type) {
		var v any
		require.NoError(t, json.Unmarshal(data, &v))
		markUsed(used, v, typ)
	}
	for _, data := range keptFiles(t, "jobs/*.job.json", 1) {
		mark(data, reflect.TypeFor[sizing.Job]())
	}
	for _, data := range keptFiles(t, "lessons/*.lesson.json", 1) {
		mark(data, reflect.TypeFor[lesson.Lesson]())
	}
	return used
}

func markUsed(used map[use]bool, v any, typ reflect.Type) {
	if typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	switch x := v.(type) {
	case []any:
		for _, e := range x {
			markUsed(used, e, typ.Elem())
		}
	case map[string]any:
		for _, f := range fieldpath.Fields(typ) {
			if e, ok := x[f.Name]; ok {
				used[use{typ, f.Name}] = true
				markUsed(used, e, f.Type)
			}
		}
	}
}

// TestNewerSchema: a file of a later version is refused by that
// version's number and with what to do; nothing else of it is faulted.
func TestNewerSchema(t *testing.T) {
	for _, read := range []func([]byte) error{
		func(data []byte) error { _, err := Read(data); return err },
		func(data []byte) error { _, err := ReadLesson(data); return err },
	} {
		err := read([]byte(`{"schema": 2, "rooms": [{"air": 1}]}`))
		var faults sizing.FieldErrors
		require.ErrorAs(t, err, &faults)
		require.Len(t, faults, 1)
		require.Equal(t, "schema", faults[0].Path)
		require.Equal(t, "2", faults[0].Given)
		require.Contains(t, faults[0].Wanted.String(), `"schema": 1`)
		require.Contains(t, faults[0].Wanted.String(), "newer version of returnbench")
	}
	// A version that never was is not called newer.
	for _, given := range []string{"0", "-1", `"2"`, "1.5"} {
		_, err := Read([]byte(`{"schema": ` + given + `}`))
		require.ErrorContains(t, err, given)
		require.NotContains(t, err.Error(), "newer")
	}
}

// TestNewerSchemaInLesson: the house of a demonstration has a version
// of its own, which is looked at as well.
func TestNewerSchemaInLesson(t *testing.T) {
	data, err := os.ReadFile(kept("lessons", "altitude.lesson.json"))
	require.NoError(t, err)
	at := bytes.LastIndex(data, []byte(`"schema": 1`))
	newer := slices.Concat(data[:at], []byte(`"schema": 2`), data[at+len(`"schema": 1`):])
	_, err = ReadLesson(newer)
	var faults sizing.FieldErrors
	require.ErrorAs(t, err, &faults)
	require.NotNil(t, faults.At("job.schema"), "%v", err)
}
