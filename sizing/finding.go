package sizing

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing/units"
)

// Severity of a finding.
type Severity string

const (
	Good    Severity = "good"
	Caution Severity = "caution"
	Stop    Severity = "stop"
)

// Rank orders severities: the graver, the higher.
func (s Severity) Rank() int {
	switch s {
	case Stop:
		return 2
	case Caution:
		return 1
	}
	return 0
}

// Finding is a plain sentence about the house, held against a limit.
type Finding struct {
	Severity Severity `json:"severity"`
	Code     string   `json:"code"`
	// Option is the name of the option it speaks of; empty: the house.
	Option string `json:"option,omitzero"`
	// Parts of the text: a format with its quantities, so that a screen can
	// show the sentence in the units in use.
	Text   string `json:"text"`   // in IP units
	Source string `json:"source"` // of the limit: a clause, the nameplate, "common practice, no source"

	// Problem is what the same trouble is called in every option, State the state
	// of the filter in which it is there, and Measured and Limit what it is by:
	// with the filter clean unless it is there with a dirty one alone.
	Problem  Problem     `json:"problem,omitzero"`
	State    FilterState `json:"state,omitzero"`
	Measured Amount      `json:"measured,omitempty"`
	Limit    Amount      `json:"limit,omitempty"`

	format string
	args   []any
	lead   sentence // what is wrong, without what to do about it
	// bothWays says that the check also reports where the limit is kept, so that an
	// option without the finding was not held to it.
	bothWays bool
}

// newFinding builds the sentence from a format whose %v verbs take quantities
// or plain values.
func newFinding(sev Severity, code, source, format string, args ...any) Finding {
	f := Finding{Severity: sev, Code: code, Source: source, format: format, args: args}
	f.Text = f.In(units.IP)
	return f
}

// advise adds what to do about the finding.
func (f *Finding) advise(format string, args ...any) *Finding {
	f.lead = sentence{f.format, f.args}
	f.format, f.args = f.format+" "+format, append(slices.Clip(f.args), args...)
	f.Text = f.In(units.IP)
	return f
}

// wrong is what is wrong, without what to do about it.
func (f *Finding) wrong() sentence {
	if f.lead.format == "" {
		return sentence{f.format, f.args}
	}
	return f.lead
}

// Lead is what is wrong, without what to do about it, in the units of a system.
func (f Finding) Lead(sys units.System) string {
	w := f.wrong()
	return Finding{Text: f.Text, format: w.format, args: w.args}.In(sys)
}

// In gives the sentence in the units of a system.
func (f Finding) In(s units.System) string {
	if f.format == "" {
		return f.Text
	}
	// A unit that ends in a dot ends the sentence too.
	return strings.ReplaceAll(fmt.Sprintf(f.format, shown(f.args, s)...), "..", ".")
}

func shown(args []any, s units.System) []any {
	out := make([]any, len(args))
	for i, a := range args {
		if q, ok := a.(interface{ Show(units.System) string }); ok {
			out[i] = q.Show(s)
		} else {
			out[i] = a
		}
	}
	return out
}

// nominal is a length that a shop knows by a round number: 14 in and not 14.00 in.
type nominal units.Length

// Show writes it in the units of a system.
func (n nominal) Show(s units.System) string {
	number, unit, _ := strings.Cut(units.Length(n).Show(s), " ")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + unit
}

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
