package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/sizing/units"
)

// hand enters a house with keys and clicks, and counts both. The letters of a
// number are not counted: they are what there is to say.
type hand struct {
	t            *testing.T
	b            *Bench
	keys, clicks int
}

func (h *hand) canvas() fyne.Canvas { return h.b.window.Canvas() }

// enter goes to a place by its key.
func (h *hand) enter(key string) {
	item(h.t, h.b, string(placeOf(key).name)).Action()
	h.keys += 2
}

// to puts the keyboard in a field: by Tab where it is near, else by a click.
func (h *hand) to(path string) {
	h.t.Helper()
	field := h.b.screens[h.b.at].(formFields).Field(path)
	require.NotNil(h.t, field, path)
	const near = 3
	from := h.canvas().Focused()
	for n := range near + 1 {
		if h.canvas().Focused() == field.Focusable() {
			h.keys += n
			return
		}
		test.FocusNext(h.canvas())
	}
	if from != nil {
		h.canvas().Focus(from)
	}
	h.canvas().Focus(field.Focusable())
	h.clicks++
}

func (h *hand) runes(text string) {
	for _, r := range text {
		h.canvas().Focused().TypedRune(r)
	}
}

// number types a number or a size into a field.
func (h *hand) number(path, text string) {
	h.t.Helper()
	h.to(path)
	h.runes(text)
}

// word types letters, which count.
func (h *hand) word(path, text string) {
	h.t.Helper()
	h.to(path)
	h.runes(text)
	h.keys += len(text)
}

// choose takes one of a list by first letters.
func (h *hand) choose(path, letters, want string) {
	h.t.Helper()
	h.to(path)
	for _, r := range letters {
		h.canvas().Focused().TypedRune(r)
		h.keys++
	}
	got := h.b.screens[h.b.at].(formFields).Field(path).(*fields.Choice).List().Selected
	require.Equal(h.t, want, got, path)
}

// button clicks a button; a turn of the wheel to bring it into sight counts as a
// key.
func (h *hand) button(label string) {
	h.t.Helper()
	h.clicks++
	for _, o := range test.LaidOutObjects(h.b.root) {
		if w, ok := o.(*widgets.Button); ok && w.Text == label && !w.Disabled() {
			test.Tap(w)
			return
		}
	}
	h.keys++
	w := buttonIn(h.b.screens[h.b.at].Object(), label)
	require.NotNil(h.t, w, label)
	test.Tap(w)
}

// buttonIn finds a button in sight or out of it.
func buttonIn(o fyne.CanvasObject, label string) *widgets.Button {
	switch o := o.(type) {
	case *widgets.Button:
		if o.Text == label && !o.Disabled() {
			return o
		}
	case *container.Scroll:
		return buttonIn(o.Content, label)
	case *container.Split:
		if w := buttonIn(o.Leading, label); w != nil {
			return w
		}
		return buttonIn(o.Trailing, label)
	case *fyne.Container:
		for _, one := range o.Objects {
			if w := buttonIn(one, label); w != nil {
				return w
			}
		}
	}
	return nil
}

// rows type a blower's table: Tab goes along the row, and from the last number on
// to a new row.
func (h *hand) rows(path string, rows ...[]string) {
	h.t.Helper()
	h.to(path)
	for i, row := range rows {
		for c, text := range row {
			h.runes(text)
			switch {
			case c+1 < len(row):
				test.FocusNext(h.canvas())
				h.keys++
			case i+1 < len(rows):
				h.press(fyne.KeyReturn)
			}
		}
	}
}

func (h *hand) press(key fyne.KeyName) {
	h.canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
	h.keys++
}

// A new house with two returns, one of them with a filter grille, two typed taps,
// readings and two options takes at most 150 keys and 25 clicks beside its numbers.
func TestANewHouseTakesFewKeys(t *testing.T) {
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	require.NoError(t, err)
	b.window.Resize(fyne.NewSize(1366, 768))
	b.focusFirst()
	h := &hand{t: t, b: b}

	h.number("equipment.cooling_capacity", "3")
	h.number("design_airflow", "1200")

	h.enter("equipment")
	h.choose("equipment.kind", "f", "furnace with coil")
	h.number("equipment.rated_external_static", "0.5")
	h.number("equipment.heating_output", "64000")
	h.number("equipment.rise_low", "40")
	h.number("equipment.rise_high", "70")

	h.enter("blower")
	h.choose("equipment.blower.motor", "p", "PSC")
	h.button("Add tap")
	h.rows("equipment.blower.taps[0].points", []string{"0.1", "1480", "520"}, []string{"0.3", "1400", "500"}, []string{"0.5", "1290", "480"}, []string{"0.7", "1150", "450"}, []string{"0.9", "960", "410"})
	h.button("Add tap")
	h.rows("equipment.blower.taps[1].points", []string{"0.1", "1250", "430"}, []string{"0.3", "1190", "415"}, []string{"0.5", "1110", "395"}, []string{"0.7", "990", "370"}, []string{"0.9", "820", "340"})

	h.enter("filters")
	h.button("Add filter")
	h.number("filters[0].width", "20x20x1")
	h.number("filters[0].merv", "8")
	h.button("Add rating point")
	h.number("filters[0].rating[0].airflow", "800")
	h.number("filters[0].rating[0].drop", "0.2")
	h.button("Add filter")
	h.number("filters[1].width", "20x25x4")
	h.number("filters[1].merv", "13")
	h.button("Add rating point")
	h.number("filters[1].rating[0].airflow", "1200")
	h.number("filters[1].rating[0].drop", "0.16")

	h.enter("returns")
	h.button("Add return")
	h.word("returns[0].name", "hall")
	h.number("returns[0].grille.width", "20x20")
	h.choose("returns[0].filter", "f", "MERV 8: filter 1")
	h.button("Add duct run")
	h.choose("returns[0].runs[0].shape", "f", "flex")
	h.number("returns[0].runs[0].diameter", "14")
	h.number("returns[0].runs[0].length", "20")
	h.button("Add return")
	h.word("returns[1].name", "den")
	h.number("returns[1].grille.width", "14x20")
	h.button("Add duct run")
	h.number("returns[1].runs[0].diameter", "12")
	h.number("returns[1].runs[0].length", "30")

	h.enter("slot")
	h.choose("slot.filter", "f", "MERV 8: filter 1")
	h.number("slot.width", "20x20x1")

	h.enter("parts")
	h.number("coil.drop", "0.2")
	h.number("supply.drop", "0.12")

	h.enter("gauge")
	h.button("Add test")
	h.number("readings[0].return_plenum", "0.25")
	h.number("readings[0].blower_inlet", "0.5")
	h.number("readings[0].blower_outlet", "0.35")
	h.number("readings[0].supply_plenum", "0.13")

	h.enter("compare")
	h.button("Add option")
	h.word("options[0].name", "deep cabinet")
	h.choose("options[0].filter", "ff", "MERV 13: filter 2")
	h.number("options[0].slot.width", "20x25x4")
	h.number("options[0].price", "900")
	h.button("Add option")
	h.word("options[1].name", "strong tap")
	h.choose("options[1].tap", "t", "tap 1")
	h.number("options[1].price", "120")

	job := b.session.Job()
	require.Empty(t, b.session.Errors())
	require.NotNil(t, b.session.Study())
	require.Equal(t, 3*units.Ton, job.Equipment.CoolingCapacity)
	require.Len(t, job.Equipment.Blower.Taps, 2)
	require.Len(t, job.Equipment.Blower.Taps[0].Points, 5)
	require.Equal(t, 340*units.Watt, job.Equipment.Blower.Taps[1].Points[4].Power)
	require.Len(t, job.Returns, 2)
	require.Equal(t, "filter 1", job.Returns[0].Filter)
	require.Equal(t, 20*units.Foot, job.Returns[0].Runs[0].Length)
	require.Len(t, job.Readings, 1)
	require.Equal(t, "filter 2", job.Options[0].Filter)
	require.Equal(t, 4*units.Inch, job.Options[0].Slot.Depth)
	require.Equal(t, 900*units.Dollar, job.Options[0].Price)
	require.Len(t, job.Options, 2)
	require.Equal(t, "den", job.Returns[1].Name)
	require.Equal(t, "strong tap", job.Options[1].Name)
	require.NotNil(t, b.session.Study().Option(job.Options[1].Name))

	t.Logf("%d keys and %d clicks", h.keys, h.clicks)
	require.LessOrEqual(t, h.keys, 150)
	require.LessOrEqual(t, h.clicks, 25)
}
