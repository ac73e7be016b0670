// Package forms holds the places of the window where a person types, one file
// for each. A form lists the fields of the job that it shows, their order and
// their labels; package form, beneath it, makes the fields and keeps them in
// step with the session. Forms do not call each other.
package forms
