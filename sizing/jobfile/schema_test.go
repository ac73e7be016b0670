package jobfile

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

var update = flag.Bool("update", false, "write what is compared with")

func compiled(t testing.TB) *validator.Schema { return compiledFrom(t, Schema) }

func compiledFrom(t testing.TB, schema func() ([]byte, error)) *validator.Schema {
	t.Helper()
	text, err := schema()
	require.NoError(t, err)
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	c := validator.NewCompiler()
	require.NoError(t, c.AddResource("job.schema.json", doc))
	s, err := c.Compile("job.schema.json")
	require.NoError(t, err)
	return s
}

func validate(t testing.TB, s *validator.Schema, data []byte) error {
	t.Helper()
	v, err := validator.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	return s.Validate(v)
}

// TestSchema checks the schema by a validator of another author: what
// Decode takes it takes, what is out of shape it refuses.
func TestSchema(t *testing.T) {
	s := compiled(t)
	for _, file := range jobFiles(t) {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		_, err = Decode(data)
		require.NoError(t, err, file)
		require.NoError(t, validate(t, s, data), file)
	}
	for _, text := range []string{
		`{}`,
		`[]`,
		`{"schema": 2}`,
		`{"schema": 1, "design_airflow": 1200}`,
		`{"schema": 1, "design_airflow": "much"}`,
		`{"schema": 1, "design_airflows": "1200 cfm"}`,
		`{"schema": 1, "equipment": {"kind": "boiler"}}`,
		`{"schema": 1, "filters": [{"merv": 8}]}`,
		`{"schema": 1, "filters": [{"name": "a", "merv": 8.5}]}`,
		`{"schema": 1, "returns": {"name": "hall"}}`,
	} {
		require.Error(t, validate(t, s, []byte(text)), text)
		_, err := Decode([]byte(text))
		require.Error(t, err, text)
	}
}

// TestLessonSchema_Identity: as of a job, so of every demonstration that the
// program holds.
func TestLessonSchema_Identity(t *testing.T) {
	s := compiledFrom(t, LessonSchema)
	require.NoError(t, validate(t, s, []byte(smallLesson)))
	files, err := filepath.Glob(filepath.Join(published.Dir(), "..", "assets", "lessons", "*.lesson.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		_, err = ReadLesson(data)
		require.NoError(t, err, name)
		require.NoError(t, validate(t, s, data), name)
	}
	for _, c := range [][2]string{
		{`"schema": 1,
  "title"`, `"schema": 2,
  "title"`},
		{`"title": "A dearer coil",`, ``},
		{`"question"`, `"questions"`},
		{`"goes": "up"`, `"goes": "upp"`},
		{`"number": "airflow", "goes": "up"`, `"number": "air", "goes": "up"`},
		{`"fan_and_system"`, `"pie"`},
		{`"least": 0.02`, `"least": "2 %"`},
		{`"design_airflow": "1200 cfm"`, `"design_airflow": 1200`},
		{`{"schema": 1, "design_airflow"`, `{"schema": 3, "design_airflow"`},
		{`"drop": "0.2 in. w.c."`, `"dorp": "0.2 in. w.c."`},
	} {
		wrong := strings.Replace(smallLesson, c[0], c[1], 1)
		require.NotEqual(t, smallLesson, wrong, c[0])
		require.Error(t, validate(t, s, []byte(wrong)), c[1])
		_, err := ReadLesson([]byte(wrong))
		require.Error(t, err, c[1])
	}
}

// TestSchemaNames: definitions go by the name of their type alone, so
// no two types of a file may share one.
func TestSchemaNames(t *testing.T) {
	seen := map[string]reflect.Type{}
	for _, x := range lessonTypes() {
		other, ok := seen[x.Name()]
		require.True(t, !ok || other == x, "%v and %v", x, other)
		seen[x.Name()] = x
	}
}

// TestExamples: what a message or the schema offers as an example reads.
func TestExamples(t *testing.T) {
	for _, k := range units.Kinds() {
		for _, e := range quantitySchema(k).Examples {
			_, err := k.Parse(e.(string), "")
			require.NoError(t, err)
		}
	}
}

// jobFiles are the whole jobs of the project.
func jobFiles(t testing.TB) []string {
	t.Helper()
	examples, err := filepath.Glob(filepath.Join(published.Dir(), "..", "assets", "jobs", "*.job.json"))
	require.NoError(t, err)
	require.NotEmpty(t, examples)
	return append(examples, filepath.Join(published.Dir(), "jobs", "least.job.json"))
}
