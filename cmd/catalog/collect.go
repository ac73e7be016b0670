package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"regexp"
	"strings"

	"golang.org/x/tools/go/packages"

	"returnbench/sizing/message"
)

const idType = "returnbench/sizing/message.ID"

// load type-checks the packages from their source, without their tests.
func load(folder string, patterns ...string) ([]*packages.Package, error) {
	list, err := packages.Load(&packages.Config{
		Dir:  folder,
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax | packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports | packages.NeedModule,
	}, patterns...)
	if err != nil {
		return nil, err
	}
	var faults []error
	for _, p := range list {
		for _, e := range p.Errors {
			faults = append(faults, e)
		}
	}
	return list, errors.Join(faults...)
}

// collect gives the messages of the packages, each with the file of the catalog that
// it belongs to: that of the first package that uses it, in the order of the patterns.
func collect(folder string, patterns ...string) (map[message.ID]string, error) {
	list, err := load(folder, patterns...)
	if err != nil {
		return nil, err
	}
	return messages(list), nil
}

func messages(list []*packages.Package) map[message.ID]string {
	used := map[message.ID]string{}
	for _, p := range list {
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				e, ok := n.(ast.Expr)
				if !ok {
					return true
				}
				if !isMessage(p, e) {
					return true
				}
				if id := message.ID(constant.StringVal(p.TypesInfo.Types[e].Value)); id != "" {
					if _, ok := used[id]; !ok {
						used[id] = fileOf(p)
					}
				}
				return false
			})
		}
	}
	return used
}

// isMessage reports whether an expression is a constant that names a message.
func isMessage(p *packages.Package, e ast.Expr) bool {
	tv, ok := p.TypesInfo.Types[e]
	return ok && tv.Value != nil && tv.Value.Kind() == constant.String && types.TypeString(tv.Type, nil) == idType
}

func fileOf(p *packages.Package) string {
	name := strings.TrimPrefix(p.PkgPath, p.Module.Path+"/")
	return strings.ReplaceAll(name, "/", ".") + ".json"
}

// prose is what a person would read: two words, or one that begins like a sentence
// or a label.
var prose = regexp.MustCompile(`[A-Za-z]{2,},? [a-z(]|[a-z]{2,} [A-Za-z(]|^[A-Z][a-z]{2,}[ :.]?$`)

// outside lists the strings that read like prose and are no message of the packages.
func outside(folder string, patterns ...string) ([]string, error) {
	list, err := load(folder, patterns...)
	if err != nil {
		return nil, err
	}
	used := messages(list)
	var out []string
	for _, p := range list {
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				if e, ok := n.(ast.Expr); ok && isMessage(p, e) {
					return false
				}
				switch n := n.(type) {
				case *ast.ImportSpec:
					return false
				case *ast.Field:
					if n.Tag != nil {
						ast.Inspect(n.Type, func(ast.Node) bool { return true })
						return false
					}
				case *ast.CallExpr:
					if id, ok := n.Fun.(*ast.Ident); ok && id.Name == "panic" {
						return false
					}
				case *ast.BasicLit:
					if n.Kind != token.STRING {
						return false
					}
					text := constant.StringVal(p.TypesInfo.Types[n].Value)
					if _, ok := used[message.ID(text)]; !ok && prose.MatchString(text) {
						at := p.Fset.Position(n.Pos())
						out = append(out, fmt.Sprintf("%s:%d: %q", at.Filename, at.Line, text))
					}
				}
				return true
			})
		}
	}
	return out, nil
}

// conversion is a value that becomes the name of an entry while the program runs.
type conversion struct {
	at   string // file and line
	from string // the type of the value
}

// conversions lists them, but for those of the packages that keep the catalog: that of
// the messages and this one.
func conversions(folder string, patterns ...string) ([]conversion, error) {
	list, err := load(folder, patterns...)
	if err != nil {
		return nil, err
	}
	var out []conversion
	for _, p := range list {
		if p.PkgPath+".ID" == idType || p.Name == "main" && strings.HasSuffix(p.PkgPath, "/cmd/catalog") {
			continue
		}
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) != 1 {
					return true
				}
				to, from := p.TypesInfo.Types[call.Fun], p.TypesInfo.Types[call.Args[0]]
				if to.IsType() && isID(to.Type) && from.Value == nil && !isID(from.Type) {
					at := p.Fset.Position(call.Pos())
					out = append(out, conversion{fmt.Sprintf("%s:%d", at.Filename, at.Line), types.TypeString(from.Type, nil)})
				}
				return true
			})
		}
	}
	return out, nil
}

func isID(t types.Type) bool { return types.TypeString(types.Unalias(t), nil) == idType }
