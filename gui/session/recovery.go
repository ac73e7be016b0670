package session

import (
	"time"

	"returnbench/sizing"
)

// Recovery is a Job that had not been saved, and the file it belongs to.
type Recovery struct {
	Job    sizing.Job
	Path   string
	OnDisk string    // mark of what the file held when it was last read or written
	Time   time.Time // when it was kept
}

// Store keeps one recovery copy. Keep is called where the work runs, the
// others on the caller's thread; the Session never runs two Keeps at once.
type Store interface {
	Keep(Recovery) error
	Kept() (*Recovery, error) // nil where there is none
	Drop() error
}

type noStore struct{}

func (noStore) Keep(Recovery) error      { return nil }
func (noStore) Kept() (*Recovery, error) { return nil, nil }
func (noStore) Drop() error              { return nil }

// KeepIn sets the store of recovery copies. What it already holds is left
// there to be offered.
func (s *Session) KeepIn(store Store) { s.store = store }

// Offered is the copy that an earlier sitting left unsaved, nil where none.
func (s *Session) Offered() (*Recovery, error) { return s.store.Kept() }

// Restore takes up a recovery copy: unsaved, with no history.
func (s *Session) Restore(r Recovery) {
	s.job = r.Job.Clone()
	s.history, s.unread = history{}, nil
	s.saved, s.path, s.onDisk = nil, r.Path, r.OnDisk
	s.resolve()
}

// Discard ends the session: the recovery copy is dropped unused, and no work is
// begun any more.
func (s *Session) Discard() error {
	s.ended = true
	s.stopRanges()
	return s.store.Drop()
}

// KeepFault is why the newest edit has no recovery copy; nil where it has one.
func (s *Session) KeepFault() error { return s.keepFault }

// dropRecovery drops what this session kept; a copy that an earlier sitting
// left is not its to drop. Work still running may yet write a copy, so it is
// dropped once more when that is done.
func (s *Session) dropRecovery() {
	if s.kept {
		failed := s.store.Drop() != nil
		s.kept = failed || s.running
	}
}
