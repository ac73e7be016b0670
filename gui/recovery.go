package gui

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"returnbench/gui/session"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
)

// recoveryStore keeps the unsaved job of one window in a file named after this
// process and the window, and finds those that processes no longer running left
// behind.
type recoveryStore struct {
	own    own
	pid    int
	window int
	runs   func(pid int) bool
	left   string          // file that Kept found
	mine   []string        // files of earlier sittings that this window took up
	taken  map[string]bool // those that any window took up
}

func newRecoveryStore(p *program) *recoveryStore {
	return &recoveryStore{own: p.own, pid: os.Getpid(), window: p.opened, runs: running, taken: p.taken}
}

const recoveryPrefix, recoverySuffix = "unsaved-", ".json"

// recoveryCopy is the file: where the job belongs, and the job as jobfile
// writes it.
type recoveryCopy struct {
	Path string          `json:"path"`
	Job  json.RawMessage `json:"job"`
}

func (r *recoveryStore) file() string {
	return filepath.Join(r.own.dir, fmt.Sprintf("%s%d-%d%s", recoveryPrefix, r.pid, r.window, recoverySuffix))
}

// Keep writes the copy whole or not at all.
func (r *recoveryStore) Keep(rec session.Recovery) error {
	job, err := jobfile.Encode(rec.Job)
	if err != nil {
		return err
	}
	data, err := json.Marshal(recoveryCopy{Path: rec.Path, Job: job})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.own.dir, 0o755); err != nil {
		return err
	}
	return atomicfile.Write(r.file(), data, 0o600)
}

// Kept finds a copy that an earlier sitting left.
func (r *recoveryStore) Kept() (*session.Recovery, error) {
	entries, err := os.ReadDir(r.own.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		rest, ok := strings.CutPrefix(e.Name(), recoveryPrefix)
		if !ok || !strings.HasSuffix(rest, recoverySuffix) {
			continue
		}
		process, _, _ := strings.Cut(strings.TrimSuffix(rest, recoverySuffix), "-")
		pid, err := strconv.Atoi(process)
		file := filepath.Join(r.own.dir, e.Name())
		if err != nil || pid == r.pid || r.runs(pid) || r.taken[file] {
			continue
		}
		return r.read(file)
	}
	return nil, nil
}

func (r *recoveryStore) read(file string) (*session.Recovery, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var c recoveryCopy
	if err := json.Unmarshal(data, &c); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	job, err := jobfile.Decode(c.Job)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	r.left = file
	return &session.Recovery{Job: job, Path: c.Path}, nil
}

// takeFrom takes over the copy that another window's store found.
func (r *recoveryStore) takeFrom(other *recoveryStore) {
	if other.left == "" {
		return
	}
	r.taken[other.left] = true
	r.mine = append(r.mine, other.left)
	other.left = ""
}

// throwAway removes the copy that was found.
func (r *recoveryStore) throwAway() error {
	file := r.left
	r.left = ""
	return remove(file)
}

// Drop removes the copy of this window, and those that it took up.
func (r *recoveryStore) Drop() error {
	files := append([]string{r.file()}, r.mine...)
	r.mine = nil
	return remove(files...)
}

func remove(files ...string) error {
	var faults []error
	for _, f := range files {
		if err := os.Remove(f); err != nil && !errors.Is(err, fs.ErrNotExist) {
			faults = append(faults, err)
		}
	}
	return errors.Join(faults...)
}
