package gui

import (
	"errors"

	"golang.org/x/sys/windows"
)

// isFull tells of a disk that takes no more.
func isFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}
