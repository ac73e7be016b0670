package gui

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"

	"returnbench/gui/session"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// processLock names one run of the program, which holds a lock for as long as it lasts:
// the system frees it however the process ends, and a reused process number
// cannot be mistaken for it.
type processLock struct {
	name string
	lock *flock.Flock
}

func newProcessLock(dir string) (processLock, error) {
	s := processLock{name: strings.ToLower(rand.Text())}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return s, err
	}
	removeLeftovers(dir, time.Now().Add(-24*time.Hour))
	s.lock = flock.New(lockPath(dir, s.name))
	held, err := s.lock.TryLock()
	if err == nil && !held {
		err = message.Errorf("another run of the program uses {file}", "file", s.lock.Path())
	}
	return s, err
}

// removeLeftovers removes half-written files and free locks older than a time,
// which killed runs left beside their copies. A younger lock may be about to be
// taken. What cannot be removed harms nothing.
func removeLeftovers(dir string, before time.Time) {
	_ = atomicfile.RemoveTemporary(dir, before)
	locks, _ := filepath.Glob(lockPath(dir, "*"))
	for _, path := range locks {
		info, err := os.Stat(path)
		if err != nil || !info.ModTime().Before(before) {
			continue
		}
		lock := flock.New(path)
		if free, err := lock.TryLock(); err == nil && free {
			_ = os.Remove(path)
			_ = lock.Unlock()
		}
	}
}

// end frees the lock and removes its file.
func (s processLock) end() {
	if s.lock != nil && s.lock.Locked() {
		_ = os.Remove(s.lock.Path()) // an empty file, whose name is not used again
		_ = s.lock.Unlock()
	}
}

// isRunning reports whether the run that made a lock still holds it.
func isRunning(dir, name string) bool {
	path := lockPath(dir, name)
	if _, err := os.Stat(path); err != nil {
		return false
	}
	lock := flock.New(path)
	free, err := lock.TryLock()
	if free {
		_ = lock.Unlock()
	}
	return err == nil && !free
}

func lockPath(dir, name string) string { return filepath.Join(dir, "sitting-"+name+".lock") }

// recoveryStore keeps the unsaved job of one window in a file named after its
// run and the window, and finds those that earlier runs left behind.
type recoveryStore struct {
	folder   userFolder
	lock     processLock // held with it: a lock that nobody holds is closed by the collector
	window   int
	found    string          // file that Kept found
	restored []string        // files of earlier sessions that this window restored
	handled  map[string]bool // those that any window restored, or that cannot be read
}

func newRecoveryStore(p *program) *recoveryStore {
	return &recoveryStore{folder: p.userFolder, lock: p.lock, window: p.opened, handled: p.handled}
}

const recoveryPrefix, recoverySuffix = "unsaved-", ".json"

// asidePrefix begins the name of a copy that cannot be read.
const asidePrefix = "unreadable-"

// recoveryCopy is the file: where the job belongs, what was there, when it was
// kept, and the job as jobfile writes it.
type recoveryCopy struct {
	Path   string          `json:"path"`
	OnDisk string          `json:"on_disk,omitempty"`
	Time   time.Time       `json:"time"`
	Job    json.RawMessage `json:"job"`
}

func (r *recoveryStore) file() string {
	return filepath.Join(r.folder.dir, fmt.Sprintf("%s%s-%d%s", recoveryPrefix, r.lock.name, r.window, recoverySuffix))
}

// Keep writes the copy whole or not at all.
func (r *recoveryStore) Keep(rec session.Recovery) error {
	job, err := jobfile.Encode(rec.Job)
	if err != nil {
		return err
	}
	data, err := json.Marshal(recoveryCopy{Path: rec.Path, OnDisk: rec.OnDisk, Time: time.Now(), Job: job})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.folder.dir, 0o755); err != nil {
		return err
	}
	return atomicfile.Write(r.file(), data, 0o600)
}

// asideError tells of copies that cannot be read and were set aside.
type asideError struct{ faults []error }

func (e *asideError) Error() string { return errors.Join(e.faults...).Error() }

// In writes each on a line of its own.
func (e *asideError) In(l units.Locale) string {
	lines := make([]string, len(e.faults))
	for i, fault := range e.faults {
		lines[i] = message.Fault(l, fault)
	}
	return strings.Join(lines, "\n")
}

// Kept finds a copy that an earlier session left. One that cannot be read is
// renamed and reported, and does not hide others.
func (r *recoveryStore) Kept() (*session.Recovery, error) {
	entries, err := os.ReadDir(r.folder.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var aside []error
	for _, e := range entries {
		suffix, ok := strings.CutPrefix(e.Name(), recoveryPrefix)
		if !ok || !strings.HasSuffix(suffix, recoverySuffix) {
			continue
		}
		name, _, _ := strings.Cut(strings.TrimSuffix(suffix, recoverySuffix), "-")
		file := filepath.Join(r.folder.dir, e.Name())
		if name == r.lock.name || r.handled[file] || isRunning(r.folder.dir, name) {
			continue
		}
		kept, err := r.read(file)
		if err == nil {
			r.found = file
			return kept, asideFault(aside)
		}
		aside = append(aside, r.setAside(file, suffix, err))
	}
	return nil, asideFault(aside)
}

func asideFault(faults []error) error {
	if faults == nil {
		return nil
	}
	return &asideError{faults}
}

func (r *recoveryStore) read(file string) (*session.Recovery, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var c recoveryCopy
	if err := json.Unmarshal(data, &c); err != nil {
		return nil, err
	}
	job, err := jobfile.Decode(c.Job)
	if err != nil {
		return nil, err
	}
	return &session.Recovery{Job: job, Path: c.Path, OnDisk: c.OnDisk, Time: c.Time}, nil
}

// setAside gives a copy that cannot be read a name that is not offered.
func (r *recoveryStore) setAside(file, suffix string, fault error) error {
	r.handled[file] = true
	to := filepath.Join(r.folder.dir, asidePrefix+suffix)
	if err := os.Rename(file, to); err != nil {
		return message.Errorf("{file}: {fault}", "file", file, "fault", errors.Join(fault, err))
	}
	return message.Errorf("{file}: {fault}", "file", to, "fault", fault)
}

// takeOver takes over the copy that another window's store found.
func (r *recoveryStore) takeOver(other *recoveryStore) {
	if other.found == "" {
		return
	}
	r.handled[other.found] = true
	r.restored = append(r.restored, other.found)
	other.found = ""
}

// deleteFound removes the copy that was found.
func (r *recoveryStore) deleteFound() error {
	file := r.found
	r.found = ""
	return remove(file)
}

// Drop removes the copy of this window, and those that it took up.
func (r *recoveryStore) Drop() error {
	files := append([]string{r.file()}, r.restored...)
	r.restored = nil
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
