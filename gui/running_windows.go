package gui

import "os"

// running tells whether a process is alive: opening one that is not fails.
func running(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	_ = p.Release()
	return true
}
