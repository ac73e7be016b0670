package main

import (
	"bytes"
	"cmp"
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
	"sync"
	"time"
)

// suite is the tests of one package.
type suite struct {
	path         string
	folder       string
	dependencies []string // folders of the project's packages that its tests are built from
	draws        bool     // by rapid, whose seed is set so that a verdict can be repeated

	once    sync.Once
	program string // of its tests, with all faults woven in
	turns   []turn
	unready error
}

// turn is a share of a suite's tests, by what go test's -run and -skip match.
type turn struct {
	run, skip string
	cpu       time.Duration // that it may take
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
			dependencies, err := goList("-deps", "-test", "-f", "{{with .Module}}{{if .Main}}{{$.Dir}}{{end}}{{end}}", path)
			if err != nil {
				return nil, err
			}
			imports, err := goList("-f", `{{join .TestImports "\n"}}{{"\n"}}{{join .XTestImports "\n"}}`, path)
			if err != nil {
				return nil, err
			}
			suites = append(suites, &suite{path: path, folder: folder, dependencies: dependencies, draws: slices.Contains(imports, "pgregory.net/rapid")})
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
	timeout time.Duration // of processor time
	jobs    int           // faults at once
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
	planted, err := h.plant(faults, n)
	if err != nil {
		return t, err
	}
	report := func(f numbered, by string, in int) {
		t.planted++
		if by == "" {
			fmt.Fprintf(h.out, "SURVIVED  %s\n%s", f, f.change())
			return
		}
		t.caught++
		if in == late {
			t.late++
			by += ", last"
		}
		fmt.Fprintf(h.out, "caught    %s  (%s)\n", f, by)
	}
	var (
		mu      sync.Mutex
		next    int
		stopped error
		workers sync.WaitGroup
	)
	for range max(1, h.jobs) {
		workers.Go(func() {
			mu.Lock()
			defer mu.Unlock()
			for next < len(planted) && stopped == nil {
				f := planted[next]
				next++
				mu.Unlock()
				by, in, err := h.catch(f)
				mu.Lock()
				if err != nil {
					stopped = cmp.Or(stopped, err)
					return
				}
				report(f, by, in)
			}
		})
	}
	workers.Wait()
	return t, stopped
}

// plant weaves the first n faults that build into the sources.
func (h *hunt) plant(faults []fault, n int) ([]numbered, error) {
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
		var planted []numbered
		for i, f := range faults {
			if !broken[i+1] && len(planted) < n {
				planted = append(planted, numbered{f, i + 1})
			}
		}
		replace, copies, err := lay(planted, h.dir)
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
			return planted, nil
		}
		found := faultsIn(out, copies)
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

// faultsIn returns the faults in which the errors of a build are.
func faultsIn(out []byte, copies map[string][]span) []int {
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
			s.once.Do(func() { s.unready = h.ready(s) })
			if s.unready != nil {
				return "", 0, s.unready
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
		case slices.Contains(s.dependencies, folder):
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
	program := filepath.Join(h.dir, strings.ReplaceAll(s.path, "/", "_")+".test")
	args := slices.Concat([]string{"test", "-c", "-vet=off", "-o", program}, h.flags, []string{s.path})
	if out, err := exec.Command("go", args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %s", s.path, out)
	}
	s.program = program
	whole := turn{run: h.run, skip: either(h.skip, h.last), cpu: h.timeout}
	out, failing, took := s.output(whole, 0, "-test.v")
	if failing != "" {
		return fmt.Errorf("%s fails without a fault: %s", s.path, failing)
	}
	var long []string
	for _, m := range passed.FindAllSubmatch(out, -1) {
		if d, err := time.ParseDuration(string(m[2])); err == nil && d >= slowTest {
			long = append(long, "^"+string(m[1])+"$")
		}
	}
	// A program with a fault may well be slower, but not three times.
	whole.cpu = min(h.timeout, 3*took+10*time.Second)
	first, second := whole, whole
	first.skip = either(append(long, whole.skip)...)
	second.run = strings.Join(long, "|")
	s.turns = make([]turn, turnsOfSuite)
	s.turns[quick] = first
	if second.run != "" {
		s.turns[slow] = second
	}
	if h.last != "" {
		s.turns[late] = turn{run: h.last, skip: h.skip, cpu: h.timeout}
		if _, failing, _ := s.output(s.turns[late], 0); failing != "" {
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
	_, by, _ = s.output(t, number)
	return by
}

// waitPerProcessorTime times its limit of processor time is the time on the clock after
// which a turn has hung: a fault that waits forever takes no processor time. Time on the
// clock says little else on a machine that others use.
const waitPerProcessorTime = 20

// output is what a turn prints, the test that fails, and the processor time that it takes.
func (s *suite) output(t turn, number int, more ...string) (out []byte, failing string, took time.Duration) {
	args := append([]string{"-c", `ulimit -t "$0" && exec "$@"`, strconv.Itoa(1 + int(t.cpu.Seconds())),
		s.program, "-test.failfast", "-test.timeout", (waitPerProcessorTime * t.cpu).String(), "-test.run", t.run, "-test.skip", t.skip}, more...)
	if s.draws {
		args = append(args, "-rapid.seed=1", "-rapid.nofailfile")
	}
	var text bytes.Buffer
	c := exec.Command("sh", args...)
	c.Dir = s.folder
	c.Env = append(os.Environ(), fmt.Sprintf("%s=%d", switchName, number))
	c.Stdout, c.Stderr = &text, &text
	err := c.Run()
	if c.ProcessState == nil {
		return []byte(err.Error()), err.Error(), 0
	}
	took = c.ProcessState.UserTime() + c.ProcessState.SystemTime()
	if err == nil {
		return text.Bytes(), "", took
	}
	if m := failed.FindSubmatch(text.Bytes()); m != nil {
		return text.Bytes(), string(m[1]), took
	}
	return text.Bytes(), "panic or timeout", took
}
