package guitest

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/look"
	"returnbench/sizing"
)

// Main runs the tests of a package in an app that wears the bench's theme; it
// returns the exit status.
func Main(m *testing.M) int {
	test.NewApp().Settings().SetTheme(look.Theme(look.Light, 1))
	return m.Run()
}

// Window shows objects below each other until the test ends.
func Window(t *testing.T, objects ...fyne.CanvasObject) fyne.Window {
	t.Helper()
	w := test.NewTempWindow(t, container.NewVBox(objects...))
	w.Resize(fyne.NewSize(500, 400))
	return w
}

// UseTheme sets a variant and a text scale for one test.
func UseTheme(t *testing.T, variant string, scale float32) {
	t.Helper()
	s := fyne.CurrentApp().Settings()
	s.SetTheme(look.Theme(variant, scale))
	t.Cleanup(func() { s.SetTheme(look.Theme(look.Light, 1)) })
}

// Words are all the texts that an object shows, from top to bottom.
func Words(o fyne.CanvasObject) string {
	var out []string
	for _, one := range test.LaidOutObjects(o) {
		switch v := one.(type) {
		case *canvas.Text:
			if v.Visible() {
				out = append(out, v.Text)
			}
		case *widget.Label:
			if v.Visible() {
				out = append(out, v.Text)
			}
		}
	}
	return strings.Join(out, "\n")
}

// Severities are those whose icons an object shows.
func Severities(o fyne.CanvasObject) []sizing.Severity {
	var out []sizing.Severity
	for _, one := range test.LaidOutObjects(o) {
		if m, ok := one.(interface{ Severity() sizing.Severity }); ok && one.Visible() {
			out = append(out, m.Severity())
		}
	}
	return out
}

type box struct{ x, y, w, h float32 }

func (b box) right() float32  { return b.x + b.w }
func (b box) bottom() float32 { return b.y + b.h }

func (b box) intersect(o box) box {
	x, y := max(b.x, o.x), max(b.y, o.y)
	return box{x, y, min(b.right(), o.right()) - x, min(b.bottom(), o.bottom()) - y}
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
			within = own.intersect(within)
		}
		for _, c := range test.WidgetRenderer(v).Objects() {
			visitTexts(c, at, within, see)
		}
	}
}

// NoTextIsCutOff checks that no text of a widget is cut off at either text
// scale, in the least room that the widget asks for. Each widget is built again
// for each scale.
func NoTextIsCutOff(t *testing.T, widgets map[string]func() fyne.CanvasObject) {
	t.Helper()
	for _, scale := range []float32{1, 1.5} {
		UseTheme(t, look.Light, scale)
		for name, build := range widgets {
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
