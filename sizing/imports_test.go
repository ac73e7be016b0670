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
	{"sizing", "os", []string{"sizing/jobfile", "sizing/library", "sizing/published"}, "of the engine, jobs' files and the library touch a disk"},
	{"sizing", "time", []string{"sizing/jobfile"}, "the engine reads no clock; what is left of a killed run is old by its file's time"},
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

// rooms lists the rooms of the engine from the ground up. Each may import those
// named, which stand above it in the list, and no other of the project: an arrow
// that is not here is a mistake, or wants a reason here. "." is sizing itself.
var rooms = []struct {
	room string
	may  []string
	why  string
}{
	{"units", nil, "quantities know nothing of what they measure"},
	{"message", []string{"units"}, "writes what a person reads, whatever it is about"},
	{"root", nil, "numerical work on plain floats"},
	{"leastsquares", nil, "numerical work on plain floats"},
	{"fieldpath", []string{"units", "message"}, "knows how a field of a job is described, whatever the job holds"},
	{"air", []string{"units", "message", "root"}, "the ground of every part"},
	{"duct", []string{"units", "message", "air", "leastsquares"}, "a part is an equation: it knows no other part and no job"},
	{"filter", []string{"units", "message", "air", "root", "leastsquares"}, "a part"},
	{"blower", []string{"units", "message"}, "a part; its table is for standard air, the house scales it"},
	{"thermal", []string{"units", "message", "air", "root"}, "a part"},
	{"airpath", []string{"message", "root", "units"}, "joins laws of drop over airflow, whatever they come from"},
	{"cost", []string{"units"}, "money from watts and filters, of whatever house"},
	{"stock", []string{"units", "filter"}, "lists of sizes, and what a filter's size holds"},
	{"quote", []string{"units"}, "prices and papers, of whatever house"},
	{"job", []string{"units", "message", "fieldpath", "air", "duct", "filter", "blower", "thermal", "stock", "quote"}, "what a person entered, in the parts' own types; it asks them only whether a value can be"},
	{"study", []string{"units", "message", "duct", "filter", "blower", "airpath", "stock", "job"}, "results are data: whoever reads a study need not know how it was solved"},
	{"perturb", []string{"units", "duct", "blower", "airpath", "job"}, "moves what goes in, before a house is made"},
	{"assume", []string{"units", "message", "air", "duct", "filter", "blower", "thermal", "stock", "job", "study", "perturb"}, "completes a job before a house is made of it, so it knows no house"},
	{"house", []string{"units", "message", "root", "air", "duct", "filter", "blower", "thermal", "airpath", "stock", "job", "study", "assume"}, "physics alone: no limit, no money, no search"},
	{"fit", []string{"units", "message", "job", "study", "house"}, "the room that a house has; no airflow is judged here"},
	{"pleats", []string{"units", "message", "air", "filter", "stock", "study", "house"}, "one filter in one house"},
	{"money", []string{"units", "cost", "job", "study", "house"}, "no verdict depends on money here, no money on a verdict"},
	{"judge", []string{"units", "message", "duct", "airpath", "job", "study", "assume", "house"}, "reads what was solved; it solves, searches and prices nothing"},
	{"option", []string{"job", "study", "house", "fit", "money", "judge"}, "one option whole, apart from all others: it neither compares nor recommends"},
	{"readings", []string{"units", "message", "airpath", "job", "study", "house", "judge"}, "the gauge beside the study; it moves no option"},
	{"search", []string{"units", "message", "duct", "filter", "airpath", "stock", "job", "study", "assume", "house", "fit", "judge", "option"}, "a size is the option that taking it makes, so it may solve one"},
	{"upgrade", []string{"units", "message", "root", "duct", "filter", "airpath", "stock", "job", "study", "assume", "house", "fit", "money", "option", "search"}, "takes sizes from the search; it recommends nothing"},
	{"compare", []string{"units", "message", "study"}, "reads studies alone, so that a file of results can be compared too"},
	{"recommend", []string{"units", "message", "airpath", "job", "study", "house", "judge", "compare"}, "chooses among what was solved and judged; it solves nothing"},
	{"sampling", []string{"units", "message", "airpath", "job", "study", "perturb", "assume", "house", "option", "compare", "recommend"}, "the same solve many times"},
	{"calculations", []string{"units", "message", "air", "duct", "filter", "blower", "thermal", "airpath", "cost", "job", "study", "house", "money", "compare"}, "tells the steps; no number comes from here"},
	{".", []string{"units", "message", "filter", "airpath", "job", "study", "assume", "house", "pleats", "money", "judge", "option", "readings", "search", "upgrade", "compare", "recommend", "sampling", "calculations"}, "the front door: the order of the work, and the names that others use"},
	{"export", []string{"units", "message", "."}, "reads a study through the front door"},
	{"lesson", []string{"units", "message", "fieldpath", "."}, "solves through the front door"},
	{"homes", []string{"units", "message", "fieldpath", "duct", "filter", "blower", "stock", ".", "export"}, "solves through the front door, many homes"},
	{"jobfile/atomicfile", []string{"message"}, "bytes on a disk"},
	{"jobfile", []string{"units", "message", "fieldpath", ".", "lesson", "jobfile/atomicfile"}, "jobs and demonstrations on a disk"},
	{"library", []string{"units", "message", "fieldpath", "duct", "filter", "blower", "stock", "quote", ".", "export", "jobfile", "jobfile/atomicfile"}, "files of parts of jobs, in the format of jobs"},
	{"published", nil, "test support that the tests of every room use"},
	{"processor", nil, "test support: the processor time of a benchmark"},
}

func TestRoomArrows(t *testing.T) {
	known := map[string]bool{}
	for _, r := range rooms {
		for _, m := range r.may {
			assert.True(t, known[m], "%s may import %s, which does not stand above it in the list", r.room, m)
		}
		known[r.room] = true
		found := roomImports(t, r.room)
		for im := range found {
			assert.Contains(t, r.may, im, "%s imports %s; %s", r.room, im, r.why)
		}
		for _, m := range r.may {
			assert.True(t, found[m], "%s imports %s no more: take it out of the list, so that it is caught when it comes back", r.room, m)
		}
	}
	walkGo(t, ".", func(path string, _ []string) {
		room := filepath.ToSlash(filepath.Dir(path))
		assert.True(t, known[room], "%s is in no room of the list", path)
	})
}

// roomImports gives what the files of a room import of the project, by room.
func roomImports(t *testing.T, room string) map[string]bool {
	found := map[string]bool{}
	walkGo(t, room, func(path string, imports []string) {
		if filepath.Clean(filepath.Dir(path)) != filepath.FromSlash(room) {
			return // a room within the room
		}
		for _, im := range imports {
			rest, ours := strings.CutPrefix(im, "returnbench/")
			if !ours {
				continue
			}
			inSizing := rest == "sizing" || strings.HasPrefix(rest, "sizing/")
			assert.True(t, inSizing, "%s imports %s", path, im)
			found[strings.TrimPrefix(strings.Replace(rest, "sizing", ".", 1), "./")] = true
		}
	})
	return found
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
