package widgets

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// words are all the texts an object shows, from top to bottom.
func words(o fyne.CanvasObject) string {
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

func marks(o fyne.CanvasObject) []sizing.Severity {
	var out []sizing.Severity
	for _, one := range test.LaidOutObjects(o) {
		if m, ok := one.(*Mark); ok && m.Visible() {
			out = append(out, m.Severity())
		}
	}
	return out
}

func someFindings() []sizing.Finding {
	return []sizing.Finding{
		{Severity: sizing.Good, Code: "a", Text: "The grille meets its target.", Source: "common practice, no source"},
		{Severity: sizing.Stop, Code: "b", Option: "Deep cabinet", Text: "The external static is past the plate's.", Limit: 0.5 * units.InchWater, Source: "equipment nameplate"},
		{Severity: sizing.Caution, Code: "c", Text: "The filter takes a large share.", Source: "common practice, no source"},
		{Severity: sizing.Stop, Code: "d", Text: "The coil may freeze.", Source: "common practice, no source"},
	}
}

func TestFindingListOrderAndWords(t *testing.T) {
	f := NewFindingList()
	w := window(t, f)
	assert.Contains(t, words(f), "Nothing was found.")
	f.Set(someFindings(), units.IP)
	w.Resize(fyne.NewSize(500, 401))
	codes := ""
	for _, one := range f.Shown() {
		codes += one.Code
	}
	assert.Equal(t, "bdca", codes, "gravest first, and in order within")
	assert.Equal(t, []sizing.Severity{sizing.Stop, sizing.Stop, sizing.Caution, sizing.Good}, marks(f))
	text := words(f)
	for _, want := range []string{"STOP", "CAUTION", "GOOD", "The coil may freeze.", "for Deep cabinet", "limit: 0.500 in. w.c.", "source: equipment nameplate"} {
		assert.Contains(t, text, want)
	}
}

func TestFindingListWraps(t *testing.T) {
	long := sizing.Finding{Severity: sizing.Caution, Text: strings.Repeat("The return is narrow and the filter is thick. ", 8), Source: "common practice, no source"}
	f := NewFindingList()
	f.Set([]sizing.Finding{long}, units.IP)
	w := window(t, f)
	w.Resize(fyne.NewSize(700, 400))
	wide := f.MinSize().Height
	w.Resize(fyne.NewSize(300, 400))
	assert.Greater(t, f.MinSize().Height, wide, "a narrow list is a taller one")
}

// Each severity has a shape of its own, so that colour is not needed.
func TestMarkShapes(t *testing.T) {
	seen := map[string]sizing.Severity{}
	for _, s := range []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop} {
		m := NewMark(s)
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

func TestNotice(t *testing.T) {
	n := NewNotice(sizing.Stop, "Switch off power at the disconnect", "and check that it is off before opening")
	window(t, n)
	assert.Contains(t, words(n), "STOP")
	assert.Contains(t, words(n), "check that it is off")
	assert.True(t, n.Visible())
	n.Set("", "", "")
	assert.False(t, n.Visible())
}
