package session

import (
	"context"
	"fmt"

	"returnbench/sizing/message"
)

// Runner runs work outside the caller's thread and then done on it.
type Runner func(work func(), done func())

// InStep is the Runner of tests and of pictures: everything at once, in order.
func InStep(work func(), done func()) {
	work()
	done()
}

// Tasks runs all work of one window that must not hold up its thread: solving,
// sampling, searching, drawing pages. A panic in the work becomes an error, so
// that the person's work is not lost. Close cancels what is under way, and
// nothing of it reaches the window afterwards.
type Tasks struct {
	run  Runner
	post func(func())
	ctx  context.Context // of the window: done once it is closed
	stop context.CancelFunc
}

// NewTasks makes the tasks of a window. post brings progress from the thread of
// the work to that of the window; nil where both are the same.
func NewTasks(run Runner, post func(func())) *Tasks {
	if post == nil {
		post = func(f func()) { f() }
	}
	t := &Tasks{run: run, post: post}
	t.ctx, t.stop = context.WithCancel(context.Background())
	return t
}

// Context is cancelled when the window closes. Work that can be cancelled by
// itself derives its own from it.
func (t *Tasks) Context() context.Context { return t.ctx }

// Go runs work away from the window's thread and then done on it, with the error
// of the work. Once the tasks are closed neither is called.
func (t *Tasks) Go(work func(context.Context) error, done func(error)) {
	if t.ctx.Err() != nil {
		return
	}
	var err error
	t.run(func() { err = withRecover(t.ctx, work) }, func() {
		if t.ctx.Err() == nil {
			done(err)
		}
	})
}

// Post runs f on the window's thread, unless the window is closed by then.
func (t *Tasks) Post(f func()) {
	t.post(func() {
		if t.ctx.Err() == nil {
			f()
		}
	})
}

// Close cancels all work.
func (t *Tasks) Close() { t.stop() }

func withRecover(ctx context.Context, work func(context.Context) error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = message.Errorf("an error inside the program stopped this work: {fault}", "fault", fmt.Sprint(r))
		}
	}()
	if err := ctx.Err(); err != nil {
		return err
	}
	return work(ctx)
}
