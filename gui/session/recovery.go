package session

import (
	"sync"
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
// others on the caller's thread; the Session never calls Keep and Drop at once.
type Store interface {
	Keep(Recovery) error
	Kept() (*Recovery, error) // nil where there is none
	Drop() error
}

type noStore struct{}

func (noStore) Keep(Recovery) error      { return nil }
func (noStore) Kept() (*Recovery, error) { return nil, nil }
func (noStore) Drop() error              { return nil }

// recoveryCopy is the copy that this session may have left in its store. A copy
// of work that is saved, discarded or closed by then is not written any more,
// whatever thread is about to write it.
type recoveryCopy struct {
	mu      sync.Mutex // the copy is written where the work runs
	store   Store
	edition int  // of the work that a copy may be written of
	kept    bool // there may be a copy of this session's own
	closed  bool
}

// writer returns what writes a copy, unless drop or close is called before.
func (r *recoveryCopy) writer(copy Recovery) func() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	edition := r.edition
	r.kept = true
	return func() error {
		r.mu.Lock()
		defer r.mu.Unlock()
		if edition != r.edition || r.closed {
			return nil
		}
		return r.store.Keep(copy)
	}
}

// drop removes what this session kept; a copy that an earlier session left is not
// its to remove.
func (r *recoveryCopy) drop() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.edition++
	if r.kept {
		r.kept = r.store.Drop() != nil // tried again with the next drop
	}
}

// discard removes the copy, also one of an earlier session.
func (r *recoveryCopy) discard() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.edition++
	return r.store.Drop()
}

// close is discard for good.
func (r *recoveryCopy) close() error {
	r.mu.Lock()
	r.closed = true
	r.mu.Unlock()
	return r.discard()
}

// KeepIn sets the store of recovery copies. What it already holds is left
// there to be offered.
func (s *Session) KeepIn(store Store) { s.recovery.store = store }

// Offered is the copy that an earlier session left unsaved, nil where none.
func (s *Session) Offered() (*Recovery, error) { return s.recovery.store.Kept() }

// Restore loads a recovery copy: unsaved, with no history.
func (s *Session) Restore(r Recovery) {
	s.job = r.Job.Clone()
	s.history, s.unread = history{}, nil
	s.saved, s.path, s.onDisk = nil, r.Path, r.OnDisk
	s.showNext = true
	s.resolve()
}

// Discard drops the recovery copy unused.
func (s *Session) Discard() error { return s.recovery.discard() }

// KeepFault is why the newest edit has no recovery copy; nil where it has one.
func (s *Session) KeepFault() error { return s.keepFault }
