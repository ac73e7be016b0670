package main

import "returnbench/sizing/jobfile"

type schemaVerb struct{}

func (v *schemaVerb) Run(s *stage) error {
	text, err := jobfile.Schema()
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}
