package job

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
)

// Bounds that no house reaches. They keep a file that is no house from taking
// the machine, stand in the schema of the file, and are refused by name.

// usualItems bounds a list of which mostItems says nothing.
const usualItems = 100

// mostItems bounds lists by what they hold.
var mostItems = map[reflect.Type]int{
	reflect.TypeFor[Return]():             16,
	reflect.TypeFor[duct.Run]():           30,
	reflect.TypeFor[duct.Fitting]():       40,
	reflect.TypeFor[duct.GrilleRating]():  30,
	reflect.TypeFor[filter.Filter]():      60,
	reflect.TypeFor[filter.RatingPoint](): 30,
	reflect.TypeFor[blower.Tap]():         16,
	reflect.TypeFor[blower.Point]():       60,
	reflect.TypeFor[blower.Included]():    8,
	reflect.TypeFor[Reading]():            60,
	reflect.TypeFor[Option]():             24,
	reflect.TypeFor[CheckSet]():           8,
}

// Bounds of texts, in letters.
const (
	usualLetters = 200
	// mostLetters is of notes and of what a demonstration says.
	mostLetters = 10_000
)

// longTexts are the fields that hold paragraphs.
var longTexts = []string{"notes", "question", "explanation"}

// MostItems bounds a list of elements of a type.
func MostItems(element reflect.Type) int { return cmp.Or(mostItems[element], usualItems) }

// MostLetters bounds the text of a field by its name in the file.
func MostLetters(name string) int {
	if slices.Contains(longTexts, name) {
		return mostLetters
	}
	return usualLetters
}

// MostFaults is how many faults of one file are told; more are counted.
const MostFaults = 100

// MoreFaults counts the faults beyond MostFaults.
func MoreFaults(n int) *FieldError {
	return &FieldError{Path: "(more)", Given: fmt.Sprintf("%d more faults", n), Wanted: "those above put right first"}
}

// limited tells MostFaults faults and counts the rest.
func (e FieldErrors) limited() FieldErrors {
	if len(e) <= MostFaults {
		return e
	}
	return append(e[:MostFaults:MostFaults], MoreFaults(len(e)-MostFaults))
}

// bounds finds lists and texts that are longer than any house's, and tells
// whether the lists are within their bounds: the rest of the check counts on it.
func (c *checker) bounds() bool {
	before := len(c.faults)
	whole := reflect.ValueOf(c.job).Elem()
	c.counts(step{}, whole)
	inside := len(c.faults) == before
	c.letters(step{}, whole)
	return inside
}

func (c *checker) counts(at step, v reflect.Value) {
	if v.Kind() == reflect.Slice {
		if n, most := v.Len(), MostItems(v.Type().Elem()); n > most {
			c.want(false, at.path(), fmt.Sprintf("%d items", n), "at most %d", most)
			return
		}
	}
	inside(at, v, c.counts)
}

func (c *checker) letters(at step, v reflect.Value) {
	if len(c.faults) > MostFaults {
		return
	}
	if v.Kind() != reflect.String {
		inside(at, v, c.letters)
		return
	}
	n := utf8.RuneCountInString(v.String())
	if n <= usualLetters {
		return // no field takes fewer
	}
	if most := MostLetters(at.field()); n > most {
		c.want(false, at.path(), fmt.Sprintf("%d letters", n), "at most %d", most)
	}
}

// inside visits the fields of a struct and the elements of a list.
func inside(at step, v reflect.Value, visit func(step, reflect.Value)) {
	n := 0
	switch v.Kind() {
	case reflect.Struct:
		n = v.NumField()
	case reflect.Slice:
		n = v.Len()
	}
	if n == 0 {
		return
	}
	before, of := at, v.Type()
	for i := range n {
		next := step{&before, of, i}
		if of.Kind() == reflect.Struct {
			visit(next, v.Field(i))
		} else {
			visit(next, v.Index(i))
		}
	}
}

// step is one field of a struct or one element of a list on the way from a job to
// a value. Most values have no fault, so the path is written only for those that
// have one.
type step struct {
	before *step
	of     reflect.Type // the struct or the list; nil: the job itself
	index  int
}

// path is how a job file names the value.
func (s step) path() string {
	if s.of == nil {
		return ""
	}
	before := s.before.path()
	switch {
	case s.of.Kind() == reflect.Slice:
		return fmt.Sprintf("%s[%d]", before, s.index)
	case before == "":
		return s.field()
	}
	return before + "." + s.field()
}

// field is the name in the file of the field, or of the list that holds the element.
func (s step) field() string {
	for s.of.Kind() == reflect.Slice {
		s = *s.before
	}
	name, _, _ := strings.Cut(s.of.Field(s.index).Tag.Get("json"), ",")
	return name
}

// fewNames is how many names a message lists.
const fewNames = 6

// nearestNames lists names for a message: all of a few, of many the nearest to
// what was given.
func nearestNames(given string, names []string) string {
	if len(names) <= fewNames {
		return strings.Join(names, ", ")
	}
	near := slices.Clone(names)
	far := map[string]int{}
	for _, n := range near {
		far[n] = levenshtein.Distance(strings.ToLower(given), strings.ToLower(n), nil)
	}
	slices.SortStableFunc(near, func(a, b string) int { return cmp.Compare(far[a], far[b]) })
	return fmt.Sprintf("%s and %d more", strings.Join(near[:fewNames-1], ", "), len(names)-fewNames+1)
}
