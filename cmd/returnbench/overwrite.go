package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"returnbench/sizing/jobfile/atomicfile"
)

// notTheInput refuses an output that would overwrite what it is made from,
// whatever links or names lead there.
func notTheInput(s *streams, flag, output, input string) error {
	there := atomicfile.Same(output, input)
	if input == "-" {
		there = isOpenOn(s.in, output)
	}
	if info, err := os.Stat(output); !there || err != nil || !info.Mode().IsRegular() {
		return nil
	}
	return usageError{fmt.Errorf("%s %s: is the input itself; want another file", flag, output)}
}

// isOpenOn reports whether a stream reads the file at path.
func isOpenOn(in io.Reader, path string) bool {
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	from, err := f.Stat()
	if err != nil {
		return false
	}
	to, err := os.Stat(path)
	return err == nil && os.SameFile(from, to)
}

// notOverInput is notTheInput for every file of a kind in a folder.
func notOverInput(s *streams, flag, dir, suffix, input string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil // not there yet, or reported when it is written to
	}
	for _, e := range entries {
		if strings.EqualFold(filepath.Ext(e.Name()), suffix) {
			if err := notTheInput(s, flag, filepath.Join(dir, e.Name()), input); err != nil {
				return err
			}
		}
	}
	return nil
}
