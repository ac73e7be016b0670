package jobfile

import (
	"bytes"
	"errors"
	"reflect"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
)

// Decode reads a job, of an older schema too. A text that is not JSON gives a
// *SyntaxError; every other fault is gathered into sizing.FieldErrors, and the
// Job then holds whatever could be read beside them.
func Decode(data []byte) (sizing.Job, error) {
	var job sizing.Job
	return job, jobFormat.decode(data, &job)
}

// decode reads into what v points to. Faults of a file of an older schema carry
// the field names of the newest schema.
func (f format) decode(data []byte, v any) error {
	text, err := textOf(data)
	if err != nil {
		return err
	}
	if fault := f.schemaFault(text); fault != nil {
		return sizing.FieldErrors{fault}
	}
	text, fault := f.upgraded(text)
	if fault != nil {
		return sizing.FieldErrors{fault}
	}
	w := &walker{dec: jsontext.NewDecoder(bytes.NewReader(text), jsontext.AllowDuplicateNames(true))}
	w.value("", reflect.ValueOf(v).Elem(), fieldpath.Field{})
	if w.more > 0 {
		w.faults = append(w.faults, sizing.MoreFaults(w.more))
	}
	if len(w.faults) > 0 {
		return w.faults
	}
	return nil
}

// Read is Decode followed by the engine's own check of the values. Where some
// fields cannot be read, the faults of both are joined.
func Read(data []byte) (sizing.Job, error) {
	job, err := Decode(data)
	var faults sizing.FieldErrors
	if err != nil && !errors.As(err, &faults) {
		return job, err
	}
	if job.Schema != sizing.Schema {
		return job, err
	}
	return job, both(faults, job.Check())
}

// both joins the faults found in reading with those of the engine's check.
func both(faults, checked sizing.FieldErrors) error {
	if len(faults) > sizing.MostFaults {
		return faults // counted already
	}
	for _, f := range checked {
		if !covered(faults, f.Path) {
			faults = append(faults, f)
		}
	}
	if len(faults) > 0 {
		return faults
	}
	return nil
}

// covered reports whether the reading already found fault with the field, or with
// what holds it: the check then only reports what reading could not fill.
func covered(faults sizing.FieldErrors, path string) bool {
	return slices.ContainsFunc(faults, func(f *sizing.FieldError) bool { return fieldpath.Within(path, f.Path) })
}

// schemaFault looks at the version before all else: the names of another
// version would only give misleading faults.
func (f format) schemaFault(text []byte) *sizing.FieldError {
	d := jsontext.NewDecoder(bytes.NewReader(text), jsontext.AllowDuplicateNames(true))
	if d.PeekKind() != '{' {
		return sizing.NewFieldError("(file)", kindWord(d.PeekKind()), message.New("a {file}: names and values in braces", "file", f.word))
	}
	value := schemaIn(text)
	schema := schemaNumber(value)
	if f.readable(schema) {
		return nil
	}
	var given any = nothing
	if value != nil {
		given = brief(value)
	}
	wanted := message.ID(`"schema": {schema} at the top of the file, the version of the {file} file that this program reads`)
	if schema > f.schema {
		wanted = `"schema": {schema} at the top of the file, the version of the {file} file that this program reads; a newer version of returnbench made this file: install that one to open it`
	}
	return sizing.NewFieldError("schema", given, message.New(wanted, "schema", f.schema, "file", f.word))
}
