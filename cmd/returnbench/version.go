package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"returnbench/sizing"
)

// appID names the program for the desktop; FyneApp.toml holds the same.
const appID = "org.returnbench.bench"

// version is the program's; FyneApp.toml holds the same. A package is linked with
// the version that the history of its source gives it, such as
// 0.1.0+12.g1a2b3c4d5e6f for twelve commits after 0.1.0.
var version = "0.1.0"

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

func (v *versionVerb) Run(s *streams) error {
	_, err := fmt.Fprintf(s.out, "%s, job file schema %d, %s %s/%s\n",
		engine(), sizing.Schema, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return err
}
