package jobfile

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
)

// Decode reads a job. A text that is not JSON gives a *SyntaxError; every other
// fault is gathered into sizing.FieldErrors, and the Job then holds whatever
// could be read beside them.
func Decode(data []byte) (sizing.Job, error) {
	var job sizing.Job
	return job, decode(data, &job, "job", sizing.Schema)
}

// decode reads into what v points to. what is the word for it in messages.
func decode(data []byte, v any, what string, version int) error {
	text, err := textOf(data)
	if err != nil {
		return err
	}
	if fault := schemaFault(text, what, version); fault != nil {
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

// both joins the faults of the reading with those of the engine's check.
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

// covered tells whether the reading already found fault with the field, or with
// what holds it: what the check finds there is only what the reading left open.
func covered(faults sizing.FieldErrors, path string) bool {
	return slices.ContainsFunc(faults, func(f *sizing.FieldError) bool { return fieldpath.Within(path, f.Path) })
}

// schemaFault looks at the version before all else: the names of another
// version would only give misleading faults.
func schemaFault(text []byte, what string, version int) *sizing.FieldError {
	d := jsontext.NewDecoder(bytes.NewReader(text), jsontext.AllowDuplicateNames(true))
	wanted := fmt.Sprintf(`"schema": %d at the top of the file, the version of the %s file that this program reads`, version, what)
	if d.PeekKind() != '{' {
		return &sizing.FieldError{Path: "(file)", Given: kindWord(d.PeekKind()), Wanted: "a " + what + ": names and values in braces"}
	}
	given := "nothing"
	_, _ = d.ReadToken()
	for d.PeekKind() == '"' {
		name, _ := d.ReadToken()
		isSchema := name.String() == "schema"
		v, err := d.ReadValue()
		if err != nil {
			break
		}
		if isSchema {
			if given = brief(v); given == fmt.Sprint(version) {
				return nil
			}
			break
		}
	}
	if n, err := strconv.Atoi(given); err == nil && n > version {
		wanted += "; a newer version of returnbench made this file: install that one to open it"
	}
	return &sizing.FieldError{Path: "schema", Given: given, Wanted: wanted}
}
