package fieldpath_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/fieldpath"
	"returnbench/sizing/job"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]fieldpath.Path{
		"name":                    {{Name: "name"}},
		"site.altitude":           {{Name: "site"}, {Name: "altitude"}},
		"filters[1].pleats":       {{Name: "filters"}, {Index: 1}, {Name: "pleats"}},
		"filters[12].rating[0]":   {{Name: "filters"}, {Index: 12}, {Name: "rating"}, {Index: 0}},
		"options[0].returns[3].x": {{Name: "options"}, {Index: 0}, {Name: "returns"}, {Index: 3}, {Name: "x"}},
	} {
		got, err := fieldpath.Parse(text)
		require.NoError(t, err)
		require.Equal(t, want, got)
		require.Equal(t, text, got.String())
	}
	for text, want := range map[string]string{
		"":                             "the name of a field",
		"site.":                        "the name of a field as part 2",
		".site":                        "the name of a field as part 1",
		"a b":                          "the name of a field",
		"filters[":                     "a bracket that closes, such as filters[0]",
		"filters[]":                    `a number behind "filters", such as filters[0]`,
		"filters[-1]":                  "a number behind",
		"filters[01]":                  "a number behind",
		"filters[one].depth":           "a number behind",
		"filters[9999999999999999999]": "a number behind",
		"filters[0]depth":              "a point behind filters[0]",
	} {
		_, err := fieldpath.Parse(text)
		var e *fieldpath.Error
		require.ErrorAs(t, err, &e, text)
		require.Contains(t, e.Wanted.String(), want, text)
		require.Equal(t, text, e.Path)
	}
}

// drawPath draws a path of steps; its first is a name.
func drawPath(t *rapid.T) fieldpath.Path {
	name := rapid.StringMatching(`[a-z][a-z0-9_]{0,8}`)
	path := fieldpath.Path{{Name: name.Draw(t, "first")}}
	for range rapid.IntRange(0, 5).Draw(t, "more") {
		if rapid.Bool().Draw(t, "listed") {
			path = append(path, fieldpath.Step{Index: rapid.IntRange(0, 1e6).Draw(t, "index")})
		} else {
			path = append(path, fieldpath.Step{Name: name.Draw(t, "name")})
		}
	}
	return path
}

// TestPathRoundTrip_Identity: a path written reads back the same.
func TestPathRoundTrip_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := drawPath(t)
		back, err := fieldpath.Parse(path.String())
		require.NoError(t, err)
		require.Equal(t, path, back)
	})
}

// TestPathTexts_Identity: the functions of texts agree with the steps.
func TestPathTexts_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := drawPath(t)
		text, first := path.String(), fieldpath.Path{}
		var elements []string
		name := ""
		for i, s := range path {
			if s.Name == "" {
				elements = append(elements, path[:i+1].String())
				s.Index = 0
			} else {
				name = s.Name
			}
			first = append(first, s)
		}
		require.Equal(t, name, fieldpath.Name(text))
		require.Equal(t, elements, fieldpath.Elements(text))
		require.Equal(t, first.String(), fieldpath.First(text))
		require.Equal(t, path[:len(path)-1].String(), fieldpath.Parent(text))
		last := path[len(path)-1]
		i, ok := fieldpath.Index(text)
		require.Equal(t, last.Name == "", ok)
		if ok {
			require.Equal(t, last.Index, i)
		}
		for k := 1; k <= len(path); k++ {
			require.True(t, fieldpath.Within(text, path[:k].String()))
		}
		require.False(t, fieldpath.Within(text, text+"x"))
		require.False(t, fieldpath.Within(text+"x", text))
		require.False(t, fieldpath.Within(text, ""))
	})
}

// Texts that are no path are taken as they are.
func TestTextsThatAreNoPath(t *testing.T) {
	for text, name := range map[string]string{"": "", "(file)": "(file)", "taps[99999999999999999999].points[]": "points"} {
		require.Equal(t, name, fieldpath.Name(text))
	}
	require.Equal(t, "taps[0].points[]", fieldpath.First("taps[99999999999999999999].points[]"))
	_, ok := fieldpath.Index("taps[99999999999999999999]")
	require.False(t, ok)
	_, ok = fieldpath.Index("taps[]")
	require.False(t, ok)
	require.True(t, fieldpath.Within("", ""))
}

// TestLeaves: each path is found in a job that has one thing in each
// list, and no path is there twice.
func TestLeaves(t *testing.T) {
	full := crowded()
	seen := map[string]bool{}
	for _, path := range fieldpath.Leaves(reflect.TypeFor[job.Job]()) {
		require.False(t, seen[path], path)
		seen[path] = true
		_, err := fieldpath.Find(full, path)
		require.NoError(t, err, path)
	}
	require.Greater(t, len(seen), 150)
	fieldpath.Walk(full, func(at *fieldpath.Place, v fieldpath.Value) bool {
		path := at.Path()
		if k := v.Reflect().Kind(); k != reflect.Struct && k != reflect.Slice {
			require.True(t, seen[path], path)
			delete(seen, path)
		}
		return true
	})
	require.Empty(t, seen, "the walk visits them all")
}

// FuzzFind: no text makes it panic, and what is found is where the path says.
func FuzzFind(f *testing.F) {
	for _, text := range []string{"filters[0].pleats", "coil.dorp", "filters[9].depth", "returns[0].runs[0].shape", "limits.checks[0]", "uncertainty.gauge", "name[0]", "site", "[", "a]b", "..", "filters[0][0]"} {
		f.Add(text, "16 in")
	}
	f.Fuzz(func(t *testing.T, path, text string) {
		full := crowded()
		v, err := fieldpath.Find(full, path)
		if err != nil {
			if _, ok := err.(*fieldpath.Error); !ok || err.Error() == "" {
				t.Fatalf("%q: %T %v", path, err, err)
			}
			return
		}
		if parsed, err := fieldpath.Parse(path); err != nil || parsed.String() != path || !strings.HasSuffix(fieldpath.Name(path), v.Name) {
			t.Fatalf("%q: found %q by a path that reads %v, %v", path, v.Name, parsed, err)
		}
		before := v.Text()
		if err := fieldpath.Set(full, path, text); err != nil {
			if v.Text() != before {
				t.Fatalf("%s was refused %q and holds %q, before %q", path, text, v.Text(), before)
			}
			return
		}
		now, err := fieldpath.Get(full, path)
		if err != nil {
			t.Fatal(err)
		}
		if err := fieldpath.Set(full, path, now); err != nil || v.Text() != now {
			t.Fatalf("%s holds %q and does not take it: %v, now %q", path, now, err, v.Text())
		}
	})
}
