// Command mutate plants faults in source files, one at a time, and tells which
// of them the tests catch:
//
//	go run ./cmd/mutate [-n 150] [-seed 1] [-test PACKAGES] FILES...
//
// FILES are paths or globs of Go files; tests among them are left out. No file
// is changed: each fault reaches the compiler by go test -overlay. A fault that
// does not build is passed over for the next one, so that -n faults run. The
// same seed draws the same faults of the same source.
//
// The tests must pass as they are. Exit status: 0 enough faults are caught, 1
// too few, 2 wrong usage or tests that fail without a fault.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

func main() {
	n := flag.Int("n", 150, "how many faults to plant")
	seed := flag.Uint64("seed", 1, "which faults are drawn")
	packages := flag.String("test", "./sizing/...", "packages whose tests are run, separated by blanks")
	run := flag.String("run", "", "run only the tests that match, as in go test")
	skip := flag.String("skip", "", "leave out the tests that match, as in go test")
	timeout := flag.Duration("timeout", 10*time.Minute, "of the tests with one fault; one that hangs is caught")
	least := flag.Float64("least", 0.95, "share of the faults that must be caught")
	list := flag.Bool("list", false, "list the faults that would be drawn, run nothing")
	flag.Parse()
	h := hunt{packages: strings.Fields(*packages), run: *run, skip: *skip, timeout: *timeout, out: os.Stdout}
	faults, err := collect(flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
	draw(faults, *seed)
	if *list {
		for _, f := range faults[:min(*n, len(faults))] {
			fmt.Println(f)
		}
		return
	}
	caught, planted, err := h.all(faults, *n)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
	fmt.Printf("%d of %d faults caught (%d places found)\n", caught, planted, len(faults))
	if float64(caught) < *least*float64(planted) {
		os.Exit(1)
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

// hunt runs the tests with one fault after another.
type hunt struct {
	packages []string
	run      string
	skip     string
	timeout  time.Duration
	out      io.Writer
}

type verdict int

const (
	caught verdict = iota
	survived
	unbuilt
)

// all plants faults in their order until n of them were built and tested.
func (h hunt) all(faults []fault, n int) (caughtN, planted int, err error) {
	if verdict, by := h.test(nil); verdict != survived {
		return 0, 0, fmt.Errorf("the tests fail without a fault: %s", by)
	}
	for _, f := range faults {
		if planted == n {
			break
		}
		verdict, by, err := h.plant(f)
		if err != nil {
			return caughtN, planted, err
		}
		switch verdict {
		case unbuilt:
			continue
		case caught:
			caughtN++
			fmt.Fprintf(h.out, "caught    %s  (%s)\n", f, by)
		case survived:
			fmt.Fprintf(h.out, "SURVIVED  %s\n", f)
		}
		planted++
	}
	return caughtN, planted, nil
}

// plant runs the tests with the fault laid over its file.
func (h hunt) plant(f fault) (verdict, string, error) {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return unbuilt, "", err
	}
	defer os.RemoveAll(dir)
	source, err := os.ReadFile(f.path)
	if err != nil {
		return unbuilt, "", err
	}
	changed := filepath.Join(dir, filepath.Base(f.path))
	if err := os.WriteFile(changed, f.apply(source), 0o600); err != nil {
		return unbuilt, "", err
	}
	original, err := filepath.Abs(f.path)
	if err != nil {
		return unbuilt, "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{original: changed}})
	if err != nil {
		return unbuilt, "", err
	}
	file := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(file, overlay, 0o600); err != nil {
		return unbuilt, "", err
	}
	v, by := h.test([]string{"-overlay", file})
	return v, by, nil
}

var (
	failed   = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)
	buildErr = regexp.MustCompile(`\[(build|setup) failed\]`)
)

// test runs the tests and tells by which one a fault was caught.
func (h hunt) test(with []string) (verdict, string) {
	args := append([]string{"test", "-p", "1", "-vet=off", "-failfast", "-timeout", h.timeout.String()}, with...)
	if h.run != "" {
		args = append(args, "-run", h.run)
	}
	if h.skip != "" {
		args = append(args, "-skip", h.skip)
	}
	out, err := exec.Command("go", append(args, h.packages...)...).CombinedOutput()
	switch {
	case err == nil:
		return survived, ""
	case buildErr.Match(out):
		return unbuilt, "does not build"
	}
	if m := failed.FindSubmatch(out); m != nil {
		return caught, string(m[1])
	}
	return caught, "panic or timeout"
}
