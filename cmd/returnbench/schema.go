package main

import "returnbench/sizing/jobfile"

type schemaVerb struct {
	Lesson bool `help:"Of the file of a demonstration."`
}

func (v *schemaVerb) Run(s *stage) error {
	schema := jobfile.Schema
	if v.Lesson {
		schema = jobfile.LessonSchema
	}
	text, err := schema()
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}
