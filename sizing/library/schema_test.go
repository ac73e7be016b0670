package library

import (
	"bytes"
	"strconv"
	"strings"
	"testing"

	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/jobfile"
)

func compiled(t *testing.T, schema func() ([]byte, error)) *validator.Schema {
	t.Helper()
	text, err := schema()
	require.NoError(t, err)
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	c := validator.NewCompiler()
	require.NoError(t, c.AddResource("item.schema.json", doc))
	s, err := c.Compile("item.schema.json")
	require.NoError(t, err)
	return s
}

// refused are the fields that a schema refuses in a text, as faults name them.
func refused(t *testing.T, s *validator.Schema, data []byte) (fields []string) {
	t.Helper()
	v, err := validator.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	if err = s.Validate(v); err == nil {
		return nil
	}
	var visit func(*validator.ValidationError)
	visit = func(e *validator.ValidationError) {
		at := ""
		for _, step := range e.InstanceLocation {
			if i, err := strconv.Atoi(step); err == nil {
				at = fieldpath.At(at, i)
			} else {
				at = fieldpath.Join(at, step)
			}
		}
		switch k := e.ErrorKind.(type) {
		case *kind.OneOf:
			fields = append(fields, "(file)")
			return
		case *kind.Required:
			for _, name := range k.Missing {
				fields = append(fields, fieldpath.Join(at, name))
			}
		case *kind.AdditionalProperties:
			for _, name := range k.Properties {
				fields = append(fields, fieldpath.Join(at, name))
			}
		default:
			if len(e.Causes) == 0 {
				fields = append(fields, at)
			}
		}
		for _, cause := range e.Causes {
			visit(cause)
		}
	}
	fault, ok := err.(*validator.ValidationError)
	require.True(t, ok)
	visit(fault)
	return fields
}

// TestFileSchema holds the schema by a validator of another author to what
// the library writes: an item of each kind, and a template as a job.
func TestFileSchema(t *testing.T) {
	ofItems, ofJobs := compiled(t, FileSchema), compiled(t, jobfile.Schema)
	kinds := map[Kind]bool{}
	for _, item := range examples() {
		kinds[item.Kind()] = true
		data, err := encode(item)
		require.NoError(t, err)
		s := ofItems
		if item.Kind() == Templates {
			s = ofJobs
		}
		require.Empty(t, refused(t, s, data), "%s", data)
	}
	require.Len(t, kinds, len(Kinds()))
}

// TestFileSchemaRefusesWhatTheReaderDoes: the same field is at fault by
// the schema and by the reader.
func TestFileSchemaRefusesWhatTheReaderDoes(t *testing.T) {
	s := compiled(t, FileSchema)
	for text, field := range map[string]string{
		`{"schema": 1}`: "(file)",
		`{"schema": 1, "filter": {"name": "a"}, "size": {"of": "grille", "width": "20 in", "height": "20 in"}}`: "(file)",
		`{"schema": 1, "filter": {"merv": 8}}`:                                                               "filter.name",
		`{"schema": 1, "filter": {"name": "a", "widht": "20 in"}}`:                                           "filter.widht",
		`{"schema": 1, "filter": {"name": "a", "merv": 8.5}}`:                                                "filter.merv",
		`{"schema": 1, "filter": {"name": "a", "rating": [{"face_velocity": 300, "drop": "0.1 in. w.c."}]}}`: "filter.rating[0].face_velocity",
		`{"schema": 1, "blower": {"name": "a"}}`:                                                             "blower.equipment",
		`{"schema": 1, "blower": {"name": "a", "equipment": {"kind": "boiler", "blower": {}}}}`:              "blower.equipment.kind",
		`{"schema": 1, "blower": {"name": "a", "plate": {"makr": "b"}, "equipment": {"blower": {}}}}`:        "blower.plate.makr",
		`{"schema": 1, "cabinet": {"name": "a", "width": "20 in", "height": "25 in"}}`:                       "cabinet.depth",
		`{"schema": 1, "grille": {"name": "a", "grille": {"width": 20}}}`:                                    "grille.grille.width",
		`{"schema": 1, "grille": {"name": "a", "grille": {"style": "lace"}}}`:                                "grille.grille.style",
		`{"schema": 1, "size": {"of": "door", "width": "20 in", "height": "20 in"}}`:                         "size.of",
		`{"schema": 1, "prices": {"name": "a", "work_prices": {"cabinet": 650}}}`:                            "prices.work_prices.cabinet",
		`{"schema": 1, "prices": {"name": "a", "lines": {"item": "Permit"}}}`:                                "prices.lines",
	} {
		require.Contains(t, refused(t, s, []byte(text)), field, text)
		var file File
		err := itemFile.Decode([]byte(text), &file)
		if err == nil {
			err = file.item().Check()
		}
		var faults sizing.FieldErrors
		require.ErrorAs(t, err, &faults, text)
		var told []string
		for _, f := range faults {
			told = append(told, f.Path)
		}
		require.Contains(t, told, field, text)
	}
	data, err := encode(examples()[0])
	require.NoError(t, err)
	long := strings.Replace(string(data), "Deep pleat 11", strings.Repeat("long ", 100), 1)
	require.Contains(t, refused(t, s, []byte(long)), "filter.name")
	require.Contains(t, refused(t, s, []byte(strings.Replace(string(data), `"schema": 1`, `"schema": 2`, 1))), "schema")
}
