package fieldpath

import (
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing/message"
)

// Step is one part of a path: the name of a field or, where the name is empty,
// the number of an element of a list.
type Step struct {
	Name  string
	Index int
}

// Path leads from a struct to a field in it or below it.
type Path []Step

func (p Path) String() string {
	out := ""
	for _, s := range p {
		if s.Name == "" {
			out = At(out, s.Index)
		} else {
			out = Join(out, s.Name)
		}
	}
	return out
}

// Parse reads a path. The error is an *Error.
func Parse(text string) (Path, error) {
	fault := func(given string, wanted message.ID, args ...any) (Path, error) {
		return nil, &Error{Path: text, Given: strconv.Quote(given), Wanted: message.New(wanted, args...)}
	}
	var out Path
	for i, part := range strings.Split(text, ".") {
		name, brackets, listed := strings.Cut(part, "[")
		if name == "" || strings.ContainsAny(name, "] \"\n\t") {
			return fault(part, "the name of a field as part {number} of the path, as in filters[0].depth", "number", i+1)
		}
		out = append(out, Step{Name: name})
		for listed {
			var digits string
			closed := false
			if digits, brackets, closed = strings.Cut(brackets, "]"); !closed {
				return fault(part, "a bracket that closes, such as {name}[0]", "name", name)
			}
			n, err := strconv.Atoi(digits)
			if err != nil || strconv.Itoa(n) != digits || n < 0 {
				return fault(part, numbered, "name", name)
			}
			out = append(out, Step{Index: n})
			if brackets, listed = strings.CutPrefix(brackets, "["); !listed && brackets != "" {
				return fault(part, "a point behind {name}[{number}]", "name", name, "number", n)
			}
		}
	}
	return out, nil
}

// Join is the path of a field of what a path leads to.
func Join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// At is the path of an element of a list.
func At(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

// The functions below take any text, also one that is no path of a field:
// faults and labels use them.

// Parent is the path of the struct or list that contains the end of a path,
// empty at the top.
func Parent(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }

// Name is the name of the last field of a path.
func Name(path string) string {
	name, _, _ := strings.Cut(path[strings.LastIndex(path, ".")+1:], "[")
	return name
}

// Within reports whether a path leads to a holder or to something in it.
func Within(path, holder string) bool {
	rest, ok := strings.CutPrefix(path, holder)
	return ok && (rest == "" || holder != "" && strings.ContainsAny(rest[:1], ".["))
}

var index = regexp.MustCompile(`\[(\d+)\]`)

// First is the path of the same field of the first element of each list.
func First(path string) string { return index.ReplaceAllString(path, "[0]") }

// Elements are the paths of the elements of lists that a path leads through, the
// outermost first.
func Elements(path string) []string {
	var out []string
	for _, at := range index.FindAllStringIndex(path, -1) {
		out = append(out, path[:at[1]])
	}
	return out
}

// Index is the number at the end of the path of an element.
func Index(path string) (i int, ok bool) {
	digits := strings.TrimSuffix(path[strings.LastIndex(path, "[")+1:], "]")
	i, err := strconv.Atoi(digits)
	return i, err == nil && strings.HasSuffix(path, "]")
}
