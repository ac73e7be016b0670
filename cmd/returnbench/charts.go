package main

import (
	"fmt"

	"returnbench/plots"
	"returnbench/sizing"
)

type chartsVerb struct {
	jobArg
	rangesFlags
	Units  string `enum:"job,ip,si" default:"job" help:"Units: ip, si, or job: SI where its sizes are metric, else IP."`
	Dir    string `name:"output" short:"o" required:"" placeholder:"DIR" help:"Folder to write the charts to; made where it is missing."`
	Format string `enum:"png,svg,pdf" default:"png" help:"png, svg or pdf."`
}

func (v *chartsVerb) Run(s *stage) error {
	job, err := v.read(s)
	if err != nil {
		return err
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return jobError{v.name(), err}
	}
	if err := notOverInput(s, "-o", v.Dir, "."+v.Format, v.Job); err != nil {
		return err
	}
	subject := plots.Of(study)
	ranges, err := v.sample(s, v.name(), job)
	if err != nil {
		return err
	}
	if ranges != nil {
		subject.Ranges = ranges.Options
	}
	sys := unitsFlag{v.Units}.system()
	if v.Units == "job" {
		sys = job.Units()
	}
	paths, err := plots.WriteAll(v.Dir, subject, v.Format, sys)
	for _, p := range paths {
		fmt.Fprintln(visible{s.out}, p)
	}
	return err
}
