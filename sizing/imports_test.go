package sizing

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Arrows between rooms run one way: cmd -> gui -> plots -> sizing -> its parts
// -> units. Each row forbids imports to the files of a folder and says why.
var forbidden = []struct {
	folder  string
	prefix  string
	allowed []string // folders below it that may
	why     string
}{
	{"sizing", "fyne.io/", nil, "the engine draws nothing"},
	{"sizing", "gonum.org/v1/plot", nil, "the engine draws nothing"},
	{"sizing", "returnbench/gui", nil, "arrows run down"},
	{"sizing", "returnbench/plots", nil, "arrows run down"},
	{"sizing", "returnbench/cmd", nil, "arrows run down"},
	{"sizing", "returnbench/assets", nil, "example jobs are for programs, not for the engine"},
	{"sizing", "os", []string{"sizing/jobfile", "sizing/published"}, "one room of the engine touches a disk"},
	{"sizing", "time", nil, "the engine reads no clock"},
	{"plots", "fyne.io/", nil, "charts are drawn without the toolkit"},
	{"plots", "returnbench/gui", nil, "arrows run down"},
	{"plots", "returnbench/cmd", nil, "arrows run down"},
	{"gui", "returnbench/cmd", nil, "arrows run down"},
	{"gui", "fyne.io/fyne/v2/app", nil, "only the program makes the app, so every screen is testable without a display"},
	{"gui/session", "fyne.io/", nil, "the session is logic, not screen"},
	{"sizing/units", "returnbench/", nil, "units is the lowest room"},
}

func TestArrows(t *testing.T) {
	root := ".."
	seen := 0
	for _, rule := range forbidden {
		walkGo(t, filepath.Join(root, rule.folder), func(path string, imports []string) {
			seen++
			for _, allowed := range rule.allowed {
				if strings.HasPrefix(filepath.ToSlash(path), root+"/"+allowed) {
					return
				}
			}
			for _, im := range imports {
				bad := im == rule.prefix || strings.HasPrefix(im, strings.TrimSuffix(rule.prefix, "/")+"/")
				assert.False(t, bad, "%s imports %s: %s", path, im, rule.why)
			}
		})
	}
	require.Greater(t, seen, 100, "the walk found the project")
}

// The parts know each other only downwards.
func TestPartsArrows(t *testing.T) {
	may := map[string][]string{
		"air":     {"units", "root"},
		"duct":    {"units", "air", "leastsquares"},
		"filter":  {"units", "air", "root", "leastsquares"},
		"blower":  {"units"},
		"airpath": {"units", "air", "root"},
		"thermal": {"units", "air", "root"},
		"stock":   {"units", "filter"},
		"cost":    {"units"},
		"root":    {},

		"leastsquares": {},
		"fieldpath":    {"units"},
	}
	for part, allowed := range may {
		walkGo(t, part, func(path string, imports []string) {
			for _, im := range imports {
				rest, ours := strings.CutPrefix(im, "returnbench/")
				if !ours {
					continue
				}
				name, inSizing := strings.CutPrefix(rest, "sizing/")
				assert.True(t, inSizing, "%s imports %s", path, im)
				assert.Contains(t, allowed, name, "%s imports %s", path, im)
			}
		})
	}
}

func walkGo(t *testing.T, dir string, visit func(path string, imports []string)) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		var imports []string
		for _, s := range f.Imports {
			name, _ := strconv.Unquote(s.Path.Value)
			imports = append(imports, name)
		}
		visit(path, imports)
		return nil
	})
	require.NoError(t, err)
}
