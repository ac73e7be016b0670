// Package form binds fields to the Job of a session, one closure a field, and
// lays them out in a column. Each field knows the path of what it edits, so
// that the engine's faults and assumptions appear beside it, and so that what
// is typed in one field is undone as one step.
package form
