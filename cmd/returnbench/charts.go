package main

import (
	"fmt"

	"returnbench/plots"
	"returnbench/sizing"
)

type chartsVerb struct {
	jobArg
	rangesFlags
	jobUnitsFlag
	Dir    string `name:"output" short:"o" required:"" placeholder:"DIR" help:"Folder to write the charts to; made where it is missing."`
	Format string `enum:"png,svg,pdf" default:"png" help:"png, svg or pdf."`
}

func (v *chartsVerb) Run(s *streams) error {
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
	paths, err := plots.WriteAll(v.Dir, subject, v.Format, v.system(&job))
	for _, p := range paths {
		fmt.Fprintln(visible{s.out}, p)
	}
	return err
}
