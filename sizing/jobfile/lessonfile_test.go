package jobfile

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/lesson"
)

const smallLesson = `{
  "schema": 1,
  "title": "A dearer coil",
  "question": "The coil takes more. And the air?",
  "predictions": [
    {"text": "more air", "claims": [{"number": "airflow", "goes": "up"}]},
    {"text": "less air", "claims": [{"number": "airflow", "goes": "down", "least": 0.02}]}
  ],
  "move": {"name": "Coil", "path": "coil.drop", "from": "0.1 in. w.c.", "to": "0.4 in. w.c."},
  "chart": "fan_and_system",
  "numbers": ["airflow"],
  "explanation": ["From {start airflow} to {end airflow}."],
  "job": {"schema": 1, "design_airflow": "1200 cfm", "coil": {"drop": "0.2 in. w.c."}}
}`

// TestLesson_Identity: what is written reads back the same, from the disk too.
func TestLesson_Identity(t *testing.T) {
	l, err := ReadLesson([]byte(smallLesson))
	require.NoError(t, err)
	text, err := EncodeLesson(l)
	require.NoError(t, err)
	again, err := ReadLesson(text)
	require.NoError(t, err)
	require.Equal(t, l, again)

	path := filepath.Join(t.TempDir(), "coil.lesson.json")
	require.NoError(t, SaveLesson(path, l))
	loaded, err := LoadLesson(path)
	require.NoError(t, err)
	require.Equal(t, l, loaded)
	_, err = LoadLesson(path + ".none")
	require.Error(t, err)
}

func TestLessonFaults(t *testing.T) {
	for _, c := range []struct{ from, to, path, want string }{
		{`"title"`, `"titel"`, "titel", `"title"`},
		{`"goes": "up"`, `"goes": "upp"`, "predictions[0].claims[0].goes", `"up"`},
		{`"number": "airflow", "goes": "up"`, `"number": "air", "goes": "up"`, "predictions[0].claims[0].number", "airflow"},
		{`["airflow"]`, `["airflow", "airflow"]`, "numbers[1]", "once"},
		{`"0.1 in. w.c."`, `"0.1"`, "move.from", "a pressure"},
		{`"1200 cfm"`, `"1200"`, "job.design_airflow", "the unit is missing"},
		{`"schema": 1,
  "title"`, `"schema": 2,
  "title"`, "schema", "lesson file"},
		{`"drop": "0.2 in. w.c."`, `"dorp": "0.2 in. w.c."`, "job.coil.dorp", `"drop"`},
	} {
		text := strings.Replace(smallLesson, c.from, c.to, 1)
		require.NotEqual(t, smallLesson, text, c.from)
		_, err := ReadLesson([]byte(text))
		var faults sizing.FieldErrors
		require.ErrorAs(t, err, &faults, c.to)
		f := faults.At(c.path)
		require.NotNil(t, f, "%s: %v", c.path, faults)
		require.Contains(t, f.Wanted.String(), c.want)
	}
	var syntax *SyntaxError
	_, err := ReadLesson([]byte(smallLesson[:100]))
	require.ErrorAs(t, err, &syntax)
}

// A job is no lesson and a lesson is no job; each says so by field.
func TestAJobIsNoLesson(t *testing.T) {
	_, err := ReadLesson([]byte(`{"schema": 1, "design_airflow": "1200 cfm"}`))
	require.ErrorContains(t, err, "title")
	_, err = Read([]byte(smallLesson))
	require.ErrorContains(t, err, "predictions")
}

// TestZero_Identity: a file may hold zero, and a move may begin at zero, in the
// same fields: those that say so. In any other a zero is left open.
func TestZero_Identity(t *testing.T) {
	for _, c := range []struct {
		part, path string
		taken      bool
	}{
		{`"site": {"altitude": "0 ft"}`, "site.altitude", true},
		{`"slot": {"gap": "0 in"}`, "slot.gap", true},
		{`"slot": {"gap_bends": 0}`, "slot.gap_bends", true},
		{`"options": [{"name": "o", "price": "0 $"}]`, "options[0].price", true},
		{`"returns": [{"fittings": [{"kind": "butterfly_damper", "angle": 0}]}]`, "returns[0].fittings[0].angle", true},
		{`"filters": [{"name": "f", "price": "0 $"}]`, "filters[0].price", false},
		{`"filters": [{"name": "f", "pleats": 0}]`, "filters[0].pleats", false},
		{`"coil": {"drop": "0 Pa"}`, "coil.drop", false},
	} {
		job, err := Decode([]byte(`{"schema": 1, "design_airflow": "1200 cfm", ` + c.part + `}`))
		require.Equal(t, c.taken, err == nil, "%s: %v", c.path, err)
		numbers, _ := lesson.Movable(job)
		require.Equal(t, c.taken, slices.Contains(numbers, c.path), c.path)

		from := strings.Trim(c.part[strings.LastIndex(c.part, ":")+1:], ` "}]`)
		l, err := ReadLesson([]byte(smallLesson))
		require.NoError(t, err)
		l.Job, l.Move = job, lesson.Move{Name: "m", Path: c.path, From: from, To: from}
		fault := l.Check().At("move.from")
		require.Equal(t, c.taken, fault == nil, "%s: %v", c.path, fault)
	}
}

func FuzzReadLesson(f *testing.F) {
	f.Add([]byte(smallLesson))
	f.Add([]byte(`{"schema": 1, "move": {"path": "filters[0].pleats"}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := ReadLesson(data)
		if err != nil {
			return
		}
		text, err := EncodeLesson(l)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := ReadLesson(text); err != nil {
			t.Fatalf("written and not read: %v\n%s", err, text)
		}
	})
}
