package jobfile

import (
	"errors"

	"returnbench/sizing"
	"returnbench/sizing/lesson"
)

// ReadLesson reads and checks a demonstration. Faults are gathered as Read
// gathers those of a job; the lesson then holds whatever could be read.
func ReadLesson(data []byte) (lesson.Lesson, error) {
	var l lesson.Lesson
	err := lessonFormat.decode(data, &l)
	var faults sizing.FieldErrors
	if err != nil && !errors.As(err, &faults) {
		return l, err
	}
	if l.Schema != lesson.Schema {
		return l, err
	}
	return l, both(faults, l.Check())
}

// EncodeLesson writes a demonstration as Encode writes a job.
func EncodeLesson(l lesson.Lesson) ([]byte, error) {
	l.Schema, l.Job.Schema = lesson.Schema, sizing.Schema
	return encode(l, "lesson")
}
