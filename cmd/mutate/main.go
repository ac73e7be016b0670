// Command mutate plants faults in source files, one at a time, and reports which
// of them the tests catch:
//
//	go run ./cmd/mutate [-n 150] [-seed 1] [-test PACKAGES] FILES...
//
// FILES are paths or globs of Go files; tests among them are left out. No file
// is changed: the faults reach the compiler by go test -overlay, all of them in
// one build, each in a copy of its function that a variable of the environment
// puts in the function's place. A fault that does not build is passed over for
// the next one, so that -n faults run. The same seed draws the same faults of
// the same source. Those that survive are shown with their lines before and
// after. Those of equivalents.txt, which change no result, are not planted.
//
// Only packages whose tests reach the changed one are run, until one fails: the
// changed package, then the others as they are given; first the quick tests of
// all, then the slower ones. Tests that match -last take longest, or only pin
// what the engine gave before; they are run for what the others let pass.
//
// The tests that are run must pass as they are. Exit status: 0 enough faults are caught, 1
// too few, 2 wrong usage or tests that fail without a fault.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"
)

func main() {
	n := flag.Int("n", 150, "how many faults to plant")
	seed := flag.Uint64("seed", 1, "which faults are drawn")
	packages := flag.String("test", "./sizing ./sizing/...", "packages whose tests are run, separated by blanks, the quickest to catch faults first")
	run := flag.String("run", "", "run only the tests that match, as in go test")
	skip := flag.String("skip", "", "leave out the tests that match, as in go test")
	last := flag.String("last", "", "run the tests that match only for faults that all others let pass")
	timeout := flag.Duration("timeout", 3*time.Minute, "processor time of a package's tests with one fault, where three times their usual time is more; a fault that hangs them is caught")
	jobs := flag.Int("jobs", runtime.NumCPU(), "how many faults to try at once")
	least := flag.Float64("least", 0.95, "share of the faults that must be caught")
	match := flag.String("match", "", "plant only faults whose line of the report matches, as those that survived before")
	only := flag.Bool("list", false, "list the faults that would be drawn, run nothing")
	flag.Parse()
	faults, err := collect(flag.Args())
	fail(err)
	wanted, err := regexp.Compile(*match)
	fail(err)
	faults = slices.DeleteFunc(faults, func(f fault) bool { return !wanted.MatchString(f.String()) })
	draw(faults, *seed)
	known, err := equivalents(equivalentsText)
	fail(err)
	faults, passed := withoutEquivalents(faults, known)
	if *only {
		for _, f := range faults[:min(*n, len(faults))] {
			fmt.Println(f)
		}
		return
	}
	suites, err := list(strings.Fields(*packages))
	fail(err)
	h := &hunt{suites: suites, run: *run, skip: *skip, last: *last, timeout: *timeout, jobs: *jobs, out: os.Stdout}
	t, err := h.all(faults, *n)
	fail(err)
	fmt.Printf("%d of %d faults caught, %d of them only by the tests run last (%d places found, %d more change no result)\n", t.caught, t.planted, t.late, len(faults), passed)
	if float64(t.caught) < *least*float64(t.planted) {
		os.Exit(1)
	}
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
}

// collect finds the faults of every Go file that the patterns name.
func collect(patterns []string) ([]fault, error) {
	var paths []string
	for _, pattern := range patterns {
		found, err := filepath.Glob(pattern)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", pattern, err)
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("%s: no such file", pattern)
		}
		paths = append(paths, found...)
	}
	slices.Sort(paths)
	var faults []fault
	for _, path := range slices.Compact(paths) {
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			continue
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		found, err := find(path, source)
		if err != nil {
			return nil, err
		}
		faults = append(faults, found...)
	}
	if len(faults) == 0 {
		return nil, errors.New("nothing to plant a fault in: name Go files")
	}
	return faults, nil
}
