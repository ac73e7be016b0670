package widgets

import (
	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/sizing"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

// Each severity has a shape of its own, so that color is not needed.
func TestMarkShapes(t *testing.T) {
	seen := map[string]sizing.Severity{}
	for _, s := range []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop} {
		m := NewSeverityIcon(s)
		m.Resize(fyne.NewSquareSize(16))
		shape := ""
		for _, o := range test.WidgetRenderer(m).Objects() {
			if o.Visible() {
				switch v := o.(type) {
				case *canvas.Circle:
					shape = "disc"
				case *canvas.Polygon:
					shape = strings.Repeat("I", int(v.Sides))
				}
			}
		}
		assert.NotEmpty(t, shape)
		assert.NotContains(t, seen, shape)
		seen[shape] = s
	}
}

// Another theme changes the colors of an icon that is already there.
func TestThemeChangeReachesMark(t *testing.T) {
	guitest.UseTheme(t, look.Dark, 1.5)
	f := NewSeverityIcon(sizing.Stop)
	f.Resize(fyne.NewSquareSize(16))
	dark := test.WidgetRenderer(f).Objects()[2].(*canvas.Polygon).FillColor
	guitest.UseTheme(t, look.Light, 1)
	f.Refresh()
	assert.NotEqual(t, dark, test.WidgetRenderer(f).Objects()[2].(*canvas.Polygon).FillColor)
}
