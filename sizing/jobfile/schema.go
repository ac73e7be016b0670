package jobfile

import (
	_ "embed"
	"path"
	"reflect"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/invopop/jsonschema"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// descriptions are the comments of the engine's types, by type and field.
//
//go:embed descriptions.json
var descriptions []byte

// Schema gives the JSON Schema (2020-12) of the job file, drawn from the
// engine's own types.
func Schema() ([]byte, error) {
	return schemaOf(sizing.Job{}, "returnbench job", sizing.Schema)
}

// LessonSchema gives the JSON Schema of the file of a demonstration, as Schema
// gives that of a job.
func LessonSchema() ([]byte, error) {
	return schemaOf(lesson.Lesson{}, "returnbench demonstration", lesson.Schema)
}

// Schema gives the JSON Schema of a file that is read into a struct such as v and
// holds exactly one of the fields named, as the package's Schema gives that of a
// job.
func (d Document) Schema(v any, title string, oneOf ...string) ([]byte, error) {
	s, err := drawn(v, title, d.format.schema)
	if err != nil {
		return nil, err
	}
	for _, name := range oneOf {
		s.OneOf = append(s.OneOf, &jsonschema.Schema{Required: []string{name}})
	}
	return written(s)
}

// schemaOf draws the schema of a file of a version.
func schemaOf(file any, title string, version int) ([]byte, error) {
	s, err := drawn(file, title, version)
	if err != nil {
		return nil, err
	}
	return written(s)
}

func drawn(file any, title string, version int) (*jsonschema.Schema, error) {
	d := &definitions{comments: map[string]string{}, done: map[reflect.Type]bool{}, shared: sharedNames(reflect.TypeOf(file))}
	if err := json.Unmarshal(descriptions, &d.comments); err != nil {
		return nil, err
	}
	r := &jsonschema.Reflector{Anonymous: true, ExpandedStruct: true, Namer: d.name, Mapper: d.reference, CommentMap: d.comments}
	s := r.Reflect(file)
	d.all = s.Definitions
	s.Title = title
	for _, k := range units.Kinds() {
		s.Definitions[definition(k.Name)] = quantitySchema(k)
	}
	d.describe(s, reflect.TypeOf(file))
	pin(s, version)
	if job := s.Definitions[d.name(reflect.TypeFor[sizing.Job]())]; job != nil {
		pin(job, sizing.Schema)
	}
	return s, nil
}

func written(s *jsonschema.Schema) ([]byte, error) {
	text, err := s.MarshalJSON()
	if err != nil {
		return nil, err
	}
	v := jsontext.Value(text)
	if err := v.Indent(jsontext.WithIndent("  ")); err != nil {
		return nil, err
	}
	return append(v, '\n'), nil
}

// definitions are the definitions of a schema while it is generated.
type definitions struct {
	all      jsonschema.Definitions
	comments map[string]string // of the engine's types
	done     map[reflect.Type]bool
	shared   map[string]bool // names that more than one type has
}

// name is what the definition of a type goes by: its own name, after that of its
// package where another type has the same.
func (d *definitions) name(t reflect.Type) string {
	if d.shared[t.Name()] {
		return path.Base(t.PkgPath()) + "." + t.Name()
	}
	return t.Name()
}

// sharedNames are the names that more than one type of a file has.
func sharedNames(file reflect.Type) map[string]bool {
	seen, shared := map[string]reflect.Type{}, map[string]bool{}
	var visit func(reflect.Type)
	visit = func(t reflect.Type) {
		for t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		if t.PkgPath() == "" || seen[t.Name()] == t || fieldpath.QuantityOf(t) != nil {
			return
		}
		if seen[t.Name()] != nil {
			shared[t.Name()] = true
		}
		seen[t.Name()] = t
		if t.Kind() == reflect.Struct {
			for _, f := range fieldpath.Fields(t) {
				visit(f.Type)
			}
		}
	}
	visit(file)
	return shared
}

// describe writes into the schema of a struct type, and of those below it, what
// the jsonschema reflector does not know: the bounds of lists and texts, and the
// words of a text type.
func (d *definitions) describe(s *jsonschema.Schema, t reflect.Type) {
	if s == nil || d.done[t] {
		return
	}
	d.done[t] = true
	for _, f := range fieldpath.Fields(t) {
		property, ok := s.Properties.Get(f.Name)
		if !ok {
			continue
		}
		at := f.Type
		for at.Kind() == reflect.Slice {
			property.MaxItems = most(sizing.MostItems(at.Elem()))
			at, property = at.Elem(), property.Items
		}
		if at.Kind() == reflect.Pointer {
			at = at.Elem()
		}
		switch words := fieldpath.WordsOf(at); {
		case words != nil:
			d.all[d.name(at)] = wordSchema(words, d.comments[at.PkgPath()+"."+at.Name()])
		case fieldpath.QuantityOf(at) != nil:
		case at.Kind() == reflect.String:
			property.MaxLength = most(sizing.MostLetters(f.Name))
		case at.Kind() == reflect.Struct:
			d.describe(d.all[d.name(at)], at)
		}
	}
}

func most(n int) *uint64 {
	m := uint64(n)
	return &m
}

// pin makes the schema accept only the version that is read.
func pin(s *jsonschema.Schema, version int) {
	if field, ok := s.Properties.Get("schema"); ok {
		field.Type, field.Const = "", version
	}
}

// reference points quantities and words to their definitions; nil leaves a type
// to the reflector.
func (d *definitions) reference(t reflect.Type) *jsonschema.Schema {
	if k := fieldpath.QuantityOf(t); k != nil {
		return &jsonschema.Schema{Ref: "#/$defs/" + definition(k.Name)}
	}
	if fieldpath.WordsOf(t) != nil {
		return &jsonschema.Schema{Ref: "#/$defs/" + d.name(t)}
	}
	return nil
}

func definition(kind string) string { return strings.ReplaceAll(kind, " ", "_") }

func quantitySchema(k *units.Kind) *jsonschema.Schema {
	s := &jsonschema.Schema{
		Type:        "string",
		Description: k.Wanted(),
		Pattern:     quantityPattern,
		Examples:    []any{exampleOf(k)},
	}
	if v, err := k.Parse(exampleOf(k), ""); err == nil && k.Usual(units.SI) != k.Usual(units.IP) {
		s.Examples = append(s.Examples, k.Show(v, units.SI))
	}
	return s
}

func wordSchema(all []string, comment string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string", Description: comment}
	for _, v := range all {
		s.Enum = append(s.Enum, v)
	}
	return s
}

// quantityPattern is the outer shape of a quantity: a number, then a unit. The
// program itself reads more closely.
const quantityPattern = `^\s*[-+−]?\s*[$€£]?\s*[-+−]?\s*(\d|\.\d).*$`
