package lesson

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/look"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// model stands in for the session.
type model struct {
	job sizing.Job
	sys units.Locale
}

func (m *model) Job() sizing.Job     { return m.job.Clone() }
func (m *model) Units() units.Locale { return m.sys }

// class is the place in a window, with a shell that notes what it is asked.
type class struct {
	*Screen
	window fyne.Window
	model  *model
	saved  []lesson.Lesson
	houses []sizing.Job
	large  bool
}

func newClass(t testing.TB, large bool) *class {
	t.Helper()
	app := test.NewApp()
	app.Settings().SetTheme(look.Theme(look.Light, 1))
	require.NoError(t, plots.UseFace(look.Face()))
	c := &class{model: &model{}}
	show := newShow(t)
	c.model.job = show.Items()[3].Lesson.Job
	c.Screen = New(show, c.model, Shell{
		Look: func(sys units.Locale) plots.Look { return plots.Light(sys) },
		Open: func() {},
		Save: func(l lesson.Lesson, path string, saved func(string)) {
			c.saved = append(c.saved, l)
			saved("/class/own.lesson.json")
		},
		House: func(j sizing.Job) { c.houses = append(c.houses, j) },
		Leave: func(dirty bool, then func()) { then() },
		Large: func(on bool) { c.large = on },
	}, large)
	c.window = test.NewWindow(c.Object())
	c.window.Resize(fyne.NewSize(1200, 700))
	t.Cleanup(c.window.Close)
	c.window.Canvas().Focus(c.First())
	return c
}

func (c *class) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		c.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// words are all texts in view under an object.
func words(o fyne.CanvasObject) string {
	out := ""
	var visit func(fyne.CanvasObject)
	visit = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch w := o.(type) {
		case *widget.Label:
			out += w.Text + "\n"
		case *fyne.Container:
			for _, one := range w.Objects {
				visit(one)
			}
		case fyne.Widget:
			for _, one := range test.WidgetRenderer(w).Objects() {
				visit(one)
			}
		}
	}
	visit(o)
	return out
}

// A demonstration from the keyboard alone: predict, move, explanation, next.
func TestADemonstrationByKeyboard(t *testing.T) {
	c := newClass(t, false)
	require.NotContains(t, words(c.Object()), "happened", "nothing is told yet")
	require.True(t, c.view.slider.Disabled())
	c.press(fyne.KeyDown, fyne.KeyDown, fyne.KeySpace)
	require.Equal(t, 2, c.show.Predicted())
	c.press(fyne.Key1)
	require.Zero(t, c.show.Predicted())
	c.press(fyne.KeyPageDown)
	require.Equal(t, Try, c.show.Step())
	require.Same(t, c.view.slider, c.window.Canvas().Focused())
	require.Contains(t, words(c.Object()), "You said: Less and less")

	before := words(c.view.numbers)
	c.press(fyne.KeyRight, fyne.KeyRight)
	require.Equal(t, 2, c.show.Position())
	require.Equal(t, "14", c.view.value.Text)
	require.NotEqual(t, before, words(c.view.numbers), "the numbers answer")
	require.Contains(t, words(c.view.numbers), "lower")
	chart, ok := c.view.plot()
	require.True(t, ok)
	require.Len(t, chart.Lines, 3, "the blower, the start and now")
	c.press(fyne.KeyEnd)
	require.Equal(t, len(c.show.Settings())-1, c.show.Position())
	require.NotContains(t, words(c.Object()), "happened")

	c.press(fyne.KeyPageDown)
	require.Equal(t, Explain, c.show.Step())
	told := words(c.view.explanation)
	require.Contains(t, told, "this happened")
	require.Contains(t, told, "Your prediction did not come true.")
	o, ok := c.show.Outcome()
	require.True(t, ok)
	paragraphs := o.Explain(units.IP)
	for i, paragraph := range paragraphs { // the first at once, then one a key, and none skipped
		if i > 0 {
			c.press(fyne.KeyPageDown)
		}
		told := words(c.view.explanation)
		require.Contains(t, told, paragraph)
		for k, other := range paragraphs {
			require.True(t, k == i || !strings.Contains(told, other), "one at a time")
		}
	}
	c.press(fyne.KeyPageDown)
	require.Contains(t, words(c.view.explanation), "two-channel pleat model", "the working names its source")
	for range len(paragraphs) + 1 {
		c.press(fyne.KeyPageUp)
	}
	require.Equal(t, Try, c.show.Step())
	for range len(paragraphs) + 1 {
		c.press(fyne.KeyPageDown)
	}
	c.press(fyne.KeyReturn)
	require.Equal(t, 1, c.show.At())
	require.Equal(t, Ask, c.show.Step())
	require.Same(t, c.view.answers[0], c.window.Canvas().Focused(), "the keyboard goes on to the next")
	c.window.Canvas().Focus(c.view.forward)
	c.press(fyne.Key2)
	require.Equal(t, 1, c.show.Predicted(), "the digits choose from the button too")
}

func TestASwitchByKeyboard(t *testing.T) {
	c := newClass(t, false)
	c.show.Choose(1)
	require.True(t, c.view.choices[1].off)
	c.show.Forward()
	c.press(fyne.KeyRight)
	require.Equal(t, 1, c.show.Position())
	require.Same(t, c.view.choices[1], c.window.Canvas().Focused())
	test.Tap(c.view.choices[2])
	require.Equal(t, 2, c.show.Position())
}

func TestUnitsAreThoseInUse(t *testing.T) {
	c := newClass(t, false)
	c.show.Choose(8)
	c.show.Forward()
	c.show.MoveTo(16)
	c.show.Forward()
	allTold := func() string {
		all := words(c.view.explanation)
		for c.show.Part() < c.show.parts()-1 {
			c.show.Forward()
			all += words(c.view.explanation)
		}
		return all
	}
	require.Contains(t, allTold(), "8000 ft")
	require.Contains(t, words(c.view.numbers), "cfm")
	c.model.sys = units.SI
	c.Refresh()
	require.Contains(t, words(c.view.explanation), "2440 m")
	require.NotContains(t, words(c.view.explanation), " cfm")
	require.Contains(t, words(c.view.numbers), "L/s")
}

// "Explain it" explains: with what came out stands the first paragraph, and what came
// of each prediction under it.
func TestExplainItExplains(t *testing.T) {
	c := newClass(t, false)
	c.show.Predict(1)
	c.show.Forward()
	require.Equal(t, "Explain it", c.view.forward.Text)
	test.Tap(c.view.forward)
	o, ok := c.show.Outcome()
	require.True(t, ok)
	told := words(c.view.explanation)
	require.Contains(t, told, "This happened: "+c.show.Lesson().Predictions[slices.Index(o.Right(), true)].Text)
	require.Contains(t, told, o.Explain(units.IP)[0])
	require.Contains(t, told, "did not happen")
	for range c.show.parts() - 1 {
		c.show.Forward()
	}
	require.Equal(t, "Next demonstration", c.view.forward.Text)
}

// Large type shows little at a time, and no list.
func TestLargeTypeShowsLittleAtATime(t *testing.T) {
	c := newClass(t, true)
	c.show.Choose(4)
	all := words(c.Object())
	require.NotContains(t, all, "Altitude", "the list is away")
	require.Contains(t, all, c.show.Lesson().Ask(units.IP))
	require.True(t, c.view.chart.Visible(), "where it begins")
	require.False(t, c.view.numbers.Visible(), "the numbers come with the move")
	c.show.Predict(1)
	c.show.Forward()
	require.True(t, c.view.chart.Visible())
	require.True(t, c.view.move.Visible())
	require.Contains(t, words(c.view.numbers), "Airflow")
	c.show.Forward()
	require.False(t, c.view.move.Visible())
	require.False(t, c.view.numbers.Visible())
	require.Contains(t, words(c.Object()), "Your prediction came true.")
	for _, b := range buttons(c.Object()) {
		if b.Text == "Leave large type" {
			test.Tap(b)
		}
	}
	require.False(t, c.large)
}

// buttons are all plain buttons under an object.
func buttons(o fyne.CanvasObject) (out []*widget.Button) {
	switch w := o.(type) {
	case *widget.Button:
		return []*widget.Button{w}
	case *fyne.Container:
		for _, one := range w.Objects {
			out = append(out, buttons(one)...)
		}
	case *widget.Label, *answer, *keyButton, *slider:
	case fyne.Widget:
		for _, one := range test.WidgetRenderer(w).Objects() {
			out = append(out, buttons(one)...)
		}
	}
	return out
}

func (c *class) tap(t *testing.T, label string) {
	t.Helper()
	for _, b := range buttons(c.Object()) {
		if b.Text == label {
			test.Tap(b)
			return
		}
	}
	require.Fail(t, "no button "+label)
}

func TestTheHouseAtTheSettingInViewIsOpened(t *testing.T) {
	c := newClass(t, false)
	c.show.Forward()
	c.show.MoveTo(4)
	c.tap(t, "Open this house as a job")
	require.Len(t, c.houses, 1)
	require.Equal(t, 18, c.houses[0].Filters[0].Pleats)
	require.Equal(t, 10, c.show.Lesson().Job.Filters[0].Pleats)
}

func (c *class) write(t *testing.T, path, text string) {
	t.Helper()
	f, ok := c.editor.fields[path].(interface{ Entry() *fields.Entry })
	require.True(t, ok, path)
	f.Entry().SetText(text)
}

// A trainer makes a demonstration of the job, is told what is missing by field,
// and saves it.
func TestADemonstrationOfOnesOwn(t *testing.T) {
	c := newClass(t, false)
	n := len(c.show.Items())
	c.tap(t, "Make one of the present job ...")
	require.NotNil(t, c.editor)
	c.tap(t, "Save as a demonstration ...")
	require.Empty(t, c.saved, "not before it is sound")
	require.Contains(t, c.editor.fields["question"].(*fields.Text).FaultText(), "a text")
	require.Contains(t, c.editor.fields["move.path"].(*fields.Choice).FaultText(), "path of a field")

	c.write(t, "title", "A tighter coil")
	c.write(t, "question", "The coil takes more. What does the airflow do?")
	c.editor.fields["move.path"].(*fields.Choice).List().SetSelected("Coil and supply: coil.drop")
	require.Equal(t, "0.2 in. w.c.", c.editor.draft.lesson.Move.From)
	c.write(t, "move.name", "Coil")
	c.write(t, "move.to", "0.4")
	require.Contains(t, c.editor.fields["move.to"].(*fields.Text).FaultText(), "a pressure in")
	c.write(t, "move.to", "0.4 in. w.c.")
	c.write(t, "predictions[0].text", "It rises")
	c.write(t, "predictions[1].text", "It falls")
	c.tap(t, "Save as a demonstration ...")
	require.Len(t, c.saved, 1)
	require.Empty(t, c.saved[0].Check())
	require.Nil(t, c.editor)
	require.Len(t, c.show.Items(), n+1)
	require.Equal(t, "/class/own.lesson.json", c.show.Item().Path)
	require.False(t, c.show.Dirty())

	c.show.Predict(1)
	c.show.Forward()
	c.show.Forward()
	require.Contains(t, words(c.view.explanation), "Your prediction came true.")

	c.tap(t, "Edit this one ...")
	c.write(t, "explanation[0]", "The airflow ends at {end airflow}.")
	require.True(t, c.show.Dirty())
	c.tap(t, "Show it")
	require.Len(t, c.show.Items(), n+1, "the same one")
	require.True(t, c.show.Dirty(), "its file does not hold it yet")
	c.tap(t, "Edit this one ...")
	c.tap(t, "Save as a demonstration ...")
	require.False(t, c.show.Dirty())
	require.Len(t, c.saved, 2)
}

// The form can grow: more answers, claims, positions and paragraphs.
func TestTheFormGrows(t *testing.T) {
	c := newClass(t, false)
	c.show.Choose(5)
	c.tap(t, "Edit this one ...")
	before := c.editor.draft.lesson.Clone()
	c.tap(t, "Add an answer")
	c.tap(t, "Add a position")
	c.tap(t, "Add a paragraph")
	c.tap(t, "Add a claim to this answer")
	l := c.editor.draft.lesson
	require.Len(t, l.Predictions, len(before.Predictions)+1)
	require.Len(t, l.Move.Choices, len(before.Move.Choices)+1)
	require.Len(t, l.Explanation, len(before.Explanation)+1)
	require.Len(t, l.Predictions[0].Claims, len(before.Predictions[0].Claims)+1)
	c.tap(t, "Remove the last answer")
	c.tap(t, "Remove the last position")
	c.tap(t, "Remove the last paragraph")
	require.Len(t, c.editor.draft.lesson.Predictions, len(before.Predictions))
	c.editor.fields["numbers[0]"].(*fields.Choice).List().SetSelected("none")
	require.Equal(t, before.Numbers[1:], c.editor.draft.lesson.Numbers)
	c.tap(t, "Leave without saving")
	require.Nil(t, c.editor)
	require.Equal(t, before, *c.show.Lesson())
	require.False(t, strings.Contains(words(c.list), "not saved"))
}

// BenchmarkMoveToPicture is from the hand on the slider to the picture drawn.
func BenchmarkMoveToPicture(b *testing.B) {
	c := newClass(b, false)
	c.show.Forward()
	for i := 0; b.Loop(); i++ {
		c.show.MoveTo(1 + i%(len(c.show.Settings())-1))
		c.window.Canvas().Capture()
	}
}

// Hands are counted for each answer, stand beside it when it is explained, and are
// gone with a new start.
func TestHandsAreCounted(t *testing.T) {
	c := newClass(t, false)
	c.show.Raise(1, 1)
	c.show.Raise(1, 1)
	c.show.Raise(0, -1)
	require.Equal(t, "2 hands", c.view.handCounts[1].label.Text)
	require.Equal(t, "0 hands", c.view.handCounts[0].label.Text)
	c.window.Canvas().Focus(c.view.answers[2])
	c.press(fyne.KeyPlus)
	require.Equal(t, "1 hand", c.view.handCounts[2].label.Text)
	c.show.Predict(2)
	c.show.Forward()
	c.show.Raise(1, 5)
	require.Equal(t, 2, c.show.Hands()[1], "no hand rises once the move is made")
	c.show.Forward()
	require.Contains(t, words(c.view.explanation), "did not happen, 2 hands")
	c.show.Reset()
	require.Equal(t, Ask, c.show.Step())
	require.Equal(t, -1, c.show.Predicted())
	require.Equal(t, "0 hands", c.view.handCounts[1].label.Text)
}

// The chosen number is traced at the settings that were in view, and at no other.
func TestTheNumberIsTraced(t *testing.T) {
	c := newClass(t, false)
	c.show.Predict(0)
	require.False(t, c.view.trace.Visible())
	c.show.Forward()
	require.True(t, c.view.trace.Visible())
	for _, at := range []int{2, 5} {
		c.show.MoveTo(at)
	}
	traced := func() plots.ReadoutLine {
		chart, ok := c.view.plotTrace()
		require.True(t, ok)
		require.Len(t, chart.Lines, 1)
		return chart.Lines[0]
	}
	line := traced()
	require.Len(t, line.Points, 3)
	now, ok := c.show.Now()
	require.True(t, ok)
	want, _ := now.Value(c.show.Lesson().Numbers[0]).In(units.IP)
	require.Equal(t, 5.0, line.Points[2].X)
	require.InDelta(t, want, line.Points[2].Y, 1e-9)
	c.view.tiles[1].pick.Tapped(nil)
	require.Equal(t, string(c.show.Lesson().Numbers[1].Name()), traced().Label)
}

// What can move is grouped, and found by words in any order.
func TestWhatCanMoveIsFound(t *testing.T) {
	c := newClass(t, false)
	c.tap(t, "Make one of the present job ...")
	all := c.editor.moveItems()
	groups := []string{}
	for _, it := range all {
		group, _, _ := strings.Cut(it.Label, ": ")
		if len(groups) == 0 || groups[len(groups)-1] != group {
			groups = append(groups, group)
		}
	}
	seen := map[string]bool{}
	for _, g := range groups {
		require.False(t, seen[g], "each group once: %v", groups)
		seen[g] = true
	}
	c.editor.find = "DROP coil"
	found := c.editor.moveItems()
	require.NotEmpty(t, found)
	require.Less(t, len(found), len(all))
	for _, it := range found {
		require.True(t, holdsWords(it.Label, "coil drop"), it.Label)
	}
}

// The chart has at least half the height at every step, in large type and large letters
// too, and the question stays.
func TestTheChartHasHalfTheHeight(t *testing.T) {
	for _, set := range []struct {
		large bool
		text  float32
	}{{false, 1}, {true, 1}, {false, 1.5}, {true, 1.5}} {
		large := set.large
		c := newClass(t, large)
		fyne.CurrentApp().Settings().SetTheme(look.Theme(look.Light, set.text))
		c.window.Resize(fyne.NewSize(1280, 720))
		for i := range c.show.Items() {
			c.show.Choose(i)
			for range 3 {
				require.GreaterOrEqual(t, c.view.chart.Size().Height, float32(0.5*720), "%s, step %d, %v", c.show.Lesson().Title, c.show.Step(), set)
				require.True(t, c.view.question.Visible())
				if c.show.Step() < Explain {
					c.show.Forward()
				}
			}
		}
	}
}
