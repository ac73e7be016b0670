package gui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// formScroll is the scrolled form of the place in view.
func formScroll(t testing.TB, b *Bench) *container.Scroll {
	t.Helper()
	object := b.screens[b.at].Object()
	if s, ok := b.screens[b.at].(interface{ Drawer() fyne.CanvasObject }); ok {
		object = s.Drawer()
	}
	stack, ok := object.(*fyne.Container)
	require.True(t, ok)
	return stack.Objects[0].(*container.Scroll)
}

// requireSeen wants what has the keyboard to be whole inside its form.
func requireSeen(t testing.TB, b *Bench, why string) {
	t.Helper()
	o, ok := b.window.Canvas().Focused().(fyne.CanvasObject)
	require.True(t, ok, why)
	driver, scroll := fyne.CurrentApp().Driver(), formScroll(t, b)
	top := driver.AbsolutePositionForObject(o).Y - driver.AbsolutePositionForObject(scroll).Y
	require.GreaterOrEqual(t, top, float32(0), why)
	require.LessOrEqual(t, top+o.Size().Height, scroll.Size().Height, why)
}

func inForm(t testing.TB, b *Bench, f fyne.Focusable) bool {
	for _, o := range test.LaidOutObjects(formScroll(t, b)) {
		if o == fyne.CanvasObject(f.(fyne.CanvasObject)) {
			return true
		}
	}
	return false
}

// Whatever of a form gets the keyboard is in sight, up and down.
func TestWhatHasTheKeyboardIsInSight(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1024, 600))
	b.put(example(t, "two-returns"), "")
	for _, place := range []string{"house", "returns", "blower", "filters", "equipment", "gauge", "limits"} {
		b.enter(place)
		scrolled, seen := false, 0
		for range 150 {
			test.FocusNext(b.window.Canvas())
			f := b.window.Canvas().Focused()
			if f == nil || !inForm(t, b, f) {
				continue
			}
			seen++
			requireSeen(t, b, place)
			scrolled = scrolled || formScroll(t, b).Offset.Y > 0
		}
		require.Positive(t, seen, place)
		if place == "returns" || place == "house" {
			require.True(t, scrolled, place)
		}
		test.FocusPrevious(b.window.Canvas())
	}
}

// What is added has the keyboard in its first field, in sight.
func TestWhatIsAddedHasTheKeyboard(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1024, 600))
	b.put(example(t, "two-returns"), "")
	for _, c := range []struct{ place, button string }{
		{"returns", "Add fitting"},
		{"returns", "Add duct run"},
		{"returns", "Add catalog pressure drop"},
		{"returns", "Add return"},
		{"filters", "Add filter"},
		{"filters", "Add rating point"},
		{"blower", "Add tap"},
		{"compare", "Add option"},
		{"gauge", "Add test"},
	} {
		b.enter(c.place)
		before := len(b.screens[c.place].(formFields).Paths())
		test.Tap(formButton(t, b, c.button))
		requireSeen(t, b, c.button)
		_, isButton := b.window.Canvas().Focused().(*widgets.Button)
		require.False(t, isButton, c.button)
		if c.button == "Add duct run" || c.button == "Add fitting" || c.button == "Add catalog pressure drop" {
			require.Greater(t, len(b.screens[c.place].(formFields).Paths()), before, c.button)
		}
	}
	b.enter("returns")
	test.Tap(formButton(t, b, "Add duct run"))
	runs := len(b.session.Job().Returns[len(b.session.Job().Returns)-1].Runs)
	require.Equal(t, b.screens["returns"].(formFields).Field(fmt.Sprintf("returns[%d].runs[%d].shape", len(b.session.Job().Returns)-1, runs-1)).Focusable(), b.window.Canvas().Focused())

	b.enter("blower")
	for range 12 {
		test.Tap(formButton(t, b, "Add row"))
		requireSeen(t, b, "Add row")
	}
}

// The wheel moves the form wherever the pointer is, and a long text as long as
// it has more to show; what is below the wheel still gets taps and hovering.
func TestTheWheelMovesTheFormOverAnEntry(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1024, 600))
	job := example(t, "two-returns")
	job.Notes = "one\ntwo\nthree\nfour\nfive\nsix"
	b.put(job, "")
	b.enter("returns")
	scroll := formScroll(t, b)
	turn := func(e *fields.Entry, by float32) {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(e).AddXY(5, 5)
		b.screens[b.at].Object().(*fyne.Container).Objects[1].(*widgets.WheelCatcher).Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{AbsolutePosition: at}, Scrolled: fyne.Delta{DY: by}})
	}
	over := fieldEntry(t, b, "returns[0].opening_width")
	require.IsType(t, &widgets.WheelCatcher{}, topScrollable(b.window.Content(), fyne.CurrentApp().Driver().AbsolutePositionForObject(over).AddXY(5, 5)))
	before := scroll.Offset.Y
	turn(over, -30)
	require.Greater(t, scroll.Offset.Y, before)

	b.enter("house")
	scroll = formScroll(t, b)
	notes := fieldEntry(t, b, "notes")
	turn(notes, -20)
	require.Zero(t, scroll.Offset.Y, "the notes go first")
	for range 10 {
		turn(notes, -20)
	}
	require.Positive(t, scroll.Offset.Y, "then the form")

	var wheel fyne.CanvasObject = &widgets.WheelCatcher{}
	for _, takes := range []bool{
		is[fyne.Tappable](wheel), is[fyne.SecondaryTappable](wheel), is[fyne.DoubleTappable](wheel), is[fyne.Draggable](wheel), is[fyne.Focusable](wheel),
		is[desktop.Mouseable](wheel), is[desktop.Hoverable](wheel), is[desktop.Cursorable](wheel),
	} {
		require.False(t, takes, "all but the wheel goes through to what is below")
	}
}

func is[T any](o fyne.CanvasObject) bool {
	_, ok := o.(T)
	return ok
}

// topScrollable finds what of the window would get the wheel at a place.
func topScrollable(o fyne.CanvasObject, at fyne.Position) (top fyne.Scrollable) {
	driver := fyne.CurrentApp().Driver()
	for _, one := range test.LaidOutObjects(o) {
		s, ok := one.(fyne.Scrollable)
		in := at.Subtract(driver.AbsolutePositionForObject(one))
		if ok && one.Visible() && in.X >= 0 && in.Y >= 0 && in.X < one.Size().Width && in.Y < one.Size().Height {
			top = s
		}
	}
	return top
}

// Every field of a quantity says its unit, and a fault is reported in the units in use.
func TestEveryQuantityShowsItsUnit(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	unit := func(place, path string) string {
		b.enter(place)
		return b.screens[place].(formFields).Field(path).(interface{ UnitText() string }).UnitText()
	}
	for _, c := range []struct{ place, path, ip, si string }{
		{"house", "site.altitude", "ft", "m"},
		{"house", "site.cooling_hours", "h", "h"},
		{"returns", "returns[0].runs[0].length", "ft", "m"},
		{"returns", "returns[0].runs[0].roughness", "in", "mm"},
		{"slot", "slot.gap", "in", "mm"},
		{"filters", "filters[0].media_thickness", "mm", "mm"},
	} {
		b.SetUnits(units.IP)
		require.Equal(t, c.ip, unit(c.place, c.path), c.path)
		b.SetUnits(units.SI)
		require.Equal(t, c.si, unit(c.place, c.path), c.path)
	}
	b.SetUnits(units.IP)
	b.session.Apply("Static", func(j *sizing.Job) { j.Equipment.RatedExternalStatic = 1e9 * units.InchWater })
	b.enter("equipment")
	b.session.ShowAllFaults()
	require.Equal(t, "given 1000000000 in. w.c.; want 0.05 in. w.c. to 3 in. w.c., or nothing to let it be assumed",
		b.screens["equipment"].(formFields).Field("equipment.rated_external_static").(interface{ FaultText() string }).FaultText())
	require.Contains(t, troubleOf(b), "given 1000000000 in. w.c.;")
}

func TestAFittingCountsOnce(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("returns")
	require.Equal(t, "1", fieldEntry(t, b, "returns[0].fittings[0].count").PlaceHolder)
}
