package fields

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/gui/guitest"
	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

// bench is a small model for fields to read and write.
type bench struct {
	flow   units.Flow
	sys    units.Locale
	sets   int
	text   string
	count  int
	share  float64
	choice string
	w, h   units.Length
	d      units.Length
}

func (b *bench) quantity() *Quantity {
	return NewQuantity(QuantityOptions{
		Label: "Design airflow",
		Kind:  b.flow.Kind(),
		Get:   func() float64 { return float64(b.flow) },
		Set:   func(si float64) { b.flow = units.Flow(si); b.sets++ },
		Unit:  func() units.Locale { return b.sys },
		Hint:  "airflow",
	})
}

// retype replaces the whole text as a person does who tabs in.
func retype(c fyne.Canvas, f Field, text string) {
	c.Focus(nil)
	c.Focus(f.Focusable())
	test.Type(f.Focusable(), text)
}

func TestQuantityTyping(t *testing.T) {
	b := &bench{}
	q := b.quantity()
	w := guitest.Window(t, q.Object())

	retype(w.Canvas(), q, "1200")
	assert.InDelta(t, 1200, b.flow.In(units.CFM), 1e-9, "a bare number is in the usual unit")
	assert.Empty(t, q.FaultText())

	retype(w.Canvas(), q, "566 L/s")
	assert.InDelta(t, 566, b.flow.In(units.LitrePerSecond), 1e-9, "any unit of the kind may be typed")

	w.Canvas().Focus(nil)
	assert.Equal(t, "1199", q.Entry().Text, "shown in the unit beside it, rounded to sense")
	assert.InDelta(t, 566, b.flow.In(units.LitrePerSecond), 1e-9, "showing it rounded does not change it")
	assert.Equal(t, "cfm", q.UnitText())
}

func TestQuantityFaultKeepsTheText(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())

	for _, text := range []string{"lots", "12 furlong", "-5", "0", "1,200"} {
		b.sets = 0
		retype(w.Canvas(), q, text)
		assert.NotEmpty(t, q.FaultText(), text)
		assert.Equal(t, text, q.Entry().Text)
		w.Canvas().Focus(nil)
		q.Refresh()
		assert.Equal(t, text, q.Entry().Text, "what was typed is never lost")
		assert.True(t, q.below.Visible())
		assert.True(t, q.mark.Visible(), "a fault has a shape beside its words")
	}
	assert.InDelta(t, 1, b.flow.In(units.CFM), 1e-9, "only the readable 1 of 1,200 went through")

	retype(w.Canvas(), q, "900")
	assert.Empty(t, q.FaultText())
	w.Canvas().Focus(nil)
	assert.False(t, q.below.Visible(), "no fault takes no room")
}

// What stands under a field stays where it is while a person types into it, whatever the
// letters so far read as; the fault's line comes when the field is left.
func TestNothingMovesWhileAFieldIsTypedInto(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	plain := q.Object().MinSize().Height
	w.Canvas().Focus(q.Entry())
	for _, text := range []string{"1", "12 f", "12 furlong", "-5", "900", "9 q"} {
		q.Entry().SetText(text)
		assert.Equal(t, plain, q.Object().MinSize().Height, text)
	}
	assert.NotEmpty(t, q.FaultText(), "it is known meanwhile")
	w.Canvas().Focus(nil)
	told := q.Object().MinSize().Height
	assert.Greater(t, told, plain)
	retype(w.Canvas(), q, "900")
	assert.Equal(t, told, q.Object().MinSize().Height, "a line that was there keeps its room")
	w.Canvas().Focus(nil)
	assert.Equal(t, plain, q.Object().MinSize().Height)
}

func TestQuantityFaultHeight(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	guitest.Window(t, q.Object())
	plain := q.Object().MinSize().Height
	q.SetFault("the blower cannot give this airflow at any static of its table")
	assert.Greater(t, q.Object().MinSize().Height, plain)
	q.SetFault("")
	assert.Equal(t, plain, q.Object().MinSize().Height)
}

func TestQuantityLeftOpen(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	q.SetAssumed("1050 cfm")
	assert.Empty(t, q.NoteText(), "a typed value is not assumed")

	retype(w.Canvas(), q, "")
	q.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	assert.Zero(t, b.flow)
	assert.Equal(t, "assumed", q.NoteText())
	assert.Equal(t, "1050", q.Entry().PlaceHolder, "the unit stands beside it already")

	w.Canvas().Focus(nil)
	q.SetAssumed("a generic blower of that size at its usual tap")
	assert.Contains(t, q.below.Text, "generic blower", "what does not fit stands below")
}

// The unit stands beside the entry alone, in the number that it is spoken in.
func TestQuantityMonths(t *testing.T) {
	q := NewQuantity(QuantityOptions{
		Label: "Changed after", Kind: units.Duration(0).Kind(),
		Get: func() float64 { return 0 }, Set: func(float64) {},
		Unit: func() units.Locale { return units.IP },
	})
	require.Equal(t, "months", q.UnitText())
	q.SetAssumed(units.Year.Show(units.IP))
	require.Equal(t, "12.0", q.Entry().PlaceHolder)
	q.SetAssumed(units.Month.Show(units.IP))
	require.Equal(t, "1.0", q.Entry().PlaceHolder)
}

func TestQuantityUnits(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	assert.Equal(t, "1200", q.Entry().Text)

	b.sys = units.SI
	q.Refresh()
	assert.Equal(t, "566", q.Entry().Text)
	assert.Equal(t, "L/s", q.UnitText())
	assert.Equal(t, 1200*units.CFM, b.flow, "switching units changes no value")

	retype(w.Canvas(), q, "500")
	assert.InDelta(t, 500, b.flow.In(units.LitrePerSecond), 1e-9)

	b.sys = units.IP
	q.Refresh()
	assert.Equal(t, "1059", q.Entry().Text, "a number under another unit's name would be a lie")

	retype(w.Canvas(), q, "1059.44")
	w.Canvas().Focus(nil)
	assert.Equal(t, "1059.44", q.Entry().Text, "what was typed stays as typed")
}

func TestQuantityRefreshWhileTyping(t *testing.T) {
	b := &bench{}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	retype(w.Canvas(), q, "1200.50")
	q.Refresh()
	assert.Equal(t, "1200.50", q.Entry().Text, "the echo does not disturb typing")

	b.flow = 800 * units.CFM // as undo does
	q.Refresh()
	assert.Equal(t, "800", q.Entry().Text, "a change from elsewhere shows")
}

func TestQuantityLateModel(t *testing.T) {
	var held, pending units.Flow
	q := NewQuantity(QuantityOptions{
		Label: "Airflow", Kind: held.Kind(),
		Get:  func() float64 { return float64(held) },
		Set:  func(si float64) { pending = units.Flow(si) },
		Unit: func() units.Locale { return units.IP },
	})
	w := guitest.Window(t, q.Object())
	retype(w.Canvas(), q, "700")
	q.Refresh()
	assert.Equal(t, "700", q.Entry().Text, "a model that takes it later does not wipe it")
	w.Canvas().Focus(nil)
	assert.Equal(t, "700", q.Entry().Text)
	held = pending
	q.Refresh()
	assert.Equal(t, "700", q.Entry().Text)
}

func TestQuantityResetForgetsFaultyText(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	retype(w.Canvas(), q, "soon")
	require.NotEmpty(t, q.FaultText())
	q.Reset()
	assert.Equal(t, "1200", q.Entry().Text)
	assert.Empty(t, q.FaultText())
}

func TestQuantityEngineFault(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	q.SetFault("more than the blower gives")
	assert.Equal(t, "more than the blower gives", q.FaultText())
	retype(w.Canvas(), q, "x")
	assert.Contains(t, q.FaultText(), "want an airflow", "the text's own fault goes first")
	retype(w.Canvas(), q, "900")
	assert.Equal(t, "more than the blower gives", q.FaultText(), "it is the engine's to clear")
}

// Showing a value and reading the shown text back stays within the five
// figures that the screen keeps.
func TestNumberTextReadsBack(t *testing.T) {
	kinds := []*units.Kind{units.Flow(0).Kind(), units.Pressure(0).Kind(), units.Length(0).Kind(), units.Speed(0).Kind(), units.Money(0).Kind()}
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		sys := rapid.SampledFrom([]units.Locale{units.IP, units.SI, {Comma: true}, {System: units.Metric, Comma: true}}).Draw(t, "system")
		number := rapid.Float64Range(1e-3, 1e5).Draw(t, "number")
		si := number * k.Usual(sys).Scale
		text := parse.NumberText(sys, si, k.Usual(sys))
		back, fault := parse.Quantity(sys, k, text, k.Usual(sys), false, false)
		if fault != "" {
			t.Fatalf("%q: %s", text, fault)
		}
		if d := (back - si) / si; d > 6e-5 || d < -6e-5 {
			t.Fatalf("%q reads back %g off", text, d)
		}
		if len(text) > 9 {
			t.Fatalf("%q is too long for a field", text)
		}
	})
}

func FuzzReadQuantity(f *testing.F) {
	for _, s := range []string{"1200", "566 L/s", "", "-1", "1e400", "3/0 cfm", "٣"} {
		f.Add(s)
	}
	k := units.Flow(0).Kind()
	f.Fuzz(func(t *testing.T, text string) {
		si, fault := parse.Quantity(units.IP, k, text, k.Usual(units.IP), false, false)
		if fault == "" && strings.TrimSpace(text) != "" && !(si > 0) {
			t.Fatalf("%q passed as %g", text, si)
		}
		if fault != "" && si != 0 {
			t.Fatalf("%q: fault and value", text)
		}
	})
}

func TestTabSelectsText(t *testing.T) {
	b := &bench{flow: 1200 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	test.FocusNext(w.Canvas())
	require.Equal(t, q.Focusable(), w.Canvas().Focused())
	assert.Equal(t, "1200", q.Entry().SelectedText())
	test.Type(q.Entry(), "9")
	assert.Equal(t, "9", q.Entry().Text, "typing replaces the selection")
}

func TestTabOrder(t *testing.T) {
	b := &bench{}
	q, txt, n, s := b.quantity(), b.words(), b.whole(), b.part()
	c, z := b.pick(), b.size()
	fields := []Field{q, txt, n, s, c, z}
	objects := make([]fyne.CanvasObject, len(fields))
	for i, f := range fields {
		objects[i] = f.Object()
	}
	w := guitest.Window(t, objects...)
	for i, f := range fields {
		test.FocusNext(w.Canvas())
		assert.Same(t, f.Focusable(), w.Canvas().Focused(), "one stop for each field, from top to bottom: %d", i)
	}
}

func (b *bench) words() *Text {
	return NewText(TextOptions{Label: "Name", Get: func() string { return b.text }, Set: func(s string) { b.text = s }})
}

func (b *bench) whole() *Integer {
	return NewInteger(IntegerOptions{Label: "MERV", Min: 1, Max: 16, Start: 8,
		Get: func() int { return b.count }, Set: func(n int) { b.count = n }})
}

func (b *bench) part() *Percent {
	return NewPercent(PercentOptions{Label: "Free area", Get: func() float64 { return b.share }, Set: func(v float64) { b.share = v }})
}

func (b *bench) pick() *Choice {
	return NewChoice(ChoiceOptions{Label: "Motor", Open: "not known",
		Items: []ChoiceItem{{"psc", "Permanent split capacitor"}, {"constant_torque", "Constant torque"}},
		Get:   func() string { return b.choice }, Set: func(s string) { b.choice = s }})
}

func (b *bench) size() *Size {
	return NewSize(SizeOptions{Label: "Filter slot", Sizes: []string{"16x25x1", "20x25x4"},
		Get: func() (w, h, d units.Length) { return b.w, b.h, b.d },
		Set: func(w, h, d units.Length) { b.w, b.h, b.d = w, h, d }})
}

func TestText(t *testing.T) {
	b := &bench{}
	f := b.words()
	w := guitest.Window(t, f.Object())
	retype(w.Canvas(), f, "Elm Row, upstairs")
	assert.Equal(t, "Elm Row, upstairs", b.text)
	assert.Greater(t, f.Entry().Size().Width, float32(entryWidth+unitWidth), "words take the row")
}

func TestWholeSteps(t *testing.T) {
	b := &bench{}
	f := b.whole()
	w := guitest.Window(t, f.Object())
	test.Tap(f.up)
	assert.Equal(t, 8, b.count, "an open value steps in at its usual one")
	test.Tap(f.up)
	test.Tap(f.down)
	test.Tap(f.down)
	assert.Equal(t, 7, b.count)
	w.Canvas().Focus(f.Focusable())
	f.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.Equal(t, 8, b.count)
	retype(w.Canvas(), f, "16")
	test.Tap(f.up)
	assert.Equal(t, 16, b.count, "no further than the range")
	for _, bad := range []string{"17", "0", "8.5", "x"} {
		retype(w.Canvas(), f, bad)
		assert.Contains(t, f.FaultText(), "from 1 to 16", bad)
		assert.Equal(t, bad, f.Entry().Text)
	}
}

func TestShare(t *testing.T) {
	b := &bench{share: 0.7}
	f := b.part()
	w := guitest.Window(t, f.Object())
	assert.Equal(t, "70", f.Entry().Text)
	retype(w.Canvas(), f, "65 %")
	assert.InDelta(t, 0.65, b.share, 1e-12)
	for _, bad := range []string{"120", "-1", "half", "NaN"} {
		retype(w.Canvas(), f, bad)
		assert.Contains(t, f.FaultText(), "from 0 to 100 percent", bad)
	}
	assert.InDelta(t, 0.12, b.share, 1e-12, "12 on the way to 120")
}

func TestChoiceByKeyboard(t *testing.T) {
	b := &bench{}
	f := b.pick()
	w := guitest.Window(t, f.Object())
	f.SetAssumed("permanent split capacitor")
	assert.Equal(t, "assumed", f.NoteText())
	assert.Equal(t, "not known", f.List().Selected)
	w.Canvas().Focus(f.Focusable())
	f.Focusable().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Equal(t, "psc", b.choice)
	assert.Empty(t, f.NoteText())

	f.Focusable().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotNil(t, w.Canvas().Overlays().Top(), "enter opens the list")
	menu := w.Canvas().Focused()
	require.NotNil(t, menu)
	for range 3 {
		menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, "constant_torque", b.choice)
	assert.Nil(t, w.Canvas().Overlays().Top())

	b.choice = "psc"
	f.Refresh()
	assert.Equal(t, "Permanent split capacitor", f.List().Selected)
	assert.Equal(t, "psc", b.choice)
}

func TestSizePick(t *testing.T) {
	b := &bench{}
	f := b.size()
	w := guitest.Window(t, f.Object())
	retype(w.Canvas(), f, "16 X 25 × 1")
	assert.Equal(t, [3]units.Length{16 * units.Inch, 25 * units.Inch, units.Inch}, [3]units.Length{b.w, b.h, b.d})
	w.Canvas().Focus(nil)
	assert.Equal(t, "16x25x1", f.Entry().Text)

	retype(w.Canvas(), f, "400x625x25 mm")
	assert.InDelta(t, 400, b.w.In(units.Millimetre), 1e-9)
	w.Canvas().Focus(nil)
	assert.Equal(t, "400x625x25 mm", f.Entry().Text)

	for _, bad := range []string{"16x25", "big", "16x25xno", "0x25x1", "16x-2x1"} {
		retype(w.Canvas(), f, bad)
		assert.Contains(t, f.FaultText(), "16x25x1", bad)
	}

	w.Canvas().Focus(f.Focusable())
	f.Focusable().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	menu := w.Canvas().Focused()
	require.NotNil(t, w.Canvas().Overlays().Top())
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, "20x25x4", f.Entry().Text)
	assert.InDelta(t, 4, b.d.In(units.Inch), 1e-12)
}

// Every size that is written reads back to itself.
func TestSizeTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.IntRange(1, 400)
		in := rapid.Bool().Draw(t, "inches")
		unit := units.Millimetre
		if in {
			unit = units.Inch / 8
		}
		w, h, d := units.Length(side.Draw(t, "w"))*unit, units.Length(side.Draw(t, "h"))*unit, units.Length(side.Draw(t, "d"))*unit
		w2, h2, d2, fault := parse.Size(units.IP, parse.SizeText(units.IP, w, h, d), false)
		if fault != "" {
			t.Fatal(fault)
		}
		for _, p := range [][2]units.Length{{w, w2}, {h, h2}, {d, d2}} {
			if diff := float64(p[0] - p[1]); diff > 1e-9 || diff < -1e-9 {
				t.Fatalf("%v became %v", p[0], p[1])
			}
		}
	})
}

func FuzzReadSize(f *testing.F) {
	for _, s := range []string{"16x25x1", "20 x 20", "400x625x25 mm", "xxx", "\"", "1/0x2x3", "mm"} {
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, noDepth bool) {
		w, h, d, fault := parse.Size(units.IP, text, noDepth)
		if fault != "" || strings.TrimSpace(text) == "" {
			return
		}
		if !(w > 0) || !(h > 0) || (!noDepth && !(d > 0)) {
			t.Fatalf("%q passed as %v %v %v", text, w, h, d)
		}
	})
}
