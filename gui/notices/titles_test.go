package notices

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
)

// codeArgument is where each function of the engine that raises a finding takes
// the finding's code.
var codeArgument = map[string]int{"NewFinding": 1, "FindingOf": 1, "Raise": 1, "check": 1, "newBreach": 1, "raise": 0, "miss": 0}

// untitled are codes that are never listed as problems: advice, notes and what is good.
var untitled = []string{
	"airflow", "static", "next", "recommended", "versus", "reading_agrees", "title24_measured", "title24_tables", "upgrade_helps",
}

// engineCodes are the codes that stand in the engine's sources.
func engineCodes(t *testing.T) map[string]bool {
	t.Helper()
	constants, codes := map[string][]string{}, map[string]bool{}
	var files []*ast.File
	require.NoError(t, filepath.WalkDir(filepath.Join("..", "..", "sizing"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		files = append(files, f)
		return err
	}))
	literal := func(e ast.Expr) (string, bool) {
		l, ok := e.(*ast.BasicLit)
		if !ok || l.Kind != token.STRING {
			return "", false
		}
		s, err := strconv.Unquote(l.Value)
		return s, err == nil
	}
	note := func(name, value ast.Expr) {
		if id, ok := name.(*ast.Ident); ok {
			if s, ok := literal(value); ok {
				constants[id.Name] = append(constants[id.Name], s)
			}
		}
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ValueSpec:
				for i := range n.Values {
					note(n.Names[i], n.Values[i])
				}
			case *ast.AssignStmt:
				for i := range min(len(n.Lhs), len(n.Rhs)) {
					note(n.Lhs[i], n.Rhs[i])
				}
			}
			return true
		})
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			name := ""
			switch fun := call.Fun.(type) {
			case *ast.Ident:
				name = fun.Name
			case *ast.SelectorExpr:
				name = fun.Sel.Name
			}
			at, ok := codeArgument[name]
			if !ok || len(call.Args) < at+3 {
				return true
			}
			switch arg := call.Args[at].(type) {
			case *ast.BasicLit:
				s, _ := literal(arg)
				codes[s] = true
			case *ast.Ident:
				for _, s := range constants[arg.Name] {
					codes[s] = true
				}
			case *ast.SelectorExpr:
				for _, s := range constants[arg.Sel.Name] {
					codes[s] = true
				}
			}
			return true
		})
	}
	return codes
}

// Every problem that the engine can raise has a title of its own.
func TestEveryProblemHasATitle(t *testing.T) {
	codes := engineCodes(t)
	require.Greater(t, len(codes), 50)
	for _, p := range []sizing.Problem{
		sizing.OffTable, sizing.Frost, sizing.FrostRisk, sizing.RiseHigh, sizing.RiseLow, sizing.AirflowShort, sizing.AirflowHigh,
		sizing.StaticHigh, sizing.FaceVelocity, sizing.FilterDrop, sizing.FilterLeak,
	} {
		require.Contains(t, titles, p)
	}
	known := slices.Collect(maps.Keys(codes))
	for _, code := range untitled {
		require.Contains(t, known, code, "no such finding is raised any more")
		delete(codes, code)
	}
	for code := range codes {
		require.Contains(t, titles, sizing.Problem(code))
	}
	told := map[string]sizing.Problem{}
	for p, title := range titles {
		require.True(t, codes[string(p)], "%s is raised nowhere", p)
		require.Empty(t, told[title], "%s is called as %s is", p, told[title])
		require.NotContains(t, title, "_")
		told[title] = p
	}
}
