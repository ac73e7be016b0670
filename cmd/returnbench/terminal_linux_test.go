package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// terminal opens a pseudoterminal: what is written to the one end is read from the
// other, as a terminal program reads it.
func terminal(t *testing.T) (screen, program *os.File) {
	t.Helper()
	screen, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	require.NoError(t, err)
	t.Cleanup(func() { _ = screen.Close() })
	require.NoError(t, unix.IoctlSetPointerInt(int(screen.Fd()), unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(int(screen.Fd()), unix.TIOCGPTN)
	require.NoError(t, err)
	program, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { _ = program.Close() })
	return screen, program
}

// TestOutput_TableOnATerminal: a table keeps its text in a file or a pipe,
// and steers no terminal that it is printed on.
func TestOutput_TableOnATerminal(t *testing.T) {
	const job = `{"schema": 1, "name": "a\u202e\u001b[31m", "design_airflow": "1200 cfm", "options": [{"name": "b\u2066\u0085"}]}`
	const list = "name,design_airflow\na\u202e\x1b[31m,1200 cfm\n"
	for _, c := range []struct {
		in   string
		args []string
	}{
		{job, []string{"study", "-", "--format", "csv"}}, {job, []string{"study", "-", "--json"}},
		{job, []string{"size", "-", "--csv"}}, {list, []string{"screen", "-"}},
	} {
		screen, program := terminal(t)
		var fault bytes.Buffer
		status := make(chan int, 1)
		go func() {
			status <- run(c.args, strings.NewReader(c.in), program, &fault)
			fmt.Fprintln(program, "END OF TEST")
		}()
		var said strings.Builder
		for block := make([]byte, 4096); !strings.Contains(said.String(), "END OF TEST"); {
			n, err := screen.Read(block)
			require.NoError(t, err)
			said.Write(block[:n])
		}
		require.Equal(t, 0, <-status, "%v: %s", c.args, &fault)
		text := strings.ReplaceAll(said.String(), "\r\n", "\n")
		require.Contains(t, text, "1200")
		require.False(t, strings.ContainsFunc(text, isControl), "%v: %q", c.args, text)
	}
}
