package jobfile

import (
	"fmt"
	"reflect"
	"strings"

	"github.com/agext/levenshtein"
	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

// field is one name of an object of the job file.
type field struct {
	name     string
	index    int
	required bool
	owner    reflect.Type
}

// fieldsOf lists the names of a struct type as its tags spell them.
func fieldsOf(t reflect.Type) []field {
	out := make([]field, 0, t.NumField())
	for i := range t.NumField() {
		name, options, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		out = append(out, field{
			name:     name,
			index:    i,
			required: !strings.Contains(options, "omit"),
			owner:    t,
		})
	}
	return out
}

// plainZero names the fields in which zero is a value and not "left open".
var plainZero = map[reflect.Type][]string{
	reflect.TypeFor[sizing.Site]():   {"altitude"},
	reflect.TypeFor[sizing.Slot]():   {"gap", "gap_bends", "entry_coefficient"},
	reflect.TypeFor[sizing.Option](): {"price"},
	reflect.TypeFor[duct.Fitting]():  {"angle"},       // of an open damper
	reflect.TypeFor[duct.Run]():      {"compression"}, // of older files, where it said stretched
}

// zeroIsOpen tells whether a zero typed here would silently be replaced by an
// assumption, so that it has to be refused.
func (f field) zeroIsOpen() bool {
	if f.required {
		return false
	}
	for _, name := range plainZero[f.owner] {
		if name == f.name {
			return false
		}
	}
	return true
}

// quantityOf gives the kind of a quantity type.
func quantityOf(t reflect.Type) (*units.Kind, bool) {
	q, ok := reflect.Zero(t).Interface().(units.Quantity)
	if !ok {
		return nil, false
	}
	return q.Kind(), true
}

// kindOf is the kind of JSON value that a Go type is written as; both booleans
// are 'f'.
func kindOf(t reflect.Type) jsontext.Kind {
	if _, ok := quantityOf(t); ok {
		return '"'
	}
	switch t.Kind() {
	case reflect.Struct:
		return '{'
	case reflect.Slice:
		return '['
	case reflect.Bool:
		return 'f'
	case reflect.String:
		return '"'
	default:
		return '0'
	}
}

func kindWord(k jsontext.Kind) string {
	switch k {
	case '{':
		return "an object in braces"
	case '[':
		return "a list in brackets"
	case '"':
		return "a text"
	case '0':
		return "a number"
	case 'n':
		return "null"
	default:
		return "true or false"
	}
}

// wantedOf says what a type takes.
func wantedOf(t reflect.Type) string {
	if k, ok := quantityOf(t); ok {
		return fmt.Sprintf("%s, as text such as %q", k.Wanted(), exampleOf(k))
	}
	switch t.Kind() {
	case reflect.Int:
		return "a whole number"
	case reflect.String:
		if values := valuesOf(t); values != nil {
			return "one of " + strings.Join(values, ", ")
		}
	}
	return kindWord(kindOf(t))
}

// exampleOf is a text that a kind accepts.
func exampleOf(k *units.Kind) string {
	if text, ok := examples[k.Name]; ok {
		return text
	}
	return k.Text(k.Units[0].Scale)
}

var examples = map[string]string{
	"airflow":                      "1200 cfm",
	"pressure":                     "0.25 in. w.c.",
	"length":                       "20 in",
	"area":                         "320 in2",
	"speed":                        "300 fpm",
	"temperature":                  "75 F",
	"temperature difference":       "35 F",
	"power":                        "450 W",
	"heat rate":                    "60000 Btu/h",
	"cooling capacity":             "3 ton",
	"airflow per cooling capacity": "400 cfm/ton",
	"energy price":                 "0.15 $/kWh",
	"amount of money":              "30 $",
	"mass":                         "120 g",
	"dust rate":                    "1.2 g/day",
	"time span":                    "3 month",
	"rotational speed":             "1050 rpm",
	"media resistance":             "60 Pa s/m",
	"air permeability":             "120 cfm/ft2",
}

func nearestName(given string, fields []field) string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	if near := nearest(given, names); near != "" {
		return fmt.Sprintf("%q", near)
	}
	return "one of " + strings.Join(names, ", ")
}

func nearestValue(given string, values []string) string {
	all := "one of " + strings.Join(values, ", ")
	if near := nearest(given, values); near != "" {
		return fmt.Sprintf("%q; it may be %s", near, all)
	}
	return all
}

// nearest finds the right spelling of a word, "" where none is near.
func nearest(given string, right []string) string {
	const longest = 60
	if len(given) > longest {
		return ""
	}
	best, least := "", 1+max(2, len(given)/3)
	folded := strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(given))
	for _, r := range right {
		d := levenshtein.Distance(folded, r, nil)
		if len(folded) >= 4 && (strings.HasPrefix(r, folded+"_") || strings.HasSuffix(r, "_"+folded)) {
			d = min(d, 1)
		}
		if d < least && d < len(r) {
			best, least = r, d
		}
	}
	return best
}
