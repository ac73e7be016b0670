package lesson

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// fieldAt finds the field of a job by its path: "filters[0].pleats". The error
// says in words what is wanted.
func fieldAt(job *sizing.Job, path string) (reflect.Value, error) {
	v := reflect.ValueOf(job).Elem()
	for _, part := range strings.Split(path, ".") {
		name, index, listed := strings.Cut(part, "[")
		if v.Kind() != reflect.Struct {
			return reflect.Value{}, fmt.Errorf("a path that ends before %q", part)
		}
		next, names := childOf(v, name)
		if !next.IsValid() {
			return reflect.Value{}, fmt.Errorf("one of %s in place of %q", strings.Join(names, ", "), name)
		}
		v = next
		if v.Kind() != reflect.Slice {
			if listed {
				return reflect.Value{}, fmt.Errorf("%q without a number behind it", name)
			}
			continue
		}
		i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
		if !listed || err != nil {
			return reflect.Value{}, fmt.Errorf("a number behind %q, such as %s[0]", name, name)
		}
		if i < 0 || i >= v.Len() {
			return reflect.Value{}, fmt.Errorf("%s[0] to %s[%d]: the job has %d of them", name, name, v.Len()-1, v.Len())
		}
		v = v.Index(i)
	}
	return v, nil
}

func childOf(v reflect.Value, name string) (reflect.Value, []string) {
	var names []string
	for i := range v.NumField() {
		tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
		if tag == name {
			return v.Field(i), nil
		}
		names = append(names, tag)
	}
	return reflect.Value{}, names
}

// kindOf gives the kind of a field that holds a quantity, nil for any other.
func kindOf(v reflect.Value) *units.Kind {
	if q, ok := v.Interface().(units.Quantity); ok {
		return q.Kind()
	}
	return nil
}

// movable tells whether a field can be moved along a range.
func movable(v reflect.Value) bool {
	k := v.Kind()
	return k == reflect.Float64 || k == reflect.Int
}

// settable tells whether a field can be set to a text of a switch.
func settable(v reflect.Value) bool { return movable(v) || v.Kind() == reflect.String }

// number reads a text as a number of a field, in SI.
func number(v reflect.Value, text string) (float64, error) {
	if k := kindOf(v); k != nil {
		return k.Parse(text, "")
	}
	n, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	switch {
	case err != nil && v.Kind() == reflect.Int:
		return 0, fmt.Errorf("want a whole number")
	case err != nil:
		return 0, fmt.Errorf("want a number")
	case v.Kind() == reflect.Int && n != float64(int(n)):
		return 0, fmt.Errorf("want a whole number")
	}
	return n, nil
}

// set puts a number, in SI, into a field.
func set(v reflect.Value, n float64) {
	if v.Kind() == reflect.Int {
		if n < 0 {
			n -= 0.5
		} else {
			n += 0.5
		}
		v.SetInt(int64(n))
		return
	}
	v.SetFloat(n)
}

// setText puts a text of a switch into a field.
func setText(v reflect.Value, text string) error {
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		return u.UnmarshalText([]byte(text))
	}
	if v.Kind() == reflect.String {
		v.SetString(text)
		return nil
	}
	n, err := number(v, text)
	if err == nil {
		set(v, n)
	}
	return err
}

// zeroIsAValue names the fields in which zero is a value; in any other it
// would let the engine assume one, and the move would not start where it says.
var zeroIsAValue = []string{"altitude", "gap", "gap_bends", "entry_coefficient", "price", "angle", "compression"}

// ZeroIsAValue tells whether a field, by the last name of its path, can be
// moved to zero.
func ZeroIsAValue(path string) bool {
	return slices.Contains(zeroIsAValue, path[strings.LastIndex(path, ".")+1:])
}

// Movable lists the paths of a job along which a move can be made: every
// number that it gives. Words follow, for a switch.
func Movable(job sizing.Job) (numbers, words []string) {
	walk(reflect.ValueOf(job), "", func(path string, v reflect.Value) {
		switch {
		case path == "schema" || path == "name" || path == "notes":
		case movable(v) && (!v.IsZero() || ZeroIsAValue(path)):
			numbers = append(numbers, path)
		case v.Kind() == reflect.String && !v.IsZero():
			words = append(words, path)
		}
	})
	return numbers, words
}

func walk(v reflect.Value, path string, visit func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			walk(v.Field(i), strings.TrimPrefix(path+"."+tag, "."), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	default:
		visit(path, v)
	}
}

// TextAt is the value of a field as a move would give it: "16 in", "psc". It is
// empty where there is no such field.
func TextAt(job sizing.Job, path string) string {
	v, err := fieldAt(&job, path)
	if err != nil {
		return ""
	}
	return fmt.Sprint(v.Interface())
}
