package gui

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
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
