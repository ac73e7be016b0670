package job

import (
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// FieldError is a fault of one field of a Job.
type FieldError struct {
	Path   string // filters[1].pleats
	Given  string // in English, quantities as a file has them
	Wanted message.Message
	given  any // what Given is written from
}

// NewFieldError is a fault of a field. Given is the value that was found: a text, a
// number or a quantity, or a message about it.
func NewFieldError(path string, given any, wanted message.Message) *FieldError {
	e := &FieldError{Path: path, Wanted: wanted, given: given}
	e.Given = message.Verbatim(given).Writing(message.Exact).String()
	return e
}

// longestNumber is the number of characters above which a number is rounded for a reader.
const longestNumber = 8

// usual writes quantities in the usual units of a reader, rounded where the number
// would be long.
func usual(l units.Locale) func(units.Quantity) string {
	return func(q units.Quantity) string {
		u := q.Kind().Usual(l)
		if n := u.Number(q.SI()); len(n) <= longestNumber {
			return l.Mark(n) + " " + u.Name
		}
		return q.Kind().Show(q.SI(), l)
	}
}

// Say writes the fault for a reader. write spells each quantity; where it is nil they
// are in the units of the locale.
func (e *FieldError) Say(l units.Locale, write func(units.Quantity) string) (given, wanted string) {
	if write == nil {
		write = usual(l)
	}
	return message.Verbatim(e.What()).Writing(write).In(l), e.Wanted.Writing(write).In(l)
}

// What is the value that was found: a text, a number, a quantity or a message.
func (e *FieldError) What() any {
	if e.given == nil {
		return e.Given
	}
	return e.given
}

// Message is the whole of the fault, its quantities not yet written.
func (e *FieldError) Message() message.Message {
	return message.New("{path}: given {given}; want {wanted}", "path", e.Path, "given", e.What(), "wanted", e.Wanted)
}

// In writes the fault in the language and the units of a reader.
func (e *FieldError) In(l units.Locale) string { return e.Message().Writing(usual(l)).In(l) }

// Error is English, with quantities as a file has them.
func (e *FieldError) Error() string { return e.Message().Writing(message.Exact).String() }

// At is the same fault under another path.
func (e *FieldError) At(path string) *FieldError {
	moved := *e
	moved.Path = path
	return &moved
}

// FieldErrors are all the faults of a Job.
type FieldErrors []*FieldError

func (e FieldErrors) Error() string {
	return e.lines((*FieldError).Error)
}

// In writes the faults for a reader, each on a line.
func (e FieldErrors) In(l units.Locale) string {
	return e.lines(func(f *FieldError) string { return f.In(l) })
}

func (e FieldErrors) lines(write func(*FieldError) string) string {
	out := make([]string, len(e))
	for i, f := range e {
		out[i] = write(f)
	}
	return strings.Join(out, "\n")
}

// Unwrap returns each fault, for errors.As.
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
