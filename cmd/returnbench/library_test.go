package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/library"
)

// TestLibrary: a table goes in, is listed, and comes out as it went in;
// what differs stays unless it is to be replaced.
func TestLibrary(t *testing.T) {
	dir, tables := t.TempDir(), t.TempDir()
	table := filepath.Join(tables, "filters.csv")
	text := "name,width,height,depth,merv,price,rating[].face_velocity,rating[].drop,source\n" +
		"Deep pleat,20 in,25 in,4 in,11,48 $,300 fpm,0.11 in. w.c.,invented\n" +
		",,,,,,500 fpm,0.23 in. w.c.,\n"
	require.NoError(t, os.WriteFile(table, []byte(text), 0o644))

	assert.Equal(t, 2, returnbench(t, "", "library", dir, "--import", table).status, "of what kind?")
	r := returnbench(t, "", "library", dir, "--kind", "filter", "--import", table)
	require.Equal(t, outcome{0, "added\tDeep pleat\n", ""}, r)
	r = returnbench(t, "", "library", dir, "--kind", "filter", "--import", table)
	require.Equal(t, outcome{0, "unchanged\tDeep pleat\n", ""}, r)
	r = returnbench(t, "", "library", dir, "--kind", "filter", "--export", "-")
	require.Equal(t, outcome{0, text, ""}, r)

	// A job becomes a template, without its readings.
	r = returnbench(t, "", "library", dir, "--import", example("one-inch-slot"))
	require.Equal(t, outcome{0, "added\tone-inch-slot\n", ""}, r)
	kept, err := os.ReadFile(filepath.Join(dir, "templates", "one-inch-slot.job.json"))
	require.NoError(t, err)
	assert.NotContains(t, string(kept), `"readings"`)

	require.NoError(t, os.WriteFile(table, []byte("name,merv\nDeep pleat,8\n"), 0o644))
	r = returnbench(t, "", "library", dir, "--kind", "filter", "--import", table)
	assert.Equal(t, 2, r.status)
	assert.Equal(t, "left as it is\tDeep pleat\n", r.out)
	r = returnbench(t, "", "library", dir, "--kind", "filter", "--import", table, "--replace")
	require.Equal(t, outcome{0, "replaced\tDeep pleat\n", ""}, r)

	// A bad file is named, the rest is listed.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "filters", "bad.json"), []byte(`{"schema": 1, "filter": {"name": "x", "widht": "20 in"}}`), 0o644))
	r = returnbench(t, "", "library", dir, "--find", "deep 8")
	assert.Equal(t, 1, r.status)
	assert.Equal(t, "filter\tDeep pleat\tMERV 8\tfilters/deep-pleat.json\n", r.out)
	assert.Contains(t, r.err, "filters/bad.json: filter.widht: ")

	// A table with a fault changes nothing.
	require.NoError(t, os.WriteFile(table, []byte("name,merv\nNew,8\nBroken,nineteen\n"), 0o644))
	r = returnbench(t, "", "library", dir, "--kind", "filter", "--import", table)
	assert.Equal(t, 1, r.status)
	assert.Contains(t, r.err, "filters.csv: line 3: merv: ")
	assert.NotContains(t, returnbench(t, "", "library", dir).out, "New")
}

func TestLibrary_Usage(t *testing.T) {
	gone := filepath.Join(t.TempDir(), "gone")
	r := returnbench(t, "", "library", gone)
	assert.Equal(t, 3, r.status)
	assert.Contains(t, r.err, "is not there")
	for _, args := range [][]string{
		{"--export", "-"}, {"--kind", "template", "--export", "-"}, {"--kind", "nonsense"},
		{"--replace"}, {"--kind", "filter", "--import", "a.csv", "--export", "-"}, {"--kind", "template", "--import", "a.csv"},
	} {
		assert.Equal(t, 2, returnbench(t, "", append([]string{"library", t.TempDir()}, args...)...).status, "%v", args)
	}
	assert.Equal(t, 3, returnbench(t, "", "library", t.TempDir(), "--import", filepath.Join(gone, "x.json")).status)
}

// TestLibrarySchemaVerb: the schema of an item is printed by the verb that
// prints that of a job.
func TestLibrarySchemaVerb(t *testing.T) {
	r := returnbench(t, "", "schema", "--library")
	require.Equal(t, 0, r.status, r.err)
	want, err := library.FileSchema()
	require.NoError(t, err)
	require.Equal(t, string(want), r.out)
	require.Equal(t, 2, returnbench(t, "", "schema", "--library", "--lesson").status)
}
