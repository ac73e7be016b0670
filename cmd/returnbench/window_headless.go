//go:build headless

package main

import "errors"

func openWindow(*streams, []string) error {
	return usageError{errors.New("this program was built without a window; the other verbs work: see returnbench help")}
}
