// Package option solves one option whole: clean, loaded, its filters' lives and
// its costs.
package option
