package job

import (
	"fmt"

	"returnbench/sizing/units"
)

// FieldError is a fault of one field of a Job.
type FieldError struct {
	Path   string // filters[1].pleats
	Given  string
	Wanted string
	terms  terms
}

// terms are what the words of a fault were made of, so that they can be put in
// other units.
type terms struct {
	given  any
	wanted string // format of args
	args   []any
}

// Say puts the fault in words, with each quantity as write has it.
func (e *FieldError) Say(write func(units.Quantity) string) (given, wanted string) {
	if e.terms.wanted == "" {
		return e.Given, e.Wanted
	}
	given = e.Given
	if q, ok := e.terms.given.(units.Quantity); ok {
		given = write(q)
	}
	args := make([]any, len(e.terms.args))
	for i, a := range e.terms.args {
		args[i] = a
		if q, ok := a.(units.Quantity); ok {
			args[i] = write(q)
		}
	}
	return given, fmt.Sprintf(e.terms.wanted, args...)
}

func (e *FieldError) Error() string {
	return fmt.Sprintf("%s: given %s; want %s", e.Path, e.Given, e.Wanted)
}

// FieldErrors are all the faults of a Job.
type FieldErrors []*FieldError

func (e FieldErrors) Error() string {
	text := ""
	for i, f := range e {
		if i > 0 {
			text += "\n"
		}
		text += f.Error()
	}
	return text
}

// Unwrap gives each fault to errors.As.
func (e FieldErrors) Unwrap() []error {
	out := make([]error, len(e))
	for i, f := range e {
		out[i] = f
	}
	return out
}

// At finds the fault of a field, nil where it has none.
func (e FieldErrors) At(path string) *FieldError {
	for _, f := range e {
		if f.Path == path {
			return f
		}
	}
	return nil
}
