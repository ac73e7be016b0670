package job

import (
	"cmp"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
)

// Bounds that no real house reaches. They keep a wrong file from using up the
// machine's memory. The schema of the file states them, and the check names the
// field that is over one.

// MostPhotos is how many photos a job may hold.
const MostPhotos = 6

// usualItems bounds a list that mostItems does not contain.
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
	reflect.TypeFor[StockSize]():          100,
	reflect.TypeFor[quote.Photo]():        MostPhotos,
}

// Bounds of texts, in letters.
const (
	usualLetters = 200
	// mostLetters bounds notes and the texts of a demonstration.
	mostLetters = 10_000
	// mostPhotoLetters bounds a photo in base64: 225,000 bytes.
	mostPhotoLetters = 300_000
)

// photoField is the field that holds a photo.
const photoField = "data"

// longTexts are the fields that hold paragraphs.
var longTexts = []string{"notes", "message", "question", "explanation"}

// MostItems bounds a list of elements of a type.
func MostItems(element reflect.Type) int { return cmp.Or(mostItems[element], usualItems) }

// MostLetters bounds the text of a field by its name in the file.
func MostLetters(name string) int {
	if name == photoField {
		return mostPhotoLetters
	}
	if slices.Contains(longTexts, name) {
		return mostLetters
	}
	return usualLetters
}

// MostFaults is how many faults of one file are reported; more are counted.
const MostFaults = 100

// MoreFaults counts the faults beyond MostFaults.
func MoreFaults(n int) *FieldError {
	return NewFieldError("(more)", message.New("{count} more faults", "count", n), message.New("those above put right first"))
}

// limited reports MostFaults faults and counts the rest.
func (e FieldErrors) limited() FieldErrors {
	if len(e) <= MostFaults {
		return e
	}
	return append(e[:MostFaults:MostFaults], MoreFaults(len(e)-MostFaults))
}

var (
	lists = fieldpath.KindsOf(reflect.Slice)
	texts = fieldpath.KindsOf(reflect.String)
)

// bounds finds lists and texts over their bounds, and reports whether the lists
// are within theirs: the rest of the check relies on it.
func (c *checker) bounds() bool {
	before := len(c.faults)
	fieldpath.WalkKinds(c.job, lists, func(at *fieldpath.Place, v fieldpath.Value) bool {
		list := v.Reflect()
		if list.Kind() != reflect.Slice {
			return true
		}
		n, most := list.Len(), MostItems(v.Type.Elem())
		if n > most {
			c.want(false, at.Path(), message.New("{count} items", "count", n), "at most {most}", "most", most)
		}
		return n <= most
	})
	inside := len(c.faults) == before
	fieldpath.WalkKinds(c.job, texts, func(at *fieldpath.Place, v fieldpath.Value) bool {
		if !v.IsText() {
			return len(c.faults) <= MostFaults
		}
		text := v.Reflect().String()
		if len(text) <= usualLetters { // no field has a lower bound
			return len(c.faults) <= MostFaults
		}
		if n := utf8.RuneCountInString(text); n > usualLetters {
			if most := MostLetters(v.Name); n > most {
				c.want(false, at.Path(), message.New("{count} letters", "count", n), "at most {most}", "most", most)
			}
		}
		return len(c.faults) <= MostFaults
	})
	return inside
}

// fewNames is how many names a message lists.
const fewNames = 6

// nearestNames lists names for a message: all of a few, of many the nearest to
// what was given.
func nearestNames(given string, names []string) message.Message {
	if len(names) <= fewNames {
		return message.Verbatim(strings.Join(names, ", "))
	}
	near := slices.Clone(names)
	far := map[string]int{}
	for _, n := range near {
		far[n] = levenshtein.Distance(strings.ToLower(given), strings.ToLower(n), nil)
	}
	slices.SortStableFunc(near, func(a, b string) int { return cmp.Compare(far[a], far[b]) })
	return message.New("{names} and {number} more", "names", strings.Join(near[:fewNames-1], ", "), "number", len(names)-fewNames+1)
}
