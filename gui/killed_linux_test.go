package gui

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// A process of this test binary with these variables plays a part in a folder, so
// that a test can kill it. longRun asks for the number of kills of a long run.
const (
	asRole  = "RETURNBENCH_TEST_ROLE"
	inDir   = "RETURNBENCH_TEST_DIR"
	longRun = "RETURNBENCH_KILLS"
)

var roles = map[string]func() int{"typist": typeWithoutEnd}

func TestMain(m *testing.M) {
	if role, ok := roles[os.Getenv(asRole)]; ok {
		os.Exit(role())
	}
	os.Exit(m.Run())
}

func playing(role, dir string, command ...string) *exec.Cmd {
	command = append(command, os.Args[0])
	c := exec.Command(command[0], command[1:]...)
	c.Env = append(os.Environ(), asRole+"="+role, inDir+"="+dir)
	return c
}

// keptIn is a session of a run of its own, without a window, whose copies are kept
// in a folder.
func keptIn(dir string) (*session.Session, *recoveryStore, error) {
	p := &program{userFolder: userFolder{dir: dir}, opened: 1, handled: map[string]bool{}}
	var err error
	if p.lock, err = newProcessLock(dir); err != nil {
		return nil, nil, err
	}
	s := session.New(func(job sizing.Job) (*sizing.Study, error) { return nil, job.Check() }, session.InStep)
	store := newRecoveryStore(p)
	s.KeepIn(store)
	return s, store, nil
}

// typeWithoutEnd edits a job that nobody saves. It tells its process number and
// then each airflow whose edit is done.
func typeWithoutEnd() int {
	s, _, err := keptIn(os.Getenv(inDir))
	if err != nil {
		return 1
	}
	fmt.Println(os.Getpid())
	for n := 100; ; n = following(n) {
		s.Apply("Airflow", func(j *sizing.Job) { j.DesignAirflow = units.Flow(n) * units.CFM })
		fmt.Println(n)
	}
}

// following is the airflow typed after another; no house takes more than 10,000.
func following(n int) int {
	if n == 9999 {
		return 100
	}
	return n + 1
}

// typingRun is a run that edits until it is killed.
type typingRun struct {
	*exec.Cmd
	out *bufio.Scanner
}

func startTyping(t *testing.T, dir string, command ...string) typingRun {
	t.Helper()
	c := playing("typist", dir, command...)
	r, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = c.Process.Kill()
		_ = c.Wait()
	})
	return typingRun{c, bufio.NewScanner(r)}
}

// says is the next number that the run tells.
func (r typingRun) says(t *testing.T) int {
	t.Helper()
	require.True(t, r.out.Scan(), "it has ended: %v", r.out.Err())
	n, err := strconv.Atoi(r.out.Text())
	require.NoError(t, err)
	return n
}

// dies kills the run and gives the last number that it told.
func (r typingRun) dies(t *testing.T, last int) int {
	t.Helper()
	require.NoError(t, r.Process.Kill())
	for r.out.Scan() {
		if n, err := strconv.Atoi(r.out.Text()); err == nil {
			last = n
		}
	}
	require.Error(t, r.Wait())
	return last
}

// Whenever a run is killed, its copy holds the last edit that was done, or the one
// under way; nothing half written is offered.
func TestACopyOutlivesAKill(t *testing.T) {
	kills := 10
	if n, err := strconv.Atoi(os.Getenv(longRun)); err == nil {
		kills = n
	}
	dir := t.TempDir()
	after, store, err := keptIn(dir)
	require.NoError(t, err)
	for kill := range kills {
		run := startTyping(t, dir)
		run.says(t)
		last := run.says(t)
		time.Sleep(time.Duration(kill%23) * time.Millisecond)
		last = run.dies(t, last)
		kept, err := after.Offered()
		require.NoError(t, err, "kill %d", kill)
		require.NotNil(t, kept, "kill %d", kill)
		airflow := int(math.Round(kept.Job.DesignAirflow.In(units.CFM)))
		require.Contains(t, []int{last, following(last)}, airflow, "kill %d", kill)
		require.NoError(t, store.deleteFound())
	}
	require.Empty(t, copies(t, dir, asidePrefix))
	t.Logf("%d kills", kills)
}
