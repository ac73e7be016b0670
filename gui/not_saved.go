package gui

import (
	"errors"
	"io/fs"

	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
)

// notSaved adds advice to an error of the disk; the work stays in the window in
// any case.
func notSaved(err error) error {
	var advice message.ID = "Try again, or use Save as for another place"
	switch {
	case isFull(err):
		advice = "The disk is full: free some room and save again, or use Save as for another disk"
	case errors.Is(err, atomicfile.ErrReadOnly):
		advice = "Use Save as for another name, or allow writing to the file and save again"
	case errors.Is(err, fs.ErrPermission):
		advice = "You may not write there: use Save as for a folder of your own"
	case errors.Is(err, fs.ErrNotExist):
		advice = "The folder or the drive is gone: connect it and save again, or use Save as for another place"
	}
	return message.Errorf("{fault}.\n\nThe work is still in this window. {advice}", "fault", err, "advice", advice)
}
