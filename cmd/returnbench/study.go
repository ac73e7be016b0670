package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/jobfile/atomicfile"
)

type studyVerb struct {
	jobArg
	jobUnitsFlag
	Format string `enum:",text,json,csv,xlsx" default:"" placeholder:"text|json|csv|xlsx" help:"A summary in words, the whole study, or the tables of options and sizes; left out: by the name of FILE, else text."`
	JSON   bool   `name:"json" help:"The same as --format json."`
	Output string `name:"output" short:"o" default:"-" placeholder:"FILE" help:"The file to write; - for standard output."`
	rangesFlags
}

func (v *studyVerb) Run(s *streams) error {
	format, err := v.format()
	if err != nil {
		return usageError{err}
	}
	job, checksum, err := v.load(s)
	if err != nil {
		return err
	}
	if v.Output != "-" {
		if err := notTheInput(s, "-o", v.Output, v.Job); err != nil {
			return err
		}
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return jobError{v.name(), err}
	}
	ranges, err := v.sample(s, v.name(), job)
	if err != nil {
		return err
	}
	document := export.Document{Study: study, Ranges: ranges}
	write := func(w io.Writer) error {
		switch format {
		case "json":
			return document.JSON(w, v.system(&job))
		case "csv":
			return document.CSV(w, v.system(&job))
		case "xlsx":
			return document.XLSX(w, v.system(&job), export.About{
				Version: version, Checksum: checksum, Date: time.Now().Format(time.DateOnly), Notes: job.Notes})
		}
		return document.Summary(w, v.system(&job))
	}
	switch {
	case v.Output == "-" && format == "text":
		return write(visible{s.out})
	case v.Output == "-":
		return write(s.data())
	}
	var data bytes.Buffer
	if err := write(&data); err != nil {
		return err
	}
	return atomicfile.Write(v.Output, data.Bytes(), 0o644)
}

// format is what was asked for, or what the name of the file asks for.
func (v *studyVerb) format() (string, error) {
	suffix := strings.TrimPrefix(strings.ToLower(filepath.Ext(v.Output)), ".")
	switch {
	case v.JSON && v.Format != "" && v.Format != "json":
		return "", fmt.Errorf("--json beside --format %s; want one of the two", v.Format)
	case v.JSON:
		return "json", nil
	case v.Format != "":
		return v.Format, nil
	case suffix == "json" || suffix == "csv" || suffix == "xlsx":
		return suffix, nil
	}
	return "text", nil
}
