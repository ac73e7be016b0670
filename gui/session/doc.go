// Package session holds the Job being edited and the Study that follows from
// it, with undo, the unsaved mark, and a recovery copy. It knows no toolkit:
// how work leaves the caller's thread is injected as a Runner, so a test runs
// the same code in step. Beside the Study, and never in its way, the ranges of its
// numbers are sampled: work that can be cancelled, that tells its progress, and that
// the next edit ends.
//
// Every method is called on one thread, the one on which the Runner calls
// done. Only the work handed to the Runner runs elsewhere, and it touches
// nothing but its own copy of the Job.
package session
