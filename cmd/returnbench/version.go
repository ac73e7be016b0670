package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"returnbench/sizing"
)

// The program's version and name for the desktop; FyneApp.toml holds the same.
const (
	version = "0.1.0"
	appID   = "org.returnbench.bench"
)

// engine names the program that a result is by: its version, and the state of
// the source where the build holds it.
func engine() string {
	name := "returnbench " + version
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return name
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			name += " " + s.Value[:min(len(s.Value), 12)]
		case s.Key == "vcs.modified" && s.Value == "true":
			name += " changed"
		}
	}
	return name
}

type versionVerb struct{}

func (v *versionVerb) Run(s *stage) error {
	_, err := fmt.Fprintf(s.out, "returnbench %s, job file schema %d, %s %s/%s\n",
		version, sizing.Schema, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return err
}
