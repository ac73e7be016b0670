package gui

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/fields"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// newBench builds a window that solves in step and keeps its own files in a
// folder of the test.
func newBench(t testing.TB) *Bench {
	t.Helper()
	b, err := New(test.NewApp(), Options{Dir: t.TempDir(), Run: session.InStep})
	require.NoError(t, err)
	b.window.Resize(fyne.NewSize(1366, 768))
	b.focusFirst()
	return b
}

func example(t testing.TB, name string) sizing.Job {
	t.Helper()
	job, err := openExample(name)
	require.NoError(t, err)
	return job
}

// typeText sends letters to whatever has the keyboard.
func typeText(t testing.TB, b *Bench, text string) {
	t.Helper()
	f := b.window.Canvas().Focused()
	require.NotNil(t, f, "nothing has the keyboard")
	for _, r := range text {
		f.TypedRune(r)
	}
}

func press(t testing.TB, b *Bench, key fyne.KeyName) {
	t.Helper()
	f := b.window.Canvas().Focused()
	require.NotNil(t, f, "nothing has the keyboard")
	f.TypedKey(&fyne.KeyEvent{Name: key})
}

// item finds a menu item by its label's beginning.
func item(t testing.TB, b *Bench, label string) *fyne.MenuItem {
	t.Helper()
	var find func(items []*fyne.MenuItem) *fyne.MenuItem
	find = func(items []*fyne.MenuItem) *fyne.MenuItem {
		for _, it := range items {
			if strings.HasPrefix(it.Label, label) {
				return it
			}
			if it.ChildMenu != nil {
				if in := find(it.ChildMenu.Items); in != nil {
					return in
				}
			}
		}
		return nil
	}
	for _, m := range b.window.MainMenu().Items {
		if it := find(m.Items); it != nil {
			return it
		}
	}
	require.Fail(t, "no menu item "+label)
	return nil
}

// answerWith presses a button of the open question by keyboard.
func answerWith(t testing.TB, b *Bench, label string) {
	t.Helper()
	for range 12 {
		if k, ok := b.window.Canvas().Focused().(*keyButton); ok && k.Text == label {
			press(t, b, fyne.KeyReturn)
			return
		}
		test.FocusNext(b.window.Canvas())
	}
	require.Fail(t, "the open question has no answer "+label)
}

func TestFirstAnswerFromTheKeyboard(t *testing.T) {
	b := newBench(t)
	require.Nil(t, b.session.Study())
	require.Empty(t, troubleOf(b), "an empty job is asked, not blamed")
	require.Empty(t, b.decision.strip.Content().Severity)

	typeText(t, b, "3")
	require.Equal(t, 3*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	test.FocusNext(b.window.Canvas())
	typeText(t, b, "1100")
	test.FocusNext(b.window.Canvas())
	typeText(t, b, "250 fpm")

	require.Equal(t, 1100*units.CFM, b.session.Job().DesignAirflow)
	require.Equal(t, 250*units.FPM, b.session.Job().TargetFaceVelocity)
	want, err := sizing.Solve(b.session.Job())
	require.NoError(t, err)
	require.Equal(t, want.Today().Clean.Airflow, b.session.Study().Today().Clean.Airflow)
	require.NotNil(t, b.session.Study().SuggestedSizes.Slot)
	require.Equal(t, want.SuggestedSizes.Slot.Label, b.session.Study().SuggestedSizes.Slot.Label)
}

func TestTypingTonnageChangesResults(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "2")
	small := b.session.Study().NeededFace
	press(t, b, fyne.KeyBackspace)
	typeText(t, b, "4")
	require.InDelta(t, 2*small.SI(), b.session.Study().NeededFace.SI(), 1e-9)
}

func TestFaultShowsBesideItsFieldAndInTheStrip(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "3")
	test.FocusNext(b.window.Canvas())
	typeText(t, b, "20 cfm")
	require.NotEmpty(t, b.session.Errors())
	require.Empty(t, troubleOf(b), "it is still typed into")
	field := b.screens[firstPlace].(interface {
		Field(string) fields.Field
	}).Field("design_airflow").(*fields.Quantity)
	require.Empty(t, field.FaultText())
	test.FocusNext(b.window.Canvas())
	require.Contains(t, b.decision.strip.Content().Sentence, "Start: Design airflow: given")
	require.Contains(t, field.FaultText(), "want")

	b.goTo("limits")
	b.decision.strip.Press()
	require.Equal(t, firstPlace, b.at)
	require.Same(t, field.Focusable(), b.window.Canvas().Focused())
}

func TestEveryPlaceOpensOnEveryExampleInBothSystems(t *testing.T) {
	b := newBench(t)
	for _, e := range assets.Examples() {
		b.put(example(t, e.Name), "")
		require.NotNil(t, b.session.Study(), e.Name)
		for _, sys := range []units.Locale{units.SI, units.IP} {
			b.SetUnits(sys)
			for _, p := range places() {
				b.enter(p.key)
				require.Equal(t, p.key, b.at)
				require.NotZero(t, b.screens[p.key].Object().Size(), "%s in %s", p.key, e.Name)
			}
		}
	}
}

// A place need not fit the smallest window whole, but it must not be wider.
func TestThePlacesFitASmallLaptop(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	for _, p := range places() {
		b.enter(p.key)
		least := b.root.MinSize()
		require.LessOrEqual(t, least.Width, float32(1366), p.key)
		require.LessOrEqual(t, least.Height, float32(700), p.key)
	}
}

func TestUnitsChangeNoResult(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	job, study := b.session.Job(), b.session.Study()
	for _, p := range places() {
		b.enter(p.key)
		b.SetUnits(units.SI)
		b.SetUnits(units.IP)
	}
	require.Equal(t, job, b.session.Job())
	require.Same(t, study, b.session.Study())
	require.False(t, b.session.Dirty())
	require.Empty(t, b.session.UndoName())
}

func TestUndoAndRedoFromTheMenu(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "3")
	test.FocusNext(b.window.Canvas())
	typeText(t, b, "1200")
	undo := item(t, b, "Undo")
	require.Equal(t, "Undo: Design airflow", undo.Label)
	undo.Action()
	require.Zero(t, b.session.Job().DesignAirflow)
	require.Equal(t, "Undo: Cooling capacity", undo.Label)
	require.Equal(t, "Redo: Design airflow", item(t, b, "Redo").Label)
	entry := b.window.Canvas().Focused().(*fields.Entry)
	require.Empty(t, entry.Text, "the field in use follows the undo")
	item(t, b, "Redo").Action()
	require.Equal(t, 1200*units.CFM, b.session.Job().DesignAirflow)
	require.Equal(t, "1200", entry.Text)
}

func TestShortcutsStandOnTheMenuAndAreNoDoubles(t *testing.T) {
	b := newBench(t)
	seen := map[string]string{}
	var walk func(items []*fyne.MenuItem)
	walk = func(items []*fyne.MenuItem) {
		for _, it := range items {
			if it.Shortcut != nil {
				name := it.Shortcut.ShortcutName()
				require.Empty(t, seen[name], "%s and %s share %s", it.Label, seen[name], name)
				seen[name] = it.Label
			}
			if it.ChildMenu != nil {
				walk(it.ChildMenu.Items)
			}
		}
	}
	for _, m := range b.window.MainMenu().Items {
		walk(m.Items)
	}
	require.GreaterOrEqual(t, len(seen), len(places()))
}

func TestMenuIsDeafWhileAQuestionIsOpen(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "3")
	item(t, b, "New").Action()
	require.True(t, b.busy())
	item(t, b, "Undo").Action()
	item(t, b, "Blower").Action()
	b.Quit()
	require.Equal(t, 3*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	require.Equal(t, firstPlace, b.at)
	press(t, b, fyne.KeyEscape)
	require.False(t, b.busy(), "Escape is the harmless answer")
	require.Equal(t, 3*units.Ton, b.session.Job().Equipment.CoolingCapacity)
}

func TestEscapeClosesTheFileDialog(t *testing.T) {
	b := newBench(t)
	escape := func() { b.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	item(t, b, "Open ...").Action()
	require.True(t, b.busy())
	require.Nil(t, b.window.Canvas().Focused())
	escape()
	require.False(t, b.busy())

	item(t, b, "Save as ...").Action()
	answerWith(t, b, "Choose a folder")
	escape()
	require.True(t, b.busy(), "the question for the file is still open")
	b.window.Canvas().Unfocus()
	escape()
	require.False(t, b.busy())
}

func TestSaveAndReopen(t *testing.T) {
	b := newBench(t)
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	require.NoError(t, b.Open(path), "a file that is not there yet is a new job")
	require.Equal(t, "hill.job.json - returnbench", b.window.Title())
	typeText(t, b, "3")
	require.Equal(t, "* hill.job.json (unsaved) - returnbench", b.window.Title())
	item(t, b, "Save").Action()
	require.Equal(t, "hill.job.json - returnbench", b.window.Title())
	saved := b.session.Job()

	again := newBench(t)
	require.NoError(t, again.Open(path))
	require.Equal(t, saved, again.session.Job())
	require.False(t, again.session.Dirty())
	require.Equal(t, []string{path}, again.recent)
}

func TestSaveAsAsksBeforeItReplaces(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "3")
	path := filepath.Join(t.TempDir(), "old"+jobSuffix)
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o644))

	b.checkPath(pathQuestion{suffix: jobSuffix}, path, func(p string) { b.saveTo(p, func() {}) })
	require.True(t, b.busy())
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "old", string(text), "the old file is whole until it is replaced")
	answerWith(t, b, "Replace")
	job, err := jobfile.Load(path)
	require.NoError(t, err)
	require.Equal(t, 3*units.Ton, job.Equipment.CoolingCapacity)
	require.Equal(t, path, b.session.Path())

	b.checkPath(pathQuestion{suffix: jobSuffix}, filepath.Join(filepath.Dir(path), "new"), func(p string) { b.saveTo(p, func() {}) })
	require.FileExists(t, filepath.Join(filepath.Dir(path), "new"+jobSuffix))
}

func TestSaveThatFailsKeepsTheWorkAndReportsIt(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "3")
	b.saveTo(filepath.Join(t.TempDir(), "no", "such", "folder", "a"), func() {})
	require.True(t, b.busy())
	require.True(t, b.session.Dirty())
}

func TestQuestionBeforeUnsavedWorkIsLost(t *testing.T) {
	lost := func(b *Bench) bool { return b.session.Job().Equipment.CoolingCapacity == 0 }
	for _, c := range []struct {
		name string
		act  func(b *Bench)
	}{
		{"new", func(b *Bench) { item(t, b, "New").Action() }},
		{"example", func(b *Bench) { b.NewFrom("two-returns") }},
		{"quit", func(b *Bench) { b.Quit() }},
		{"drop", func(b *Bench) { b.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI("/nowhere")}) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			closed := false
			b.window.SetOnClosed(func() { closed = true })
			typeText(t, b, "3")
			c.act(b)
			require.True(t, b.busy())
			answerWith(t, b, "Cancel")
			require.False(t, b.busy())
			require.False(t, lost(b) || closed)
		})
	}
}

func TestQuitGoesAtOnceWhereNothingIsUnsaved(t *testing.T) {
	b := newBench(t)
	closed := false
	b.window.SetOnClosed(func() { closed = true })
	item(t, b, "Quit").Action()
	require.True(t, closed)
}

func TestQuitAfterSaving(t *testing.T) {
	b := newBench(t)
	closed := false
	b.window.SetOnClosed(func() { closed = true })
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	require.NoError(t, b.Open(path))
	typeText(t, b, "3")
	b.Quit()
	answerWith(t, b, "Save")
	require.True(t, closed)
	require.FileExists(t, path)
}

func TestDroppedFileOpens(t *testing.T) {
	path := filepath.Join(t.TempDir(), "two"+jobSuffix)
	require.NoError(t, jobfile.Save(path, example(t, "two-returns")))
	b := newBench(t)
	b.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	require.Equal(t, example(t, "two-returns"), b.session.Job())
	require.Equal(t, path, b.session.Path())
}

func TestAFileAtFaultIsReportedByFieldAndLeavesTheJobInPlace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad"+jobSuffix)
	require.NoError(t, os.WriteFile(path, []byte(`{"schema": 1, "design_airflow": "12 apples"}`), 0o644))
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	err := b.Open(path)
	require.Error(t, err)
	require.Contains(t, b.inWords(err), "Start: Design airflow: ")
	b.openOrShowError(path)
	require.True(t, b.busy())
	require.Equal(t, example(t, "two-returns"), b.session.Job())
}

func TestSettingsAreKeptAndBrokenOnesAreReportedNotFatal(t *testing.T) {
	dir := t.TempDir()
	open := func() (*Bench, error) { return New(test.NewApp(), Options{Dir: dir, Run: session.InStep}) }
	b, err := open()
	require.NoError(t, err)
	b.SetUnits(units.SI)
	b.SetTheme(look.Dark)
	b.SetTextSize(1.25)

	b, err = open()
	require.NoError(t, err)
	require.Equal(t, Settings{Units: "si", Theme: look.Dark, TextSize: 1.25}, b.settings)
	require.Equal(t, units.SI, b.session.Units())

	require.NoError(t, os.WriteFile(filepath.Join(dir, settingsFile), []byte("{"), 0o644))
	b, err = open()
	require.ErrorContains(t, err, settingsFile)
	require.NotNil(t, b)
	require.Equal(t, usualSettings(), b.settings)

	require.NoError(t, os.WriteFile(filepath.Join(dir, settingsFile), []byte(`{"units": "furlongs", "text_size": 9}`), 0o644))
	b, err = open()
	require.NoError(t, err)
	require.Equal(t, usualSettings(), b.settings)
}

func TestUnsavedWorkIsOfferedAgain(t *testing.T) {
	dir := t.TempDir()
	b, err := New(test.NewApp(), Options{Dir: dir, Run: session.InStep})
	require.NoError(t, err)
	b.focusFirst()
	typeText(t, b, "3")
	left := b.session.Job()

	// The process ended; another one starts.
	require.NoError(t, os.Rename(b.recovery.file(), filepath.Join(dir, recoveryPrefix+"1-1"+recoverySuffix)))
	again, err := New(test.NewApp(), Options{Dir: dir, Run: session.InStep})
	require.NoError(t, err)
	again.offerRecovery()
	press(t, again, fyne.KeyEscape)
	offered, err := again.session.Offered()
	require.NoError(t, err)
	require.NotNil(t, offered, "Escape keeps the copy for the next time")
	again.offerRecovery()
	answerWith(t, again, "Restore")
	require.Equal(t, left, again.session.Job())
	require.True(t, again.session.Dirty())
	again.saveTo(filepath.Join(t.TempDir(), "saved"+jobSuffix), func() {})
	files, err := filepath.Glob(filepath.Join(dir, recoveryPrefix+"*"))
	require.NoError(t, err)
	require.Empty(t, files)
}

func TestAFailureOfTheEngineIsReportedAndTypingGoesOn(t *testing.T) {
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep, Solve: func(j sizing.Job) (*sizing.Study, error) {
		if j.DesignAirflow > 0 {
			return nil, errors.New("no solution")
		}
		return sizing.Solve(j)
	}})
	require.NoError(t, err)
	b.focusFirst()
	typeText(t, b, "3")
	test.FocusNext(b.window.Canvas())
	typeText(t, b, "1200")
	require.Contains(t, troubleOf(b), "no solution")
	require.Equal(t, 1200*units.CFM, b.session.Job().DesignAirflow)
	require.NotNil(t, b.session.Study(), "the last good one stays in view")
}

func TestPictureNamesWhatItCannotDraw(t *testing.T) {
	job := example(t, "one-inch-slot")
	for _, c := range []struct {
		place, variant string
		w, h           int
		want           string
	}{
		{firstPlace, "sepia", 800, 600, "theme"},
		{firstPlace, look.Light, 10, 600, "size"},
		{"attic", look.Light, 800, 600, "place"},
	} {
		_, err := Picture(job, Frame{Place: c.place, Theme: c.variant, Width: c.w, Height: c.h})
		require.ErrorContains(t, err, c.want)
	}
	img, err := Picture(job, Frame{Theme: look.Dark, Width: 1366, Height: 768})
	require.NoError(t, err)
	require.Equal(t, 1366, img.Bounds().Dx())
	require.Equal(t, 768, img.Bounds().Dy())
}

// One edit, from the key to finished results and a redrawn window, on the
// largest example. The median is what a person feels.
func BenchmarkEditToScreen(b *testing.B) {
	w := newBench(b)
	w.put(example(b, "one-inch-slot"), "")
	flows := []units.Flow{1150 * units.CFM, 1200 * units.CFM, 1250 * units.CFM}
	w.window.Canvas().Capture()
	raster := chartRaster(b, w)
	var times []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		w.session.Type("design_airflow", "Design airflow", func(j *sizing.Job) { j.DesignAirflow = flows[i%len(flows)] })
		raster.Generator(int(raster.Size().Width), int(raster.Size().Height))
		times = append(times, time.Since(start))
	}
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "ms/median")
}

// chartRaster is what the window asks for the pixels of the chart.
func chartRaster(t testing.TB, b *Bench) *canvas.Raster {
	t.Helper()
	for _, o := range test.WidgetRenderer(b.pane.Chart()).Objects() {
		if r, ok := o.(*canvas.Raster); ok {
			return r
		}
	}
	require.Fail(t, "the chart draws no pixels")
	return nil
}

// A new job shows nothing of the job before it.
func TestNewJobShowsNothingOfTheOld(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	require.NotNil(t, b.session.Study())
	require.Equal(t, sizing.Stop, b.decision.strip.Content().Severity)
	b.put(sizing.Job{Schema: sizing.Schema}, "")
	require.Nil(t, b.session.Study())
	require.True(t, b.session.Blank())
	require.Empty(t, troubleOf(b))
	require.Equal(t, "–", b.decision.strip.Content().Figures[0].Before)
	require.Empty(t, b.decision.strip.Content().Choices)
}

// A change of the letters leaves the keyboard in the place.
func TestKeyboardStaysThroughAChangeOfLetters(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("house")
	require.NotNil(t, b.window.Canvas().Focused())
	b.SetTextSize(1.5)
	require.Equal(t, b.screens["house"].First(), b.window.Canvas().Focused())
	b.window.Canvas().Unfocus()
	b.SetTextSize(1)
	require.Nil(t, b.window.Canvas().Focused(), "nothing had it before")
}
