package jobfile

import "returnbench/sizing/message"

// Document is a kind of file that holds parts of a job: their fields have the
// same names, units and faults as in a job.
type Document struct{ format format }

// NewDocument describes a kind of file: word is its name in messages, schema the
// version that this program writes.
func NewDocument(word message.ID, schema int) Document {
	return Document{format{word: word, schema: schema}}
}

// Decode reads into the struct that v points to, as the package's Decode reads
// a job.
func (d Document) Decode(data []byte, v any) error { return d.format.decode(data, v) }

// Encode writes a struct as the package's Encode writes a job.
func (d Document) Encode(v any) ([]byte, error) { return encode(v, d.format.word) }
