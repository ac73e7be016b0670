package gui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/library"
	"returnbench/sizing/units"
)

// libraryBench is a window whose firm has a library.
func libraryBench(t *testing.T) (b *Bench, dir string) {
	t.Helper()
	b, dir = newBench(t), t.TempDir()
	for _, item := range []library.Item{
		{Source: "invented", Filter: &filter.Filter{Name: "Deep pleat", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, MERV: 11}},
		{Filter: &filter.Filter{Name: "Thin panel", MERV: 4}},
		{Cabinet: &library.Cabinet{Name: "Wide cabinet", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 5 * units.Inch, Price: 420 * units.Dollar}},
		{Size: &library.Size{Of: library.GrilleSize, Width: 34 * units.Inch, Height: 22 * units.Inch}},
		{Template: &sizing.Job{Name: "Two-ton flat", DesignAirflow: 800 * units.CFM}},
	} {
		_, err := library.Add(dir, item)
		require.NoError(t, err)
	}
	b.settings.Library = dir
	b.readLibrary(func(err error) { require.NoError(t, err) })
	return b, dir
}

// tapButton presses a button of the place in view.
func tapButton(t *testing.T, b *Bench, label string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.body) {
		if w, ok := o.(*widgets.Button); ok && w.Text == label {
			test.Tap(w)
			return
		}
	}
	require.Fail(t, "no button "+label)
}

// onTop are the words of the open question.
func onTop(b *Bench) string { return guitest.Words(b.window.Canvas().Overlays().Top()) }

func TestTakeFromTheLibraryByKeyboard(t *testing.T) {
	b, _ := libraryBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("slot")
	before := len(b.session.Peek().Filters)
	tapButton(t, b, "Filter from library")
	typeText(t, b, "DEEP 11")
	require.Contains(t, onTop(b), "Deep pleat")
	require.NotContains(t, onTop(b), "Thin panel")
	require.Contains(t, onTop(b), "Figures from: invented")
	b.window.Canvas().Focused().(*searchEntry).OnSubmitted("")
	require.False(t, b.busy())
	job := b.session.Peek()
	require.Len(t, job.Filters, before+1)
	require.Equal(t, "Deep pleat", job.Slot.Filter)

	tapButton(t, b, "Cabinet from library")
	answerWith(t, b, "Take")
	require.Equal(t, 5*units.Inch, b.session.Peek().Slot.Depth)
	require.Equal(t, "Deep pleat", b.session.Peek().Slot.Filter)
	require.Equal(t, "Take Wide cabinet from the library", b.session.UndoName())
	b.Undo()
	b.Undo()
	require.Len(t, b.session.Peek().Filters, before)
}

// A job that took from a library opens in a window that has none.
func TestJobOpensOnAMachineWithoutTheLibrary(t *testing.T) {
	b, dir := libraryBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("slot")
	for _, label := range []string{"Cabinet from library", "Filter from library"} {
		tapButton(t, b, label)
		answerWith(t, b, "Take")
	}
	path := filepath.Join(t.TempDir(), "house.job.json")
	b.saveTo(path, func() {})
	require.NoError(t, os.RemoveAll(dir))

	other := newBench(t)
	require.NoError(t, other.Open(path))
	require.Equal(t, b.session.Job(), other.session.Job())
	require.Equal(t, b.session.Study().Today().Clean.Airflow, other.session.Study().Today().Clean.Airflow)
}

func TestSaveToTheLibrary(t *testing.T) {
	b, dir := libraryBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("filters")
	name := b.session.Peek().Filters[0].Name
	tapButton(t, b, "Save to library")
	answerWith(t, b, "Save")
	require.Contains(t, onTop(b), "filters")
	answerWith(t, b, "Close")
	lib, err := library.Read(dir)
	require.NoError(t, err)
	require.Len(t, lib.Named(library.Filters, name), 1)

	// The same again changes nothing; another of the name is asked about.
	tapButton(t, b, "Save to library")
	answerWith(t, b, "Save")
	require.Contains(t, onTop(b), "there already")
	answerWith(t, b, "Close")
	b.session.Apply("MERV", func(j *sizing.Job) { j.Filters[0].MERV = 3 })
	tapButton(t, b, "Save to library")
	answerWith(t, b, "Save")
	answerWith(t, b, "Replace")
	answerWith(t, b, "Close")
	lib, err = library.Read(dir)
	require.NoError(t, err)
	require.Equal(t, 3, lib.Named(library.Filters, name)[0].Filter.MERV)
	require.Len(t, lib.Of(library.Filters), 3)

	// What has no size is no cabinet.
	b.session.Apply("no slot", func(j *sizing.Job) { j.Slot = sizing.Slot{} })
	b.enter("slot")
	tapButton(t, b, "Save to library")
	answerWith(t, b, "Save")
	require.Contains(t, onTop(b), "cannot go into the library")
	answerWith(t, b, "Close")
}

func TestTemplatesOfTheLibrary(t *testing.T) {
	b, _ := libraryBench(t)
	list := b.openList()()
	require.Equal(t, "Two-ton flat", list.Templates[0].Name)
	list.Templates[0].Open()
	require.Equal(t, 800*units.CFM, b.session.Peek().DesignAirflow)
	require.Empty(t, b.session.Path())

	b.put(example(t, "two-returns"), "")
	b.saveTemplate()
	require.IsType(t, &searchEntry{}, b.window.Canvas().Focused())
	answerWith(t, b, "Save")
	answerWith(t, b, "Close")
	templates := b.library.Of(library.Templates)
	require.Len(t, templates, 2)
	for _, e := range templates {
		require.Empty(t, e.Template.Readings)
	}
}

func TestLibraryThatVanishes(t *testing.T) {
	b, dir := libraryBench(t)
	b.put(example(t, "two-returns"), "")
	require.NoError(t, os.RemoveAll(dir))
	b.enter("filters")
	tapButton(t, b, "Filter from library")
	require.Contains(t, onTop(b), "is not there")
	require.Contains(t, onTop(b), "Deep pleat", "what was read last can still be taken")
	answerWith(t, b, "Take")
	require.Equal(t, "Deep pleat", b.session.Peek().Filters[len(b.session.Peek().Filters)-1].Name)
	tapButton(t, b, "Save to library")
	answerWith(t, b, "Save")
	require.Contains(t, onTop(b), "is not there")
	require.NoDirExists(t, dir)
	answerWith(t, b, "Close")
}

func TestBadLibraryFileIsNamed(t *testing.T) {
	b, dir := libraryBench(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "filters", "torn.json"), []byte(`{"schema": 1, "filter": {"name": "x", "merv": 19}}`), 0o644))
	b.showLibrary()
	require.Contains(t, onTop(b), "Left out: filters/torn.json")
	require.Contains(t, onTop(b), "Two-ton flat")
	answerWith(t, b, "Close")
}

func TestNoLibraryYet(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("filters")
	dir := filepath.Join(t.TempDir(), "firm")
	tapButton(t, b, "Filter from library")
	answerWith(t, b, "Choose a folder")
	b.window.Canvas().Focused().(*pathEntry).SetText(dir)
	answerWith(t, b, "Use it")
	answerWith(t, b, "Make it")
	require.DirExists(t, dir)
	require.Contains(t, onTop(b), "Nothing found")
	answerWith(t, b, "Cancel")
	kept, err := b.userFolder.settings()
	require.NoError(t, err)
	require.Equal(t, dir, kept.Library)
}

func TestImportAndExportInTheWindow(t *testing.T) {
	b, dir := libraryBench(t)
	v := newLibraryList(b, library.Filters)
	v.refresh()
	table := filepath.Join(t.TempDir(), "filters.csv")
	b.askExport(v)
	b.window.Canvas().Focused().(*pathEntry).SetText(table)
	answerWith(t, b, "Save")
	answerWith(t, b, "Close")
	text, err := os.ReadFile(table)
	require.NoError(t, err)
	require.Contains(t, string(text), "Deep pleat")

	require.NoError(t, os.WriteFile(table, []byte(strings.Replace(string(text), "Thin panel", "Thicker panel", 1)), 0o644))
	b.importFile(v, table)
	require.Contains(t, onTop(b), "1 added, 0 replaced, 1 unchanged")
	answerWith(t, b, "Close")
	lib, err := library.Read(dir)
	require.NoError(t, err)
	require.Len(t, lib.Of(library.Filters), 3)

	require.NoError(t, os.WriteFile(table, []byte("name,merv\nX,8\nDeep pleat,eleven\n"), 0o644))
	b.importFile(v, table)
	require.Contains(t, onTop(b), "line 3")
	answerWith(t, b, "Close")
	b.importFile(newLibraryList(b, ""), table)
	require.Contains(t, onTop(b), "Choose a kind first")
	answerWith(t, b, "Close")
	b.importFile(v, filepath.Join("..", "assets", "jobs", "two-returns.job.json"))
	answerWith(t, b, "Close")
	require.Len(t, b.library.Of(library.Templates), 2)
}

// Sizes of the library stand first in the lists of sizes.
func TestSizesOfTheLibrary(t *testing.T) {
	b, _ := libraryBench(t)
	require.Len(t, b.shared().Sizes(library.GrilleSize), 1)
	require.Empty(t, b.shared().Sizes(library.FilterSize))
	b.put(example(t, "two-returns"), "")
	b.enter("returns")
	b.showPath("returns[0].grille.width")
	press(t, b, fyne.KeyDown)
	require.Contains(t, onTop(b), "34x22")
}

// Every place that asks for a filter, a blower, a cabinet, a grille or a price
// takes it from the library.
func TestTheLibraryIsAtHandWherePartsAreAskedFor(t *testing.T) {
	b, _ := libraryBench(t)
	b.put(example(t, "one-inch-slot"), "")
	for place, labels := range map[string][]string{
		"filters":   {"Filter from library", "Save to library"},
		"slot":      {"Cabinet from library", "Filter from library", "Save to library"},
		"returns":   {"Grille from library", "Filter from library", "Save to library"},
		"blower":    {"Equipment from library", "Save to library"},
		"equipment": {"Equipment from library", "Save to library"},
		"limits":    {"Prices from library", "Lines from library", "Save to library"},
		"compare":   {"Filter from library", "Cabinet from library"},
	} {
		b.enter(place)
		for _, label := range labels {
			tapButton(t, b, label)
			assert.True(t, b.busy(), "%s: %s", place, label)
			b.answerLast()
			assert.False(t, b.busy(), "%s: %s", place, label)
		}
	}
}

// All sizes of the library are copied into the job, as one step, none of them twice; the
// search of sizes then has them.
func TestAllSizesFromTheLibrary(t *testing.T) {
	b, dir := libraryBench(t)
	for _, size := range []library.Size{
		{Of: library.FilterSize, Width: 23 * units.Inch, Height: 26 * units.Inch, Depth: 2 * units.Inch},
		{Of: library.DuctSize, Width: 14 * units.Inch, Height: 8 * units.Inch},
	} {
		_, err := library.Add(dir, library.Item{Size: &size})
		require.NoError(t, err)
	}
	b.readLibrary(func(err error) { require.NoError(t, err) })
	b.put(sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}, "")
	b.enter("limits")
	tapButton(t, b, "All sizes from library")
	want := []sizing.StockSize{
		{Of: sizing.FilterSize, Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 5 * units.Inch}, // of the cabinet
		{Of: sizing.GrilleSize, Width: 34 * units.Inch, Height: 22 * units.Inch},
		{Of: sizing.FilterSize, Width: 23 * units.Inch, Height: 26 * units.Inch, Depth: 2 * units.Inch},
	}
	require.ElementsMatch(t, want, b.session.Peek().StockSizes)
	require.Equal(t, "Take the sizes of the library", b.session.UndoName())
	require.Contains(t, guitest.Words(b.body), "Size 3")
	found := map[string]bool{}
	for _, z := range b.session.Study().Sizes {
		if z.Stocked {
			found[z.Label] = true
		}
	}
	require.True(t, found["23x26x2"], "%v", found)

	tapButton(t, b, "All sizes from library")
	require.Len(t, b.session.Peek().StockSizes, len(want), "the same again adds nothing")
	b.Undo()
	require.Empty(t, b.session.Peek().StockSizes)
}

// A size in stock is added, is seen at once and has a depth where it is of a filter.
func TestAddASizeInStock(t *testing.T) {
	b := newBench(t)
	b.put(sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}, "")
	b.enter("limits")
	require.NotContains(t, guitest.Words(b.body), "Size 1")
	tapButton(t, b, "Add size")
	require.Contains(t, guitest.Words(b.body), "Size 1")
	require.Contains(t, guitest.Words(b.body), "Nominal depth")
	b.session.Apply("of a grille", func(j *sizing.Job) { j.StockSizes[0].Of = sizing.GrilleSize })
	require.NotContains(t, guitest.Words(b.body), "Nominal depth")
	tapButton(t, b, "Remove")
	require.NotContains(t, guitest.Words(b.body), "Size 1")
	require.Empty(t, b.session.Peek().StockSizes)
}
