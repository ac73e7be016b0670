package main

import (
	"fmt"

	"returnbench/plots"
)

type chartsVerb struct {
	jobArg
	unitsFlag
	Dir    string `name:"output" short:"o" required:"" placeholder:"DIR" help:"Folder to write the charts to; made where it is missing."`
	Format string `enum:"png,svg,pdf" default:"png" help:"png, svg or pdf."`
}

func (v *chartsVerb) Run(s *stage) error {
	study, err := v.solve(s)
	if err != nil {
		return err
	}
	if err := notOverInput(s, "-o", v.Dir, "."+v.Format, v.Job); err != nil {
		return err
	}
	paths, err := plots.WriteAll(v.Dir, plots.Of(study), v.Format, v.system())
	for _, p := range paths {
		fmt.Fprintln(visible{s.out}, p)
	}
	return err
}
