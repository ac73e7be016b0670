package gui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/widgets"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// fieldEntry is the entry of a field of the place in view.
func fieldEntry(t testing.TB, b *Bench, path string) *fields.Entry {
	t.Helper()
	field := b.screens[b.at].(formFields).Field(path)
	require.NotNil(t, field, path)
	return field.(interface{ Entry() *fields.Entry }).Entry()
}

// retype replaces the text of a field, as by selecting it all and typing.
func retype(t testing.TB, b *Bench, path, text string) *fields.Entry {
	t.Helper()
	b.showPath(path) // opens its group, where it stands in one
	e := fieldEntry(t, b, path)
	require.Equal(t, fyne.Focusable(e), b.window.Canvas().Focused())
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	press(t, b, fyne.KeyBackspace)
	typeText(t, b, text)
	return e
}

// Whatever the field, a text that cannot be read leaves its value as it was, is
// told of in the strip and beside its place once the field is left, and goes
// with the first undo.
func TestWhatCannotBeReadIsReported(t *testing.T) {
	for _, c := range []struct{ place, path, text string }{
		{"equipment", "design_airflow", "12x"},
		{"returns", "returns[0].runs[0].length", "abc"},
		{"returns", "returns[0].grille.width", "16x"},
		{"equipment", "equipment.sensible_heat_ratio", "300"},
		{"slot", "slot.gap_bends", "2.5"},
		{"parts", "supply.exponent", "much"},
	} {
		t.Run(c.path, func(t *testing.T) {
			b := newBench(t)
			job := example(t, "two-returns")
			b.put(job, "")
			b.enter(c.place)
			before := fieldEntry(t, b, c.path).Text

			e := retype(t, b, c.path, c.text)
			require.Equal(t, c.text, e.Text)
			require.Equal(t, job, b.session.Job(), "what was typed up to it and the emptying are taken back")
			require.Len(t, b.session.Unread(), 1)
			require.Empty(t, troubleOf(b), "not while it is typed")
			test.FocusNext(b.window.Canvas())
			require.Contains(t, troubleOf(b), "1 field cannot be read")
			for _, it := range b.nav.items {
				if it.place.key == placeOfPath(c.path) {
					require.Equal(t, "1 !", it.note)
				}
			}
			b.goTo("limits")
			b.decision.strip.Press()
			require.Equal(t, c.text, fieldEntry(t, b, c.path).Text, "it stands there still")

			b.Undo()
			require.Equal(t, before, fieldEntry(t, b, c.path).Text)
			require.Empty(t, troubleOf(b))
			require.Equal(t, job, b.session.Job())
		})
	}
}

// A field that is emptied and then typed into keeps the value it had.
func TestJunkInAnEmptiedFieldIsNoEmptyField(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("equipment")
	airflow := b.session.Job().DesignAirflow
	e := fieldEntry(t, b, "design_airflow")
	b.window.Canvas().Focus(e)
	press(t, b, fyne.KeyBackspace)
	require.Zero(t, b.session.Job().DesignAirflow)
	typeText(t, b, "x")
	require.Equal(t, airflow, b.session.Job().DesignAirflow)
	press(t, b, fyne.KeyBackspace)
	require.Zero(t, b.session.Job().DesignAirflow, "empty it is left open again")
	require.Empty(t, b.session.Unread())
}

// The same field of two places shows the same text.
func TestWhatCannotBeReadIsTheSameInEveryPlace(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter(firstPlace)
	retype(t, b, "design_airflow", "many")
	b.enter("equipment")
	require.Equal(t, "many", fieldEntry(t, b, "design_airflow").Text)
	retype(t, b, "design_airflow", "1100")
	require.Equal(t, 1100*units.CFM, b.session.Job().DesignAirflow)
	b.enter(firstPlace)
	require.Equal(t, "1100", fieldEntry(t, b, "design_airflow").Text)
}

// What cannot be read outlives the building of its form, and moves with its thing.
func TestWhatCannotBeReadStaysWithItsThing(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("returns")
	retype(t, b, "returns[0].runs[0].length", "abc")
	b.SetUnits(units.SI)
	require.Equal(t, "abc", fieldEntry(t, b, "returns[0].runs[0].length").Text)
	b.SetTheme("dark")
	require.Equal(t, "abc", fieldEntry(t, b, "returns[0].runs[0].length").Text)
	test.Tap(formButton(t, b, "Move down"))
	require.Equal(t, "returns[1].runs[0].length", b.session.Unread()[0].Path)
	require.Equal(t, "abc", fieldEntry(t, b, "returns[1].runs[0].length").Text)
	test.Tap(formButton(t, b, "Remove"))
	require.Empty(t, b.session.Unread())
}

func TestSavingAsksWhereATextCannotBeRead(t *testing.T) {
	b := newBench(t)
	job := example(t, "two-returns")
	path := filepath.Join(t.TempDir(), "a.job.json")
	b.put(job, path)
	b.enter("equipment")
	retype(t, b, "equipment.heating_output", "hot")
	b.Save()
	require.True(t, b.busy())
	require.Contains(t, seenWords(b), "Heating output")
	b.answerLast()
	require.NoFileExists(t, path)
	require.Equal(t, fyne.Focusable(fieldEntry(t, b, "equipment.heating_output")), b.window.Canvas().Focused())

	left := false
	b.ifSafe(func() { left = true })
	require.False(t, left, "a text would be lost")
	b.answerLast()

	b.Save()
	test.Tap(topButton(t, b, "Save"))
	saved, err := jobfile.Load(path)
	require.NoError(t, err)
	require.Equal(t, job, saved)
}

// A cell of the blower's table is a field like any other.
func TestACellThatCannotBeReadIsReported(t *testing.T) {
	b := newBench(t)
	job := example(t, "two-returns")
	b.put(job, "")
	b.enter("blower")
	grid := b.screens["blower"].(formFields).Field("equipment.blower.taps[0].points").(interface {
		Cell(row, column int) *fields.Entry
		Rows() int
	})
	paste(b, grid.Cell(0, 0), "0.1\t1400\n0.3\tabc\n0.5\t1100\n0.7\t900")
	require.Equal(t, job, b.session.Job())
	require.Contains(t, troubleOf(b), "Row 2, airflow")
	require.Equal(t, "abc", grid.Cell(1, 1).Text)
	b.Undo()
	require.Empty(t, b.session.Unread())
	require.NotEqual(t, "abc", grid.Cell(1, 1).Text)
	require.Equal(t, job, b.session.Job())
}

// formButton finds a button of the form in view.
func formButton(t testing.TB, b *Bench, label string) *widgets.Button {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.root) {
		if w, ok := o.(*widgets.Button); ok && w.Text == label && !w.Disabled() {
			return w
		}
	}
	require.Fail(t, "no button "+label)
	return nil
}

// topButton finds an answer to the question in view.
func topButton(t testing.TB, b *Bench, label string) *keyButton {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.window.Canvas().Overlays().Top()) {
		if w, ok := o.(*keyButton); ok && w.Text == label {
			return w
		}
	}
	require.Fail(t, "no answer "+label)
	return nil
}

// seenWords are the words of the question in view.
func seenWords(b *Bench) (out string) {
	for _, o := range test.LaidOutObjects(b.window.Canvas().Overlays().Top()) {
		if w, ok := o.(*widget.Label); ok {
			out += w.Text + "\n"
		}
	}
	return out
}

func paste(b *Bench, e *fields.Entry, text string) {
	b.window.Canvas().Focus(e)
	clip := test.NewClipboard()
	clip.SetContent(text)
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
}

// A maker's sheet with the taps side by side becomes the taps of the job, as one
// step.
func TestTapsSideBySideArePasted(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	before := b.session.Job()
	b.enter("blower")
	grid := b.screens["blower"].(formFields).Field("equipment.blower.taps[0].points").(interface {
		Cell(row, column int) *fields.Entry
	})
	paste(b, grid.Cell(0, 0), "ESP  high  low  extra\n0.1  1,450  1,010  900\n0.3  1,350  960  850\n0.5  1,240  -  800")
	taps := b.session.Job().Equipment.Blower.Taps
	require.Len(t, taps, len(before.Equipment.Blower.Taps)+1)
	byName := map[string]int{}
	for _, tap := range taps {
		byName[tap.Name] = len(tap.Points)
	}
	require.Equal(t, 3, byName["high"])
	require.Equal(t, 2, byName["low"])
	require.Equal(t, 3, byName["extra"])
	require.Contains(t, b.session.UndoName(), "3 taps")
	b.Undo()
	require.Equal(t, before, b.session.Job())
}
