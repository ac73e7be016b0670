package lesson

import (
	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
)

// Movable lists the paths of a job along which a move can be made: every number
// that the job gives. words are the paths of its words, for a switch.
func Movable(job sizing.Job) (numbers, words []string) {
	fieldpath.Walk(&job, func(at *fieldpath.Place, v fieldpath.Value) bool {
		path := at.Path()
		switch {
		case path == "schema" || path == "name" || path == "notes":
		case v.IsNumber() && !v.IsOpen():
			numbers = append(numbers, path)
		case v.IsText() && v.Text() != "":
			words = append(words, path)
		}
		return true
	})
	return numbers, words
}

// settable reports whether a field can be set to a text of a switch.
func settable(v fieldpath.Value) bool { return v.IsNumber() || v.IsText() }

// TextAt is the value of a field as a move writes it: "16 in", "psc". It is
// empty where there is no such field.
func TextAt(job sizing.Job, path string) string {
	text, err := fieldpath.Get(&job, path)
	if err != nil {
		return ""
	}
	return text
}
