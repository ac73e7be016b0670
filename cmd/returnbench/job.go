package main

import (
	"errors"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// jobArg is the JOB of a verb: a file, or - for standard input.
type jobArg struct {
	Job string `arg:"" help:"The job file, or - for standard input."`
}

// languageFlag chooses the language of what is printed for a person, and the decimal
// mark with it.
type languageFlag struct {
	Language string `enum:"en,es,es-US,es-MX" default:"en" help:"Language: en; es, with a decimal comma; es-US or es-MX, with a decimal point. Files for programs are English."`
}

// in is the locale in that language.
func (f languageFlag) in(l units.Locale) units.Locale {
	language, _, _ := strings.Cut(f.Language, "-")
	if language != "en" {
		l.Language = language
	}
	l.Comma = f.Language == "es"
	return l
}

// unitsFlag chooses the units of what is printed.
type unitsFlag struct {
	Units string `enum:"ip,si" default:"ip" help:"Units: ip or si."`
	languageFlag
}

func (u unitsFlag) system() units.Locale {
	if u.Units == "si" {
		return u.in(units.SI)
	}
	return u.in(units.IP)
}

// jobUnitsFlag is unitsFlag for what is printed of one job, in its own units unless
// others are asked for.
type jobUnitsFlag struct {
	Units string `enum:"job,ip,si" default:"job" help:"Units: ip, si, or job: SI where its sizes are metric, else IP."`
	languageFlag
}

func (u jobUnitsFlag) system(job *sizing.Job) units.Locale {
	if u.Units == "job" {
		return u.in(job.Units())
	}
	return unitsFlag(u).system()
}

// name is the job's in messages.
func (a jobArg) name() string {
	if a.Job == "-" {
		return "standard input"
	}
	return a.Job
}

// read gives the checked job. Faults of the job come as jobError.
func (a jobArg) read(s *streams) (sizing.Job, error) {
	job, _, err := a.load(s)
	return job, err
}

// load is read with the checksum of the job's very bytes.
func (a jobArg) load(s *streams) (sizing.Job, string, error) {
	data, err := a.bytes(s)
	if err != nil {
		return sizing.Job{}, "", err
	}
	job, err := jobfile.Read(data)
	if err != nil {
		return job, "", jobError{a.name(), err}
	}
	return job, jobfile.Checksum(data), nil
}

// bytes are those of the file or of standard input.
func (a jobArg) bytes(s *streams) ([]byte, error) {
	if a.Job == "-" {
		data, err := jobfile.ReadAll(s.in)
		return data, a.tooLarge(err)
	}
	data, err := jobfile.ReadFile(a.Job)
	return data, a.tooLarge(err)
}

// tooLarge makes a fault of the job of what no job can be.
func (a jobArg) tooLarge(err error) error {
	var size jobfile.SizeError
	if errors.As(err, &size) {
		return jobError{a.name(), size}
	}
	return err
}

// solve gives the study of the job.
func (a jobArg) solve(s *streams) (*sizing.Study, error) {
	job, err := a.read(s)
	if err != nil {
		return nil, err
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return nil, jobError{a.name(), err}
	}
	return study, nil
}
