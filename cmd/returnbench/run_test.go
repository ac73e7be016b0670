package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/gui"
)

type outcome struct {
	status   int
	out, err string
}

func returnbench(t testing.TB, stdin string, args ...string) outcome {
	t.Helper()
	var out, fault bytes.Buffer
	status := run(args, strings.NewReader(stdin), &out, &fault)
	return outcome{status, out.String(), fault.String()}
}

func jobFile(name string) string {
	return filepath.Join("..", "..", "testdata", "jobs", name+".job.json")
}

func example(name string) string {
	return filepath.Join("..", "..", "assets", "jobs", name+".job.json")
}

// TestCheck_FiveFaults: five different faults are all named at once,
// each on a line of its own by file and path, with what was given and wanted.
func TestCheck_FiveFaults(t *testing.T) {
	file := jobFile("five-faults")
	for _, verb := range [][]string{{"check", file}, {"study", file}, {"size", file}, {"charts", file, "-o", t.TempDir()}} {
		r := returnbench(t, "", verb...)
		require.Equal(t, 1, r.status)
		require.Empty(t, r.out)
		lines := strings.Split(strings.TrimSpace(r.err), "\n")
		require.Len(t, lines, 5, r.err)
		for _, path := range []string{"design_airflow", "equipment.blower.moter", "filters[0].merv", "filters[1].pleats", "returns[0].runs[0].shape"} {
			require.Regexp(t, `(?m)^`+quoted(file+": "+path+": given ")+`.+; want .+$`, r.err)
		}
	}
}

func quoted(s string) string { return strings.NewReplacer(".", `\.`, "[", `\[`, "]", `\]`).Replace(s) }

func TestCheck(t *testing.T) {
	r := returnbench(t, "", "check", jobFile("least"))
	require.Equal(t, outcome{0, jobFile("least") + ": no fault found\n", ""}, r)

	r = returnbench(t, "{\n \"schema\": 1,,}", "check", "-")
	require.Equal(t, 1, r.status)
	require.Contains(t, r.err, "standard input:2:14: ")

	r = returnbench(t, `{"schema": 3}`, "check", "-")
	require.Equal(t, 1, r.status)
	require.Contains(t, r.err, `standard input: schema: given 3; want "schema": 1`)
}

func TestStudy(t *testing.T) {
	text := returnbench(t, "", "study", jobFile("least"))
	require.Equal(t, 0, text.status, text.err)
	require.Contains(t, text.out, "1200 cfm")
	data, err := os.ReadFile(jobFile("least"))
	require.NoError(t, err)
	require.Equal(t, text, returnbench(t, string(data), "study", "-"), "a file and standard input are alike")

	si := returnbench(t, "", "study", jobFile("least"), "--units", "si")
	require.Equal(t, 0, si.status)
	require.Contains(t, si.out, "566 L/s")

	for units, want := range map[string]string{"ip": "1200 cfm", "si": " L/s"} {
		r := returnbench(t, "", "study", jobFile("least"), "--json", "--units", units)
		require.Equal(t, 0, r.status, r.err)
		var doc struct {
			Study struct {
				DesignAirflow string `json:"design_airflow"`
			} `json:"study"`
		}
		require.NoError(t, json.Unmarshal([]byte(r.out), &doc))
		require.Contains(t, doc.Study.DesignAirflow, want)
	}
}

// TestStudy_Formats: each form goes to standard output or to a file,
// which may name the form by its ending.
func TestStudy_Formats(t *testing.T) {
	job := example("one-inch-slot")
	dir := t.TempDir()
	for format, begins := range map[string]string{"text": "", "json": "{\n", "csv": "option,kind,place,", "xlsx": "PK\x03\x04"} {
		out := returnbench(t, "", "study", job, "--format", format, "--units", "si")
		require.Equal(t, 0, out.status, out.err)
		require.True(t, strings.HasPrefix(out.out, begins), format)
		file := filepath.Join(dir, "study."+strings.Replace(format, "text", "txt", 1))
		require.Equal(t, outcome{}, returnbench(t, "", "study", job, "-o", file, "--units", "si"))
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, out.out, string(data), format)
	}
	require.Equal(t, returnbench(t, "", "study", job, "--json"), returnbench(t, "", "study", job, "--format", "json"))
	for status, args := range map[int][]string{
		2: {"study", job, "--format", "csv", "--json"},
		3: {"study", job, "-o", filepath.Join(dir, "none", "study.xlsx")},
		1: {"study", jobFile("five-faults"), "-o", filepath.Join(dir, "left.xlsx")},
	} {
		r := returnbench(t, "", args...)
		require.Equal(t, status, r.status, r.err)
		require.NotEmpty(t, r.err)
	}
	require.NoFileExists(t, filepath.Join(dir, "left.xlsx"))
}

// TestLanguage: the decimal mark is that of the language; what programs read
// is the same in every language.
func TestLanguage(t *testing.T) {
	job := example("one-inch-slot")
	numbers, money := regexp.MustCompile(`\d,\d`), regexp.MustCompile(`\$[\d.,]+`)
	for _, row := range []struct {
		language string
		comma    bool
	}{{"en", false}, {"es", true}, {"es-US", false}, {"es-MX", false}} {
		for _, verb := range []string{"study", "size"} {
			r := returnbench(t, "", verb, job, "--language", row.language)
			require.Equal(t, 0, r.status, r.err)
			require.Equal(t, row.comma, numbers.MatchString(money.ReplaceAllString(r.out, "$")), "%s %s", verb, row.language)
		}
		for _, arguments := range [][]string{{"study", job, "--format", "csv"}, {"study", job, "--json"}, {"size", job, "--csv"}} {
			require.Equal(t, returnbench(t, "", arguments...), returnbench(t, "", append(arguments, "--language", row.language)...), arguments)
		}
	}
	require.Equal(t, 2, returnbench(t, "", "study", job, "--language", "fr").status)
}

func TestSize(t *testing.T) {
	r := returnbench(t, "", "size", example("one-inch-slot"))
	require.Equal(t, 0, r.status, r.err)
	require.Contains(t, r.out, "verdict")
	r = returnbench(t, "", "size", example("one-inch-slot"), "--csv")
	require.Equal(t, 0, r.status, r.err)
	require.True(t, strings.HasPrefix(r.out, "place,count,size"), r.out)
}

// A job of metric sizes is printed in SI, another in inches, unless asked otherwise:
// the units under the headings of the tables.
func TestPrintedInTheUnitsOfTheJob(t *testing.T) {
	const inches, metric = `(?m)^ +(in2|cfm) `, `(?m)^ +(cm2|L/s) `
	for _, verb := range []string{"study", "size"} {
		for _, row := range []struct{ name, units, has, lacks string }{
			{"metric-altitude", "", metric, inches},
			{"metric-altitude", "ip", inches, metric},
			{"one-inch-slot", "", inches, metric},
			{"one-inch-slot", "si", metric, inches},
		} {
			arguments := []string{verb, example(row.name)}
			if row.units != "" {
				arguments = append(arguments, "--units", row.units)
			}
			out := returnbench(t, "", arguments...).out
			require.Regexp(t, row.has, out)
			require.NotRegexp(t, row.lacks, out)
		}
	}
}

func TestCharts(t *testing.T) {
	for format, magic := range map[string]string{"png": "\x89PNG", "svg": "<?xml", "pdf": "%PDF-"} {
		dir := filepath.Join(t.TempDir(), "made", "here")
		r := returnbench(t, "", "charts", example("two-returns"), "-o", dir, "--format", format)
		require.Equal(t, 0, r.status, r.err)
		paths := strings.Fields(r.out)
		require.NotEmpty(t, paths)
		for _, p := range paths {
			require.Equal(t, "."+format, filepath.Ext(p))
			data, err := os.ReadFile(p)
			require.NoError(t, err)
			require.True(t, bytes.HasPrefix(data, []byte(magic)), p)
		}
	}
}

func TestPictureOfEveryPlace(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "album")
	r := returnbench(t, "", "picture", jobFile("least"), "-o", dir, "--all", "--size", "1000x700", "--theme", "dark", "--text", "150")
	require.Equal(t, 0, r.status, r.err)
	for _, place := range gui.PlaceKeys() {
		f, err := os.Open(filepath.Join(dir, place+"-1000x700-dark.png"))
		require.NoError(t, err)
		defer f.Close()
		picture, err := png.DecodeConfig(f)
		require.NoError(t, err)
		require.Equal(t, [2]int{1000, 700}, [2]int{picture.Width, picture.Height})
	}
	one := filepath.Join(dir, "one.png")
	r = returnbench(t, "", "picture", jobFile("least"), "-o", one, "--place", "cautions")
	require.Equal(t, 0, r.status, r.err)
	require.FileExists(t, one)
}

func TestSchema(t *testing.T) {
	r := returnbench(t, "", "schema")
	require.Equal(t, 0, r.status)
	require.True(t, json.Valid([]byte(r.out)))
	require.Contains(t, r.out, "https://json-schema.org/draft/2020-12/schema")
}

func TestVersion(t *testing.T) {
	r := returnbench(t, "", "version")
	require.Equal(t, 0, r.status)
	require.Contains(t, r.out, "returnbench "+version)
	toml, err := os.ReadFile(filepath.Join("..", "..", "FyneApp.toml"))
	require.NoError(t, err)
	require.Contains(t, string(toml), `Version = "`+version+`"`)
	require.Contains(t, string(toml), `ID = "`+appID+`"`)
}

func TestHelp(t *testing.T) {
	long := returnbench(t, "", "help")
	require.Equal(t, 0, long.status)
	require.Empty(t, long.err)
	for _, verb := range []string{"open", "study", "check", "size", "charts", "picture", "schema", "version", "help"} {
		require.Contains(t, long.out, "  "+verb+" ")
	}
	require.Equal(t, long.out, returnbench(t, "", "--help").out)
	r := returnbench(t, "", "help", "study")
	require.Equal(t, 0, r.status)
	require.Contains(t, r.out, "--json")
	require.Equal(t, 2, returnbench(t, "", "help", "stdy").status)
}

func TestUsage(t *testing.T) {
	for _, args := range [][]string{
		{"stduy", jobFile("least")},
		{"study"},
		{"study", jobFile("least"), "extra"},
		{"study", jobFile("least"), "--unit", "si"},
		{"study", jobFile("least"), "--units", "metric"},
		{"study", jobFile("least"), "--format", "ods"},
		{"charts", jobFile("least")},
		{"charts", jobFile("least"), "-o", t.TempDir(), "--format", "bmp"},
		{"size", jobFile("least"), "--misses", "-1"},
		{"picture", jobFile("least"), "-o", "a.png", "--size", "big"},
		{"picture", jobFile("least"), "-o", "a.png", "--theme", "blue"},
		{"picture", jobFile("least"), "-o", "a.png", "--place", "attic"},
		{"picture", jobFile("least"), "-o", "a.png", "--text", "90"},
		{"picture", jobFile("least"), "-o", "a", "--all", "--place", "question"},
	} {
		r := returnbench(t, "", args...)
		require.Equal(t, 2, r.status, "%v: %s", args, r.err)
		require.Empty(t, r.out)
		require.Contains(t, r.err, "returnbench: ")
	}
}

// TestMachine: what the disk refuses is neither the job's fault nor the
// person's.
func TestMachine(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for _, args := range [][]string{
		{"study", filepath.Join(t.TempDir(), "none.job.json")},
		{"check", t.TempDir()},
		{"charts", jobFile("least"), "-o", file},
		{"picture", jobFile("least"), "-o", filepath.Join(file, "a.png")},
	} {
		r := returnbench(t, "", args...)
		require.Equal(t, 3, r.status, "%v: %s", args, r.err)
	}
	for _, args := range [][]string{{"study", jobFile("least")}, {"check", jobFile("least")}, {"schema"}, {"version"}} {
		require.Equal(t, 3, run(args, strings.NewReader(""), full{}, io.Discard), "%v on a full disk", args)
	}
}

// TestOpen_NoDisplay: where no window can be, the program says so.
func TestOpen_NoDisplay(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return // there is always a display
	}
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	for _, args := range [][]string{nil, {"open"}, {"open", jobFile("least")}, {jobFile("least")}} {
		r := returnbench(t, "", args...)
		require.Contains(t, []int{usage, machine}, r.status)
		require.Regexp(t, "without a window|no display", r.err)
	}
}

// TestQuietStart: the program says nothing of its own as it starts.
func TestQuietStart(t *testing.T) {
	for _, env := range [][2]string{{"C.UTF-8", ""}, {"C.UTF-8", "C.UTF-8"}, {"C", ""}, {"", ""}, {"en_US.UTF-8", ""}} {
		start := exec.Command(os.Args[0], "-test.list=^$")
		start.Env = append(os.Environ(), "LC_ALL="+env[0], "LANGUAGE="+env[1])
		var fault bytes.Buffer
		start.Stderr = &fault
		require.NoError(t, start.Run())
		require.Empty(t, fault.String(), "LC_ALL and LANGUAGE: %q", env)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room left") }
