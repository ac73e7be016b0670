package jobfile_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/invopop/jsonschema"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/library"
)

// TestDescriptions_Golden holds the embedded descriptions to the comments of
// the engine's types; go generate writes them again.
func TestDescriptions_Golden(t *testing.T) {
	r := &jsonschema.Reflector{}
	types := describedTypes()
	t.Chdir("../..")
	read := map[string]bool{}
	for _, typ := range types {
		if dir := strings.TrimPrefix(typ.PkgPath(), "returnbench/"); !read[dir] {
			read[dir] = true
			require.NoError(t, r.AddGoComments("returnbench", dir, jsonschema.WithFullComment()))
		}
	}
	keep := map[string]string{}
	for name, text := range r.CommentMap {
		if describes(types, name) {
			keep[name] = strings.Join(strings.Fields(text), " ")
		}
	}
	for _, typ := range types {
		if name := typ.PkgPath() + "." + typ.Name(); typ.Kind() == reflect.Struct {
			require.NotEmpty(t, keep[name], "%s has no comment, or the comments were read elsewhere", name)
		}
	}
	want, err := json.Marshal(keep, json.Deterministic(true), jsontext.WithIndent("  "))
	require.NoError(t, err)
	path := filepath.Join("sizing", "jobfile", "descriptions.json")
	if *jobfile.Update {
		require.NoError(t, os.WriteFile(path, append(want, '\n'), 0o644))
	}
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	if string(want)+"\n" != string(got) {
		t.Error("the descriptions differ from the comments; run: go generate ./sizing/jobfile")
	}
}

// describedTypes are those of jobs, demonstrations and a library's items.
func describedTypes() []reflect.Type {
	return append(jobfile.TypesOf(reflect.TypeFor[lesson.Lesson]()), jobfile.TypesOf(reflect.TypeFor[library.File]())...)
}

// describes reports whether a comment belongs to one of the types.
func describes(types []reflect.Type, name string) bool {
	name = name[strings.LastIndex(name, "/")+1:]
	parts := strings.Split(name, ".")
	for _, t := range types {
		if t.PkgPath()[strings.LastIndex(t.PkgPath(), "/")+1:] == parts[0] && t.Name() == parts[1] {
			return true
		}
	}
	return false
}
