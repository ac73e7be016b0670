package jobfile

import (
	_ "embed"
	"reflect"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/invopop/jsonschema"

	"returnbench/sizing"
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
	return schemaOf(sizing.Job{}, "returnbench job", sizing.Schema, values)
}

// LessonSchema gives the JSON Schema of the file of a demonstration, as Schema
// gives that of a job.
func LessonSchema() ([]byte, error) {
	return schemaOf(lesson.Lesson{}, "returnbench demonstration", lesson.Schema, values, lessonValues)
}

// schemaOf draws the schema of a file of a version; words are the values of its
// text types.
func schemaOf(file any, title string, version int, words ...map[reflect.Type][]string) ([]byte, error) {
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
	for _, some := range words {
		for t := range some {
			s.Definitions[t.Name()] = wordSchema(valuesOf(t), comments[t.PkgPath()+"."+t.Name()])
		}
	}
	bound(s, s.Definitions, reflect.TypeOf(file), map[reflect.Type]bool{})
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

// bound writes the bounds of lists and texts into the schema of a struct type and
// of those below it.
func bound(s *jsonschema.Schema, all jsonschema.Definitions, t reflect.Type, done map[reflect.Type]bool) {
	if s == nil || done[t] {
		return
	}
	done[t] = true
	for _, f := range fieldsOf(t) {
		property, ok := s.Properties.Get(f.name)
		if !ok {
			continue
		}
		at := t.Field(f.index).Type
		for at.Kind() == reflect.Slice {
			property.MaxItems = most(sizing.MostItems(at.Elem()))
			at, property = at.Elem(), property.Items
		}
		switch _, quantity := quantityOf(at); {
		case quantity || valuesOf(at) != nil:
		case at.Kind() == reflect.String:
			property.MaxLength = most(sizing.MostLetters(f.name))
		case at.Kind() == reflect.Struct:
			bound(all[at.Name()], all, at, done)
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
	if k, ok := quantityOf(t); ok {
		return &jsonschema.Schema{Ref: "#/$defs/" + definition(k.Name)}
	}
	if valuesOf(t) != nil {
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
