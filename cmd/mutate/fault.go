package main

import (
	"bytes"
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
)

// fault is one change of a file: the bytes from start to end become with.
type fault struct {
	path       string
	line       int
	kind       string
	start, end int
	was, with  string
}

func (f fault) String() string {
	return fmt.Sprintf("%s:%d  %s: %s -> %s", f.path, f.line, f.kind, oneLine(f.was), oneLine(f.with))
}

func oneLine(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if len(s) > 90 {
		s = s[:87] + "..."
	}
	return s
}

// apply gives the source with the fault in it.
func (f fault) apply(source []byte) []byte {
	return slices.Concat(source[:f.start], []byte(f.with), source[f.end:])
}

// lines are those of the source that the fault changes, before and after.
func (f fault) lines() (before, after string) {
	source, err := os.ReadFile(f.path)
	if err != nil {
		return "", ""
	}
	from := bytes.LastIndexByte(source[:f.start], '\n') + 1
	to := len(source)
	if n := bytes.IndexByte(source[f.end:], '\n'); n >= 0 {
		to = f.end + n
	}
	return string(source[from:to]), string(source[from:f.start]) + f.with + string(source[f.end:to])
}

// change shows the lines that the fault changes.
func (f fault) change() string {
	mark := func(sign, text string) string {
		return "    " + sign + " " + strings.ReplaceAll(strings.TrimSpace(text), "\n", "\n    "+sign+" ") + "\n"
	}
	before, after := f.lines()
	return mark("-", before) + mark("+", after)
}

// operators that may be mistaken for each other.
var mistaken = map[token.Token]struct {
	with token.Token
	kind string
}{
	token.ADD: {token.SUB, "sign"}, token.SUB: {token.ADD, "sign"},
	token.MUL: {token.QUO, "factor"}, token.QUO: {token.MUL, "factor"},
	token.LSS: {token.GTR, "comparison"}, token.GTR: {token.LSS, "comparison"},
	token.LEQ: {token.GEQ, "comparison"}, token.GEQ: {token.LEQ, "comparison"},
	token.EQL: {token.NEQ, "comparison"}, token.NEQ: {token.EQL, "comparison"},
	token.LAND: {token.LOR, "condition"}, token.LOR: {token.LAND, "condition"},
	token.ADD_ASSIGN: {token.SUB_ASSIGN, "sign"}, token.SUB_ASSIGN: {token.ADD_ASSIGN, "sign"},
	token.MUL_ASSIGN: {token.QUO_ASSIGN, "factor"}, token.QUO_ASSIGN: {token.MUL_ASSIGN, "factor"},
}

// neighbors are words of names that stand side by side and are easily confused.
var neighbors = [][2]string{
	{"heating", "cooling"}, {"clean", "loaded"}, {"clean", "dirty"}, {"wet", "dry"}, {"width", "height"}, {"high", "low"},
	{"total", "sensible"}, {"first", "last"}, {"inlet", "outlet"}, {"static", "drop"}, {"airflow", "static"}, {"min", "max"},
	{"face", "media"}, {"coil", "supply"}, {"before", "after"}, {"design", "heating"}, {"upper", "lower"}, {"floor", "ceil"},
}

// find gives every fault that can be planted in a file.
func find(path string, source []byte) ([]fault, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	f := finder{path: path, source: source, files: files, declared: map[token.Pos]bool{}}
	for _, d := range file.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil {
			ast.Inspect(fn.Body, f.visit)
		}
	}
	return f.faults, nil
}

type finder struct {
	path     string
	source   []byte
	files    *token.FileSet
	faults   []fault
	declared map[token.Pos]bool // names that are given, not used
}

func (f *finder) offset(p token.Pos) int { return f.files.Position(p).Offset }

func (f *finder) text(n ast.Node) string {
	return string(f.source[f.offset(n.Pos()):f.offset(n.End())])
}

// add notes a fault that puts with in place of what stands from start to end.
func (f *finder) add(kind string, start, end token.Pos, with string) {
	a, b := f.offset(start), f.offset(end)
	f.faults = append(f.faults, fault{path: f.path, line: f.files.Position(start).Line, kind: kind, start: a, end: b, was: string(f.source[a:b]), with: with})
}

func (f *finder) replace(kind string, n ast.Node, with string) { f.add(kind, n.Pos(), n.End(), with) }

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		f.binary(n)
	case *ast.UnaryExpr:
		if n.Op == token.SUB {
			f.replace("sign", n, "("+f.text(n.X)+")")
		}
		if n.Op == token.NOT {
			f.replace("condition", n, f.text(n.X))
		}
	case *ast.AssignStmt:
		f.assign(n)
	case *ast.IfStmt:
		f.replace("condition", n.Cond, "!("+f.text(n.Cond)+")")
	case *ast.IndexExpr:
		f.index(n)
	case *ast.BasicLit:
		if v, err := strconv.ParseFloat(n.Value, 64); n.Kind == token.FLOAT && err == nil && v != 0 {
			f.replace("factor", n, "("+n.Value+" * 1.1)")
		}
	case *ast.ExprStmt:
		f.replace("dropped call", n, "")
	case *ast.KeyValueExpr:
		if id, ok := n.Key.(*ast.Ident); ok {
			f.declared[id.Pos()] = true
		}
	case *ast.Ident:
		if !f.declared[n.Pos()] {
			f.neighbor(n)
		}
	}
	return true
}

func (f *finder) binary(n *ast.BinaryExpr) {
	swap, ok := mistaken[n.Op]
	if !ok {
		return
	}
	x, y := f.text(n.X), f.text(n.Y)
	f.replace(swap.kind, n, x+" "+swap.with.String()+" "+y)
	switch n.Op {
	case token.ADD, token.SUB, token.MUL, token.QUO:
		f.replace("dropped term", n, "("+x+")")
		if n.Op != token.QUO {
			f.replace("dropped term", n, "("+y+")")
		}
	}
}

func (f *finder) assign(n *ast.AssignStmt) {
	if n.Tok == token.DEFINE {
		for _, x := range n.Lhs {
			f.declared[x.Pos()] = true
		}
		return
	}
	if swap, ok := mistaken[n.Tok]; ok {
		f.replace(swap.kind, n, f.text(n.Lhs[0])+" "+swap.with.String()+" "+f.text(n.Rhs[0]))
	}
	if len(n.Lhs) == 1 && len(n.Rhs) == 1 { // what is named stays used
		f.replace("dropped assignment", n, "_ = "+f.text(n.Rhs[0]))
	}
}

// index takes the element beside the one that is meant.
func (f *finder) index(n *ast.IndexExpr) {
	switch i := n.Index.(type) {
	case *ast.BasicLit:
		if i.Kind == token.INT {
			f.replace("index", i, "("+i.Value+" + 1) % len("+f.text(n.X)+")")
		}
	case *ast.Ident:
		f.replace("index", i, "max("+i.Name+"-1, 0)")
		f.replace("index", i, "0")
	}
}

// neighbor takes the name beside the one that is meant.
func (f *finder) neighbor(n *ast.Ident) {
	for _, pair := range neighbors {
		for _, p := range [][2]string{pair, {pair[1], pair[0]}} {
			for _, style := range []func(string) string{strings.ToLower, title} {
				from, to := style(p[0]), style(p[1])
				if name := strings.Replace(n.Name, from, to, 1); name != n.Name {
					f.replace("neighbor", n, name)
				}
			}
		}
	}
}

func title(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// draw puts the faults in an order that follows from the seed alone: shuffled,
// then one of each kind in turn, so that a few faults are of many kinds.
func draw(faults []fault, seed uint64) {
	r := rand.New(rand.NewPCG(seed, 0))
	r.Shuffle(len(faults), func(i, j int) { faults[i], faults[j] = faults[j], faults[i] })
	turn := map[string]int{}
	round := map[int]int{} // by the fault's place after the shuffle
	for i, f := range faults {
		round[i] = turn[f.kind]
		turn[f.kind]++
	}
	order := make([]int, len(faults))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(round[a], round[b]) })
	drawn := make([]fault, len(faults))
	for i, o := range order {
		drawn[i] = faults[o]
	}
	copy(faults, drawn)
}
