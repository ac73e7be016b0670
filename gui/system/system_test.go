package system

import (
	"errors"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// machine is one of a kind, with what was run on it.
type machine struct {
	System
	ran [][]string
}

func newMachine(os string, output string, fault error) *machine {
	m := &machine{}
	m.System = System{
		OS:   os,
		Find: func(name string) (string, error) { return "/bin/" + name, nil },
		Run: func(name string, args ...string) ([]byte, error) {
			m.ran = append(m.ran, append([]string{name}, args...))
			return []byte(output), fault
		},
	}
	return m
}

func TestPrint(t *testing.T) {
	want := []string{"/bin/lp", "-t", "Hill's house", "-o", "media=a4", "/a/b 'c'.pdf"}
	for _, os := range []string{"linux", "darwin"} {
		m := newMachine(os, "", nil)
		later, err := m.Print("/a/b 'c'.pdf", "Hill's house", "a4")
		require.NoError(t, err)
		require.False(t, later)
		require.Equal(t, [][]string{want}, m.ran)
	}
}

// TestPrint_AnyName: where a desktop prints, the path reaches it as it
// is, with every sign that ends a string in some shell, and no command is run.
func TestPrint_AnyName(t *testing.T) {
	const hostile = "C:\\jobs\\Hill's \u2019; calc; \u2018 \u201c\u201d \" $(calc) `calc` & %PATH%.pdf"
	m := newMachine("windows", "", nil)
	var asked []string
	m.Shell = func(verb, path string) error {
		asked = append(asked, verb, path)
		return nil
	}
	later, err := m.Print(hostile, "Hill's house", "letter")
	require.NoError(t, err)
	require.True(t, later, "the file is read after the call is back")
	require.NoError(t, m.OpenFolder(hostile))
	require.Equal(t, []string{"print", hostile, "open", hostile}, asked)
	require.Empty(t, m.ran)
}

func TestOpenFolder(t *testing.T) {
	for os, want := range map[string]string{"linux": "/bin/xdg-open", "freebsd": "/bin/xdg-open", "darwin": "/bin/open"} {
		m := newMachine(os, "", nil)
		require.NoError(t, m.OpenFolder("/a/b"))
		require.Equal(t, [][]string{{want, "/a/b"}}, m.ran)
	}
	require.Error(t, newMachine("linux", "", &exec.ExitError{}).OpenFolder("/a"))
}

// TestFault: what the machine lacks or says is reported in words.
func TestFault(t *testing.T) {
	m := newMachine("linux", "lp: Error - no default destination available.\n", errors.New("exit status 1"))
	_, err := m.Print("/a.pdf", "a", "letter")
	require.EqualError(t, err, "lp: lp: Error - no default destination available.: exit status 1")
	m.Find = func(string) (string, error) { return "", exec.ErrNotFound }
	_, err = m.Print("/a.pdf", "a", "letter")
	var missing *MissingError
	require.ErrorAs(t, err, &missing)
	require.EqualError(t, err, `no printing system was found: the program "lp" is not installed`)
	require.Len(t, m.ran, 1, "nothing more was run")
	require.ErrorAs(t, m.OpenFolder("/a"), &missing)
}

// TestMachine: programs of this machine are found and run.
func TestMachine(t *testing.T) {
	m := Machine()
	_, err := m.Find(filepath.Join(t.TempDir(), "none"))
	require.Error(t, err)
	goTool, err := m.Find("go")
	require.NoError(t, err)
	out, err := m.Run(goTool, "env", "GOOS")
	require.NoError(t, err)
	require.Contains(t, string(out), m.OS)
}
