package main

import (
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/export"
)

type sizeVerb struct {
	jobArg
	jobUnitsFlag
	CSV    bool `name:"csv" help:"Print every candidate as CSV."`
	Misses int  `default:"6" help:"How many of the nearest misses to print."`
}

func (v *sizeVerb) Run(s *streams) error {
	if v.Misses < 0 {
		return usageError{fmt.Errorf("--misses: given %d; want 0 or more", v.Misses)}
	}
	job, err := v.read(s)
	if err != nil {
		return err
	}
	study, err := sizing.Solve(job)
	if err != nil {
		return jobError{v.name(), err}
	}
	if v.CSV {
		return export.SizesCSV(s.data(), study, v.system(&job))
	}
	return export.Sizes(visible{s.out}, study, v.system(&job), v.Misses)
}
