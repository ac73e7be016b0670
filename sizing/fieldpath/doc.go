// Package fieldpath finds a field of a job by its path, "filters[1].pleats", and
// knows how each field is described.
//
// A field is described once, where its Go type has it:
//
//	Gap units.Length `json:"gap,omitzero" field:"zero"`
//
// The json tag is its name in a file; "omit" in it says that the field may be
// left open. The field tag holds what a type cannot express:
//
//	zero   zero is a value; in any other field that may be left open it means "left open"
//	share  the number is a share of one, which people say in percent
//
// Its kind of quantity follows from its type, and the words it may hold from the
// Values of its type. The reader of files, their schema, the check of a job, the
// moves of a demonstration and the window take a field from here.
package fieldpath
