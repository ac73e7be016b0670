package jobfile

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/fieldpath"
	"returnbench/sizing/lesson"
)

// lessonTypes are the named types that a demonstration is made of, those of its
// job among them, quantities aside.
func lessonTypes() []reflect.Type { return typesOf(reflect.TypeFor[lesson.Lesson]()) }

// typesOf are the named types that a file's type is made of, quantities aside.
func typesOf(file reflect.Type) []reflect.Type {
	var all []reflect.Type
	var visit func(reflect.Type)
	visit = func(t reflect.Type) {
		if t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
			visit(t.Elem())
			return
		}
		if fieldpath.QuantityOf(t) != nil || t.PkgPath() == "" || slices.Contains(all, t) {
			return
		}
		all = append(all, t)
		if t.Kind() == reflect.Struct {
			for i := range t.NumField() {
				visit(t.Field(i).Type)
			}
		}
	}
	visit(file)
	return all
}

// TestFields: every field has a name, and no type needs more than the
// walker knows.
func TestFields(t *testing.T) {
	for _, typ := range lessonTypes() {
		if typ.Kind() != reflect.Struct {
			continue
		}
		for _, f := range fieldpath.Fields(typ) {
			require.Regexp(t, `^[a-z][a-z0-9_]*$`, f.Name, "%s", typ)
			k := f.Type.Kind()
			if k == reflect.Pointer {
				k = f.Type.Elem().Kind()
			}
			require.Contains(t, []reflect.Kind{reflect.Struct, reflect.Slice, reflect.Bool, reflect.String, reflect.Int, reflect.Float64}, k,
				"%s.%s", typ, f.Name)
		}
	}
}

// TestValues reads the engine's sources: each of its word types
// lists all of its constants.
func TestValues(t *testing.T) {
	for _, typ := range lessonTypes() {
		if typ.Kind() != reflect.String {
			continue
		}
		dir := filepath.Join("..", "..", filepath.FromSlash(strings.TrimPrefix(typ.PkgPath(), "returnbench/")))
		want := constants(t, dir, typ.Name())
		require.NotEmpty(t, want, "%s", typ)
		require.ElementsMatch(t, want, fieldpath.WordsOf(typ), "%s", typ)
	}
}

// constants finds the texts of the constants of a type declared in dir.
func constants(t *testing.T, dir, typ string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	var out []string
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || len(spec.Values) != 1 {
				return true
			}
			name, ok := spec.Type.(*ast.Ident)
			text, isText := spec.Values[0].(*ast.BasicLit)
			if ok && isText && name.Name == typ && text.Kind == token.STRING {
				v, err := strconv.Unquote(text.Value)
				require.NoError(t, err)
				out = append(out, v)
			}
			return true
		})
	}
	return out
}
