package library

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// examples are an item of each kind, all invented.
func examples() []Item {
	return []Item{
		{Source: "invented", Filter: &filter.Filter{Name: "Deep pleat 11", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, MERV: 11,
			Rating:     []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.11 * units.InchWater}, {FaceVelocity: 500 * units.FPM, Drop: 0.23 * units.InchWater}},
			Efficiency: []float64{0.1, 0.12, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9}, Bracing: filter.RigidBox, Price: 48 * units.Dollar}},
		{Blower: &Blower{Name: "Invented 3 ton furnace", Plate: quote.Plate{Maker: "Invented", Model: "F-80"}, UnitWidth: 16 * units.Inch, UnitHeight: 20 * units.Inch,
			Equipment: sizing.Equipment{Kind: sizing.FurnaceWithCoil, CoolingCapacity: 3 * units.Ton, RatedExternalStatic: 0.5 * units.InchWater,
				Blower: blower.Table{Motor: blower.PSC, CoolingTap: "high", Includes: []blower.Included{blower.IncludesWetCoil}, Taps: []blower.Tap{
					{Name: "high", Points: []blower.Point{{ExternalStatic: 0.2 * units.InchWater, Airflow: 1400 * units.CFM, Power: 500 * units.Watt}, {ExternalStatic: 0.8 * units.InchWater, Airflow: 1000 * units.CFM}}},
					{Name: "low", Points: []blower.Point{{ExternalStatic: 0, Airflow: 900 * units.CFM}, {ExternalStatic: 0.6 * units.InchWater, Airflow: 700 * units.CFM}}},
				}}}}},
		{Cabinet: &Cabinet{Name: "Cabinet 20x25x5", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 5 * units.Inch, Price: 420 * units.Dollar, CasingFace: 2 * units.Inch}},
		{Grille: &Grille{Name: "Grille 20x20", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, Style: duct.Bar, FreeArea: 0.74,
			Rating: []duct.GrilleRating{{Airflow: 800 * units.CFM, Drop: 0.04 * units.InchWater}}}, Price: 190 * units.Dollar}},
		{Size: &Size{Of: FilterSize, Width: 18 * units.Inch, Height: 30 * units.Inch, Depth: 4 * units.Inch}},
		{Prices: &PriceList{Name: "Prices 2026", Work: sizing.WorkPrices{Cabinet: 650 * units.Dollar, Visit: 120 * units.Dollar},
			Lines: []quote.Line{{Item: "Permit", Price: 85 * units.Dollar, NoTax: true}, {Item: "Old cabinet taken away", Count: 2}}}},
		{Template: &sizing.Job{Schema: sizing.Schema, Name: "Two returns", DesignAirflow: 1200 * units.CFM, Returns: []sizing.Return{{Name: "hall", Grille: duct.Grille{Width: 20 * units.Inch, Height: 14 * units.Inch}}, {Name: "bedroom"}}}},
	}
}

func filled(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, item := range examples() {
		_, err := Add(dir, item)
		require.NoError(t, err)
	}
	return dir
}

func TestWhatIsSavedIsRead_Identity(t *testing.T) {
	dir := filled(t)
	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Empty(t, lib.Faults)
	require.Len(t, lib.Entries, len(examples()))
	for i, want := range examples() {
		assert.Equal(t, want, lib.Entries[i].Item)
	}
	text, err := os.ReadFile(filepath.Join(dir, "filters", "deep-pleat-11.json"))
	require.NoError(t, err)
	assert.Contains(t, string(text), `"depth": "4 in"`, "a person can read it")
	assert.Contains(t, string(text), `"schema": 1`)
}

func TestBadFileIsNamedAndSkipped(t *testing.T) {
	dir := filled(t)
	put := func(name, text string) {
		t.Helper()
		require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), []byte(text), 0o644))
	}
	put("filters/broken.json", `{"schema": 1, "filter": {`)
	put("filters/empty.json", "")
	put("filters/newer.json", `{"schema": 2, "filter": {"name": "x"}}`)
	put("filters/typo.json", `{"schema": 1, "filter": {"name": "x", "widht": "20 in"}}`)
	put("filters/hopeless.json", `{"schema": 1, "filter": {"name": "x", "merv": 19}}`)
	put("filters/two.json", `{"schema": 1, "filter": {"name": "x"}, "size": {"of": "grille", "width": "20 in", "height": "20 in"}}`)
	put("filters/astray.json", `{"schema": 1, "size": {"of": "grille", "width": "20 in", "height": "20 in"}}`)
	put("filters/nothing.json", `{"schema": 1}`)
	put("templates/list.job.json", `[]`)
	put("filters/.hidden.json", `{`)
	put("filters/notes.txt", `not an item`)
	put("filters/deep-pleat-11.json.bak", `{`)
	require.NoError(t, os.Mkdir(filepath.Join(dir, "filters", "folder.json"), 0o755))

	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Len(t, lib.Entries, len(examples()), "all that is good is there")
	told := map[string]string{}
	for _, f := range lib.Faults {
		told[f.File] = f.Err.Error()
	}
	for file, says := range map[string]string{
		"filters/broken.json":     "2", // the place in the text
		"filters/empty.json":      "empty",
		"filters/newer.json":      "newer version",
		"filters/typo.json":       "widht",
		"filters/hopeless.json":   "filter.merv",
		"filters/two.json":        "one item in a file",
		"filters/astray.json":     "sizes",
		"filters/nothing.json":    "one of filter",
		"filters/folder.json":     "no plain file",
		"templates/list.job.json": "list",
	} {
		assert.Contains(t, told[file], says, file)
	}
	assert.Len(t, told, 10, "%v", told)
}

func TestAddNeverReplaces(t *testing.T) {
	dir := t.TempDir()
	var wait sync.WaitGroup
	const writers = 20
	for i := range writers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			_, err := Add(dir, FilterOf(filter.Filter{Name: "Same name", MERV: 1 + i%16}))
			assert.NoError(t, err)
		}()
	}
	wait.Wait()
	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Empty(t, lib.Faults)
	assert.Len(t, lib.Named(Filters, "same NAME"), writers)
	left, err := filepath.Glob(filepath.Join(dir, "filters", ".*"))
	require.NoError(t, err)
	assert.Empty(t, left, "no file in the making is left")
}

func TestTwoWriters(t *testing.T) {
	dir := filled(t)
	one, err := Read(dir)
	require.NoError(t, err)
	other, err := Read(dir)
	require.NoError(t, err)

	change := func(e Entry, merv int) Item {
		i := e.copied()
		i.Filter.MERV = merv
		return i
	}
	mine, theirs := one.Of(Filters)[0], other.Of(Filters)[0]
	require.NoError(t, Replace(dir, mine, change(mine, 8)))
	err = Replace(dir, theirs, change(theirs, 13))
	require.ErrorIs(t, err, ErrChanged)
	assert.ErrorContains(t, err, "filters/deep-pleat-11.json")
	require.NoError(t, Replace(dir, theirs, change(theirs, 8)), "the same again is no loss")

	now, err := Read(dir)
	require.NoError(t, err)
	assert.Equal(t, 8, now.Of(Filters)[0].Filter.MERV, "what was saved first stays")
	before, err := jobfile.ReadFile(filepath.Join(dir, "filters", "deep-pleat-11.json.bak"))
	require.NoError(t, err)
	assert.Contains(t, string(before), `"merv": 11`, "and the version before is beside it")

	assert.ErrorContains(t, Replace(dir, now.Of(Filters)[0], now.Of(Sizes)[0].Item), "holds a filter")
}

func TestFolderThatVanishes(t *testing.T) {
	dir := filled(t)
	lib, err := Read(dir)
	require.NoError(t, err)
	require.NoError(t, os.RemoveAll(dir))
	_, err = Read(dir)
	assert.ErrorContains(t, err, "is not there")
	_, err = Add(dir, examples()[0])
	require.Error(t, err, "a folder that a drive brings is not made anew on this disk")
	assert.ErrorContains(t, err, "is not there")
	assert.Error(t, Replace(dir, lib.Entries[0], lib.Entries[0].Item))
	_, err = Merge(dir, examples(), true)
	assert.ErrorContains(t, err, "is not there")
	assert.NoDirExists(t, dir)
	assert.Len(t, lib.Find(Filters, "pleat"), 1, "what was read can still be taken")

	file := filepath.Join(t.TempDir(), "library")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	_, err = Read(file)
	assert.ErrorContains(t, err, "want a folder")
}

func TestHostileNamesAndPaths(t *testing.T) {
	dir := t.TempDir()
	names := []string{"../../escape", `..\..\escape`, "/etc/passwd", "CON", "nul", "COM1", "a:b|c?d*e", ".hidden", "  ", "ends.", "名前", "é\u202e", strings.Repeat("x", 200), strings.Repeat("名", 200), "%2e%2e", "$(reboot)", "-rf"}
	n := 0
	for _, name := range names {
		file, err := Add(dir, FilterOf(filter.Filter{Name: name, MERV: 8}))
		if strings.TrimSpace(name) == "" {
			assert.Error(t, err)
			continue
		}
		require.NoError(t, err, "%q", name)
		n++
		assert.Regexp(t, `^filters/[a-z0-9][a-z0-9-]*\.json$`, file, "%q", name)
		assert.NotRegexp(t, `^filters/(con|prn|aux|nul|com\d|lpt\d)\.`, file)
		assert.LessOrEqual(t, len(filepath.Base(file)), 80)
	}
	for _, name := range []string{"two\nlines", "bell\a", strings.Repeat("x", 201)} {
		_, err := Add(dir, FilterOf(filter.Filter{Name: name}))
		assert.Error(t, err, "%q", name)
	}
	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Len(t, lib.Entries, n)
	assert.NoFileExists(t, filepath.Join(dir, "..", "escape.json"))
}

// A pipe would keep a reader for ever, a link may lead anywhere.
func TestStrangeFiles(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows lets only an administrator make symbolic links: strange files in the folder are not tried")
	}
	dir := filled(t)
	require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "filters", "endless.json")))
	require.NoError(t, os.Symlink("nowhere", filepath.Join(dir, "filters", "dangling.json")))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "filters", "huge.json"), make([]byte, jobfile.LargestFile+1), 0o644))
	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Len(t, lib.Entries, len(examples()))
	require.Len(t, lib.Faults, 3)
}

func TestFind(t *testing.T) {
	lib, err := Read(filled(t))
	require.NoError(t, err)
	for words, want := range map[string]int{"": 7, "DEEP pleat": 1, "merv 11": 1, "20x25x4": 1, "f-80": 1, "psc": 1, "invented": 2, "permit": 1, "nothing such": 0, "filters/": 1} {
		assert.Len(t, lib.Find("", words), want, "%q", words)
	}
	assert.Len(t, lib.Find(Cabinets, "20x25"), 1)
}

func TestMerge(t *testing.T) {
	dir := filled(t)
	changed := examples()[0].copied()
	changed.Filter.MERV = 8
	items := []Item{examples()[2], changed, FilterOf(filter.Filter{Name: "New one"})}
	m, err := Merge(dir, items, false)
	require.NoError(t, err)
	assert.Equal(t, Merged{Added: []string{"New one"}, Unchanged: []string{"Cabinet 20x25x5"}, Differ: []string{"Deep pleat 11"}}, m)
	m, err = Merge(dir, items, true)
	require.NoError(t, err)
	assert.Equal(t, []string{"Deep pleat 11"}, m.Replaced)
	lib, err := Read(dir)
	require.NoError(t, err)
	assert.Equal(t, 8, lib.Named(Filters, "Deep pleat 11")[0].Filter.MERV)
}

// A job that took all it has from a library says the same where there is none.
func TestJobOpensWithoutTheLibrary(t *testing.T) {
	dir := filled(t)
	lib, err := Read(dir)
	require.NoError(t, err)
	job := lib.Of(Templates)[0].Template.Clone()
	lib.Of(Blowers)[0].Blower.Into(&job)
	job.Slot.Filter = AddFilter(&job, *lib.Of(Filters)[0].Filter)
	lib.Of(Cabinets)[0].Cabinet.Into(&job, &job.Slot)
	lib.Of(Grilles)[0].Grille.Into(&job, &job.Returns[1])
	lib.Of(Prices)[0].Prices.Into(&job)
	assert.Equal(t, "Deep pleat 11", job.Slot.Filter, "the filter stays in the new cabinet")
	assert.Equal(t, 190*units.Dollar, job.Prices.Grille, "a price list without a price leaves the one there")
	assert.Equal(t, 650*units.Dollar, job.Prices.Cabinet)
	path := filepath.Join(t.TempDir(), "house.job.json")
	require.NoError(t, jobfile.Save(path, job))
	before, err := sizing.Solve(job)
	require.NoError(t, err)

	// What is taken is no part of what stays.
	lib.Of(Filters)[0].Filter.Rating[0].Drop = 1
	lib.Of(Blowers)[0].Blower.Equipment.Blower.Taps[0].Points[0].Airflow = 1
	lib.Of(Grilles)[0].Grille.Grille.Rating[0].Drop = 1
	require.NoError(t, os.RemoveAll(dir))

	opened, err := jobfile.Load(path)
	require.NoError(t, err)
	assert.Equal(t, job, opened)
	after, err := sizing.Solve(opened)
	require.NoError(t, err)
	assert.Equal(t, before.Today().Clean.Airflow, after.Today().Clean.Airflow)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.NotContains(t, string(text), filepath.Base(dir))
}

func TestTakingTwiceAddsOnce(t *testing.T) {
	var job sizing.Job
	f := *examples()[0].Filter
	assert.Equal(t, "Deep pleat 11", AddFilter(&job, f))
	assert.Equal(t, "Deep pleat 11", AddFilter(&job, f))
	f.MERV = 8
	assert.Equal(t, "Deep pleat 11 2", AddFilter(&job, f))
	assert.Len(t, job.Filters, 2)
}

func TestEquipmentLeavesNoTapNamedThatIsGone(t *testing.T) {
	job := sizing.Job{Options: []sizing.Option{{Name: "a", Tap: "turbo"}, {Name: "b", Tap: "low"}}, Readings: []sizing.Reading{{Tap: "turbo"}}}
	job.Work.Plate = quote.Plate{Maker: "Other", Model: "X", Serial: "123"}
	examples()[1].Blower.Into(&job)
	assert.Equal(t, []string{"", "low", ""}, []string{job.Options[0].Tap, job.Options[1].Tap, job.Readings[0].Tap})
	assert.Empty(t, job.Work.Plate.Serial, "the serial number is of the old unit")
	job.Work.Plate.Serial = "456"
	examples()[1].Blower.Into(&job)
	assert.Equal(t, "456", job.Work.Plate.Serial)
}

func TestSavedPartsOfAJob(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, Name: "Hill house", Notes: "key under the mat", DesignAirflow: 1000 * units.CFM}
	job.Customer.Name = "Jane Doe, invented"
	job.Work.Plate = quote.Plate{Maker: "Invented", Model: "F-80", Serial: "S-1"}
	job.Quote.Lines = []quote.Line{{Item: "Permit", Option: "deep", Price: 85 * units.Dollar}}
	job.Readings = []sizing.Reading{{Label: "first"}}
	job.Slot = sizing.Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Filter: "old"}
	assert.Equal(t, "Invented F-80", BlowerOf(&job).Name())
	assert.Empty(t, BlowerOf(&job).Blower.Plate.Serial)
	assert.Equal(t, "Cabinet 20x25x4", CabinetOf(&job, job.Slot).Name())
	assert.Empty(t, PricesOf(&job).Prices.Lines[0].Option)
	made := *TemplateOf(&job, "Small house").Template
	text, err := jobfile.Encode(made)
	require.NoError(t, err)
	for _, private := range []string{"Hill house", "mat", "Jane", "S-1", "first"} {
		assert.NotContains(t, string(text), private)
	}
	assert.Equal(t, "Hill house", job.Name, "the job itself stays")
}

// Whatever a name is, its file's name is one that every disk takes.
func TestFileName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := fileName(rapid.String().Draw(t, "name"))
		require.Regexp(t, `^[a-z0-9]([a-z0-9-]*[a-z0-9])?$`, name)
		require.LessOrEqual(t, len(name), 66)
	})
}

func BenchmarkRead(b *testing.B) {
	dir := b.TempDir()
	for i := range 500 {
		item := examples()[i%len(examples())]
		if item.Size == nil {
			item = item.Named(fmt.Sprintf("%s %d", item.Name(), i))
		}
		if _, err := Add(dir, item); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if _, err := Read(dir); err != nil {
			b.Fatal(err)
		}
	}
}

func TestLinesAreAddedOnce(t *testing.T) {
	job := sizing.Job{Quote: quote.Quote{Lines: []quote.Line{{Item: "Permit", Price: 99 * units.Dollar}}}}
	for range 2 {
		examples()[5].Prices.AddLines(&job)
	}
	require.Len(t, job.Quote.Lines, 2)
	assert.Equal(t, 99*units.Dollar, job.Quote.Lines[0].Price, "what the offer has stays")
}

// The sizes that a firm has, its cabinets and grilles among them, go into a job as
// copies, none twice, and change what its search finds.
func TestSizesOfTheLibraryAreSearched(t *testing.T) {
	dir := filled(t)
	for _, item := range []Item{
		{Size: &Size{Of: GrilleSize, Width: 26 * units.Inch, Height: 31 * units.Inch}},
		{Size: &Size{Of: DuctSize, Width: 22 * units.Inch, Height: 9 * units.Inch}},
	} {
		_, err := Add(dir, item)
		require.NoError(t, err)
	}
	lib, err := Read(dir)
	require.NoError(t, err)
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	AddSizes(&job, lib.Sizes())
	AddSizes(&job, lib.Sizes())
	assert.ElementsMatch(t, []sizing.StockSize{
		{Of: sizing.FilterSize, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 5 * units.Inch},
		{Of: sizing.GrilleSize, Width: 20 * units.Inch, Height: 20 * units.Inch},
		{Of: sizing.FilterSize, Width: 18 * units.Inch, Height: 30 * units.Inch, Depth: 4 * units.Inch},
		{Of: sizing.GrilleSize, Width: 26 * units.Inch, Height: 31 * units.Inch},
	}, job.StockSizes)
	data, err := jobfile.Encode(job)
	require.NoError(t, err)
	require.NoError(t, os.RemoveAll(dir))
	back, err := jobfile.Read(data)
	require.NoError(t, err)
	study, err := sizing.Solve(back)
	require.NoError(t, err)
	found := map[string]bool{}
	for _, z := range study.Sizes {
		if z.Stocked {
			found[z.Label] = true
		}
	}
	assert.True(t, found["18x30x4"], "%v", found)
	assert.True(t, found["26x31x1"], "%v", found)
}
