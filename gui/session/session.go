package session

import (
	"context"
	"errors"
	"reflect"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Solve turns a Job into a Study; the error is a sizing.FieldErrors where the
// Job is at fault.
type Solve func(sizing.Job) (*sizing.Study, error)

// Session is one Job under edit.
type Session struct {
	solve    Solve
	tasks    *Tasks
	recovery recoveryCopy

	job    sizing.Job
	saved  *sizing.Job // as on disk; nil: nowhere
	path   string
	onDisk string // mark of what is at path, as last read or written
	units  units.Locale

	history history
	unread  []Unread

	study     *sizing.Study
	errors    sizing.FieldErrors
	shown     map[string]bool // paths whose faults are shown
	typed     string          // path typed into last, and not left yet
	left      []string        // those left while a solve was under way
	showNext  bool            // all faults of the next solve are shown
	fault     error           // a failure that is no fault of a field
	edition   int             // of the job
	good      int             // edition that the study belongs to
	running   bool
	keepFault error // of the newest recovery copy

	listeners []func()

	ranges ranges
}

// New starts a session with an empty Job and solves it. Work and progress need
// no way back to another thread.
func New(solve Solve, run Runner) *Session { return NewWith(solve, NewTasks(run, nil)) }

// NewWith is New for a window whose work runs in tasks.
func NewWith(solve Solve, tasks *Tasks) *Session {
	s := &Session{solve: solve, tasks: tasks, recovery: recoveryCopy{store: noStore{}}}
	s.Load(sizing.Job{Schema: sizing.Schema}, "")
	return s
}

// OnChange adds a listener that hears of every change of the Job, the Study,
// the path or the units.
func (s *Session) OnChange(f func()) { s.listeners = append(s.listeners, f) }

func (s *Session) changed() {
	for _, f := range s.listeners {
		f()
	}
}

// Tasks run the work of the window that shows this session.
func (s *Session) Tasks() *Tasks { return s.tasks }

// Close ends the session: work under way is cancelled, and the recovery copy is
// dropped for good, also where a solve under way was about to write one.
func (s *Session) Close() error {
	s.stopRanges()
	s.tasks.Close()
	return s.recovery.close()
}

// Job is a copy of the Job under edit.
func (s *Session) Job() sizing.Job { return s.job.Clone() }

// Peek shows the Job under edit without a copy, for reading a field; the
// caller changes nothing in it.
func (s *Session) Peek() *sizing.Job { return &s.job }

// Study is the newest Study that could be solved; nil before the first.
func (s *Session) Study() *sizing.Study { return s.study }

// Errors are the faults of the fields of the newest Job that was tried.
func (s *Session) Errors() sizing.FieldErrors { return s.errors }

// Fault is a failure of the newest solve that belongs to no field.
func (s *Session) Fault() error { return s.fault }

// Blank reports whether nothing has been entered yet: neither tonnage nor
// airflow, and there is no other fault. The window then asks for them and shows
// no fault.
func (s *Session) Blank() bool {
	return s.study == nil && s.job.DesignAirflow == 0 && s.job.Equipment.CoolingCapacity == 0 &&
		s.fault == nil && len(s.errors) == 1 && s.errors.At("design_airflow") != nil
}

// Stale reports whether the Study is not that of the present Job.
func (s *Session) Stale() bool { return s.good != s.edition }

// Solving reports whether a solve is running.
func (s *Session) Solving() bool { return s.running }

// Dirty reports whether the Job differs from the one on disk.
func (s *Session) Dirty() bool {
	return s.saved == nil || !reflect.DeepEqual(*s.saved, s.job)
}

// Path is the file of the Job, empty where it has none yet.
func (s *Session) Path() string { return s.path }

// OnDisk is the mark that NoteDisk was last told for the file of the Job.
func (s *Session) OnDisk() string { return s.onDisk }

// NoteDisk notes a mark of the present content of the Job's file, to detect
// later whether another program has changed it.
func (s *Session) NoteDisk(mark string) { s.onDisk = mark }

// MarkSaved notes that the Job as it stands is on disk at path.
func (s *Session) MarkSaved(path string) {
	s.setSaved(path)
	s.keepFault = nil
	s.history.seal()
	s.recovery.drop()
	s.changed()
}

// MarkUnsaved notes that the Job is no longer on disk, its file being gone.
func (s *Session) MarkUnsaved() {
	s.saved, s.onDisk = nil, ""
	s.resolve() // with a recovery copy
}

// Load puts another Job in place, as read from path. Its history starts again,
// and nothing of the Job before stays in view.
func (s *Session) Load(job sizing.Job, path string) {
	s.job = job.Clone()
	s.history, s.unread = history{}, nil
	s.shown, s.typed, s.left, s.showNext = nil, "", nil, false
	s.study, s.errors, s.fault, s.keepFault = nil, nil, nil, nil
	s.onDisk = ""
	s.setSaved(path)
	s.recovery.drop()
	s.resolve()
}

func (s *Session) setSaved(path string) {
	saved := s.job.Clone()
	s.saved, s.path = &saved, path
}

// Units is the system in which numbers are shown and numbers without a unit are read.
func (s *Session) Units() units.Locale { return s.units }

// SetUnits changes what is shown; the Job and the Study stay as they are.
func (s *Session) SetUnits(u units.Locale) {
	if s.units != u {
		s.units = u
		s.changed()
	}
}

// Apply makes one change to the Job, undone as one step under its name.
func (s *Session) Apply(name string, change func(*sizing.Job)) {
	s.apply(name, "", change)
}

// Type makes a change to one field, known by its path. Further changes to the
// same field join the step, so that undo takes back what was typed there and
// not its last letter.
func (s *Session) Type(path, name string, change func(*sizing.Job)) {
	s.apply(name, path, change)
}

func (s *Session) apply(name, field string, change func(*sizing.Job)) {
	before := s.job
	after := before.Clone()
	change(&after)
	if reflect.DeepEqual(before, after) {
		return
	}
	s.job = after
	if field == "" {
		s.follow(&before, &after)
	} else if s.typed != field {
		s.showTyped()
		s.typed = field
	}
	s.history.add(step{name: name, field: field, before: before, after: after})
	s.resolve()
}

// Undo takes back the newest step; where a text cannot be read, that text first.
func (s *Session) Undo() {
	if n := len(s.unread); n > 0 {
		s.unread = s.unread[:n-1]
		s.history.seal()
		s.changed()
		return
	}
	if job, ok := s.history.back(); ok {
		s.job = job
		s.showNext = true
		s.resolve()
	}
}

// Redo makes again the step last undone.
func (s *Session) Redo() {
	if job, ok := s.history.forward(); ok {
		if s.history.steps[s.history.applied-1].field == "" {
			s.follow(&s.job, &job)
		}
		s.job = job
		s.showNext = true
		s.resolve()
	}
}

// UndoName names the step that Undo would take back, empty where there is none.
func (s *Session) UndoName() string {
	if n := len(s.unread); n > 0 {
		return s.unread[n-1].Name
	}
	return s.history.backName()
}

// RedoName names the step that Redo would make again.
func (s *Session) RedoName() string { return s.history.forwardName() }

// EndTyping closes the step of a field that is left, so that what is typed next
// is a step of its own; a text that cannot be read is reported from now on.
func (s *Session) EndTyping() {
	s.EndStep()
	s.showTyped()
	s.leaveUnread()
}

// EndStep closes the step of a field that is still typed into, as from cell to
// cell of a table.
func (s *Session) EndStep() { s.history.seal() }

// resolve asks for the Study of the Job as it now stands. At most one solve
// runs; edits meanwhile are taken up, newest only, when it is done.
func (s *Session) resolve() {
	s.edition++
	s.stopRanges()
	if !s.running {
		s.start()
	}
	s.changed()
}

func (s *Session) start() {
	s.running = true
	var (
		job       = s.job.Clone()
		path      = s.path
		onDisk    = s.onDisk
		edition   = s.edition
		keep      = func() error { return nil }
		study     *sizing.Study
		copyFault error
	)
	if s.Dirty() {
		keep = s.recovery.writer(Recovery{Job: job, Path: path, OnDisk: onDisk})
	}
	s.tasks.Go(func(context.Context) (err error) {
		defer func() { copyFault = keep() }() // also where the engine panics
		study, err = s.solve(job)
		return err
	}, func(err error) {
		s.running = false
		s.keepFault = copyFault // the edit itself matters more than its copy
		if !s.Dirty() {
			s.recovery.drop()
		}
		if edition != s.edition {
			s.start()
			return
		}
		s.receive(edition, study, err)
	})
}

// receive notes the result of the newest edition.
func (s *Session) receive(edition int, study *sizing.Study, err error) {
	s.errors, s.fault = nil, nil
	switch {
	case err == nil:
		s.study, s.good = study, edition
	case !errors.As(err, &s.errors):
		s.fault = err
	}
	s.updateShown()
	s.changed()
	s.startRanges() // the Study is in view by then
}
