package fieldpath_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// crowded is a job with one thing in each list.
func crowded() *job.Job {
	branch := func() job.Return {
		return job.Return{Grille: duct.Grille{Rating: make([]duct.GrilleRating, 1)}, Runs: make([]duct.Run, 1), Fittings: make([]duct.Fitting, 1)}
	}
	return &job.Job{
		Schema: job.Schema,
		Equipment: job.Equipment{Blower: blower.Table{
			Taps: []blower.Tap{{Points: make([]blower.Point, 1)}}, Includes: []blower.Included{blower.IncludesFilter},
		}},
		Filters:    []filter.Filter{{Depth: units.Inch, Efficiency: make([]float64, 1), Rating: make([]filter.RatingPoint, 1)}},
		Returns:    []job.Return{branch()},
		Readings:   make([]job.Reading, 1),
		Options:    []job.Option{{Returns: []job.Return{branch()}}},
		Limits:     job.Limits{Checks: []job.CheckSet{job.Title24}},
		StockSizes: make([]job.StockSize, 1),
		Quote:      quote.Quote{Lines: make([]quote.Line, 1)},
		Photos:     make([]quote.Photo, 1),
	}
}

func TestFind(t *testing.T) {
	j := crowded()
	for path, want := range map[string]string{
		"filters[0].depth":             "1 in",
		"site.altitude":                "0 in",
		"equipment.blower.includes[0]": "filter",
		"equipment.no_heating":         "false",
		"filters[0].efficiency[0]":     "0",
		"uncertainty.gauge":            "",
		"schema":                       "1",
	} {
		got, err := fieldpath.Get(j, path)
		require.NoError(t, err, path)
		require.Equal(t, want, got, path)
	}
	for _, c := range []struct{ path, given, wanted string }{
		{"coil.dorp", `"dorp"`, `"drop" in place of "dorp"`},
		{"filter[0].depth", `"filter"`, `"filters" in place of "filter"`},
		{"filters[0].Media-Area", `"Media-Area"`, `"media_area"`},
		{"coil.quite_another", `"quite_another"`, "one of drop, airflow, exponent in place of"},
		{"filters[3].depth", `"[3].depth"`, "filters[0] to filters[0]: the job has 1 of them"},
		{"filters.depth", `"filters"`, `a number behind "filters", such as filters[0]`},
		{"filters", `"filters"`, `a number behind "filters", such as filters[0]`},
		{"site[0]", `"[0]"`, `"site" without a number behind it`},
		{"name.first", `"first"`, `a path that ends before "first"`},
	} {
		_, err := fieldpath.Find(j, c.path)
		var e *fieldpath.Error
		require.ErrorAs(t, err, &e, c.path)
		require.Equal(t, c.path, e.Path)
		require.Equal(t, c.given, e.Given)
		require.Contains(t, e.Wanted.String(), c.wanted)
	}
	_, err := fieldpath.Find(&job.Job{}, "filters[0].depth")
	require.ErrorContains(t, err, "a path without filters: the job has none of them")
}

func TestSet(t *testing.T) {
	j := crowded()
	for path, text := range map[string]string{
		"filters[0].depth":         "4 in",
		"filters[0].pleats":        "24",
		"returns[0].runs[0].shape": "flex",
		"uncertainty.gauge":        "0.02",
		"equipment.no_heating":     "true",
		"name":                     "a house",
		"limits.checks[0]":         "ifgc",
	} {
		require.NoError(t, fieldpath.Set(j, path, text), path)
	}
	require.Equal(t, 4*units.Inch, j.Filters[0].Depth)
	require.Equal(t, 24, j.Filters[0].Pleats)
	require.Equal(t, duct.Flex, j.Returns[0].Runs[0].Shape)
	require.Equal(t, 0.02, *j.Uncertainty.Gauge)
	require.True(t, j.Equipment.NoHeating)
	require.Equal(t, "a house", j.Name)
	require.Equal(t, job.IFGC, j.Limits.Checks[0])

	for _, c := range []struct{ path, text, wanted string }{
		{"filters[0].depth", "4", "the unit is missing"},
		{"filters[0].pleats", "24.5", "a whole number"},
		{"filters[0].pleats", "1e300", "a whole number"},
		{"filters[0].exponent", "NaN", "a number"},
		{"filters[0].exponent", "steep", "a number"},
		{"returns[0].runs[0].shape", "flexible", "one of round, flex, rectangular"},
		{"returns[0].runs[0].shape", "rectangle", `"rectangular"; it may be one of`},
		{"uncertainty.gauge", "high", "a number"},
		{"equipment.no_heating", "yes", "true or false"},
		{"coil", "0.2 in. w.c.", "the path of one value in it: coil.drop"},
	} {
		before := *j
		require.ErrorContains(t, fieldpath.Set(j, c.path, c.text), c.wanted, c.path)
		require.Equal(t, before, *j, c.path)
	}
	require.NoError(t, fieldpath.Set(j, "uncertainty.gauge", ""))
	require.Nil(t, j.Uncertainty.Gauge)
}

// TestSetGet_Identity: any value of any field, set by its text, is the same
// value, and no other field has changed.
func TestSetGet_Identity(t *testing.T) {
	paths := fieldpath.Leaves(reflect.TypeFor[job.Job]())
	rapid.Check(t, func(t *rapid.T) {
		j := crowded()
		path := rapid.SampledFrom(paths).Draw(t, "path")
		v, err := fieldpath.Find(j, path)
		require.NoError(t, err)
		text := drawText(t, v)
		require.NoError(t, fieldpath.Set(j, path, text), "%s %q", path, text)
		got, err := fieldpath.Get(j, path)
		require.NoError(t, err)

		again := crowded()
		require.NoError(t, fieldpath.Set(again, path, got))
		require.Equal(t, j, again, "%s: %q set, %q got", path, text, got)
		if v.IsText() {
			require.Equal(t, text, got)
		}
		fresh := crowded()
		fieldpath.Walk(fresh, func(at *fieldpath.Place, f fieldpath.Value) bool {
			other := at.Path()
			k := f.Reflect().Kind()
			if other != path && k != reflect.Struct && k != reflect.Slice {
				now, err := fieldpath.Get(j, other)
				require.NoError(t, err)
				require.Equal(t, f.Text(), now, "%s changed with %s", other, path)
			}
			return true
		})
	})
}

// drawText draws a text that a field takes.
func drawText(t *rapid.T, v fieldpath.Value) string {
	number := rapid.Float64Range(-1e6, 1e6)
	kind := v.Reflect().Kind()
	switch k := v.Quantity(); {
	case k != nil:
		return k.Text(number.Draw(t, "si"))
	case kind == reflect.Bool:
		return rapid.SampledFrom([]string{"true", "false"}).Draw(t, "bool")
	case v.IsWhole():
		return rapid.StringMatching(`-?[1-9][0-9]{0,6}`).Draw(t, "whole")
	case v.IsNumber() || kind == reflect.Pointer:
		return rapid.StringMatching(`-?[0-9]{1,6}(\.[0-9]{1,6})?`).Draw(t, "number")
	case fieldpath.WordsOf(v.Type) != nil:
		return rapid.SampledFrom(fieldpath.WordsOf(v.Type)).Draw(t, "word")
	}
	return rapid.String().Draw(t, "text")
}

// TestNearest_Identity: a name with one slip in it leads back to that name, or to
// another that is as near.
func TestNearest_Identity(t *testing.T) {
	paths := fieldpath.Leaves(reflect.TypeFor[job.Job]())
	rapid.Check(t, func(t *rapid.T) {
		path := rapid.SampledFrom(paths).Draw(t, "path")
		name := fieldpath.Name(path)
		holder := path[:len(path)-len(name)]
		if holder+name != path || len(name) < 5 {
			return // it ends in a number, or is so short that a slip makes another name
		}
		at := rapid.IntRange(0, len(name)-1).Draw(t, "at")
		slip := holder + name[:at] + rapid.SampledFrom([]string{"", "q", "qz"}).Draw(t, "slip") + name[at+1:]
		_, err := fieldpath.Find(crowded(), slip)
		if err == nil {
			return // another field
		}
		var e *fieldpath.Error
		require.ErrorAs(t, err, &e)
		owner, err := fieldpath.Find(crowded(), path)
		require.NoError(t, err)
		names := make([]string, 0)
		for _, f := range fieldpath.Fields(owner.Owner) {
			names = append(names, f.Name)
		}
		near := fieldpath.Nearest(fieldpath.Name(slip), names)
		require.True(t, slices.Contains(names, near), "%s: %s", slip, e.Wanted)
		require.Contains(t, e.Wanted.String(), `"`+near+`" in place of`)
	})
	require.Equal(t, "pleats", fieldpath.Nearest("pleat", []string{"depth", "pleats", "pleat_depth"}))
	require.Equal(t, "", fieldpath.Nearest("colour", []string{"depth", "pleats"}))
}

func TestFollow(t *testing.T) {
	named := func(names ...string) *job.Job {
		j := &job.Job{}
		for _, n := range names {
			j.Filters = append(j.Filters, filter.Filter{Name: n})
		}
		return j
	}
	for _, c := range []struct {
		path          string
		before, after *job.Job
		want          string
	}{
		{"filters[1].pleats", named("a", "b", "c"), named("a", "b", "c"), "filters[1].pleats"},
		{"filters[1].pleats", named("a", "b", "c"), named("b", "c"), "filters[0].pleats"},
		{"filters[1].pleats", named("a", "b", "c"), named("a", "c"), ""},
		{"filters[1].pleats", named("a", "b"), named("b", "a"), "filters[0].pleats"},
		{"filters[1].pleats", named("a", "b"), named("a", "d"), "filters[1].pleats"},
		{"filters[0].pleats", named("a", "b"), named("new", "a", "b"), "filters[1].pleats"},
		{"filters[7].pleats", named("a"), named("a"), ""},
		{"coil.drop", named("a"), named("b"), "coil.drop"},
		{"coil.dorp", named("a"), named("b"), "coil.dorp"},
		{"(file)", named("a"), named("b"), "(file)"},
		{"filters[", named("a"), named("b"), "filters["},
	} {
		require.Equal(t, c.want, fieldpath.Follow(c.path, c.before, c.after), "%s", c.path)
	}
}

// TestFields: a number that is a share of one is bare, zero is a value
// only of a number, and neither word of a tag is misspelt.
func TestFields(t *testing.T) {
	shares, zeros := map[string]bool{}, map[string]bool{}
	fieldpath.Walk(crowded(), func(at *fieldpath.Place, v fieldpath.Value) bool {
		path := at.Path()
		require.Subset(t, []string{"", "zero", "share"}, factsOf(v), path)
		if v.Share && v.Reflect().Kind() != reflect.Slice {
			require.True(t, v.IsNumber() && v.Quantity() == nil && !v.IsWhole(), path)
			shares[v.Name] = true
		}
		if v.Zero {
			require.True(t, v.IsNumber() && !v.Required, path)
			zeros[v.Name] = true
		}
		return true
	})
	require.Len(t, zeros, 7)
	require.Contains(t, shares, "free_area")
	require.NotContains(t, shares, "angle")
}

// factsOf are the words of a field's tag.
func factsOf(v fieldpath.Value) []string {
	if v.Owner == nil {
		return nil
	}
	for i := range v.Owner.NumField() {
		f := v.Owner.Field(i)
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name == v.Name {
			return strings.Split(f.Tag.Get("field"), ",")
		}
	}
	return []string{"no field of this name"}
}
