package jobfile

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
)

// format is one kind of file, in all the schemas that it has had.
type format struct {
	word   message.ID // for it in messages
	schema int        // that is written
	// upgrades[i] takes a document of schema i+1 to schema i+2.
	upgrades []upgrade
	// parts are the formats of objects in the file that have a schema of their
	// own.
	parts map[string]format
}

// upgrade changes a document to the names and values of the next schema. The
// schema itself is set for it.
type upgrade func(document map[string]any) error

// There has been one schema so far, so that there is nothing to upgrade from.
// Raising a schema needs one upgrade here, kept for ever.
var (
	jobFormat    = format{word: "job", schema: sizing.Schema}
	lessonFormat = format{word: "lesson", schema: lesson.Schema, parts: map[string]format{"job": jobFormat}}
)

// readable reports whether a schema is this program's own or can be upgraded to it.
func (f format) readable(schema int) bool { return schema >= 1 && schema <= f.schema }

// isOlder reports whether a text, or a part of it, has an older schema that can be
// read.
func (f format) isOlder(text []byte) bool {
	older := false
	members(text, func(name string, value jsontext.Value) {
		part, inside := f.parts[name]
		switch {
		case name == "schema":
			n := schemaNumber(value)
			older = older || f.readable(n) && n < f.schema
		case inside:
			older = older || part.isOlder(value)
		}
	})
	return older
}

// upgraded returns a text in the schema of this program. One that is in it
// already stays as it is, byte for byte.
func (f format) upgraded(text []byte) ([]byte, *sizing.FieldError) {
	if !f.isOlder(text) {
		return text, nil
	}
	var document map[string]any
	if err := json.Unmarshal(text, &document); err != nil {
		return nil, sizing.NewFieldError("(file)", message.OfError(err), message.New("each name once"))
	}
	if fault := f.upgrade(document); fault != nil {
		return nil, fault
	}
	out, err := json.Marshal(document, json.Deterministic(true))
	if err != nil {
		return nil, sizing.NewFieldError("(file)", message.OfError(err), message.New("values that JSON has"))
	}
	return out, nil
}

func (f format) upgrade(document map[string]any) *sizing.FieldError {
	given, _ := document["schema"].(float64)
	for schema := int(given); f.readable(schema) && schema < f.schema; schema++ {
		if err := f.upgrades[schema-1](document); err != nil {
			return sizing.NewFieldError("(file)", message.New("schema {schema}: {why}", "schema", schema, "why", err),
				message.New("a {file} that can be brought to schema {schema}", "file", f.word, "schema", schema+1))
		}
		document["schema"] = float64(schema + 1)
	}
	for name, part := range f.parts {
		if inside, ok := document[name].(map[string]any); ok {
			if fault := part.upgrade(inside); fault != nil {
				fault.Path = name
				return fault
			}
		}
	}
	return nil
}

// members visits the members of an object. Text that is not well formed ends the
// visit.
func members(text []byte, visit func(name string, value jsontext.Value)) {
	d := jsontext.NewDecoder(bytes.NewReader(text), jsontext.AllowDuplicateNames(true))
	if d.PeekKind() != '{' {
		return
	}
	_, _ = d.ReadToken()
	for d.PeekKind() == '"' {
		token, err := d.ReadToken()
		if err != nil {
			return
		}
		name := token.String()
		value, err := d.ReadValue()
		if err != nil {
			return
		}
		visit(name, value)
	}
}

// schemaIn is the first schema that a text names, nil where it names none.
func schemaIn(text []byte) (first jsontext.Value) {
	members(text, func(name string, value jsontext.Value) {
		if name == "schema" && first == nil {
			first = value.Clone()
		}
	})
	return first
}

// schemaNumber is a schema as a whole number, 0 where it is none.
func schemaNumber(value jsontext.Value) int {
	n, err := strconv.Atoi(string(value))
	if err != nil {
		return 0
	}
	return n
}

// save writes a file of the format. A file of an older schema that it replaces is
// kept beside it for good: the next save replaces the version before, and an
// older program reads nothing newer.
func (f format) save(path string, data []byte) error {
	if err := f.keepOlder(path); err != nil {
		return err
	}
	return atomicfile.WriteKeeping(path, data, 0o644)
}

func (f format) keepOlder(path string) error {
	before, err := ReadFile(path)
	if err != nil {
		return nil // nothing to keep, or reported by the write
	}
	text, err := textOf(before)
	if err != nil || !f.isOlder(text) {
		return nil
	}
	return keepCopy(path, fmt.Sprintf(".schema%d", schemaNumber(schemaIn(text))), before)
}

// keepCopy writes data beside path; it replaces no other copy.
func keepCopy(path, suffix string, data []byte) error {
	const tries = 100
	target, info, err := atomicfile.Resolve(path)
	if err != nil {
		return err
	}
	for try := 1; try <= tries; try++ {
		name := suffix
		if try > 1 {
			name = fmt.Sprintf("%s-%d", suffix, try)
		}
		kept := atomicfile.Beside(target, name)
		there, err := os.ReadFile(kept)
		switch {
		case os.IsNotExist(err):
			return atomicfile.Write(kept, data, info.Mode().Perm())
		case err == nil && bytes.Equal(there, data):
			return nil
		}
	}
	return message.Errorf("{file}: {number} copies of older schemas are beside it; move some away", "file", filepath.Base(path), "number", tries)
}
