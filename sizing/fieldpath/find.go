package fieldpath

import (
	"reflect"
	"strconv"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Error is a fault in a path, or in a text typed for its field.
type Error struct {
	Path, Given string
	Wanted      message.Message
}

// In writes the fault in the language of a reader.
func (e *Error) In(l units.Locale) string {
	return message.Text(l, "{path}: given {given}; want {wanted}", "path", e.Path, "given", e.Given, "wanted", e.Wanted)
}

func (e *Error) Error() string { return e.In(units.IP) }

// Find returns the field that a path leads to in the struct that root points
// to. The error is an *Error.
func Find(root any, path string) (Value, error) {
	steps, err := Parse(path)
	if err != nil {
		return Value{}, err
	}
	v := whole(root)
	for i, s := range steps {
		next, e := v.step(s)
		if e != nil {
			e.Path = path
			if e.Given == "" {
				e.Given = strconv.Quote(steps[i:].String())
			}
			return Value{}, e
		}
		v = next
	}
	if v.Type.Kind() == reflect.Slice {
		return Value{}, &Error{Path: path, Given: strconv.Quote(v.Name), Wanted: message.New(numbered, "name", v.Name)}
	}
	return v, nil
}

// Get is the text of the field at a path.
func Get(root any, path string) (string, error) {
	v, err := Find(root, path)
	if err != nil {
		return "", err
	}
	return v.Text(), nil
}

// Set puts a text into the field at a path, as a file would have it.
func Set(root any, path, text string) error {
	v, err := Find(root, path)
	if err != nil {
		return err
	}
	return v.Set(text)
}

// numbered asks for the number of an element.
const numbered message.ID = `a number behind "{name}", such as {name}[0]`

// whole is all that root points to.
func whole(root any) Value {
	v := reflect.ValueOf(root).Elem()
	return Value{Field: Field{Type: v.Type()}, v: v}
}

func (v Value) step(s Step) (Value, *Error) {
	if s.Name == "" {
		return v.element(s.Index)
	}
	switch v.Type.Kind() {
	case reflect.Struct:
	case reflect.Slice:
		return Value{}, &Error{Given: strconv.Quote(v.Name), Wanted: message.New(numbered, "name", v.Name)}
	default:
		return Value{}, &Error{Wanted: message.New("a path that ends before {name}", "name", strconv.Quote(s.Name))}
	}
	f, ok := find(v.Type, s.Name)
	if !ok {
		return Value{}, &Error{Given: strconv.Quote(s.Name), Wanted: inPlaceOf(s.Name, Fields(v.Type))}
	}
	return Value{Field: f, v: f.In(v.v)}, nil
}

func (v Value) element(i int) (Value, *Error) {
	switch n := 0; {
	case v.Type.Kind() != reflect.Slice:
		return Value{}, &Error{Wanted: message.New("{name} without a number behind it", "name", strconv.Quote(v.Name))}
	case i < v.v.Len():
		return Value{Field: v.Element(), v: v.v.Index(i)}, nil
	default:
		if n = v.v.Len(); n == 0 {
			return Value{}, &Error{Wanted: message.New("a path without {name}: the job has none of them", "name", v.Name)}
		}
		return Value{}, &Error{Wanted: message.New("{name}[0] to {name}[{last}]: the job has {number} of them", "name", v.Name, "last", n-1, "number", n)}
	}
}

// Walk visits the fields of the struct that root points to and the elements of
// its lists, in the order of a file. It goes into a struct or a list where visit
// returns true. A Place is valid until visit returns.
func Walk(root any, visit func(at *Place, v Value) (into bool)) { WalkKinds(root, anyKind, visit) }

// WalkKinds is Walk of only those fields that are of the kinds or contain one.
func WalkKinds(root any, kinds Kinds, visit func(at *Place, v Value) (into bool)) {
	w := walker{visit: visit, kinds: kinds}
	w.walk(nil, whole(root))
}

// Place is the present place of a walk. Few visits need the path, so it is written
// only when asked for.
type Place struct {
	before *Place
	name   string
	index  int // of a list's element; -1: a field
}

// Path is how a job file names the place.
func (s *Place) Path() string {
	switch {
	case s == nil:
		return ""
	case s.index >= 0:
		return At(s.before.Path(), s.index)
	}
	return Join(s.before.Path(), s.name)
}

type walker struct {
	visit  func(at *Place, v Value) bool
	kinds  Kinds
	places []*Place // one a depth, used again and again
	depth  int
}

func (w *walker) walk(at *Place, v Value) {
	switch v.Type.Kind() {
	case reflect.Struct:
		for _, f := range leading(v.Type, w.kinds) {
			w.one(Place{at, f.Name, -1}, Value{Field: f, v: f.In(v.v)})
		}
	case reflect.Slice:
		if !w.kinds.within(v.Type.Elem()) {
			return
		}
		element := v.Element()
		for i := range v.v.Len() {
			w.one(Place{at, "", i}, Value{Field: element, v: v.v.Index(i)})
		}
	}
}

func (w *walker) one(at Place, v Value) {
	if w.depth == len(w.places) {
		w.places = append(w.places, new(Place))
	}
	place := w.places[w.depth]
	*place = at
	w.depth++
	if w.visit(place, v) {
		w.walk(place, v)
	}
	w.depth--
}
