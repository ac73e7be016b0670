package jobfile

import (
	_ "embed"
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

// schemaOf draws the schema of a file of a version.
func schemaOf(file any, title string, version int) ([]byte, error) {
	comments := map[string]string{}
	if err := json.Unmarshal(descriptions, &comments); err != nil {
		return nil, err
	}
	r := &jsonschema.Reflector{Anonymous: true, ExpandedStruct: true, Mapper: reference, CommentMap: comments}
	s := r.Reflect(file)
	s.Title = title
	for _, k := range units.Kinds() {
		s.Definitions[definition(k.Name)] = quantitySchema(k)
	}
	d := &definitions{all: s.Definitions, comments: comments, done: map[reflect.Type]bool{}}
	d.describe(s, reflect.TypeOf(file))
	pin(s, version)
	if job := s.Definitions[reflect.TypeFor[sizing.Job]().Name()]; job != nil {
		pin(job, sizing.Schema)
	}
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

// definitions are those of a schema that is being drawn.
type definitions struct {
	all      jsonschema.Definitions
	comments map[string]string // of the engine's types
	done     map[reflect.Type]bool
}

// describe writes into the schema of a struct type, and of those below it, what
// the reflector does not know: the bounds of lists and texts, and the words of a
// text type.
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
		switch words := fieldpath.WordsOf(at); {
		case words != nil:
			d.all[at.Name()] = wordSchema(words, d.comments[at.PkgPath()+"."+at.Name()])
		case fieldpath.QuantityOf(at) != nil:
		case at.Kind() == reflect.String:
			property.MaxLength = most(sizing.MostLetters(f.Name))
		case at.Kind() == reflect.Struct:
			d.describe(d.all[at.Name()], at)
		}
	}
}

func most(n int) *uint64 {
	m := uint64(n)
	return &m
}

// pin holds the version of a file to the one that is read.
func pin(s *jsonschema.Schema, version int) {
	if field, ok := s.Properties.Get("schema"); ok {
		field.Type, field.Const = "", version
	}
}

// reference points quantities and words to their definitions; nil leaves a type
// to the reflector.
func reference(t reflect.Type) *jsonschema.Schema {
	if k := fieldpath.QuantityOf(t); k != nil {
		return &jsonschema.Schema{Ref: "#/$defs/" + definition(k.Name)}
	}
	if fieldpath.WordsOf(t) != nil {
		return &jsonschema.Schema{Ref: "#/$defs/" + t.Name()}
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
