package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// numbered is a fault under the number that switches it on.
type numbered struct {
	fault
	number int
}

// switchVariable tells the number in the woven sources, switchName in the
// environment of a test.
const (
	switchVariable = "plantedFault"
	switchName     = "PLANTED_FAULT"
)

// span is where in a woven file the copy of a function with a fault stands.
type span struct {
	first, last int // lines
	number      int
}

// weave gives the source of a file with all its faults, none of them on. Each
// function with a fault has a copy at the end of the file, which runs in its
// place when the fault's number is on: so one build serves all faults.
func weave(path string, source []byte, faults []numbered) (woven []byte, copies []span, err error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, nil, err
	}
	offset := func(p token.Pos) int { return files.Position(p).Offset }
	var ends [][]byte
	edits := map[int]string{} // what is put in, by its place
	for _, d := range file.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok || fn.Body == nil {
			continue
		}
		from, to := offset(fn.Pos()), offset(fn.End())
		own := slices.DeleteFunc(slices.Clone(faults), func(f numbered) bool { return f.start < from || f.end > to })
		if len(own) == 0 {
			continue
		}
		named, call := nameParameters(fn, offset)
		for at, text := range named {
			edits[at] += text
		}
		jumps := ""
		for _, f := range own {
			suffix := fmt.Sprintf("_fault%d", f.number)
			jump := fmt.Sprintf(call, suffix)
			if fn.Type.Results.NumFields() > 0 {
				jump = "return " + jump
			} else {
				jump += "; return"
			}
			jumps += fmt.Sprintf(" if %s == %d { %s };", switchVariable, f.number, jump)
			name := offset(fn.Name.End())
			ends = append(ends, slices.Concat(source[from:name], []byte(suffix), source[name:f.start], []byte(f.with), source[f.end:to]))
			copies = append(copies, span{number: f.number})
		}
		edits[offset(fn.Body.Lbrace)+1] += jumps
	}
	woven = insert(source, edits)
	for i, text := range ends {
		woven = append(woven, '\n')
		copies[i].first = lines(woven) + 1
		woven = append(append(woven, text...), '\n')
		copies[i].last = lines(woven)
	}
	return woven, copies, nil
}

func lines(text []byte) int { return strings.Count(string(text), "\n") }

func insert(source []byte, edits map[int]string) []byte {
	var out []byte
	for i, b := range source {
		out = append(append(out, edits[i]...), b)
	}
	return out
}

// nameParameters names what a function leaves unnamed, and tells how its copy is
// called with what it was given: %s is the end of the copy's name.
func nameParameters(fn *ast.FuncDecl, offset func(token.Pos) int) (edits map[int]string, call string) {
	edits = map[int]string{}
	name := func(field *ast.Field) []string {
		if len(field.Names) == 0 {
			n := fmt.Sprintf("given%d", len(edits))
			edits[offset(field.Type.Pos())] = n + " "
			return []string{n}
		}
		var out []string
		for _, id := range field.Names {
			n := id.Name
			if n == "_" {
				n = fmt.Sprintf("_given%d", len(edits))
				edits[offset(id.End())] = n[1:]
			}
			out = append(out, n)
		}
		return out
	}
	if fn.Recv != nil {
		call = name(fn.Recv.List[0])[0] + "."
	}
	call += fn.Name.Name + "%s"
	if types := fn.Type.TypeParams; types != nil {
		var names []string
		for _, t := range types.List {
			for _, id := range t.Names {
				names = append(names, id.Name)
			}
		}
		call += "[" + strings.Join(names, ", ") + "]"
	}
	var args []string
	for _, field := range fn.Type.Params.List {
		names := name(field)
		if _, variadic := field.Type.(*ast.Ellipsis); variadic {
			names[len(names)-1] += "..."
		}
		args = append(args, names...)
	}
	return edits, call + "(" + strings.Join(args, ", ") + ")"
}

// switchSource declares, in a package, which fault is on.
func switchSource(pkg string) string {
	return fmt.Sprintf("package %s\n\nimport (\n\t\"os\"\n\t\"strconv\"\n)\n\nvar %s, _ = strconv.Atoi(os.Getenv(%q))\n", pkg, switchVariable, switchName)
}

// packageName reads the name in a file's package clause.
func packageName(path string) (string, error) {
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.PackageClauseOnly)
	if err != nil {
		return "", err
	}
	return file.Name.Name, nil
}

// lay writes the woven files into dir, and what tells the compiler to take them:
// the files of the project stay as they are.
func lay(faults []numbered, dir string) (replace map[string]string, copies map[string][]span, err error) {
	byFile := map[string][]numbered{}
	for _, f := range faults {
		path, err := filepath.Abs(f.path)
		if err != nil {
			return nil, nil, err
		}
		byFile[path] = append(byFile[path], f)
	}
	replace, copies = map[string]string{}, map[string][]span{}
	put := func(path, text string) error {
		woven := filepath.Join(dir, fmt.Sprintf("%d_%s", len(replace), filepath.Base(path)))
		replace[path] = woven
		return os.WriteFile(woven, []byte(text), 0o600)
	}
	for path, own := range byFile {
		source, err := os.ReadFile(path)
		if err != nil {
			return nil, nil, err
		}
		woven, at, err := weave(path, source, own)
		if err != nil {
			return nil, nil, err
		}
		if err := put(path, string(woven)); err != nil {
			return nil, nil, err
		}
		copies[path], copies[replace[path]] = at, at // the compiler names the one or the other
		declared := filepath.Join(filepath.Dir(path), "planted_fault.go")
		if replace[declared] != "" {
			continue
		}
		name, err := packageName(path)
		if err != nil {
			return nil, nil, err
		}
		if err := put(declared, switchSource(name)); err != nil {
			return nil, nil, err
		}
	}
	return replace, copies, nil
}
