package main

import (
	"io"
	"io/fs"
	"os"

	"returnbench/sizing/jobfile/atomicfile"
)

// partialSuffix ends the name of the file in which rows gather until all are
// there; --resume goes on with it.
const partialSuffix = ".part"

// outFile is a list in the making. Nothing is opened before the first row, so
// that an input at fault leaves what was there; the rows gather beside it and
// take its place at the end.
type outFile struct {
	w       io.Writer   // nil: not open yet
	path    string      // as it was asked for; empty: standard output
	target  string      // where its links lead
	old     fs.FileInfo // of what is there; nil: nothing
	partial string      // where the rows gather
	direct  bool        // to a device or a pipe
	end     int64       // of the rows of an earlier run
	file    *os.File
	done    *os.File // the rows of an earlier run are read from
}

func newOutFile(path string) (*outFile, error) {
	target, old, err := atomicfile.Resolve(path)
	if err != nil {
		return nil, err
	}
	o := &outFile{path: path, target: target, old: old, partial: atomicfile.Beside(target, partialSuffix)}
	if old != nil {
		o.direct = !old.Mode().IsRegular()
		err = atomicfile.Writable(path, old)
	}
	return o, err
}

func (o *outFile) Write(p []byte) (int, error) {
	if o.w == nil {
		if err := o.open(); err != nil {
			return 0, err
		}
	}
	return o.w.Write(p)
}

// open cuts a row that an earlier run left unfinished.
func (o *outFile) open() error {
	name, mode := o.partial, os.O_RDWR|os.O_CREATE
	if o.direct {
		name, mode = o.target, os.O_WRONLY
	}
	f, err := os.OpenFile(name, mode, 0o644)
	if err != nil {
		return err
	}
	o.file, o.w = f, f
	if o.direct {
		return nil
	}
	if err := f.Truncate(o.end); err != nil {
		return err
	}
	_, err = f.Seek(o.end, io.SeekStart)
	return err
}

// keep puts the rows that are there on the disk, to be gone on from.
func (o *outFile) keep() error {
	if o.file == nil || o.direct {
		return nil
	}
	return o.file.Sync()
}

// finish lets the rows take their place.
func (o *outFile) finish() error {
	if o.path == "" {
		return nil
	}
	if o.w == nil {
		if err := o.open(); err != nil {
			return err
		}
	}
	err := o.keep()
	o.Close()
	if err != nil || o.direct || o.partial == o.target {
		return err
	}
	return atomicfile.Replace(o.partial, o.path)
}

// drop leaves no rows behind.
func (o *outFile) drop() error {
	o.Close()
	if o.w == nil || o.direct {
		return nil
	}
	return os.Remove(o.partial)
}

// Close leaves the rows where they are.
func (o *outFile) Close() {
	for _, f := range []*os.File{o.file, o.done} {
		if f != nil {
			_ = f.Close() // closed already, or reported by keep
		}
	}
	o.file, o.done = nil, nil
}
