package fields

import (
	"returnbench/gui/guitest"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/sizing/units"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

// No text of a field is cut off at either text scale, in the least room the
// field asks for.
func TestNoTextIsCutOff(t *testing.T) { guitest.NoTextIsCutOff(t, everything()) }

// Nor in Spanish, whose words are longer.
func TestNoSpanishTextIsCutOff(t *testing.T) {
	inSpanish(t)
	guitest.NoTextIsCutOff(t, everything())
}

func inSpanish(t *testing.T) {
	t.Helper()
	lang.Set(units.Locale{Language: "es", Comma: true})
	t.Cleanup(func() { lang.Set(units.IP) })
}

// everything is each field with words of the lengths that the bench uses.
func everything() map[string]func() fyne.CanvasObject {
	b := &bench{flow: 1200.5 * units.CFM, text: "Elm Row", count: 11, share: 0.725, choice: "psc", w: 16 * units.Inch, h: 25 * units.Inch, d: units.Inch}
	faulty := func(f Field) fyne.CanvasObject {
		f.SetFault("the blower cannot give this airflow at any static of its table; want 400 to 1400 cfm")
		return f.Object()
	}
	all := map[string]func() fyne.CanvasObject{
		"quantity":         func() fyne.CanvasObject { return b.quantity().Object() },
		"quantity, faulty": func() fyne.CanvasObject { return faulty(b.quantity()) },
		"text":             func() fyne.CanvasObject { return b.words().Object() },
		"whole":            func() fyne.CanvasObject { return b.whole().Object() },
		"share":            func() fyne.CanvasObject { return b.part().Object() },
		"choice":           func() fyne.CanvasObject { return b.pick().Object() },
		"size":             func() fyne.CanvasObject { return b.size().Object() },
		"long label": func() fyne.CanvasObject {
			return NewText(TextOptions{Label: "Largest height of the cabinet that fits between plenum and floor", Get: func() string { return "" }, Set: func(string) {}}).Object()
		},
		"assumed": func() fyne.CanvasObject {
			open := &bench{}
			q := open.quantity()
			q.SetAssumed("the airflow that four hundred cfm per ton asks for")
			return q.Object()
		},
		"assumed text": func() fyne.CanvasObject {
			f := (&bench{}).words()
			f.SetAssumed("the address of the house")
			return f.Object()
		},
	}
	for _, k := range []*units.Kind{
		units.Pressure(0).Kind(), units.Length(0).Kind(), units.Area(0).Kind(), units.Speed(0).Kind(), units.Temperature(0).Kind(),
		units.Power(0).Kind(), units.HeatRate(0).Kind(), units.Capacity(0).Kind(), units.FlowPerCapacity(0).Kind(), units.EnergyPrice(0).Kind(),
		units.Money(0).Kind(), units.Mass(0).Kind(), units.MassRate(0).Kind(), units.Duration(0).Kind(), units.Rotation(0).Kind(),
		units.MediaResistance(0).Kind(), units.Permeability(0).Kind(),
	} {
		all["kind "+k.Name] = func() fyne.CanvasObject {
			q := NewQuantity(QuantityOptions{Label: k.Name, Kind: k, Get: func() float64 { return 0 }, Set: func(float64) {}, Unit: func() units.Locale { return units.SI }})
			q.SetAssumed(k.Show(123.456, units.SI))
			return q.Object()
		}
	}
	return all
}

// A value in use fits its entry whole, so that no digit is out of sight.
func TestShownNumbersFitTheirEntry(t *testing.T) {
	for _, scale := range []float32{1, 1.5} {
		guitest.UseTheme(t, look.Light, scale)
		for _, sys := range []units.Locale{units.IP, units.SI} {
			b := &bench{flow: 1199.37 * units.CFM, sys: sys}
			q := b.quantity()
			guitest.Window(t, q.Object())
			text := fyne.MeasureText(q.Entry().Text, q.Entry().Theme().Size("text"), fyne.TextStyle{})
			assert.Less(t, text.Width, q.Entry().Size().Width-2*q.Entry().Theme().Size("innerPadding"), q.Entry().Text)
		}
	}
}
