// Package option solves one option whole: clean, loaded, and its filters' service lives.
// SolveAll solves all of a Study and adds their costs (package money).
package option
