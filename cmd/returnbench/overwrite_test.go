package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// TestOutput_TheInputItself: no verb overwrites what it reads, by its
// own name, by a link or as standard input.
func TestOutput_TheInputItself(t *testing.T) {
	dir := t.TempDir()
	job, link, second := filepath.Join(dir, "a.png"), filepath.Join(dir, "link.png"), filepath.Join(dir, "second.png")
	text := content(t, example("one-inch-slot"))
	require.NoError(t, os.WriteFile(job, []byte(text), 0o644))
	require.NoError(t, os.Symlink(job, link))
	require.NoError(t, os.Link(job, second))
	list, linked := filepath.Join(dir, "homes.csv"), filepath.Join(dir, "linked.csv")
	require.Equal(t, 0, returnbench(t, "", "screen", "--example", "5", "-o", list).status)
	require.NoError(t, os.Symlink(list, linked))
	homes := content(t, list)
	for _, args := range [][]string{
		{"study", job, "-o", job}, {"study", job, "-o", link}, {"study", link, "-o", job}, {"study", job, "-o", second},
		{"report", job, "-o", link}, {"picture", job, "-o", second}, {"picture", job, "-o", dir, "--all"}, {"charts", job, "-o", dir},
		{"screen", list, "-o", linked}, {"screen", linked, "-o", list}, {"screen", list, "-o", list, "--resume"},
		{"screen", list, "--histogram", linked}, {"screen", list, "-o", filepath.Join(dir, "new"), "--histogram", filepath.Join(dir, "new")},
	} {
		r := returnbench(t, "", args...)
		require.Equal(t, usage, r.status, "%v: %s", args, r.err)
		require.Contains(t, r.err, "want another file")
		require.Equal(t, text, content(t, job), args)
		require.Equal(t, homes, content(t, list), args)
	}
	for file, args := range map[string][]string{
		list: {"screen", "-", "-o", linked}, job: {"study", "-", "-o", second},
	} {
		in, err := os.Open(file)
		require.NoError(t, err)
		var out, fault bytes.Buffer
		require.Equal(t, usage, run(args, in, &out, &fault), fault.String())
		require.NoError(t, in.Close())
	}
	require.Equal(t, text, content(t, job))
	require.Equal(t, homes, content(t, list))
}

// TestScreen_JudgedFirst: an input at fault leaves the results that
// are there, and makes none where there are none.
func TestScreen_JudgedFirst(t *testing.T) {
	dir := t.TempDir()
	out, none := filepath.Join(dir, "out.csv"), filepath.Join(dir, "none.csv")
	require.NoError(t, os.WriteFile(out, []byte("yesterday"), 0o640))
	for _, list := range []string{"", "design_airflw\n1\n", "name;slot\n", "\xff\n", "\"name\n"} {
		for _, to := range []string{out, none} {
			require.Equal(t, jobFault, returnbench(t, list, "screen", "-", "-o", to).status, list)
		}
	}
	require.Equal(t, machine, returnbench(t, "", "screen", filepath.Join(dir, "gone.csv"), "-o", out).status)
	require.Equal(t, machine, returnbench(t, "", "study", filepath.Join(dir, "gone.job.json"), "-o", none).status)
	require.Equal(t, "yesterday", content(t, out))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1)

	require.NoError(t, os.Symlink(out, none))
	require.Equal(t, 0, returnbench(t, "design_airflow\n1200 cfm\n", "screen", "-", "-o", none).status)
	require.Contains(t, content(t, out), "1200 cfm", "the results take the place of the old ones, through a link")
	info, err := os.Stat(out)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	require.NoError(t, os.Chmod(out, 0o440))
	r := returnbench(t, "design_airflow\n900 cfm\n", "screen", "-", "-o", out)
	require.Equal(t, machine, r.status)
	require.Contains(t, r.err, "read-only")
	require.Contains(t, content(t, out), "1200 cfm")
	require.Equal(t, 0, returnbench(t, "design_airflow\n900 cfm\n", "screen", "-", "-o", os.DevNull).status)
}

// TestOutput_Terminal: nothing of a job or a list steers the terminal.
func TestOutput_Terminal(t *testing.T) {
	evil := "a\u202eb\x1b[31mc\u0085\u2066"
	name := `a\u202eb\u001b[31mc\u0085\u2066`
	job := `{"schema": 1, "name": "` + name + `", "design_airflow": "1200 cfm", "options": [{"name": "` + name + `"}]}`
	text := returnbench(t, job, "study", "-")
	require.Equal(t, 0, text.status, text.err)
	require.Contains(t, text.out, `a\u202eb\x1b[31mc\x85\u2066`)
	wrong := returnbench(t, `{"schema": 1, "`+name+`": 1}`, "check", "-")
	require.Equal(t, jobFault, wrong.status)
	file := returnbench(t, "", "check", "/none/"+evil)
	list := returnbench(t, "name,design_airflow\n"+evil+",12 "+evil+"\n", "screen", "-")
	require.Contains(t, list.out, evil, "a table keeps its text")
	for _, said := range []string{text.out, wrong.err, file.err, list.err} {
		require.False(t, strings.ContainsFunc(said, isControl), "%q", said)
	}
	require.Equal(t, "plain é 家 text\n\t", shown("plain é 家 text\n\t"))
	require.Equal(t, `a\x9b31m家`, shown("a\x9b31m家"), "a byte that is no text")
}

// TestInput_Endless: what does not end is refused and fills no memory.
func TestInput_Endless(t *testing.T) {
	for _, args := range [][]string{{"check", "/dev/zero"}, {"study", "/dev/zero"}, {"screen", "/dev/zero"}} {
		if _, err := os.Stat("/dev/zero"); err != nil {
			break // no such device on this platform; the next line holds everywhere
		}
		require.Equal(t, jobFault, returnbench(t, "", args...).status, args)
	}
	r := returnbench(t, strings.Repeat(" ", 5<<20), "check", "-")
	require.Equal(t, outcome{jobFault, "", "standard input: more than 4 MB; a job file takes less\n"}, r)
}

// FuzzShown writes any text for a terminal: nothing steers it, and plain text stays
// as it is.
func FuzzShown(f *testing.F) {
	f.Add("plain \u00e9 \u5bb6")
	f.Add("a\u202eb\x1b[31mc\u0085\u2066\xff")
	f.Fuzz(func(t *testing.T, text string) {
		got := shown(text)
		require.False(t, strings.ContainsFunc(got, isControl), "%q", got)
		require.True(t, utf8.ValidString(got))
		if !strings.ContainsFunc(text, isControl) && utf8.ValidString(text) {
			require.Equal(t, text, got)
		}
	})
}
