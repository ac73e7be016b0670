package jobfile

import (
	"fmt"
	"math"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Encode writes a job: indented, names in the order of sizing.Job, what is left
// open left out, quantities as exact text. The schema is the engine's own.
func Encode(job sizing.Job) ([]byte, error) {
	job.Schema = sizing.Schema
	return encode(job, "job")
}

func encode(v any, word message.ID) ([]byte, error) {
	out, err := json.Marshal(v,
		jsontext.WithIndent("  "),
		json.WithMarshalers(json.MarshalToFunc(writeQuantity)))
	if err != nil {
		return nil, message.Errorf("the {file} cannot be written: {why}", "file", word, "why", err)
	}
	return append(out, '\n'), nil
}

// writeQuantity refuses what no file can hold.
func writeQuantity(e *jsontext.Encoder, q units.Quantity) error {
	if math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) {
		return fmt.Errorf("%s of %g is not a number", q.Kind().Name, q.SI())
	}
	return e.WriteToken(jsontext.String(q.Kind().Text(q.SI())))
}
