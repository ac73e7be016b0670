package main

import (
	"encoding/json"
	"errors"
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

// suite is the tests of one package.
type suite struct {
	path    string
	folder  string
	reaches []string // folders of the project's packages that its tests are built from
	draws   bool     // by rapid, whose seed is set so that a verdict can be repeated
}

// list gives the packages with tests, in the order of the patterns.
func list(patterns []string) ([]suite, error) {
	var suites []suite
	for _, pattern := range patterns {
		pairs, err := goList("-f", "{{if or .TestGoFiles .XTestGoFiles}}{{.ImportPath}} {{.Dir}}{{end}}", pattern)
		if err != nil {
			return nil, err
		}
		for pair := range slices.Chunk(pairs, 2) {
			path, folder := pair[0], pair[1]
			if slices.ContainsFunc(suites, func(s suite) bool { return s.path == path }) {
				continue
			}
			reaches, err := goList("-deps", "-test", "-f", "{{with .Module}}{{if .Main}}{{$.Dir}}{{end}}{{end}}", path)
			if err != nil {
				return nil, err
			}
			imports, err := goList("-f", `{{join .TestImports "\n"}}{{"\n"}}{{join .XTestImports "\n"}}`, path)
			if err != nil {
				return nil, err
			}
			suites = append(suites, suite{path: path, folder: folder, reaches: reaches, draws: slices.Contains(imports, "pgregory.net/rapid")})
		}
	}
	if len(suites) == 0 {
		return nil, fmt.Errorf("%s: no tests", strings.Join(patterns, " "))
	}
	return suites, nil
}

func goList(args ...string) ([]string, error) {
	out, err := exec.Command("go", append([]string{"list"}, args...)...).Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		return nil, fmt.Errorf("go list: %s", exit.Stderr)
	}
	return strings.Fields(string(out)), err
}

// hunt runs the tests with one fault after another.
type hunt struct {
	suites  []suite
	run     string
	skip    string
	last    string
	timeout time.Duration
	out     io.Writer
}

type verdict int

const (
	caught verdict = iota
	survived
	unbuilt
)

type tally struct {
	planted, caught int
	late            int // of those caught, by the last tests alone
}

// all plants faults in their order until n of them were built and tested.
func (h hunt) all(faults []fault, n int) (tally, error) {
	var t tally
	for _, s := range h.suites {
		for _, last := range h.turns() {
			if v, by := h.test(s, last, nil); v != survived {
				return t, fmt.Errorf("%s fails without a fault: %s", s.path, by)
			}
		}
	}
	for _, f := range faults {
		if t.planted == n {
			break
		}
		v, by, late, err := h.plant(f)
		if err != nil {
			return t, err
		}
		switch v {
		case unbuilt:
			continue
		case caught:
			t.caught++
			if late {
				t.late++
				by += ", last"
			}
			fmt.Fprintf(h.out, "caught    %s  (%s)\n", f, by)
		case survived:
			fmt.Fprintf(h.out, "SURVIVED  %s\n", f)
		}
		t.planted++
	}
	return t, nil
}

// turns reports whether the tests run in one turn, or the last ones in a second.
func (h hunt) turns() []bool {
	if h.last == "" {
		return []bool{false}
	}
	return []bool{false, true}
}

// plant runs the tests with the fault laid over its file.
func (h hunt) plant(f fault) (v verdict, by string, late bool, err error) {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return unbuilt, "", false, err
	}
	defer os.RemoveAll(dir)
	original, err := filepath.Abs(f.path)
	if err != nil {
		return unbuilt, "", false, err
	}
	overlay, err := lay(f, original, dir)
	if err != nil {
		return unbuilt, "", false, err
	}
	suites := h.near(filepath.Dir(original))
	if len(suites) == 0 {
		return unbuilt, "", false, fmt.Errorf("%s: no test reaches it", f.path)
	}
	for _, late := range h.turns() {
		for _, s := range suites {
			if v, by := h.test(s, late, []string{"-overlay", overlay}); v != survived {
				return v, by, late, nil
			}
		}
	}
	return survived, "", false, nil
}

// lay writes the changed file and the overlay that makes the compiler use it.
func lay(f fault, original, dir string) (overlay string, err error) {
	source, err := os.ReadFile(f.path)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(dir, filepath.Base(f.path))
	if err := os.WriteFile(changed, f.apply(source), 0o600); err != nil {
		return "", err
	}
	text, err := json.Marshal(map[string]any{"Replace": map[string]string{original: changed}})
	if err != nil {
		return "", err
	}
	overlay = filepath.Join(dir, "overlay.json")
	return overlay, os.WriteFile(overlay, text, 0o600)
}

// near gives the suites that reach the folder, its own first.
func (h hunt) near(folder string) []suite {
	var own, others []suite
	for _, s := range h.suites {
		switch {
		case s.folder == folder:
			own = append(own, s)
		case slices.Contains(s.reaches, folder):
			others = append(others, s)
		}
	}
	return append(own, others...)
}

var (
	failed   = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)
	buildErr = regexp.MustCompile(`\[(build|setup) failed\]`)
)

// test runs a suite and reports the test that caught a fault.
func (h hunt) test(s suite, last bool, with []string) (verdict, string) {
	args := append([]string{"test", "-vet=off", "-failfast", "-timeout", h.timeout.String()}, with...)
	run, skip := h.run, h.skip
	if last {
		run = h.last
	} else if h.last != "" {
		skip = strings.Join(slices.DeleteFunc([]string{skip, h.last}, func(s string) bool { return s == "" }), "|")
	}
	if run != "" {
		args = append(args, "-run", run)
	}
	if skip != "" {
		args = append(args, "-skip", skip)
	}
	args = append(args, s.path)
	if s.draws {
		args = append(args, "-rapid.seed=1", "-rapid.nofailfile")
	}
	out, err := exec.Command("go", args...).CombinedOutput()
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
