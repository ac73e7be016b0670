package main

import (
	_ "embed"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// equivalent is a fault that changes no result, so that no test can catch it.
type equivalent struct{ path, reason, before, after string }

//go:embed equivalents.txt
var equivalentsText string

// equivalents reads a list of blocks with a blank line between: the path, the
// reason, the lines before and after as the report of a survivor shows them.
// Lines that begin with # are comments.
func equivalents(text string) ([]equivalent, error) {
	var out []equivalent
	for block := range strings.SplitSeq(text, "\n\n") {
		var e equivalent
		for line := range strings.Lines(block) {
			line = strings.TrimSpace(line)
			switch {
			case line == "" || line[0] == '#':
			case line[0] == '-':
				e.before = joined(e.before, line[1:])
			case line[0] == '+':
				e.after = joined(e.after, line[1:])
			case e.path == "":
				e.path = line
			default:
				e.reason = joined(e.reason, line)
			}
		}
		if e == (equivalent{}) {
			continue
		}
		if e.path == "" || e.reason == "" || e.before == "" {
			return nil, fmt.Errorf("equivalents: want a path, a reason and the lines before and after: %q", block)
		}
		out = append(out, e)
	}
	return out, nil
}

func joined(lines ...string) string {
	return strings.Join(strings.Fields(strings.Join(lines, " ")), " ")
}

// is reports whether the fault is the one of the list.
func (e equivalent) is(f fault) bool {
	if filepath.ToSlash(f.path) != e.path {
		return false
	}
	before, after := f.lines()
	return joined(before) == e.before && joined(after) == e.after
}

// withoutEquivalents leaves out the faults of the list, and tells how many.
func withoutEquivalents(faults []fault, list []equivalent) ([]fault, int) {
	all := len(faults)
	faults = slices.DeleteFunc(faults, func(f fault) bool {
		return slices.ContainsFunc(list, func(e equivalent) bool { return e.is(f) })
	})
	return faults, all - len(faults)
}
