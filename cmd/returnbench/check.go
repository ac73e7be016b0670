package main

import "fmt"

type checkVerb struct {
	jobArg
}

func (v *checkVerb) Run(s *stage) error {
	if _, err := v.solve(s); err != nil {
		return err
	}
	_, err := fmt.Fprintf(s.out, "%s: no fault found\n", v.name())
	return err
}
