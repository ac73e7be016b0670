package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every file and function that DEVELOPERS.md names is where it says.
func TestWalkIsTrue(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	named := regexp.MustCompile("`((?:gui|plots|sizing|cmd)/[a-z_/]+\\.go)(?::(\\w+))?`").FindAllStringSubmatch(string(text), -1)
	require.Greater(t, len(named), 25)
	for _, m := range named {
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("../..", m[1]), nil, 0)
		if !assert.NoError(t, err, m[1]) || m[2] == "" {
			continue
		}
		found := false
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == m[2] {
				found = true
			}
		}
		assert.True(t, found, "%s has no function %s", m[1], m[2])
	}
}
