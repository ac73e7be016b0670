package gui

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/quote"
)

// Typing over the proposed name leaves folder and suffix alone, and whatever is
// typed the file has one suffix.
func TestTheNameIsSelectedAndHasOneSuffix(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), filepath.Join(t.TempDir(), "old.job.json"))
	got := ""
	b.askPath(pathQuestion{title: "Save", name: "old.job.json", suffix: jobSuffix}, func(p string) { got = p })
	e := b.window.Canvas().Focused().(*pathEntry)
	require.Equal(t, "old", e.SelectedText())
	typeText(t, b, "birch")
	e.OnSubmitted(e.Text)
	require.Equal(t, "birch.job.json", filepath.Base(got))

	for typed, want := range map[string]string{
		"a": "a.job.json", "a.job.json": "a.job.json", "a.json": "a.job.json", "a.job.json.job.json": "a.job.json",
		"old.job.jsonbirch": "oldbirch.job.json", "Mr. Elm's house": "Mr. Elm's house.job.json",
	} {
		require.Equal(t, filepath.Join("x", want), withSuffix(filepath.Join("x", typed), jobSuffix), typed)
	}
	require.Equal(t, "c.svg", withSuffix("c.svg", ".png"))
	require.Equal(t, "c.png", withSuffix("c", ".png"))
}

// A job saved in another folder takes its photos along, replaces no file there, and
// reports what it could not copy.
func TestSaveAsTakesThePhotosAlong(t *testing.T) {
	b := newBench(t)
	from, to := t.TempDir(), t.TempDir()
	j := example(t, "two-returns")
	for _, name := range []string{"plate.jpg", "gauge.jpg", "same.jpg", "lost.jpg"} {
		j.Photos = append(j.Photos, quote.Photo{File: name})
	}
	j.Photos = append(j.Photos, quote.Photo{Data: "aGVsbG8="})
	put := func(folder, name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600))
	}
	put(from, "plate.jpg", "plate")
	put(from, "gauge.jpg", "gauge")
	put(from, "same.jpg", "same")
	put(to, "gauge.jpg", "of another job")
	put(to, "same.jpg", "same")
	b.put(j, filepath.Join(from, "old.job.json"))
	b.saveTo(filepath.Join(to, "new.job.json"), func() {})
	require.FileExists(t, filepath.Join(to, "new.job.json"))
	for name, want := range map[string]string{"plate.jpg": "plate", "gauge.jpg": "of another job", "same.jpg": "same"} {
		got, err := os.ReadFile(filepath.Join(to, name))
		require.NoError(t, err)
		require.Equal(t, want, string(got), name)
	}
	said := onTop(b)
	require.Contains(t, said, "gauge.jpg: the folder has another file of this name; rename one of them")
	require.Contains(t, said, "lost.jpg: there is no such file beside the job file")
	require.NotContains(t, said, "same.jpg")
	require.NotContains(t, said, "plate.jpg")
}
