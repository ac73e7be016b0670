package atomicfile

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

// A process of this test binary with these variables is a writer: it writes
// texts over and over, within a limit of the size of a file that stands for a
// full disk.
const (
	asWriter = "RETURNBENCH_TEST_WRITE"
	asLimit  = "RETURNBENCH_TEST_LIMIT"
	// longRun asks for the number of kills and full disks of a long run.
	longRun = "RETURNBENCH_KILLS"
)

func TestMain(m *testing.M) {
	if path, ok := os.LookupEnv(asWriter); ok {
		os.Exit(writeOn(path))
	}
	os.Exit(m.Run())
}

func text(n int) []byte { return []byte(strings.Repeat(strconv.Itoa(n%10), 100_000)) }

func writeOn(path string) int {
	if most, err := strconv.ParseUint(os.Getenv(asLimit), 10, 64); err == nil {
		if syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: most, Max: most}) != nil {
			return 2
		}
		if WriteKeeping(path, text(2), 0o644) != nil {
			return 1
		}
		return 0
	}
	for n := 0; ; n++ {
		if WriteKeeping(path, text(n), 0o644) != nil {
			return 1
		}
	}
}

func times(t *testing.T, usual int) int {
	t.Helper()
	if n, err := strconv.Atoi(os.Getenv(longRun)); err == nil {
		return n
	}
	return usual
}

func isWhole(data string) bool {
	return len(data) == 100_000 && strings.Count(data, data[:1]) == len(data)
}

// TestWrite_Killed: whenever a writer is killed, the file and the
// version before are whole.
func TestWrite_Killed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	require.NoError(t, WriteKeeping(path, text(1), 0o644))
	require.NoError(t, WriteKeeping(path, text(2), 0o644))
	for kill := range times(t, 20) {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), asWriter+"="+path)
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(3+kill%17) * time.Millisecond)
		require.NoError(t, c.Process.Kill())
		require.Error(t, c.Wait())
		require.True(t, isWhole(content(t, path)), "kill %d", kill)
		require.True(t, isWhole(content(t, path+BackupSuffix)), "kill %d", kill)
	}
}

// TestWrite_FullDisk: where the text does not fit, the file stays as it
// was and nothing is left beside it.
func TestWrite_FullDisk(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	require.NoError(t, Write(path, text(1), 0o644))
	for n := range times(t, 10) {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), asWriter+"="+path, asLimit+"="+strconv.Itoa(n*9_000%99_999))
		require.Error(t, c.Run())
		require.Equal(t, 1, c.ProcessState.ExitCode())
		require.Equal(t, string(text(1)), content(t, path))
		require.Equal(t, []string{"a"}, names(t, dir))
	}
}
