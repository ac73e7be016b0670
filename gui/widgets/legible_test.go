package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// wear puts on a variant and a text scale for one test.
func wear(t *testing.T, variant string, scale float32) {
	t.Helper()
	s := fyne.CurrentApp().Settings()
	s.SetTheme(look.Theme(variant, scale))
	t.Cleanup(func() { s.SetTheme(look.Theme(look.Light, 1)) })
}

// visitTexts walks every text that shows, with the rectangle it must stay in:
// that of the widgets around it. What a scroll holds may be longer than it.
func visitTexts(o fyne.CanvasObject, at fyne.Position, within box, see func(t *canvas.Text, b, within box)) {
	if !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	switch v := o.(type) {
	case *canvas.Text:
		if v.Text == "" {
			return
		}
		m := v.MinSize()
		x := at.X
		switch v.Alignment {
		case fyne.TextAlignCenter:
			x += (v.Size().Width - m.Width) / 2
		case fyne.TextAlignTrailing:
			x += v.Size().Width - m.Width
		}
		see(v, box{x, at.Y, m.Width, m.Height}, within)
	case *fyne.Container:
		for _, c := range v.Objects {
			visitTexts(c, at, within, see)
		}
	case *container.Scroll:
		visitTexts(v.Content, at, box{-1e6, -1e6, 2e6, 2e6}, see)
	case fyne.Widget:
		own := box{at.X, at.Y, v.Size().Width, v.Size().Height}
		if within.w < 1e6 {
			within = intersect(own, within)
		}
		for _, c := range test.WidgetRenderer(v).Objects() {
			visitTexts(c, at, within, see)
		}
	}
}

func intersect(a, b box) box {
	x, y := max(a.x, b.x), max(a.y, b.y)
	return box{x, y, min(a.right(), b.right()) - x, min(a.bottom(), b.bottom()) - y}
}

// No text of a widget is cut off at either text scale, in the least room the
// widget asks for.
func TestNoTextIsCutOff(t *testing.T) {
	for _, scale := range []float32{1, 1.5} {
		wear(t, look.Light, scale)
		for name, build := range everything() {
			o := build()
			w := test.NewWindow(container.NewVBox(o))
			w.SetPadded(false)
			for range 3 { // wrapped texts settle on their height
				w.Resize(o.MinSize())
				w.Content().Refresh()
			}
			seen := 0
			visitTexts(o, fyne.Position{}, box{0, 0, o.Size().Width, o.Size().Height}, func(text *canvas.Text, b, within box) {
				seen++
				const slack = 1
				ok := b.x >= within.x-slack && b.right() <= within.right()+slack && b.y >= within.y-slack && b.bottom() <= within.bottom()+slack
				assert.True(t, ok, "scale %v, %s: %q at %v is cut by %v", scale, name, text.Text, b, within)
			})
			assert.Positive(t, seen, name)
			w.Close()
		}
	}
}

// everything is each widget with words of the lengths that the bench uses.
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
		"findings": func() fyne.CanvasObject {
			f := NewFindingList()
			f.Set(someFindings(), units.IP)
			return f
		},
		"notice": func() fyne.CanvasObject {
			return NewNotice(sizing.Stop, "Switch off power at the disconnect and check that it is off before opening", "Sheet metal cuts.")
		},
		"table": func() fyne.CanvasObject { return container.NewGridWrap(fyne.NewSize(900, 200), someTable(3)) },
		"grid": func() fyne.CanvasObject {
			g := (&blowerBench{points: twoPoints()}).grid()
			g.Cell(0, PointPower).SetText("lots")
			return g.Object()
		},
		"airpath": func() fyne.CanvasObject {
			a := NewAirpath()
			s := airStudy(3, true)
			a.Set(s, s.Today(), true, units.IP)
			return a
		},
	}
	for _, k := range []*units.Kind{
		units.Pressure(0).Kind(), units.Length(0).Kind(), units.Area(0).Kind(), units.Speed(0).Kind(), units.Temperature(0).Kind(),
		units.Power(0).Kind(), units.HeatRate(0).Kind(), units.Capacity(0).Kind(), units.FlowPerCapacity(0).Kind(), units.EnergyPrice(0).Kind(),
		units.Money(0).Kind(), units.Mass(0).Kind(), units.MassRate(0).Kind(), units.Duration(0).Kind(), units.Rotation(0).Kind(),
		units.MediaResistance(0).Kind(), units.Permeability(0).Kind(),
	} {
		all["kind "+k.Name] = func() fyne.CanvasObject {
			q := NewQuantity(QuantityOptions{Label: k.Name, Kind: k, Get: func() float64 { return 0 }, Set: func(float64) {}, Unit: func() units.System { return units.SI }})
			q.SetAssumed(k.Show(123.456, units.SI))
			return q.Object()
		}
	}
	return all
}

// A value in use fits its entry whole, so that no digit is out of sight.
func TestShownNumbersFitTheirEntry(t *testing.T) {
	for _, scale := range []float32{1, 1.5} {
		wear(t, look.Light, scale)
		for _, sys := range []units.System{units.IP, units.SI} {
			b := &bench{flow: 1199.37 * units.CFM, sys: sys}
			q := b.quantity()
			window(t, q.Object())
			text := fyne.MeasureText(q.Entry().Text, q.Entry().Theme().Size("text"), fyne.TextStyle{})
			assert.Less(t, text.Width, q.Entry().Size().Width-2*q.Entry().Theme().Size("innerPadding"), q.Entry().Text)

			g := (&blowerBench{points: []blower.Point{{ExternalStatic: 0.537 * units.InchWater, Airflow: b.flow}}, sys: sys}).grid()
			window(t, g.Object())
			cell := g.Cell(0, PointAirflow)
			text = fyne.MeasureText(cell.Text, cell.Theme().Size("text"), fyne.TextStyle{})
			assert.Less(t, text.Width, cell.Size().Width-2*cell.Theme().Size("innerPadding"), cell.Text)
		}
	}
}

// Putting on another theme re-dresses widgets that are already there.
func TestThemeChangeReachesWidgets(t *testing.T) {
	table := someTable(3)
	tableWindow(t, table, 600, 300)
	before := table.widths[0]
	wear(t, look.Dark, 1.5)
	table.Refresh()
	assert.Greater(t, table.widths[0], before)
	f := NewMark(sizing.Stop)
	f.Resize(fyne.NewSquareSize(16))
	dark := test.WidgetRenderer(f).Objects()[2].(*canvas.Polygon).FillColor
	wear(t, look.Light, 1)
	f.Refresh()
	assert.NotEqual(t, dark, test.WidgetRenderer(f).Objects()[2].(*canvas.Polygon).FillColor)
}
