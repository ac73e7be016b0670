package atomicfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode/utf8"

	"returnbench/sizing/message"
)

// ErrReadOnly: the owner does not allow the file to be changed.
var ErrReadOnly = message.Errorf("the file is read-only; allow writing to it, or choose another name")

// errFolder: the path is a folder.
var errFolder = message.Errorf("it is a folder; want a file")

// longestName is the longest name that common file systems allow, in bytes.
const longestName = 255

// BackupSuffix ends the name of the version before.
const BackupSuffix = ".bak"

// temporaryPrefix begins the name of a file that is being written.
const temporaryPrefix = ".returnbench-"

// RemoveTemporary removes from a folder the temporary files older than a time, which
// writers left there that were killed.
func RemoveTemporary(dir string, before time.Time) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	var faults []error
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !strings.HasPrefix(e.Name(), temporaryPrefix) || !info.Mode().IsRegular() || !info.ModTime().Before(before) {
			continue
		}
		faults = append(faults, os.Remove(filepath.Join(dir, e.Name())))
	}
	return errors.Join(faults...)
}

// Write puts data in place of the file at path. The mode is of a new file; an
// old one keeps its own.
func Write(path string, data []byte, mode fs.FileMode) error {
	return write(path, data, mode, false)
}

// WriteKeeping is Write, with the version before kept beside the file under its
// name and BackupSuffix.
func WriteKeeping(path string, data []byte, mode fs.FileMode) error {
	return write(path, data, mode, true)
}

func write(path string, data []byte, mode fs.FileMode, keep bool) error {
	target, old, err := Resolve(path)
	if err == nil && old != nil {
		err = Writable(path, old)
	}
	if err != nil {
		return err
	}
	if old != nil && !old.Mode().IsRegular() {
		return overwrite(target, bytes.NewReader(data)) // a device or a pipe
	}
	temporary, sameOwner, err := writeTemporary(target, old, data, mode)
	if err != nil {
		return err
	}
	defer os.Remove(temporary) // gone already where it took the file's place
	inPlace := old != nil && (linkCount(old) > 1 || !sameOwner)
	if old != nil && (keep || inPlace) {
		if err := backup(target, old, data); err != nil {
			return err
		}
	}
	if inPlace {
		// Another name, or another owner, would be lost with a new file. The
		// version before is safe by now.
		return overwrite(target, bytes.NewReader(data))
	}
	if err := os.Rename(temporary, target); err != nil {
		return err
	}
	return SyncFolder(filepath.Dir(target))
}

// Resolve follows links to the file that a path leads to. The file may not
// exist yet; its information is then nil.
func Resolve(path string) (target string, info fs.FileInfo, err error) {
	if name := filepath.Base(path); len(name) > longestName {
		return "", nil, &fs.PathError{Op: "write", Path: path,
			Err: message.Errorf("the name takes {bytes} bytes; want at most {most}", "bytes", len(name), "most", longestName)}
	}
	const mostLinks = 40
	target = path
	for range mostLinks {
		info, err = os.Lstat(target)
		if errors.Is(err, fs.ErrNotExist) {
			return target, nil, nil
		}
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			return target, info, err
		}
		next, err := os.Readlink(target)
		if err != nil {
			return "", nil, err
		}
		if !filepath.IsAbs(next) {
			next = filepath.Join(filepath.Dir(target), next)
		}
		target = next
	}
	return "", nil, &fs.PathError{Op: "write", Path: path, Err: message.Errorf("the links run in a circle")}
}

// writeTemporary writes data to a new file beside target, synced, with the mode and the
// owner of the old one. The short name leaves room for any name of the target.
func writeTemporary(target string, old fs.FileInfo, data []byte, mode fs.FileMode) (path string, sameOwner bool, err error) {
	if old != nil {
		mode = old.Mode().Perm()
	}
	f, err := create(filepath.Dir(target), mode)
	if err != nil {
		return "", false, err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	sameOwner = true
	if old != nil {
		if err := f.Chmod(mode); err != nil { // the umask took some of it
			return "", false, err
		}
		sameOwner = takeOwner(f, old)
	}
	if _, err := f.Write(data); err != nil {
		return "", false, err
	}
	if err := f.Sync(); err != nil {
		return "", false, err
	}
	return f.Name(), sameOwner, f.Close()
}

func create(dir string, mode fs.FileMode) (*os.File, error) {
	const tries = 100
	for try := 1; ; try++ {
		f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf("%s%016x", temporaryPrefix, rand.Uint64())), os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode|0o200)
		if !errors.Is(err, fs.ErrExist) || try == tries {
			return f, err
		}
	}
}

// overwrite writes into a file that is there.
func overwrite(path string, from io.Reader) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	size, err := io.Copy(f, from)
	if err != nil {
		return err
	}
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return err
	}
	if err := f.Truncate(size); err != nil {
		return err
	}
	return f.Sync()
}

// backup copies what is at path beside it, unless nothing changes.
func backup(path string, old fs.FileInfo, data []byte) error {
	before, err := os.ReadFile(path)
	if err != nil || bytes.Equal(before, data) {
		return err
	}
	temporary, _, err := writeTemporary(path, old, before, 0)
	if err != nil {
		return err
	}
	if err := os.Rename(temporary, BackupPath(path)); err != nil {
		os.Remove(temporary)
		return err
	}
	return nil
}

// BackupPath is where the version before of a file is kept.
func BackupPath(path string) string { return Beside(path, BackupSuffix) }

// Beside is a path with a suffix more, and fewer letters where the name would be
// longer than file systems allow.
func Beside(path, suffix string) string {
	dir, name := filepath.Split(path)
	for len(name)+len(suffix) > longestName {
		_, size := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-size]
	}
	return dir + name + suffix
}

// Replace puts a file that is complete and synced in the place of the one at
// path, which keeps its mode, owner and links.
func Replace(temporary, path string) error {
	target, old, err := Resolve(path)
	if err != nil {
		return err
	}
	if old == nil {
		if err := os.Rename(temporary, target); err != nil {
			return err
		}
		return SyncFolder(filepath.Dir(target))
	}
	if err := Writable(path, old); err != nil {
		return err
	}
	f, err := os.OpenFile(temporary, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Chmod(old.Mode().Perm()); err != nil {
		return err
	}
	if sameOwner := takeOwner(f, old); !sameOwner || linkCount(old) > 1 {
		if err := overwrite(target, f); err != nil {
			return err
		}
		return os.Remove(temporary)
	}
	if err := f.Close(); err != nil { // some platforms cannot move an open file
		return err
	}
	if err := os.Rename(temporary, target); err != nil {
		return err
	}
	return SyncFolder(filepath.Dir(target))
}

// Writable returns the error with which Write would refuse to replace an
// existing file.
func Writable(path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return &fs.PathError{Op: "write", Path: path, Err: errFolder}
	case info.Mode().IsRegular() && info.Mode().Perm()&0o222 == 0:
		return &fs.PathError{Op: "write", Path: path, Err: ErrReadOnly}
	}
	return nil
}

// Same reports whether two paths lead to one file, through whatever links. Paths
// to files that do not exist are the same where their texts are.
func Same(a, b string) bool {
	one, err := os.Stat(a)
	other, fault := os.Stat(b)
	if err == nil && fault == nil {
		return os.SameFile(one, other)
	}
	return plain(a) == plain(b)
}

func plain(path string) string {
	if target, _, err := Resolve(path); err == nil {
		path = target
	}
	if dir, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		path = filepath.Join(dir, filepath.Base(path))
	}
	if whole, err := filepath.Abs(path); err == nil {
		return whole
	}
	return path
}

// WriteNew is Write for a new file. An existing file stays as it is, also where
// two programs write at the same time; the error is then fs.ErrExist.
func WriteNew(path string, data []byte, mode fs.FileMode) error {
	if len(filepath.Base(path)) > longestName {
		_, _, err := Resolve(path)
		return err
	}
	temporary, _, err := writeTemporary(path, nil, data, mode)
	if err != nil {
		return err
	}
	defer os.Remove(temporary)
	err = os.Link(temporary, path)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		// The disk has no hard links: create the name first, then write the
		// file.
		f, fault := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if fault != nil {
			return fault
		}
		if fault := f.Close(); fault != nil {
			return fault
		}
		err = os.Rename(temporary, path)
	}
	if err != nil {
		return err
	}
	return SyncFolder(filepath.Dir(path))
}
