package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A process of this test binary with these arguments, one a line, is the
// program itself, so that a test can kill it.
const asProgram = "RETURNBENCH_TEST_ARGUMENTS"

func TestMain(m *testing.M) {
	if args, ok := os.LookupEnv(asProgram); ok {
		os.Exit(run(strings.Split(args, "\n"), os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

func program(args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), asProgram+"="+strings.Join(args, "\n"))
	return c
}

// homeList writes a list of invented homes and gives its path.
func homeList(t *testing.T, n int) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "homes.csv")
	r := returnbench(t, "", "screen", "--example", fmt.Sprint(n), "-o", file)
	require.Equal(t, outcome{0, "", ""}, r)
	return file
}

func content(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(data)
}

// longRun asks for the number of kills of a long run.
const longRun = "RETURNBENCH_KILLS"

func times(usual int) int {
	if n, err := strconv.Atoi(os.Getenv(longRun)); err == nil {
		return n
	}
	return usual
}

// TestScreen_Killed: a run that is killed again and again, and whose
// last row is cut in the middle, ends with the bytes and the summary of an
// unbroken one.
func TestScreen_Killed(t *testing.T) {
	list := homeList(t, 500)
	unbroken := filepath.Join(t.TempDir(), "unbroken.csv")
	want := returnbench(t, "", "screen", list, "-o", unbroken)
	require.Equal(t, 0, want.status, want.err)
	whole := content(t, unbroken)

	out := filepath.Join(t.TempDir(), "out.csv")
	rows := out + partialSuffix
	wholeRuns := 0
	finish := func() {
		for range 2 { // the second time nothing is left to do
			require.Equal(t, want, returnbench(t, "", "screen", list, "-o", out, "--resume"))
			require.Equal(t, whole, content(t, out))
			require.NoFileExists(t, rows)
		}
		wholeRuns++
	}
	const least, cut = 8000, 37 // bytes that a run gains before it is killed, and of its last row
	for kill := range times(3) {
		before := 0
		if info, err := os.Stat(rows); err == nil {
			before = int(info.Size())
		}
		if before > len(whole)*3/4 {
			finish()
			require.NoError(t, os.Remove(out))
			before = 0
		}
		killed(t, program("screen", list, "-o", out, "--resume"), func() bool {
			info, err := os.Stat(rows)
			return err == nil && info.Size() > int64(before+least)
		})
		got := content(t, rows)
		require.Less(t, len(got), len(whole), "it was killed in the middle")
		require.True(t, strings.HasPrefix(whole, got))
		require.NoError(t, os.Truncate(rows, int64(len(got)-cut*(1+kill%20))))
	}
	finish()
	t.Logf("%d kills, %d lists ended whole", times(3), wholeRuns)
}

// killed starts a program and kills it once it has come far enough.
func killed(t *testing.T, c *exec.Cmd, enough func() bool) {
	t.Helper()
	require.NoError(t, c.Start())
	require.Eventually(t, enough, time.Minute, 2*time.Millisecond)
	require.NoError(t, c.Process.Signal(syscall.SIGKILL))
	require.Error(t, c.Wait())
}

// TestScreen_Interrupt: an interrupt leaves whole rows and says how to
// go on.
func TestScreen_Interrupt(t *testing.T) {
	list := homeList(t, 500)
	out := filepath.Join(t.TempDir(), "out.csv")
	c := program("screen", list, "-o", out)
	var fault bytes.Buffer
	c.Stderr = &fault
	require.NoError(t, c.Start())
	require.Eventually(t, func() bool {
		info, err := os.Stat(out + partialSuffix)
		return err == nil && info.Size() > 8000
	}, time.Minute, 2*time.Millisecond)
	require.NoError(t, c.Process.Signal(os.Interrupt))
	require.Error(t, c.Wait())
	require.Equal(t, machine, c.ProcessState.ExitCode())
	require.Contains(t, fault.String(), "--resume")
	require.True(t, strings.HasSuffix(content(t, out+partialSuffix), "\n"))
}

// TestScreen: files and pipes give the same, and a pipe sees no bar.
func TestScreen(t *testing.T) {
	list := homeList(t, 40)
	dir := t.TempDir()
	out, picture := filepath.Join(dir, "out.csv"), filepath.Join(dir, "homes.png")
	file := returnbench(t, "", "screen", list, "-o", out, "--histogram", picture, "--workers", "3")
	require.Equal(t, 0, file.status, file.err)
	require.Empty(t, file.out)
	require.True(t, strings.HasPrefix(file.err, "40 homes: 40 solved, 0 at fault\n"), file.err)
	pipe := returnbench(t, content(t, list), "screen", "-", "--workers", "1")
	require.Equal(t, 0, pipe.status)
	require.Equal(t, content(t, out), pipe.out)
	require.Equal(t, file.err, pipe.err)

	f, err := os.Open(picture)
	require.NoError(t, err)
	defer f.Close()
	_, err = png.Decode(f)
	require.NoError(t, err)

	si := returnbench(t, content(t, list), "screen", "-", "--units", "si")
	require.Equal(t, 0, si.status)
	require.Contains(t, si.out, "study_airflow [L/s]")

	require.Equal(t, content(t, list), returnbench(t, "", "screen", "--example", "40").out)
	columns := returnbench(t, "", "screen", "--columns")
	require.Equal(t, 0, columns.status)
	require.Contains(t, columns.out, "target_face_velocity")
	require.Contains(t, columns.out, "study_verdict")
	require.Contains(t, columns.out, "return_duct_diameter")
	require.Contains(t, columns.out, "blower_points")
}

// TestScreen_Engine: what another version wrote is not gone on with,
// and stays as it is.
func TestScreen_Engine(t *testing.T) {
	list := homeList(t, 5)
	out := filepath.Join(t.TempDir(), "out.csv")
	require.Equal(t, 0, returnbench(t, "", "screen", list, "-o", out).status)
	now := content(t, out)
	require.Equal(t, 5, strings.Count(now, engine()))
	older := strings.ReplaceAll(now, engine(), "returnbench 0.0.1")
	older = strings.Join(strings.SplitAfter(older, "\n")[:3], "")
	require.NoError(t, os.WriteFile(out, []byte(older), 0o600))
	r := returnbench(t, "", "screen", list, "-o", out, "--resume")
	require.Equal(t, usage, r.status)
	require.Contains(t, r.err, `by the engine "returnbench 0.0.1"`)
	require.Contains(t, r.err, "screen the list anew")
	require.Equal(t, older, content(t, out))
}

// TestScreen_Status holds the exit statuses of the contract.
func TestScreen_Status(t *testing.T) {
	list := homeList(t, 3)
	other := filepath.Join(t.TempDir(), "other.csv")
	require.NoError(t, os.WriteFile(other, []byte("someone's,own\n1,2"), 0o644))
	for _, c := range []struct {
		stdin  string
		args   []string
		status int
		say    string
	}{
		{"design_airflow [cfm]\n1200\nmany\n", []string{"-"}, jobFault, "standard input: line 3, design_airflow: "},
		{"design_airflw\n1200\n", []string{"-"}, jobFault, `want "design_airflow"?`},
		{"", []string{"-"}, jobFault, "the list is empty"},
		{"", nil, usage, "want a list of homes"},
		{"", []string{list, "--workers", "-1"}, usage, "--workers"},
		{"", []string{list, "--resume"}, usage, "--resume"},
		{"", []string{list, "-o", list}, usage, "is the input itself"},
		{"", []string{list, "-o", other, "--resume"}, usage, "another heading"},
		{"", []string{"--example", "-3"}, usage, "--example"},
		{"", []string{filepath.Join(t.TempDir(), "none.csv")}, machine, "none.csv"},
		{"", []string{list, "-o", filepath.Join(t.TempDir(), "no", "folder.csv")}, machine, "folder.csv"},
	} {
		r := returnbench(t, c.stdin, append([]string{"screen"}, c.args...)...)
		require.Equal(t, c.status, r.status, "%v: %s", c.args, r.err)
		require.Contains(t, r.err, c.say)
	}
	require.Equal(t, "someone's,own\n1,2", content(t, other), "a file that is not gone on with stays as it was")
	require.True(t, strings.HasPrefix(content(t, list), "name,"))
	kept := returnbench(t, "design_airflow [cfm]\n1200\nmany\n900\n", "screen", "-")
	require.Equal(t, 4, strings.Count(kept.out, "\n"), "a row at fault is kept")
}

// TestProgress: the bar tells count, rate and the rows of this run.
func TestProgress(t *testing.T) {
	var screen bytes.Buffer
	update, finish := progress(&screen, 1000)
	update(400)
	time.Sleep(120 * time.Millisecond)
	update(550)
	time.Sleep(120 * time.Millisecond)
	update(700)
	finish()
	require.Contains(t, screen.String(), "300/600")
	require.Contains(t, screen.String(), "homes/")
	require.False(t, isTerminal(&screen))
}
