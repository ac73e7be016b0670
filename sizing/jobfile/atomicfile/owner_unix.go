//go:build !windows

package atomicfile

import (
	"io/fs"
	"os"
	"syscall"
)

// linkCount is how many names a file has.
func linkCount(info fs.FileInfo) uint64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return uint64(s.Nlink)
	}
	return 1
}

// takeOwner gives a new file the owner and group of the old one, and reports
// whether it has them now.
func takeOwner(f *os.File, old fs.FileInfo) bool {
	want, known := old.Sys().(*syscall.Stat_t)
	if !known {
		return true
	}
	if info, err := f.Stat(); err == nil {
		if have, ok := info.Sys().(*syscall.Stat_t); ok && have.Uid == want.Uid && have.Gid == want.Gid {
			return true
		}
	}
	if f.Chown(int(want.Uid), int(want.Gid)) != nil {
		return false
	}
	return f.Chmod(old.Mode().Perm()) == nil // a change of owner may clear bits of the mode
}

// SyncFolder flushes the names of a folder to the disk.
func SyncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
