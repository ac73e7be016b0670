//go:build !windows

package system

// shell is nil: programs are run, with the path as an argument of its own.
var shell func(verb, path string) error
