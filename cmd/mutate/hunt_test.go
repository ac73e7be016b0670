package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// module writes a module of four packages: the test of a holds its sum but not
// its share, b leans on a and holds its share in a test named Slow, c leans on a
// and fails, d knows nothing of them and fails.
func module(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":      "module sample\n\ngo 1.26\n",
		"a/a.go":      "package a\n\nfunc Sum(a, b float64) float64 { return a + b }\n\nfunc Share(a, b float64) float64 { return a / b }\n",
		"a/a_test.go": "package a\n\nimport \"testing\"\n\nfunc TestSum(t *testing.T) {\n\tif Sum(1, 2) != 3 {\n\t\tt.Fatal()\n\t}\n}\n",
		"b/b.go":      "package b\n\nimport \"sample/a\"\n\nvar Half = a.Share(1, 2)\n",
		"b/b_test.go": "package b\n\nimport \"testing\"\n\nfunc TestSlow(t *testing.T) {\n\tif Half != 0.5 {\n\t\tt.Fatal()\n\t}\n}\n",
		"c/c_test.go": "package c\n\nimport (\n\t_ \"sample/a\"\n\t\"testing\"\n)\n\nfunc TestC(t *testing.T) { t.Fatal() }\n",
		"d/d_test.go": "package d\n\nimport \"testing\"\n\nfunc TestD(t *testing.T) { t.Fatal() }\n",
	} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	t.Chdir(dir)
}

func sampleFaults(t *testing.T) []fault {
	faults, err := collect([]string{"a/*.go"})
	require.NoError(t, err)
	return slices.DeleteFunc(faults, func(f fault) bool { return f.kind == "dropped term" })
}

func packagesOf(t *testing.T, patterns ...string) []*suite {
	suites, err := list(patterns)
	require.NoError(t, err)
	return suites
}

// A fault in the sum is caught, one in the share survives, one that does not
// build is passed over.
func TestHunt(t *testing.T) {
	module(t)
	source, err := os.ReadFile("a/a.go")
	require.NoError(t, err)
	faults := sampleFaults(t)
	broken := faults[0]
	broken.with = "a ++ b"
	var out bytes.Buffer
	h := &hunt{suites: packagesOf(t, "./a"), timeout: time.Minute, out: &out}
	got, err := h.all(append([]fault{broken}, faults...), 10)
	require.NoError(t, err)
	assert.Equal(t, tally{planted: 2, caught: 1}, got, out.String())
	assert.Contains(t, out.String(), "(TestSum)")
	assert.Contains(t, out.String(), "SURVIVED  a/a.go:5  factor: a / b -> a * b\n    - func Share(a, b float64) float64 { return a / b }\n    + func Share(a, b float64) float64 { return a * b }\n")
	after, err := os.ReadFile("a/a.go")
	require.NoError(t, err)
	assert.Equal(t, source, after, "no file is changed")
}

// The test that is run last catches what the first lets pass.
func TestHunt_Last(t *testing.T) {
	module(t)
	var out bytes.Buffer
	h := &hunt{suites: packagesOf(t, "./b", "./a"), last: "Slow", timeout: time.Minute, out: &out}
	got, err := h.all(sampleFaults(t), 10)
	require.NoError(t, err)
	assert.Equal(t, tally{planted: 2, caught: 2, late: 1}, got, out.String())
	assert.Contains(t, out.String(), "(TestSum)")
	assert.Contains(t, out.String(), "(TestSlow, last)")
}

// Only packages that are built from the changed one are tested, itself first;
// tests that fail without a fault are reported.
func TestHunt_Near(t *testing.T) {
	module(t)
	h := &hunt{suites: packagesOf(t, "./c", "./..."), timeout: time.Minute, out: &bytes.Buffer{}}
	folder, err := filepath.Abs("a")
	require.NoError(t, err)
	var near []string
	for _, s := range h.near(folder) {
		near = append(near, s.path)
	}
	assert.Equal(t, []string{"sample/a", "sample/c", "sample/b"}, near)
	_, err = h.all(sampleFaults(t), 10)
	assert.EqualError(t, err, "sample/c fails without a fault: TestC")
}

// Tests that wait for ever are ended, though they take no processor time.
func TestHunt_Hangs(t *testing.T) {
	module(t)
	require.NoError(t, os.WriteFile("a/hang_test.go", []byte("package a\n\nimport (\n\t\"testing\"\n\t\"time\"\n)\n\nfunc TestHang(t *testing.T) { time.Sleep(time.Hour) }\n"), 0o600))
	s := packagesOf(t, "./a")[0]
	s.program = filepath.Join(t.TempDir(), "a.test")
	out, err := exec.Command("go", "test", "-c", "-o", s.program, "./a").CombinedOutput()
	require.NoError(t, err, string(out))
	_, failing, _ := s.output(turn{run: "Hang", skip: "^$", cpu: 50 * time.Millisecond}, 0)
	assert.Equal(t, "panic or timeout", failing)
}
