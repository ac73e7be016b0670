package main

import "returnbench/sizing/export"

type studyVerb struct {
	jobArg
	unitsFlag
	JSON bool `name:"json" help:"Print the whole study as JSON."`
}

func (v *studyVerb) Run(s *stage) error {
	study, err := v.solve(s)
	if err != nil {
		return err
	}
	if v.JSON {
		return export.JSON(s.out, study, v.system())
	}
	return export.Summary(s.out, study, v.system())
}
