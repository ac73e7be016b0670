package main

import (
	"fmt"
	"runtime"

	"returnbench/sizing"
)

// The program's version and name for the desktop; FyneApp.toml holds the same.
const (
	version = "0.1.0"
	appID   = "org.returnbench.bench"
)

type versionVerb struct{}

func (v *versionVerb) Run(s *stage) error {
	_, err := fmt.Fprintf(s.out, "returnbench %s, job file schema %d, %s %s/%s\n",
		version, sizing.Schema, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return err
}
