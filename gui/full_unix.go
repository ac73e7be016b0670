//go:build !windows

package gui

import (
	"errors"
	"syscall"
)

// isFull reports whether a disk, or the user's quota on it, is full.
func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}
