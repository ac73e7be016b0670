//go:build !windows

package gui

import (
	"errors"
	"syscall"
)

// isFull tells of a disk, or a share of it, that takes no more.
func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}
