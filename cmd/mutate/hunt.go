package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// suite is the tests of one package.
type suite struct {
	path    string
	folder  string
	reaches []string // folders of the project's packages that its tests are built from
	draws   bool     // by rapid, whose seed is set so that a verdict can be repeated

	program string // of its tests, with all faults woven in; empty: not built yet
	turns   []turn
}

// turn is a share of a suite's tests, by what go test's -run and -skip match.
type turn struct {
	run, skip string
	timeout   time.Duration
}

// The turns of a suite: the quick tests, those that take longer, and those that
// match -last.
const (
	quick = iota
	slow
	late
	turnsOfSuite
)

// slowTest is how long a test of the second turn takes at least.
const slowTest = 200 * time.Millisecond

// list gives the packages with tests, in the order of the patterns.
func list(patterns []string) ([]*suite, error) {
	var suites []*suite
	for _, pattern := range patterns {
		pairs, err := goList("-f", "{{if or .TestGoFiles .XTestGoFiles}}{{.ImportPath}} {{.Dir}}{{end}}", pattern)
		if err != nil {
			return nil, err
		}
		for pair := range slices.Chunk(pairs, 2) {
			path, folder := pair[0], pair[1]
			if slices.ContainsFunc(suites, func(s *suite) bool { return s.path == path }) {
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
			suites = append(suites, &suite{path: path, folder: folder, reaches: reaches, draws: slices.Contains(imports, "pgregory.net/rapid")})
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
	suites  []*suite
	run     string
	skip    string
	last    string
	timeout time.Duration
	out     io.Writer

	dir   string   // of the woven files and the programs
	flags []string // of a build with them
}

type tally struct {
	planted, caught int
	late            int // of those caught, by the last tests alone
}

// all plants the first n faults that build.
func (h *hunt) all(faults []fault, n int) (tally, error) {
	var t tally
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return t, err
	}
	defer os.RemoveAll(dir)
	h.dir = dir
	sown, err := h.sow(faults, n)
	if err != nil {
		return t, err
	}
	for _, f := range sown {
		by, in, err := h.catch(f)
		if err != nil {
			return t, err
		}
		t.planted++
		if by == "" {
			fmt.Fprintf(h.out, "SURVIVED  %s\n%s", f, f.change())
			continue
		}
		t.caught++
		if in == late {
			t.late++
			by += ", last"
		}
		fmt.Fprintf(h.out, "caught    %s  (%s)\n", f, by)
	}
	return t, nil
}

// sow weaves the first n faults that build into the sources.
func (h *hunt) sow(faults []fault, n int) ([]numbered, error) {
	folders, err := foldersOf(faults)
	if err != nil {
		return nil, err
	}
	module, err := goList("-m")
	if err != nil {
		return nil, err
	}
	broken := map[int]bool{}
	for {
		var sown []numbered
		for i, f := range faults {
			if !broken[i+1] && len(sown) < n {
				sown = append(sown, numbered{f, i + 1})
			}
		}
		replace, copies, err := lay(sown, h.dir)
		if err != nil {
			return nil, err
		}
		text, err := json.Marshal(map[string]any{"Replace": replace})
		if err != nil {
			return nil, err
		}
		overlay := filepath.Join(h.dir, "overlay.json")
		if err := os.WriteFile(overlay, text, 0o600); err != nil {
			return nil, err
		}
		// -e: every error, not the first ten.
		h.flags = []string{"-overlay", overlay, "-gcflags=" + module[0] + "/...=-e"}
		out, err := exec.Command("go", slices.Concat([]string{"build"}, h.flags, folders)...).CombinedOutput()
		if err == nil {
			return sown, nil
		}
		found := blame(out, copies)
		if len(found) == 0 {
			return nil, fmt.Errorf("the sources with the faults do not build: %s", out)
		}
		for _, number := range found {
			broken[number] = true
		}
	}
}

func foldersOf(faults []fault) ([]string, error) {
	var folders []string
	for _, f := range faults {
		path, err := filepath.Abs(f.path)
		if err != nil {
			return nil, err
		}
		if dir := filepath.Dir(path); !slices.Contains(folders, dir) {
			folders = append(folders, dir)
		}
	}
	return folders, nil
}

var compileError = regexp.MustCompile(`(?m)^(.+?\.go):(\d+):\d+: `)

// blame tells which faults the errors of a build stand in.
func blame(out []byte, copies map[string][]span) []int {
	var numbers []int
	for _, m := range compileError.FindAllSubmatch(out, -1) {
		path, err := filepath.Abs(string(m[1]))
		if err != nil {
			continue
		}
		line, _ := strconv.Atoi(string(m[2]))
		for _, c := range copies[path] {
			if c.first <= line && line <= c.last {
				numbers = append(numbers, c.number)
			}
		}
	}
	return numbers
}

// catch runs the tests with the fault on, turn by turn, and tells which caught
// it; nothing where none did.
func (h *hunt) catch(f numbered) (by string, in int, err error) {
	path, err := filepath.Abs(f.path)
	if err != nil {
		return "", 0, err
	}
	suites := h.near(filepath.Dir(path))
	if len(suites) == 0 {
		return "", 0, fmt.Errorf("%s: no test reaches it", f.path)
	}
	for in = range turnsOfSuite {
		for _, s := range suites {
			if err := h.ready(s); err != nil {
				return "", 0, err
			}
			if by := s.test(s.turns[in], f.number); by != "" {
				return by, in, nil
			}
		}
	}
	return "", 0, nil
}

// near gives the suites that reach the folder, its own first.
func (h *hunt) near(folder string) []*suite {
	var own, others []*suite
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
	failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)
	passed = regexp.MustCompile(`(?m)^--- PASS: (\S+) \((\S+s)\)`)
)

// ready builds a suite's tests, sees that they pass without a fault, and parts
// the quick ones from the slow ones.
func (h *hunt) ready(s *suite) error {
	if s.program != "" {
		return nil
	}
	program := filepath.Join(h.dir, strings.ReplaceAll(s.path, "/", "_")+".test")
	args := slices.Concat([]string{"test", "-c", "-vet=off", "-o", program}, h.flags, []string{s.path})
	if out, err := exec.Command("go", args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %s", s.path, out)
	}
	s.program = program
	whole := turn{run: h.run, skip: either(h.skip, h.last), timeout: h.timeout}
	began := time.Now()
	out, failing := s.output(whole, 0, "-test.v")
	if failing != "" {
		return fmt.Errorf("%s fails without a fault: %s", s.path, failing)
	}
	var long []string
	for _, m := range passed.FindAllSubmatch(out, -1) {
		if took, err := time.ParseDuration(string(m[2])); err == nil && took >= slowTest {
			long = append(long, "^"+string(m[1])+"$")
		}
	}
	// A program with a fault may well be slower, but not ten times.
	whole.timeout = min(h.timeout, max(10*time.Second, 10*time.Since(began)))
	first, second := whole, whole
	first.skip = either(append(long, whole.skip)...)
	second.run = strings.Join(long, "|")
	s.turns = make([]turn, turnsOfSuite)
	s.turns[quick] = first
	if second.run != "" {
		s.turns[slow] = second
	}
	if h.last != "" {
		s.turns[late] = turn{run: h.last, skip: h.skip, timeout: h.timeout}
		if _, failing := s.output(s.turns[late], 0); failing != "" {
			return fmt.Errorf("%s fails without a fault: %s", s.path, failing)
		}
	}
	return nil
}

// either is what matches any of the patterns.
func either(patterns ...string) string {
	return strings.Join(slices.DeleteFunc(patterns, func(s string) bool { return s == "" }), "|")
}

// test runs a turn of a suite with a fault on, and tells which test caught it.
func (s *suite) test(t turn, number int) (by string) {
	if t == (turn{}) {
		return ""
	}
	_, by = s.output(t, number)
	return by
}

// output is what a turn prints and, where it fails, the test that does.
func (s *suite) output(t turn, number int, more ...string) (out []byte, failing string) {
	args := append([]string{"-test.failfast", "-test.timeout", t.timeout.String(), "-test.run", t.run, "-test.skip", t.skip}, more...)
	if s.draws {
		args = append(args, "-rapid.seed=1", "-rapid.nofailfile")
	}
	var text bytes.Buffer
	c := exec.Command(s.program, args...)
	c.Dir = s.folder
	c.Env = append(os.Environ(), fmt.Sprintf("%s=%d", switchName, number))
	c.Stdout, c.Stderr = &text, &text
	if c.Run() == nil {
		return text.Bytes(), ""
	}
	if m := failed.FindSubmatch(text.Bytes()); m != nil {
		return text.Bytes(), string(m[1])
	}
	return text.Bytes(), "panic or timeout"
}
