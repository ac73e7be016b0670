// Package option solves one option whole: clean, loaded, its filters' service lives and
// its costs.
package option
