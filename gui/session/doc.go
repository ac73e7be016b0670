// Package session holds the Job being edited and the Study that follows from it,
// with undo, the unsaved mark, and a recovery copy. It does not import the toolkit:
// work outside the caller's thread goes through an injected Runner, so that a test
// runs the same code in order. After the Study the ranges of its numbers are
// sampled: work that can be cancelled, reports its progress, and ends with the next
// edit.
//
// Every method is called on one thread, the one on which the Runner calls
// done. Only the work handed to the Runner runs elsewhere, and it touches
// nothing but its own copy of the Job.
package session
