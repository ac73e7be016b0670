//go:build unix

package processor

import "syscall"

// nanoseconds is the time that this process has used, in its own code and in the
// system's.
func nanoseconds() (int64, bool) {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0, false
	}
	return u.Utime.Nano() + u.Stime.Nano(), true
}
