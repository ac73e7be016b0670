//go:build unix

package main

import (
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

// TestParallel runs the README's lines over a list of homes with two local
// slots: killed on the way and resumed by its log they give the bytes of one run.
func TestParallel(t *testing.T) {
	if _, err := exec.LookPath("parallel"); err != nil {
		t.Skip("no GNU parallel (Debian: parallel): the README's lines for many homes are not run")
	}
	const homes, each = 240, 12
	list := homeList(t, homes)
	dir := filepath.Dir(list)
	whole := filepath.Join(dir, "whole.csv")
	require.Zero(t, returnbench(t, "", "screen", list, "-o", whole).status)

	split, join := parallelLines(t)
	require.Contains(t, split, "-N 1000")
	split = strings.Replace(split, "-N 1000", "-N "+strconv.Itoa(each)+" --jobs 2", 1)
	script := "#!/bin/sh\necho $$ >>pids\n" + asProgram + `=$(printf '%s\n' "$@") exec ` + strconv.Quote(os.Args[0]) + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "returnbench"), []byte(script), 0o700))
	shell := func(line string) *exec.Cmd {
		c := exec.Command("sh", "-c", line)
		c.Dir = dir
		c.Env = append(os.Environ(), "HOME="+dir, "PATH="+dir+":"+os.Getenv("PATH"))
		c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
		return c
	}
	ended := func() []string {
		text, _ := os.ReadFile(filepath.Join(dir, "homes.log"))
		return strings.Split(strings.TrimSpace(string(text)), "\n")[1:]
	}

	first := shell(split)
	require.NoError(t, first.Start())
	require.Eventually(t, func() bool {
		text, _ := os.ReadFile(filepath.Join(dir, "homes.log"))
		return strings.Count(string(text), "\n") > 3
	}, time.Minute, time.Millisecond, "some parts are studied")
	require.NoError(t, syscall.Kill(-first.Process.Pid, syscall.SIGKILL))
	require.Error(t, first.Wait())
	for _, pid := range strings.Fields(content(t, filepath.Join(dir, "pids"))) {
		n, err := strconv.Atoi(pid)
		require.NoError(t, err)
		require.Eventually(t, func() bool { return syscall.Kill(n, 0) != nil }, time.Minute, 10*time.Millisecond, "what was under way ends")
	}
	before := ended()
	require.Less(t, len(before), homes/each, "it was killed on the way")

	out, err := shell(split).CombinedOutput()
	require.NoError(t, err, "%s", out)
	after := ended()
	require.Len(t, after, homes/each, "each part once")
	require.Equal(t, before, after[:len(before)], "what was ended is not studied again")
	out, err = shell(join).CombinedOutput()
	require.NoError(t, err, "%s", out)
	require.Equal(t, content(t, whole), content(t, filepath.Join(dir, "out.csv")))
}

// parallelLines are the README's.
func parallelLines(t *testing.T) (split, join string) {
	t.Helper()
	for line := range strings.Lines(content(t, filepath.Join("..", "..", "README.md"))) {
		switch line = strings.TrimSpace(line); {
		case strings.HasPrefix(line, "parallel --pipe"):
			split = line
		case strings.HasPrefix(line, "awk 'NR"):
			join = line
		}
	}
	require.NotEmpty(t, split)
	require.NotEmpty(t, join)
	return split, join
}
