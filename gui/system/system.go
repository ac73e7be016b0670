// Package system asks the machine for what the toolkit does not do: to print a
// file and to open a folder. Programs are run through functions, so that a test
// can see the command line without running it.
package system

import (
	"fmt"
	"os/exec"
	"runtime"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// System is a machine.
type System struct {
	OS   string // as Go names it: linux, darwin, windows
	Find func(name string) (path string, err error)
	// Run waits for the program and gives what it prints.
	Run func(name string, args ...string) (output []byte, err error)
	// Shell asks the desktop to print or to open a file; nil where programs are
	// run for that. The path is never part of a command's text.
	Shell func(verb, path string) error
}

// Machine is the one that the program runs on.
func Machine() System {
	return System{
		OS:   runtime.GOOS,
		Find: exec.LookPath,
		Run:  func(name string, args ...string) ([]byte, error) { return exec.Command(name, args...).CombinedOutput() },

		Shell: shell,
	}
}

// MissingError: a program is missing. It has the program's name, or as a
// message.ID its kind.
type MissingError struct {
	Program any
	For     message.ID
}

// In writes it in the language of a reader.
func (e *MissingError) In(l units.Locale) string {
	return message.Text(l, `no {purpose} was found: the program "{program}" is not installed`, "purpose", e.For, "program", e.Program)
}

func (e *MissingError) Error() string { return e.In(units.IP) }

// Print gives a PDF to the printer that the machine takes by itself. Media is
// the paper as printing systems name it: letter or a4. Where the file is still
// read after Print is back, later is true: it must be left in place.
func (s System) Print(file, title, media string) (later bool, err error) {
	if s.Shell != nil {
		// The program that opens PDF prints them.
		return true, s.Shell("print", file)
	}
	return false, s.run("printing system", "lp", "-t", title, "-o", "media="+media, file)
}

// OpenFolder shows a folder in the machine's own file manager.
func (s System) OpenFolder(dir string) error {
	if s.Shell != nil {
		return s.Shell("open", dir)
	}
	if s.OS == "darwin" {
		return s.run("file manager", "open", dir)
	}
	return s.run("file manager", "xdg-open", dir)
}

func (s System) run(purpose message.ID, name string, args ...string) error {
	path, err := s.Find(name)
	if err != nil {
		return &MissingError{Program: name, For: purpose}
	}
	out, err := s.Run(path, args...)
	if err == nil {
		return nil
	}
	if words := strings.TrimSpace(string(out)); words != "" {
		return fmt.Errorf("%s: %s: %w", name, words, err)
	}
	return fmt.Errorf("%s: %w", name, err)
}
