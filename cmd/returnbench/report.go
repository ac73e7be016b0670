package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"returnbench/assets"
	"returnbench/plots/report"
	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/lesson"
)

type reportVerb struct {
	jobArg
	jobUnitsFlag
	File   string `name:"output" short:"o" required:"" placeholder:"FILE.pdf" help:"The PDF to write."`
	For    string `enum:"customer,work-order,working,field-sheet,class" default:"customer" help:"Whom the pages are for: customer, work-order, working, field-sheet (blank, to fill in at the house) or class (JOB is then a demonstration)."`
	Paper  string `enum:"letter,a4" default:"letter" help:"letter or a4."`
	Firm   string `placeholder:"FILE" help:"The firm's profile, a JSON file: name, license, phone, mail, address, logo (PNG, JPEG or SVG beside it), tax_rate, valid_days, terms."`
	Option string `placeholder:"NAME" help:"The option that the pages propose; left out: the best of the job."`
}

func (v *reportVerb) Run(s *streams) error {
	if v.For == "class" {
		return v.class(s)
	}
	job, checksum, err := v.load(s)
	if err != nil {
		return err
	}
	if err := notTheInput(s, "-o", v.File, v.Job); err != nil {
		return err
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return jobError{v.name(), err}
	}
	opts := report.Options{
		For: report.Audience(v.For), Paper: report.Paper(v.Paper), System: v.system(&job), Proposed: v.Option,
		Date: time.Now().Format(time.DateOnly), Version: version, Checksum: checksum,
	}
	if v.Job != "-" {
		opts.Folder = filepath.Dir(v.Job)
	}
	if v.Firm != "" {
		if opts.Firm, err = firm.Read(v.Firm); err != nil {
			return jobError{v.Firm, err}
		}
	}
	if opts.For == report.Customer || opts.For == report.Working {
		if opts.Ranges, err = sampled(s, v.name(), job, sizing.UsualSamples, sizing.UsualSeed); err != nil {
			return jobError{v.name(), err}
		}
	}
	pages, err := report.New(job, study, opts)
	var wrong *report.OptionError
	if errors.As(err, &wrong) {
		return usageError{fmt.Errorf("--%w", err)}
	}
	if err != nil {
		return err
	}
	return v.write(s, pages)
}

// class writes the sheet of a demonstration.
func (v *reportVerb) class(s *streams) error {
	data, err := v.bytes(s)
	if err != nil {
		return err
	}
	if err := notTheInput(s, "-o", v.File, v.Job); err != nil {
		return err
	}
	l, err := jobfile.ReadLesson(data)
	if err != nil {
		return jobError{v.name(), err}
	}
	if l, err = inWords(l, data, v.system(&l.Job).Language); err != nil {
		return jobError{v.name(), err}
	}
	outcome, err := l.Run(sizing.Solve)
	if err != nil {
		return jobError{v.name(), err}
	}
	pages, err := report.NewClass(outcome, report.Options{Paper: report.Paper(v.Paper), System: v.system(&l.Job), Date: time.Now().Format(time.DateOnly), Version: version})
	if err != nil {
		return err
	}
	return v.write(s, pages)
}

// inWords gives a ready demonstration in the words of a language; a file that is none of
// them as it is stays in its own.
func inWords(l lesson.Lesson, data []byte, language string) (lesson.Lesson, error) {
	for _, name := range assets.Lessons() {
		ready, err := assets.OpenLesson(name)
		if err != nil || !bytes.Equal(bytes.TrimSpace(ready), bytes.TrimSpace(data)) {
			continue
		}
		return l.InWords(assets.LessonTexts(name, language))
	}
	return l, nil
}

// write puts the pages on the disk whole or not at all.
func (v *reportVerb) write(s *streams, pages *report.Pages) error {
	var data bytes.Buffer
	if err := pages.Write(&data); err != nil {
		return err
	}
	for _, w := range pages.Warnings {
		fmt.Fprintf(visible{s.err}, "returnbench: %s\n", w)
	}
	return atomicfile.Write(v.File, data.Bytes(), 0o644)
}
