package main

import (
	"io"
	"os"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// jobArg is the JOB of a verb: a file, or - for standard input.
type jobArg struct {
	Job string `arg:"" help:"The job file, or - for standard input."`
}

// unitsFlag chooses the units of what is printed.
type unitsFlag struct {
	Units string `enum:"ip,si" default:"ip" help:"Units: ip or si."`
}

func (u unitsFlag) system() units.System {
	if u.Units == "si" {
		return units.SI
	}
	return units.IP
}

// read gives the checked job. Faults of the job come as jobError.
func (a jobArg) read(s *stage) (sizing.Job, error) {
	name, data, err := "standard input", []byte(nil), error(nil)
	if a.Job == "-" {
		data, err = io.ReadAll(s.in)
	} else {
		name = a.Job
		data, err = os.ReadFile(a.Job)
	}
	if err != nil {
		return sizing.Job{}, err
	}
	job, err := jobfile.Read(data)
	if err != nil {
		return job, jobError{name, err}
	}
	return job, nil
}

// solve gives the study of the job.
func (a jobArg) solve(s *stage) (*sizing.Study, error) {
	job, err := a.read(s)
	if err != nil {
		return nil, err
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return nil, jobError{a.Job, err}
	}
	return study, nil
}
