package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
)

func lessonFile(name string) string {
	return filepath.Join("..", "..", "assets", "lessons", name+assets.LessonSuffix)
}

// TestCheckLesson: a demonstration is checked by its name's ending; each
// fault is reported by its field.
func TestCheckLesson(t *testing.T) {
	for _, name := range assets.Lessons() {
		r := returnbench(t, "", "check", lessonFile(name))
		require.Equal(t, done, r.status, r.err)
		require.Equal(t, lessonFile(name)+": no fault found\n", r.out)
	}
	data, err := assets.OpenLesson("motor")
	require.NoError(t, err)
	wrong := strings.NewReplacer(`"title"`, `"titel"`, `"goes": "down"`, `"goes": "sideways"`).Replace(string(data))
	file := filepath.Join(t.TempDir(), "wrong"+assets.LessonSuffix)
	require.NoError(t, os.WriteFile(file, []byte(wrong), 0o600))
	r := returnbench(t, "", "check", file)
	require.Equal(t, jobFault, r.status)
	require.Empty(t, r.out)
	for _, field := range []string{"titel", "title", "predictions[0].claims[1].goes"} {
		require.Contains(t, r.err, file+": "+field)
	}
	require.Equal(t, jobFault, returnbench(t, `{"schema": 1`, "check", "-").status, "standard input is a job")
	require.Equal(t, machine, returnbench(t, "", "check", file+".none"+assets.LessonSuffix).status)
}

// TestLessonSchemaVerb holds the printed schema against the ready
// demonstrations with a validator of another author.
func TestLessonSchemaVerb(t *testing.T) {
	r := returnbench(t, "", "schema", "--lesson")
	require.Equal(t, done, r.status, r.err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(r.out))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("lesson.schema.json", doc))
	s, err := c.Compile("lesson.schema.json")
	require.NoError(t, err)
	for _, name := range assets.Lessons() {
		data, err := assets.OpenLesson(name)
		require.NoError(t, err)
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(string(data)))
		require.NoError(t, err)
		require.NoError(t, s.Validate(v), name)
	}
	require.NotEqual(t, r.out, returnbench(t, "", "schema").out)
}
