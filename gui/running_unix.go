//go:build !windows

package gui

import (
	"errors"
	"os"
	"syscall"
)

// running tells whether a process is alive; signal 0 only asks.
func running(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	err = p.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, os.ErrPermission)
}
