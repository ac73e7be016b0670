package fieldpath

import (
	"reflect"
	"slices"
	"strings"

	"returnbench/sizing/units"
)

// Field describes a field of a struct, or an element of a list.
type Field struct {
	Name     string       // as files have it; of an element that of its list
	Required bool         // it may not be left open
	Zero     bool         // zero is a value even where the field may be left open
	Share    bool         // a share of one
	Owner    reflect.Type // the struct; nil: it is an element
	Type     reflect.Type
	index    int
}

// Fields are the fields of a struct type in the order of files.
func Fields(t reflect.Type) []Field { return slices.Clone(leading(t, anyKind)) }

func readFields(t reflect.Type) []Field {
	out := make([]Field, t.NumField())
	for i := range out {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		facts := strings.Split(f.Tag.Get("field"), ",")
		out[i] = Field{
			Name:     name,
			Required: !strings.Contains(options, "omit"),
			Zero:     slices.Contains(facts, "zero"),
			Share:    slices.Contains(facts, "share"),
			Owner:    t,
			Type:     f.Type,
			index:    i,
		}
	}
	return out
}

// Element describes the elements of a list.
func (f Field) Element() Field {
	return Field{Name: f.Name, Required: true, Share: f.Share, Type: f.Type.Elem()}
}

// In is the field in a value of the struct that owns it.
func (f Field) In(owner reflect.Value) reflect.Value { return owner.Field(f.index) }

// ZeroIsOpen reports whether a zero means that the field is left open.
func (f Field) ZeroIsOpen() bool { return !f.Required && !f.Zero }

// find finds a field of a struct type by its name.
func find(t reflect.Type, name string) (Field, bool) {
	fields := Fields(t)
	i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == name })
	if i < 0 {
		return Field{}, false
	}
	return fields[i], true
}

// names are the names of fields.
func names(fields []Field) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.Name
	}
	return out
}

// QuantityOf is the kind of a quantity type, nil for any other.
func QuantityOf(t reflect.Type) *units.Kind {
	if q, ok := reflect.Zero(t).Interface().(units.Quantity); ok {
		return q.Kind()
	}
	return nil
}

// WordsOf are the words that a text type may hold, nil where any text will do.
func WordsOf(t reflect.Type) []string {
	if w, ok := reflect.Zero(t).Interface().(interface{ Values() []string }); ok {
		return w.Values()
	}
	return nil
}

// Leaves are the paths of every value of a struct type, with one element in each
// list.
func Leaves(t reflect.Type) []string { return leaves(t, "") }

func leaves(t reflect.Type, path string) []string {
	switch t.Kind() {
	case reflect.Struct:
		var out []string
		for _, f := range Fields(t) {
			out = append(out, leaves(f.Type, Join(path, f.Name))...)
		}
		return out
	case reflect.Slice:
		return leaves(t.Elem(), At(path, 0))
	default:
		return []string{path}
	}
}
