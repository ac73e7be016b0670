package main

import (
	"errors"
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// Exit statuses.
const (
	done     = 0
	jobFault = 1
	usage    = 2
	machine  = 3
)

// usageError is a fault of the command line.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// jobError is a fault of the job in a file.
type jobError struct {
	file string
	err  error
}

func (e jobError) Error() string { return e.file + ": " + e.err.Error() }
func (e jobError) Unwrap() error { return e.err }

// status prints an error for a person and gives its exit status.
func (s *streams) status(err error) int {
	var wrong usageError
	var job jobError
	switch {
	case err == nil:
		return done
	case errors.As(err, &wrong):
		fmt.Fprintf(visible{s.err}, "returnbench: %v\n", err)
		return usage
	case errors.As(err, &job):
		job.print(s)
		return jobFault
	}
	fmt.Fprintf(visible{s.err}, "returnbench: %v\n", err)
	return machine
}

// print writes a line for every fault: the file, the path, what was given and
// what is wanted. A fault of the syntax has its line and column for a path.
func (e jobError) print(s *streams) {
	var faults sizing.FieldErrors
	var syntax *jobfile.SyntaxError
	switch {
	case errors.As(e.err, &faults):
		for _, f := range faults {
			fmt.Fprintf(visible{s.err}, "%s: %v\n", e.file, f)
		}
	case errors.As(e.err, &syntax):
		fmt.Fprintf(visible{s.err}, "%s:%v\n", e.file, syntax)
	default:
		fmt.Fprintf(visible{s.err}, "%v\n", e)
	}
}
