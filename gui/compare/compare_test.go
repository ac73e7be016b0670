package compare

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

const someSamples = 20

// made is an invented house with two options, and the place in a window.
func made(t *testing.T) (*Screen, *session.Session, *sizing.View, fyne.Window) {
	t.Helper()
	test.NewTempApp(t)
	m := session.New(sizing.Solve, session.InStep)
	m.RangeBy(session.Ranging{Samples: someSamples, Sample: func(ctx context.Context, job sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
		return sizing.Sampling{Samples: someSamples, Seed: 1, Workers: 1, Done: done}.Ranges(ctx, job)
	}})
	m.Load(sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Options: []sizing.Option{
		{Name: "wide", Slot: sizing.Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}, Price: 400},
		{Name: "small", Slot: sizing.Slot{Width: 14 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch}},
	}}, "")
	view := &sizing.View{Without: []string{}}
	s := New(m, view, func(string) {})
	m.OnChange(s.Refresh)
	w := test.NewTempWindow(t, s.Object())
	w.Resize(fyne.NewSize(1300, 700))
	return s, m, view, w
}

func (t *comparison) shownOptions() []string { return t.heads[1:] }

func (t *comparison) cell(title, option string, change bool) string {
	at := slices.Index(t.heads, option)
	for _, row := range t.sheet.Rows() {
		if name, _, _ := strings.Cut(row[0], "\n"); name == title {
			number, under, _ := strings.Cut(row[at], "\n")
			if change {
				return under
			}
			return number
		}
	}
	return ""
}

func TestTableShowsChangeWithDirection(t *testing.T) {
	s, m, _, _ := made(t)
	assert.Equal(t, []string{"today", "wide", "small", "no filter"}, s.table.shownOptions())
	assert.True(t, strings.HasPrefix(s.table.cell("Airflow, clean", "wide", true), "+"))
	assert.True(t, strings.HasSuffix(s.table.cell("Airflow, clean", "wide", true), " better"))
	assert.True(t, strings.HasSuffix(s.table.cell("Filter drop, clean", "small", true), " worse"))
	assert.True(t, strings.HasPrefix(s.table.cell("Filter drop, clean", "small", true), "+"), "more drop is the worse")
	assert.Equal(t, "–", s.table.cell("MERV", "no filter", false))
	now := m.Study().Option("wide").Clean.Airflow
	assert.Equal(t, now.Kind().Number(now.SI(), units.IP), s.table.cell("Airflow, clean", "wide", false))
	m.SetUnits(units.SI)
	assert.Equal(t, now.Kind().Number(now.SI(), units.SI), s.table.cell("Airflow, clean", "wide", false))
}

// Better and worse are said only where the samples agree; without them the line
// over the table says why, and the changes stand alone.
func TestWordsRestOnSamples(t *testing.T) {
	s, m, view, _ := made(t)
	assert.Contains(t, s.table.basis.Text, "20 samples")
	m.SetRanging(false)
	assert.Contains(t, s.table.basis.Text, "switched off")
	assert.Contains(t, s.table.basis.Text, "Without ranges")
	change := s.table.cell("Airflow, clean", "wide", true)
	assert.True(t, strings.HasPrefix(change, "+"), change)
	for _, row := range s.table.sheet.Rows() {
		if name, _, _ := strings.Cut(row[0], "\n"); name == "MERV" || name == "Price of the upgrade" || name == "Media area" {
			continue
		}
		for _, cell := range row[1:] {
			for _, word := range []sizing.Trend{sizing.Better, sizing.Worse, sizing.TrendTooClose} {
				assert.NotContains(t, cell, string(word), row[0])
			}
		}
	}
	m.SetRanging(true)
	assert.Equal(t, change+" better", s.table.cell("Airflow, clean", "wide", true))

	m.Apply("Add twins", func(j *sizing.Job) {
		wide := j.Options[0]
		wide.Name, wide.Slot.Width = "as wide", wide.Slot.Width+0.1*units.Inch
		j.Options = append(j.Options, wide)
	})
	view.Baseline = "wide"
	s.Refresh()
	assert.Contains(t, s.table.cell("Filter drop, clean", "as wide", true), string(sizing.TrendTooClose), "too near for any gauge")
	assert.True(t, strings.HasSuffix(s.table.cell("Airflow, clean", "today", true), " worse"))
}

// What a person chose of the table is no edit, and outlives new results, other
// units and another screen.
func TestViewOutlivesTheScreen(t *testing.T) {
	s, m, view, _ := made(t)
	s.table.base.SetSelected("small")
	s.table.order.SetSelected("Airflow, clean")
	s.table.most.SetChecked(true)
	for _, o := range s.table.shown.options.Objects {
		if c := o.(*widget.Check); c.Text == "no filter" {
			test.Tap(c)
		}
	}
	for _, o := range s.table.shown.figures.Objects {
		if c := o.(*widget.Check); c.Text == "MERV" {
			test.Tap(c)
		}
	}
	require.Empty(t, m.UndoName(), "no edit")
	look := func(s *Screen) {
		assert.Equal(t, []string{"small", "wide", "today"}, s.table.shownOptions())
		assert.Empty(t, s.table.cell("MERV", "wide", false))
		assert.Equal(t, "small", s.table.base.Selected)
		assert.True(t, s.table.most.Checked)
	}
	look(s)
	m.SetUnits(units.SI)
	m.Apply("Design airflow", func(j *sizing.Job) { j.DesignAirflow = 1250 * units.CFM })
	look(s)
	look(New(m, view, func(string) {}))
	s.table.most.SetChecked(false)
	assert.Equal(t, []string{"small", "today", "wide"}, s.table.shownOptions(), "the least first")
	s.table.base.SetSelected("no filter")
	assert.Equal(t, "no filter", s.table.shownOptions()[0], "the baseline is never left out")
}

func TestViewFollowsAName(t *testing.T) {
	s, m, view, _ := made(t)
	view.Baseline, view.Hidden = "small", []string{"wide"}
	s.list.Edit(1)
	s.Refresh()
	entry := s.Field("options[1].name").Focusable().(interface {
		fyne.Focusable
		SetText(string)
	})
	entry.SetText("tiny")
	require.Equal(t, "tiny", m.Job().Options[1].Name)
	assert.Equal(t, []string{"tiny", "today", "no filter"}, s.table.shownOptions())
}

// The keyboard sorts by the row in view, and turns the order round.
func TestSortByKeyboard(t *testing.T) {
	s, _, _, w := made(t)
	w.Canvas().Focus(s.table.sheet.Table)
	key := func(k fyne.KeyName) { s.table.sheet.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyDown)
	key(fyne.KeyReturn)
	assert.Equal(t, []string{"today", "small", "wide", "no filter"}, s.table.shownOptions())
	key(fyne.KeyReturn)
	assert.Equal(t, []string{"today", "no filter", "wide", "small"}, s.table.shownOptions())
	assert.Equal(t, "Airflow, clean", s.table.order.Selected)
	s.table.order.SetSelected(jobsOrder)
	assert.Equal(t, []string{"today", "wide", "small", "no filter"}, s.table.shownOptions())
	s.table.sheet.OnHead(1 + slices.Index(s.table.shownOptions(), "no filter"))
	assert.Equal(t, "no filter", s.table.base.Selected, "a click on what is no option holds the rest against it")
}

func TestShowIsReachedByTab(t *testing.T) {
	s, _, _, w := made(t)
	require.Equal(t, s.table.sheet.Object(), s.table.body.Objects[0])
	w.Canvas().Focus(s.table.choose)
	s.table.choose.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Equal(t, s.table.shown.object, s.table.body.Objects[0])
	seen := map[string]bool{}
	for range 80 {
		test.FocusNext(w.Canvas())
		if c, ok := w.Canvas().Focused().(*widget.Check); ok {
			seen[c.Text] = true
		}
	}
	for _, m := range sizing.Measures() {
		assert.True(t, seen[string(m.Title)], m.Title)
	}
	assert.True(t, seen["wide"])
	test.Tap(s.table.choose)
	require.Equal(t, s.table.sheet.Object(), s.table.body.Objects[0])
}

func TestCopyIsPlainText(t *testing.T) {
	s, _, _, w := made(t)
	w.Canvas().Focus(s.table.sheet.Table)
	s.table.sheet.TypedShortcut(&fyne.ShortcutCopy{})
	lines := strings.Split(strings.TrimSpace(fyne.CurrentApp().Clipboard().Content()), "\n")
	require.Len(t, lines, 1+len(sizing.Measures())+1)
	assert.Equal(t, []string{"measure", "unit", "better", "today", "wide", "wide minus today", "wide is"}, strings.Split(lines[0], "\t")[:7])
	assert.True(t, strings.HasPrefix(lines[1], "Airflow, clean, cfm\tcfm\tmore\t"))
	assert.Equal(t, "copied", s.table.copied.Text)
}

// An option moves up and down the list as an edit that can be undone, and the
// form goes with it.
func TestMoveOption(t *testing.T) {
	s, m, _, _ := made(t)
	before := m.Job()
	button(t, s, "Move up")
	require.Equal(t, "Move option up", m.UndoName())
	assert.Equal(t, "small", m.Job().Options[0].Name)
	assert.Equal(t, "small", s.Option(), "the option under edit stays so")
	assert.Equal(t, []string{"today", "small", "wide", "no filter"}, s.table.shownOptions())
	m.Undo()
	assert.Equal(t, before, m.Job())
	button(t, s, "Duplicate")
	assert.Len(t, m.Job().Options, 3)
	assert.Contains(t, m.Job().Options[s.list.At()].Name, " 2")
	button(t, s, "Remove")
	assert.Len(t, m.Job().Options, 2)
}

// button presses the first button of the form with a label.
func button(t *testing.T, s *Screen, label string) {
	t.Helper()
	var find func(o fyne.CanvasObject) *widgets.Button
	find = func(o fyne.CanvasObject) *widgets.Button {
		switch o := o.(type) {
		case *widgets.Button:
			if o.Text == label {
				return o
			}
		case *container.Scroll:
			return find(o.Content)
		case *fyne.Container:
			for _, c := range o.Objects {
				if b := find(c); b != nil {
					return b
				}
			}
		}
		return nil
	}
	b := find(s.Object())
	require.NotNil(t, b, label)
	require.False(t, b.Disabled(), label)
	test.Tap(b)
}

// A person sees six figures first: what an owner asks. All others are one click
// away, and a choice of one's own belongs to no preset.
func TestPresets(t *testing.T) {
	s, _, view, _ := made(t)
	titles := func() []string {
		var out []string
		for _, row := range s.table.sheet.Rows() {
			name, _, _ := strings.Cut(row[0], "\n")
			out = append(out, name)
		}
		return out
	}
	view.Without = nil // as a window begins
	s.Refresh()
	assert.Equal(t, "Customer", s.table.presets.Selected)
	assert.Equal(t, []string{"Airflow, clean", "MERV as installed", "Air past the filter", "Filters a year", "Power and filters a year", "Ten years' cost"}, titles())
	s.table.presets.SetSelected("Technician")
	assert.Contains(t, titles(), "External static, loaded")
	s.table.presets.SetSelected("All figures")
	assert.Len(t, titles(), len(sizing.Measures()))
	for _, o := range s.table.shown.figures.Objects {
		if c := o.(*widget.Check); c.Text == "MERV" {
			test.Tap(c)
		}
	}
	assert.Empty(t, s.table.presets.Selected)
	for _, p := range presets {
		for _, key := range p.keys {
			assert.True(t, slices.ContainsFunc(sizing.Measures(), func(m sizing.Measure) bool { return m.Key == key }), key)
		}
	}
}

// Four options beside today and no filter have room at 1366 wide, each name over
// its own numbers.
func TestFourOptionsHaveRoom(t *testing.T) {
	s, m, view, w := made(t)
	view.Without = nil
	names := []string{"cabinet and second return", "MERV 8 in the same slot", "second hall return", "four-inch cabinet"}
	m.Apply("Four options", func(j *sizing.Job) {
		wide := j.Options[0]
		j.Options = nil
		for _, name := range names {
			wide.Name = name
			j.Options = append(j.Options, wide)
		}
	})
	s.closeDrawer()
	const column = 190 // of the window's places
	w.Resize(fyne.NewSize(1366-column, 700))
	assert.False(t, s.table.sheet.MovesSideways())
	assert.Equal(t, append(append([]string{"today"}, names...), "no filter"), s.table.shownOptions())
}

// A head of 60 letters stands over its numbers in the same room, whole where the pointer
// rests on it.
func TestALongHeadKeepsItsColumn(t *testing.T) {
	s, m, _, w := made(t)
	const long = "a cabinet of five inches in the closet behind the furnace, "
	m.Apply("Four options", func(j *sizing.Job) {
		wide := j.Options[0]
		j.Options = nil
		for _, n := range []string{"1", "2", "3", "4"} {
			wide.Name = long + n
			j.Options = append(j.Options, wide)
		}
	})
	s.closeDrawer()
	tips := widgets.NewTooltips()
	tips.Wait = func(_ time.Duration, show func()) { show() }
	w.SetContent(container.NewStack(s.Object(), tips))
	const column = 190 // of the window's places
	w.Resize(fyne.NewSize(1366-column, 700))
	require.False(t, s.table.sheet.MovesSideways())
	heads, seen := map[string]bool{}, 0
	var head fyne.CanvasObject
	for _, o := range test.LaidOutObjects(s.table.sheet.Table) {
		switch o := o.(type) {
		case *canvas.Text:
			seen++
			assert.LessOrEqual(t, o.MinSize().Width, o.Size().Width+1, "%q is cut", o.Text)
		case desktop.Hoverable:
			if head == nil {
				head = o.(fyne.CanvasObject)
			}
		}
	}
	require.Greater(t, seen, 40)
	words := strings.ReplaceAll(guitest.Words(head), "\n", " ")
	assert.Equal(t, 4, strings.Count(words, widgets.ShortName(long+"1")), words)
	for x := float32(5); x < head.Size().Width; x += 20 {
		head.(desktop.Hoverable).MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 5)}})
		heads[tips.Text()] = true
	}
	for _, n := range []string{"1", "2", "3", "4"} {
		assert.True(t, heads[long+n], n)
	}
}

// An option is edited in a drawer, which a click on its name opens; what was just
// added, here or at another place, is what is edited next.
func TestWhatWasAddedIsEdited(t *testing.T) {
	s, m, _, _ := made(t)
	require.False(t, s.drawer.object.Visible())
	s.table.sheet.OnHead(1 + slices.Index(s.table.shownOptions(), "wide"))
	require.True(t, s.drawer.object.Visible())
	assert.Equal(t, "wide", s.Option())
	s.closeDrawer()
	m.Apply("Add size", func(j *sizing.Job) {
		found := j.Options[0]
		found.Name = "20x30x4"
		j.Options = append(j.Options, found)
	})
	assert.True(t, s.drawer.object.Visible())
	assert.Equal(t, "20x30x4", s.Option())
	s.closeDrawer()
	s.table.add()
	assert.True(t, s.drawer.object.Visible())
	assert.Equal(t, m.Job().Options[3].Name, s.Option())
	m.Undo()
	m.Undo()
	assert.Len(t, m.Job().Options, 2)
}

// What the recommended option does is told once, in the reason for it.
func TestTheReasonIsToldOnce(t *testing.T) {
	s, m, _, _ := made(t)
	r := m.Study().Recommendation
	require.NotEmpty(t, r.Option)
	all := ""
	for _, l := range s.table.said.lines {
		all += l.Text + "\n"
	}
	require.Contains(t, all, r.Why.In(m.Units()))
	versus := m.Study().Option(r.Option).Versus.In(m.Units())
	require.NotEmpty(t, versus)
	require.Contains(t, all, versus)
	require.Equal(t, 1, strings.Count(all, versus), all)
}

// More watts because more air moves is said so, and not marked worse.
func TestMoreWattsForMoreAir(t *testing.T) {
	s, m, _, _ := made(t)
	study := m.Study()
	wide, today := study.Option("wide"), study.Today()
	require.Greater(t, wide.Clean.Airflow, today.Clean.Airflow)
	require.Greater(t, wide.Clean.BlowerPower, today.Clean.BlowerPower)
	assert.True(t, strings.HasSuffix(s.table.cell("Blower power, clean", "wide", true), " "+string(sizing.ForAir)))
	small := study.Option("small")
	require.Less(t, small.Clean.Airflow, today.Clean.Airflow)
	assert.NotContains(t, s.table.cell("Blower power, clean", "small", true), string(sizing.ForAir))
}

// A title that says what it is for has its own two lines.
func TestShortTitlesAreThoseOfTheMeasures(t *testing.T) {
	split := 0
	for _, m := range sizing.Measures() {
		title, of, ok := strings.Cut(string(m.Title), ", for ")
		short, has := shortTitles[m.Key]
		require.Equal(t, ok, has, m.Title)
		if ok {
			split++
			assert.EqualValues(t, title, short.title)
			assert.EqualValues(t, "{unit}, for "+of, short.under)
		}
	}
	assert.Len(t, shortTitles, split)
}
