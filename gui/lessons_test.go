package gui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/chart"
	"returnbench/gui/lesson"
	"returnbench/sizing/jobfile"
	lessons "returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// lessonFile writes a ready demonstration to a file of the test.
func lessonFile(t *testing.T, name string) string {
	t.Helper()
	text, err := assets.OpenLesson(name)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name+lessonSuffix)
	require.NoError(t, os.WriteFile(path, text, 0o600))
	return path
}

// A demonstration runs on a house of its own: the job, its study and its file
// stay as they are, whatever is moved.
func TestADemonstrationLeavesTheJobAlone(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "/house.job.json")
	job, study := b.session.Job(), b.session.Study()
	b.enter(lessonPlace)
	require.True(t, b.decision.strip.Object().Visible(), "the decision never leaves the window")
	for range b.class.Items() {
		b.class.Forward()
		b.class.MoveTo(len(b.class.Settings()) - 1)
		b.class.Forward()
		b.class.Forward()
	}
	require.Equal(t, job, b.session.Job())
	require.Same(t, study, b.session.Study())
	require.Empty(t, b.session.UndoName())
	require.False(t, b.session.Dirty())
}

func TestADemonstrationOutlivesThemeAndPlace(t *testing.T) {
	b := newBench(t)
	b.enter(lessonPlace)
	b.class.Choose(4)
	b.class.Predict(1)
	b.class.Forward()
	b.class.MoveTo(7)
	b.SetTheme("dark")
	b.SetUnits(units.SI)
	b.enter("house")
	b.enter(lessonPlace)
	require.Equal(t, 4, b.class.At())
	require.Equal(t, 7, b.class.Position())
	require.Equal(t, lesson.Try, b.class.Step())
	require.Equal(t, 1, b.class.Predicted())
}

// The chart of a demonstration has half the height of the window at every step, with the
// strip over it and the column beside it too.
func TestTheChartHasHalfOfTheWindow(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.window.Resize(fyne.NewSize(1280, 720))
	b.enter(lessonPlace)
	for i := range b.class.Items() {
		b.class.Choose(i)
		for range 3 {
			high := float32(0)
			for _, o := range test.LaidOutObjects(b.body) {
				if c, ok := o.(*chart.Chart); ok && c.Visible() {
					high = fyne.Max(high, c.Size().Height)
				}
			}
			require.GreaterOrEqual(t, high, float32(360), "%s, step %d", b.class.Lesson().Title, b.class.Step())
			if b.class.Step() < lesson.Explain {
				b.class.Forward()
			}
		}
	}
}

// F11 gives a demonstration the whole screen, and no other place; leaving it gives the
// window the size that it had.
func TestADemonstrationFillsTheScreen(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter(lessonPlace)
	before := b.window.Canvas().Size()
	b.typedKey(&fyne.KeyEvent{Name: fyne.KeyF11})
	require.True(t, b.window.FullScreen())
	require.False(t, b.decision.strip.Object().Visible())
	require.False(t, b.nav.Object().Visible())
	require.Equal(t, b.root.Size(), b.body.Size())
	b.enter("house")
	require.True(t, b.decision.strip.Object().Visible(), "the decision leaves no other place")
	require.True(t, b.nav.Object().Visible())
	b.enter(lessonPlace)
	require.False(t, b.decision.strip.Object().Visible())
	b.window.Resize(fyne.NewSize(1920, 1080)) // the screen
	b.typedKey(&fyne.KeyEvent{Name: fyne.KeyF11})
	require.True(t, b.decision.strip.Object().Visible())
	require.True(t, b.nav.Object().Visible())
	require.Equal(t, before, b.window.Canvas().Size())
}

func TestLargeTypeFillsTheWindow(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	item(t, b, "Large type").Action()
	require.Equal(t, lessonPlace, b.at)
	require.False(t, b.nav.Object().Visible())
	require.False(t, b.decision.strip.Object().Visible())
	require.Equal(t, b.root.Size(), b.body.Size())
	text := b.theme().Size("text")
	require.GreaterOrEqual(t, text, float32(768)/30, "letters to be read from the back of a room")
	b.window.Resize(fyne.NewSize(1920, 1080))
	require.Greater(t, b.theme().Size("text"), 1.3*text, "they grow with the window")
	for i := range b.class.Items() {
		b.class.Choose(i)
		for range 3 {
			least := b.root.MinSize()
			require.LessOrEqual(t, least.Width, float32(1920), b.class.Lesson().Title)
			require.LessOrEqual(t, least.Height, float32(1080), "%s, step %d", b.class.Lesson().Title, b.class.Step())
			if b.class.Step() < lesson.Explain {
				b.class.Forward()
			}
		}
	}
	b.window.Resize(fyne.NewSize(1366, 768))
	for i := range b.class.Items() {
		b.class.Choose(i)
		b.class.Forward()
		least := b.root.MinSize()
		require.LessOrEqual(t, least.Width, float32(1366), b.class.Lesson().Title)
		require.LessOrEqual(t, least.Height, float32(740), b.class.Lesson().Title)
	}
	item(t, b, "Large type").Action()
	require.True(t, b.nav.Object().Visible())
	require.Equal(t, usualSettings().TextSize, b.settings.TextSize, "the person's own text size is kept")
	require.Less(t, b.theme().Size("text"), text)

	item(t, b, "Large type").Action()
	item(t, b, "Site").Action()
	require.Equal(t, "house", b.at, "another place ends the large type")
	require.True(t, b.nav.Object().Visible())
}

func TestTheKeysOfADemonstrationAreOnTheMenu(t *testing.T) {
	b := newBench(t)
	next, back := item(t, b, "Next step"), item(t, b, "Step before")
	next.Action() // elsewhere they do nothing
	require.Equal(t, firstPlace, b.at)
	b.enter(lessonPlace)
	next.Action()
	require.Equal(t, lesson.Try, b.class.Step())
	back.Action()
	require.Equal(t, lesson.Ask, b.class.Step())
}

func TestADemonstrationFileIsOpened(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	typeText(t, b, "4") // unsaved work: it stays
	job := b.session.Job()
	n := 10
	path := lessonFile(t, "altitude")
	b.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	require.False(t, b.busy(), "no question: nothing is lost")
	require.Equal(t, lessonPlace, b.at)
	require.Len(t, b.class.Items(), n+1)
	require.Equal(t, "Altitude", b.class.Lesson().Title)
	require.Equal(t, job, b.session.Job())
	require.Equal(t, path, b.recent[0])

	bad := filepath.Join(t.TempDir(), "bad"+lessonSuffix)
	require.NoError(t, os.WriteFile(bad, []byte(`{"schema": 1, "title": "x", "question": "y?", "job": {"schema": 1}}`), 0o600))
	require.ErrorContains(t, b.Open(bad), "move.name")
	b.openOrShowError(bad)
	require.True(t, b.busy(), "its faults are told")
	require.Len(t, b.class.Items(), n+1)
}

// The menu offers the demonstrations by their titles; of files it lists theirs alone.
func TestADemonstrationIsChosenByItsTitle(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	item(t, b, "Open a demonstration").Action()
	require.True(t, b.busy())
	first, ok := b.window.Canvas().Focused().(*keyButton)
	require.True(t, ok, "the list has the keyboard")
	require.Equal(t, b.classShow().Items()[0].Name(), first.Text)
	answerWith(t, b, "A deeper cabinet")
	require.False(t, b.busy())
	require.Equal(t, lessonPlace, b.at)
	require.Equal(t, "A deeper cabinet", b.class.Lesson().Title)

	for name, is := range map[string]bool{"dust.lesson.json": true, "Dust.LESSON.JSON": true, "house.job.json": false, "notes.json": false} {
		require.Equal(t, is, lessonFiles{}.Matches(storage.NewFileURI("/"+name)), name)
	}
	item(t, b, "Open a demonstration").Action()
	answerWith(t, b, "Open a file ...")
	require.NotNil(t, b.files, "Escape closes it")
	b.files.Dismiss()
}

func TestADemonstrationIsSaved(t *testing.T) {
	b := newBench(t)
	b.enter(lessonPlace)
	l := b.class.Lesson().Clone()
	l.Title = "Mine: pleats"
	path := filepath.Join(t.TempDir(), "mine"+lessonSuffix)
	saved := ""
	b.saveLesson(l, "", func(p string) { saved = p })
	require.True(t, b.busy(), "the person names the file")
	entry, ok := b.window.Canvas().Focused().(*pathEntry)
	require.True(t, ok)
	require.Equal(t, "Mine- pleats"+lessonSuffix, filepath.Base(entry.Text))
	entry.SetText(path)
	press(t, b, fyne.KeyReturn)
	require.Equal(t, path, saved)
	again, err := jobfile.LoadLesson(path)
	require.NoError(t, err)
	require.Equal(t, l, again)
}

// The house of a demonstration becomes a job only when asked for, and not over
// unsaved work.
func TestTheHouseOfADemonstrationAsAJob(t *testing.T) {
	b := newBench(t)
	typeText(t, b, "4")
	b.enter(lessonPlace)
	b.class.Choose(2)
	screen := b.screens[lessonPlace].(*lesson.Screen)
	screen.OpenHouse()
	require.True(t, b.busy())
	answerWith(t, b, "Cancel")
	require.Equal(t, 4*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	screen.OpenHouse()
	answerWith(t, b, "Don't save")
	require.Equal(t, firstPlace, b.at)
	require.Contains(t, b.session.Job().Name, "Cedar Hill")
}

func TestAnUnsavedDemonstrationIsAskedAbout(t *testing.T) {
	b := newBench(t)
	b.session.MarkSaved("")
	b.enter(lessonPlace)
	screen := b.screens[lessonPlace].(*lesson.Screen)
	screen.EditJob()
	typeText(t, b, "Mine")
	require.True(t, b.class.Dirty())
	b.Quit()
	require.True(t, b.busy())
	answerWith(t, b, "Cancel")
	require.Equal(t, lessonPlace, b.at)
	require.True(t, b.class.Dirty())
}

func TestPictureOfTheDemonstrations(t *testing.T) {
	p, err := Picture(example(t, "one-inch-slot"), Frame{Place: lessonPlace, Theme: "dark", Width: 1366, Height: 768})
	require.NoError(t, err)
	require.Equal(t, 1366, p.Bounds().Dx())
}

// What can move in a demonstration is called as the window calls it.
func TestWhatMovesIsCalledByItsLabel(t *testing.T) {
	b := newBench(t)
	seen := map[string]string{}
	for _, e := range assets.Examples() {
		job := example(t, e.Name)
		numbers, words := lessons.Movable(job)
		for _, path := range append(numbers, words...) {
			if strings.Contains(path, ".points[") || path == "notes" {
				continue
			}
			call := b.partWords(&job, path)
			require.NotRegexp(t, `[\[_]`, call, path)
			require.Contains(t, []string{"", path}, seen[e.Name+call], "two fields are called %s", call)
			seen[e.Name+call] = path
		}
	}
	require.Greater(t, len(seen), 200)
}
