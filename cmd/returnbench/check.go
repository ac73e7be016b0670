package main

import (
	"fmt"
	"strings"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

type checkVerb struct {
	jobArg
}

// Help lists what else may be checked.
func (v *checkVerb) Help() string {
	return "A file whose name ends in " + assets.LessonSuffix + " is checked as a demonstration."
}

func (v *checkVerb) Run(s *streams) error {
	check := v.job
	if strings.HasSuffix(strings.ToLower(v.Job), assets.LessonSuffix) {
		check = v.lesson
	}
	if err := check(s); err != nil {
		return err
	}
	_, err := fmt.Fprintf(visible{s.out}, "%s: no fault found\n", v.name())
	return err
}

func (v *checkVerb) job(s *streams) error {
	_, err := v.solve(s)
	return err
}

// lesson checks a demonstration, and that its house has a solution all along
// the move.
func (v *checkVerb) lesson(s *streams) error {
	data, err := v.bytes(s)
	if err != nil {
		return err
	}
	l, err := jobfile.ReadLesson(data)
	if err == nil {
		_, err = l.Run(sizing.Solve)
	}
	if err != nil {
		return jobError{v.name(), err}
	}
	return nil
}
