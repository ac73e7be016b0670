package main

import (
	"returnbench/sizing/jobfile"
	"returnbench/sizing/library"
)

type schemaVerb struct {
	Lesson  bool `xor:"file" help:"Of the file of a demonstration."`
	Library bool `xor:"file" help:"Of the file of an item of a library; a template is a job's file."`
}

func (v *schemaVerb) Run(s *streams) error {
	schema := jobfile.Schema
	switch {
	case v.Lesson:
		schema = jobfile.LessonSchema
	case v.Library:
		schema = library.FileSchema
	}
	text, err := schema()
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}
