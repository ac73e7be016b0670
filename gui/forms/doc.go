// Package forms holds the places of the window where a person types, one file
// for each. A form says which fields of the job it shows, in which order and
// under which words; package form, beneath it, makes the fields and keeps them
// in step with the session. Forms do not call each other.
package forms
