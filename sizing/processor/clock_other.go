//go:build !unix

package processor

// nanoseconds is not known here.
func nanoseconds() (int64, bool) { return 0, false }
